import { describe, expect, test } from "vitest";
import { dissectionOf } from "../../../src/cases/dissection.ts";
import type { Measurement } from "../../../src/cases/patient-case.ts";
import { perfusion, type PerfusionBasis } from "../../../src/planning/perfusion/perfusion.ts";
import { noSiteConfig } from "../../../src/site/site-config.ts";
import {
  asOf,
  type FindingRow,
  inventedCase,
  lengthOf,
  line,
  station,
} from "../access/access-case.ts";

type Stated = Parameters<typeof inventedCase>[0];

const basis: PerfusionBasis = {
  asOf,
  dissection: null,
  archConventions: [],
  planning: noSiteConfig.planning,
  coverage: [],
};
const perfusionOf = (stated: Stated, more: Partial<PerfusionBasis> = {}) =>
  perfusion(inventedCase(stated), { ...basis, ...more });
type Result = ReturnType<typeof perfusionOf>;

const cordOf = ({ cord }: Result, zone: string) => {
  const found = cord.zones.find((one) => one.zone === zone);
  if (!found) throw new Error(`no zone ${zone}`);
  return found;
};
const checkOf = (result: Result, zone: string, id: string) =>
  cordOf(result, zone).checks.find((check) => check.id === id);

const lengths = (mm: Record<string, number>): Measurement[] =>
  Object.entries(mm).map(([zone, value]) => lengthOf(`zone-${zone}`, value));
/** Invented: 12, 20, 100 and 120 mm from the left common carotid to the coeliac artery. */
const measured = lengths({ "2": 12, "3": 20, "4": 100, "5": 120 });
const given = (leastMm: number, mostMm: number, fromZone = "3", beyondBorderMm = 0) => ({
  coverage: [{ leastMm, mostMm, beyondBorderMm, fromZone }],
});
const usual = { archVariants: [], archVariantWords: "usual" };

