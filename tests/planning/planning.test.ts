import { describe, expect, test } from "vitest";
import { placeById } from "../../src/anatomy/places.ts";
import { dissectionOf } from "../../src/cases/dissection.ts";
import type { CaseFacts, PatientCase } from "../../src/cases/patient-case.ts";
import { landingSegments } from "../../src/planning/landing/landing-segments.ts";
import { type Planning, type PlanningBasis, planningOf } from "../../src/planning/planning.ts";
import { noSiteConfig } from "../../src/site/site-config.ts";
import { asOf, type InventedDiameter } from "../guidelines/invented-case.ts";
import type { FindingRow } from "./access/access-case.ts";
import { everyFive, exam, type Given, lineCase, marks } from "./landing/sample-segments.ts";
import { row } from "./sizing/sizing-samples.ts";

/** Invented: sound up to 155 mm and from 205 mm on, where the aorta runs straight down; an aneurysm between. */
const section = (mm: number): Given => ({
  point: [0, 0, -mm],
  ...(mm > 155 && mm < 205
    ? { maximumMm: 60, minimumMm: 58 }
    : mm < 180
      ? { maximumMm: 34, minimumMm: 32 }
      : { maximumMm: 30, minimumMm: 28 }),
});

const readings: InventedDiameter[] = [
  { place: "zone-2", mm: 34, edge: "inner" },
  { place: "zone-2", mm: 32, edge: "inner", statistic: "minimum" },
  ...(["right", "left"] as const).flatMap((side): InventedDiameter[] => [
    { place: `zone-10-${side}`, mm: 10, edge: "inner", statistic: "minimum" },
    { place: `zone-11-${side}`, mm: 8, edge: "inner", statistic: "minimum" },
    { place: `${side}-common-femoral-artery`, mm: 8, edge: "inner", statistic: "minimum" },
  ]),
];

const findings: FindingRow[] = [
  ["left-subclavian-artery", "patency", "patent"],
  ["left-subclavian-artery", "supplies", "neither"],
  ["left-common-carotid-artery", "patency", "patent"],
  ["right-vertebral-artery", "patency", "patent"],
  ["left-vertebral-artery", "dominance", "equal to the other"],
  ["circle-of-willis", "circle of Willis", "complete"],
  ["zone-3", "wall thrombus", "absent"],
];

function wholeCase(stated: Partial<CaseFacts> = {}, given = section): PatientCase {
  const line = lineCase(
    [...marks, ...everyFive(given)],
    {
      diagnoses: ["descending thoracic aneurysm"],
      considered: ["descending repair"],
      ...stated,
    },
    readings,
  );
  return {
    ...line,
    centrelines: line.centrelines.map((one) => ({ ...one, patientPosition: "HFS" })),
    findings: findings.map(([placeId, finding, state], index) => ({
      key: `F${index}`,
      exam,
      place: placeById(placeId),
      finding,
      state,
      source: { file: "invented-findings.csv", sha256: null, at: null },
      reader: null,
      comment: null,
    })),
  };
}

const inventory = [row("G36", 36, 32), row("G38", 38, 34, 200), row("G44", 44, 44)];

const planned = (patientCase: PatientCase, rest: Partial<PlanningBasis> = {}): Planning =>
  planningOf(patientCase, {
    asOf,
    dissection: dissectionOf(patientCase, asOf),
    archConventions: [],
    planning: noSiteConfig.planning,
    inventory,
    readingSdMmOf: () => 1,
    stationSdMmOf: () => 1,
    ...rest,
  });

/** Every key in any list called `used`, `stations`, `measurements` or field called `measurement`, wherever it stands. */
function keysIn(value: unknown): string[] {
  if (Array.isArray(value)) return value.flatMap(keysIn);
  if (typeof value !== "object" || value === null) return [];
  return Object.entries(value).flatMap(([name, inner]: [string, unknown]) => {
    if (!["used", "stations", "measurements", "measurement"].includes(name)) return keysIn(inner);
    const keys = [inner].flat();
    return keys.every((key) => typeof key === "string") ? keys : keysIn(inner);
  });
}