describe("covered length", () => {
  test("all five candidate zones are there, and without numbers each names its covered length", () => {
    const { cord, missing } = perfusionOf({});
    expect(cord.zones.map(({ zone }) => zone)).toEqual(["0", "1", "2", "3", "4"]);
    for (const { zone, checks } of cord.zones) {
      for (const check of checks) {
        expect(check.outcome).toBe("not-assessable");
        expect(check.missing).toContain(`covered length from zone ${zone}`);
      }
      expect(missing).toContain(`covered length from zone ${zone}`);
    }
  });

  test("worked by hand: 150 to 210 mm from 5 mm into zone 3, of 240 mm: 62.5 to 87.5 %, 25 to 85 mm left", () => {
    // Zone 3 begins 20 + 100 + 120 = 240 mm above the coeliac artery, the fabric 5 mm further on: 235 mm above it.
    // Left at most 235 - 150 = 85 mm, at least 235 - 210 = 25 mm.
    const result = perfusionOf({ measurements: measured, facts: usual }, given(150, 210, "3", 5));
    const zone = cordOf(result, "3");
    expect(zone.sharePercent).toEqual({ low: 62.5, high: 87.5 });
    expect(zone.aboveCoeliacMm).toEqual({ lowMm: 25, highMm: 85 });
    expect(checkOf(result, "3", "cord-coverage-site")).toMatchObject({
      outcome: "not-met",
      spansLimit: true,
      limit: "< 205 mm",
      value: { value: 210, low: 150, high: 210 },
    });
    expect(checkOf(result, "3", "cord-coverage-esvs")).toMatchObject({
      outcome: "not-met",
      source: expect.stringContaining("not confirmed"),
    });
    expect(checkOf(result, "3", "cord-coeliac-sts")).toMatchObject({
      outcome: "met",
      spansLimit: false,
      missing: [],
    });
  });

  test.each([
    // 240 - 220 = 20 mm left is not more than 20 mm; 240 - 219.9 = 20.1 mm is.
    [220, "not-met"],
    [219.9, "met"],
  ])("up to %s mm from the border of zone 3: more than 20 mm left is %s", (mostMm, outcome) => {
    const result = perfusionOf({ measurements: measured, facts: usual }, given(150, mostMm));
    expect(checkOf(result, "3", "cord-coeliac-sts")?.outcome).toBe(outcome);
  });

  test("a stretch whose border is not known leaves open what is left, and names the border", () => {
    const coverage = [{ leastMm: 150, mostMm: 200, beyondBorderMm: null, fromZone: "3" }];
    const result = perfusionOf({ measurements: measured, facts: usual }, { coverage });
    expect(checkOf(result, "3", "cord-coeliac-sts")).toMatchObject({
      outcome: "not-assessable",
      missing: ["border of the zone on the centreline"],
    });
  });

  test.each([
    [200, "cord-coverage-esvs", "met"],
    [200.1, "cord-coverage-esvs", "not-met"],
    [204.9, "cord-coverage-site", "met"],
    [205, "cord-coverage-site", "not-met"],
  ])("%s mm by %s is %s: over 200, from 205", (mostMm, id, outcome) => {
    expect(checkOf(perfusionOf({}, given(100, mostMm)), "3", id)?.outcome).toBe(outcome);
  });

  test("the site's own limit counts and is named as such", () => {
    const planning = { coverageMm: 180 };
    const check = checkOf(
      perfusionOf({}, { ...given(100, 190), planning }),
      "3",
      "cord-coverage-site",
    );
    expect(check).toMatchObject({ outcome: "not-met", source: "the site's own setting" });
  });

  test("a given coverage needs no length of the aorta; its share and what is left do", () => {
    const result = perfusionOf({}, given(100, 150));
    expect(checkOf(result, "3", "cord-coverage-sts")?.outcome).toBe("met");
    expect(cordOf(result, "3").sharePercent).toBeNull();
    expect(checkOf(result, "3", "cord-coeliac-sts")).toMatchObject({
      outcome: "not-assessable",
      missing: ["length from the beginning of zone 3 to the coeliac artery, along the centreline"],
    });
  });

  test("without a given coverage the length to the coeliac artery can show that a limit holds, never that it fails", () => {
    const short = lengths({ "3": 20, "4": 60, "5": 80 });
    const facts = usual;
    const met = checkOf(perfusionOf({ measurements: short, facts }), "3", "cord-coverage-site");
    expect(met).toMatchObject({ outcome: "met", value: { value: 160, low: null, high: 160 } });
    const open = checkOf(perfusionOf({ measurements: measured, facts }), "3", "cord-coverage-site");
    expect(open).toMatchObject({
      outcome: "not-assessable",
      missing: ["covered length from zone 3"],
    });
  });

  test.each(["3", "4", "5"])(
    "without the length of zone %s the share is open and names it",
    (zone) => {
      const measurements = measured.filter(({ place }) => place.id !== `zone-${zone}`);
      const { sharePercent, missing } = cordOf(
        perfusionOf({ measurements, facts: usual }, given(100, 150)),
        "3",
      );
      expect(sharePercent).toBeNull();
      expect(missing).toContain(
        "length from the beginning of zone 3 to the coeliac artery, along the centreline",
      );
    },
  );

  test("the length of the descending aorta stands for that from the left subclavian artery", () => {
    const measurements = [lengthOf("descending-thoracic-aorta", 250)];
    const result = perfusionOf({ measurements, facts: usual }, given(100, 150));
    expect(cordOf(result, "3").sharePercent).toEqual({ low: 40, high: 60 });
  });

  test("edges marked on the centreline go before lengths of zones; a centre is no edge", () => {
    const marks = (edge: "distal edge" | "centre") =>
      line("aorta", [
        station(80, { markId: "left-subclavian-artery", markEdge: edge }),
        station(330, { markId: "coeliac-artery", markEdge: "proximal edge" }),
      ]);
    const shareOf = (edge: "distal edge" | "centre") =>
      cordOf(
        perfusionOf(
          { measurements: measured, facts: usual, centrelines: [marks(edge)] },
          given(100, 150),
        ),
        "3",
      ).sharePercent?.high;
    expect(shareOf("distal edge")).toBe(60);
    expect(shareOf("centre")).toBe(62.5);
  });

  test("coverage that may reach past the coeliac artery raises its question", () => {
    const { questions } = perfusionOf({ measurements: measured, facts: usual }, given(150, 245));
    expect(questions.some(({ text }) => text.includes("past the coeliac artery"))).toBe(true);
  });

  test("a wider interval never turns a failing limit into one that holds", () => {
    for (const most of [150, 199, 201, 204, 206, 300]) {
      const outcomes = (mm: number) =>
        ["cord-coverage-site", "cord-coverage-esvs"].map(
          (id) => checkOf(perfusionOf({}, given(100, mm)), "3", id)?.outcome,
        );
      outcomes(most).forEach((outcome, index) => {
        if (outcome === "not-met") expect(outcomes(most + 30)[index]).toBe("not-met");
      });
    }
  });
});