const allKeys = ({ measurements, findings: found, centrelines }: PatientCase): Set<string> =>
  new Set([
    ...measurements.map(({ key }) => key),
    ...found.map(({ key }) => key),
    ...centrelines.flatMap(({ stations }) => stations.map(({ key }) => key)),
  ]);

const typeB: Partial<CaseFacts> = {
  diagnoses: ["type B dissection"],
  onsetDate: "2026-05-20",
  dissectionWords: "B_4,9",
};
const inTypeB = (mm: number): Given =>
  mm < 100
    ? section(mm)
    : {
        point: [0, 0, -mm],
        wall: "dissected",
        lumen: "true",
        maximumMm: null,
        perimeterMm: 66,
        areaMm2: 280,
      };

/** Invented cases, each with the zones from which a covered length is known. */
const cases: [string, PatientCase, string[]][] = [
  ["an aneurysm on a centreline", wholeCase(), ["0", "1", "2", "3", "4"]],
  ["a dissection", wholeCase(typeB, inTypeB), []],
  [
    "an arch with a variant",
    wholeCase({ archVariants: ["left vertebral artery off the arch"] }),
    ["0", "1", "2", "3", "4"],
  ],
  ["a right arch", wholeCase({ archVariants: ["right arch"] }), []],
  [
    "nothing stated",
    wholeCase({ diagnoses: null, priorRepairs: null, archVariants: null }),
    ["0", "1", "2", "3", "4"],
  ],
  ["no centreline", { ...wholeCase(), centrelines: [] }, []],
];

describe.each(cases)("the parts of a plan agree with each other: %s", (_, patientCase, covered) => {
  const plan = planned(patientCase);
  const coveredFrom = [...new Set(plan.coverages.map(({ fromZone }) => fromZone))];

  test("every key that anything stands on is one of the case", () => {
    const known = allKeys(patientCase);
    const used = [...new Set(keysIn(plan))];
    expect(used.length).toBeGreaterThan(5);
    expect(used.filter((key) => !known.has(key))).toEqual([]);
  });

  test("options and distal landings stand on the segments of the same zones, strictest first", () => {
    const segments = landingSegments(patientCase, {
      asOf,
      dissection: dissectionOf(patientCase, asOf),
      archConventions: [],
      planning: noSiteConfig.planning,
      readingSdMmOf: () => 1,
      stationSdMmOf: () => 1,
    });
    expect(plan.options.flatMap((option) => option.segments)).toEqual(segments.proximal);
    expect(plan.distalLandings.flatMap((landing) => landing.segments)).toEqual(segments.distal);
    for (const { zone, segments: own } of [...plan.options, ...plan.distalLandings]) {
      expect(own[0]?.conditions).toBe("strictest published");
      expect(own.every((one) => one.zone === zone)).toBe(true);
    }
  });

  test("each covered length has its sizing, and each sizing with a covered length is one of them", () => {
    const pairs = plan.coverages.map(({ fromZone, toZone, leastMm, mostMm }) => ({
      fromZone,
      toZone,
      coverage: { leastMm, mostMm },
    }));
    const sized = plan.sizings
      .filter(({ sizing }) => sizing.coverage !== null)
      .map(({ fromZone, toZone, sizing: { coverage } }) => ({ fromZone, toZone, coverage }));
    expect(sized).toEqual(pairs);
    const ends = plan.sizings.map(({ fromZone, toZone }) => `${fromZone} to ${toZone}`);
    expect(new Set(ends).size).toBe(ends.length);
  });

  test("a covered length reaches from the stretch of its option into that of its distal landing", () => {
    expect(coveredFrom).toEqual(covered);
    for (const { fromZone, toZone, mostMm } of plan.coverages) {
      const upper = plan.options.find(({ zone }) => zone === fromZone)?.segments[0];
      const lower = plan.distalLandings.find(({ zone }) => zone === toZone)?.segments[0];
      expect(lower?.startMm).toBeGreaterThanOrEqual(upper?.endMm ?? Number.NaN);
      expect(mostMm).toBe((lower?.endMm ?? 0) - (upper?.startMm ?? 0));
    }
  });

  test("perfusion takes for each zone the covered length that reaches furthest", () => {
    const { zones } = plan.perfusion.cord;
    const given = zones.filter(({ lengthMm }) => (lengthMm?.leastMm ?? null) !== null);
    expect(given.map(({ zone }) => zone)).toEqual(covered);
    for (const { zone, lengthMm } of given) {
      const own = plan.coverages.filter(({ fromZone }) => fromZone === zone);
      const furthest = Math.max(...own.map(({ mostMm }) => mostMm));
      const pair = own.find(({ mostMm }) => mostMm === furthest);
      expect(lengthMm).toMatchObject({ leastMm: pair?.leastMm, mostMm: furthest });
    }
  });

  test("options, ways to deal with the arch, and perfusion name the same covered branches", () => {
    for (const { zone, branchesCovered, stopped } of plan.options) {
      const own = plan.archPlans.find(({ id }) => id === `stent-graft-zone-${zone}`);
      expect(own?.proximalZone).toBe(zone);
      if (stopped === null) expect(own?.covers).toEqual(branchesCovered);
      else expect(own?.coversUnknown).toBe(stopped);
      const cord = plan.perfusion.cord.zones.find((one) => one.zone === zone);
      expect(cord?.stopped).toBe(stopped);
      if (cord?.coversSubclavian !== null) {
        expect(cord?.coversSubclavian).toBe(branchesCovered.includes("left subclavian artery"));
      }
    }
  });
});

describe("what a plan stands on", () => {
  const plan = planned(wholeCase());

  test("worked by hand: zone 2 to zone 5 covers 157 to 232 mm", () => {
    // Zone 2 begins at 68 mm; the distal stretch runs from 205 to 300 mm: 205 + 20 - 68 = 157, 300 - 68 = 232.
    expect(plan.coverages.find(({ fromZone }) => fromZone === "2")).toMatchObject({
      toZone: "5",
      leastMm: 157,
      mostMm: 232,
    });
    const { sizing } = plan.sizings.find(({ fromZone }) => fromZone === "2") ?? {};
    // (34 + 32) / 2 = 33 mm and (30 + 28) / 2 = 29 mm.
    expect(sizing?.proximal.reference?.reference.diameterMm).toBe(33);
    expect(sizing?.distal.reference?.reference.diameterMm).toBe(29);
  });

  test("the inventory is the same for sizing and access, and neither speaks of one where the site names none", () => {
    const ids = inventory.map(({ id }) => id);
    expect(plan.sizings[0]?.sizing.inventory?.rows.map(({ id }) => id)).toEqual(ids);
    expect(plan.access.sides[0]?.sheaths).not.toBeNull();
    const without = planned(wholeCase(), { inventory: null });
    expect(without.sizings.every(({ sizing }) => sizing.inventory === null)).toBe(true);
    expect(without.access.sides.every(({ sheaths }) => sheaths === null)).toBe(true);
  });

  test("worklists are those of the operations considered; none without one", () => {
    expect(plan.worklists.map(({ procedure }) => procedure)).toContain("zone 2");
    expect(planned(wholeCase({ considered: null })).worklists).toEqual([]);
  });

  test("what only a dissection needs is asked for in a dissection and where no diagnosis is stated", () => {
    const id = "at-coeliac-origin, area, true lumen, inner";
    const stateIn = (stated: Partial<CaseFacts>) =>
      planned(wholeCase(stated))
        .worklists.flatMap(({ items }) => items)
        .find(({ item }) => item.id === id)?.state;
    expect([{}, typeB, { diagnoses: null }].map(stateIn)).toEqual([
      "not needed here",
      "not measured",
      "not measured",
    ]);
  });

  test("in a dissection the distal end is sized in the true lumen", () => {
    const own = planned(wholeCase(typeB, inTypeB)).sizings.filter(
      ({ fromZone }) => fromZone === "2",
    );
    expect(own.map(({ toZone }) => toZone)).toEqual(["4", "5"]);
    for (const { sizing } of own) expect(sizing.trueLumen).not.toBeNull();
  });
});