describe("the four supplies of the cord", () => {
  const open: FindingRow[] = [
    ["left-subclavian-artery", "patency", "patent"],
    ["right-internal-iliac-artery", "patency", "patent"],
    ["left-internal-iliac-artery", "patency", "patent"],
  ];
  const facts = { ...usual, priorRepairs: [], diagnoses: ["descending thoracic aneurysm"] };
  const states = (stated: Stated, zone = "3", more: Partial<PerfusionBasis> = given(100, 150)) =>
    cordOf(perfusionOf(stated, more), zone).supplies.map(({ state }) => state);

  test("are open, closed in part, closed or unknown, each for itself", () => {
    expect(states({ findings: open, facts })).toEqual(["open", "part closed", "open", "open"]);
    expect(states({ findings: open, facts }, "2", given(100, 150, "2"))).toEqual([
      "closed",
      "part closed",
      "open",
      "open",
    ]);
    expect(states({}, "3", {})).toEqual(["unknown", "unknown", "unknown", "unknown"]);
  });

  test("an abdominal graft closes the lumbar arteries, an occluded internal iliac its side", () => {
    const priorRepairs = [
      {
        words: "graft of zones 8 to 9 in 2019",
        date: "2019",
        zones: ["8", "9"],
        kinds: ["graft" as const],
      },
    ];
    const findings: FindingRow[] = [
      ...open.slice(0, 2),
      ["left-internal-iliac-artery", "patency", "occluded"],
    ];
    expect(states({ findings, facts: { ...facts, priorRepairs } })).toEqual([
      "open",
      "part closed",
      "closed",
      "part closed",
    ]);
  });

  test.each<[number, string]>([
    [0, "patency of the left subclavian artery"],
    [1, "patency of the right internal iliac artery"],
    [2, "patency of the left internal iliac artery"],
  ])("without finding %i its supply is unknown and named", (index, missing) => {
    const findings = open.filter((_, at) => at !== index);
    expect(cordOf(perfusionOf({ findings, facts }, given(100, 150)), "3").missing).toContain(
      missing,
    );
  });

  test("without the case sheet's repairs and the covered length they are named", () => {
    const { missing } = cordOf(perfusionOf({ findings: open, facts: usual }), "3");
    expect(missing).toContain("prior repair (or none)");
    expect(missing).toContain("covered length");
  });

  test("a landing in zone 2 covers the left subclavian artery and names its usual re-feeding", () => {
    const result = perfusionOf({ findings: open, facts }, given(100, 150));
    expect(cordOf(result, "2")).toMatchObject({ coversSubclavian: true });
    expect(cordOf(result, "2").subclavianRefedBy).toHaveLength(1);
    expect(cordOf(result, "3")).toMatchObject({ coversSubclavian: false, subclavianRefedBy: [] });
  });

  test.each([
    [{ diagnoses: ["abdominal aneurysm"] }, "diagnosis: abdominal aneurysm", 0],
    [{ diagnoses: ["descending thoracic aneurysm"] }, "not among the diagnoses", 0],
    [{ diagnoses: null }, "not stated", 1],
  ])("abdominal aneurysm by %j: %s", (stated, words, missing) => {
    const { cord } = perfusionOf({ facts: { ...facts, ...stated } });
    const fact = cord.facts.find(({ id }) => id === "aneurysm-abdominal");
    expect(fact?.words).toBe(words);
    expect(fact?.missing).toHaveLength(missing);
  });
});

describe("organs in a dissection", () => {
  const findings: FindingRow[] = [
    ["zone-4", "dissection", "present"],
    ["left-renal-artery", "fed by", "false lumen"],
    ["left-renal-artery", "patency", "patent"],
    ["superior-mesenteric-artery", "fed by", "true lumen"],
    ["right-renal-artery", "malperfusion", "on imaging only"],
  ];
  const facts = { diagnoses: ["type B dissection"] };
  const dissected = (rows: FindingRow[]) => {
    const stated = { findings: rows, facts };
    return perfusionOf(stated, { dissection: dissectionOf(inventedCase(stated), asOf) });
  };

  test("each branch has its lumen, patency and malperfusion; one fed by the false lumen alone asks what follows", () => {
    const { organs, questions } = dissected(findings);
    expect(organs).toHaveLength(6);
    expect(organs.find(({ branch }) => branch === "left renal artery")).toMatchObject({
      fedBy: "false lumen, 2026-01-12",
      isFalseLumenOnly: true,
      patency: "patent, 2026-01-12",
    });
    const asked = questions.filter(({ text }) => text.includes("false lumen falls"));
    expect(asked).toMatchObject([
      { raisedBy: "left renal artery: fed by false lumen, 2026-01-12" },
    ]);
    expect(
      questions.some(
        ({ raisedBy }) => raisedBy === "right renal artery: malperfusion on imaging only",
      ),
    ).toBe(true);
  });

  test.each([
    [1, "lumen that feeds the left renal artery"],
    [2, "patency of the left renal artery"],
    [4, "malperfusion (or none) of the right kidney"],
  ])("without finding %i it is missing by name", (index, missing) => {
    expect(dissected(findings).missing).not.toContain(missing);
    expect(dissected(findings.filter((_, at) => at !== index)).missing).toContain(missing);
  });

  test("without a dissection there is no table of lumens", () => {
    expect(perfusionOf({ findings: findings.slice(1, 3) }).organs).toEqual([]);
  });
});

describe("statements", () => {
  test("those of an arch variant stand only in that arch; the others always", () => {
    const ids = (archVariants: Result["statements"][number]["variant"][]) =>
      perfusionOf({
        facts: { archVariants: archVariants.flatMap((one) => one ?? []) },
      }).statements.map(({ id }) => id);
    expect(ids([])).not.toContain("left-vertebral-arch");
    expect(ids(["left vertebral artery off the arch"])).toContain("left-vertebral-arch");
    expect(ids([])).toContain("stroke-arch");
  });
});
