/*
 * One complete invented case through the whole planning, and one row for every input: taken away, what rests on it is open
 * and names it. Calculators that have such a table of their own are here with the inputs that come from elsewhere only:
 * sizing in sizing/sizing.test.ts, requirements of arch plans in arch-plans/requirement-rows-*.ts, access in
 * access/access.test.ts, views in views/landing-views.test.ts, true-lumen end in sizing/true-lumen-end.test.ts,
 * territories of brain and arms artery by artery in perfusion/branch-supply.test.ts.
 */
import { describe, expect, test } from "vitest";
import { placeById } from "../../src/anatomy/places.ts";
import type { CaseFacts, Finding, PatientCase, Station } from "../../src/cases/patient-case.ts";
import type { FindingId } from "../../src/cases/vocabulary.ts";
import type { Vector } from "../../src/geometry/vector.ts";
import type { Planning } from "../../src/planning/planning.ts";
import { everyFive, exam, lineCase, marks } from "./landing/sample-segments.ts";
import { planned } from "./random-plan-case.ts";

/** Half a circle of 70 mm on radius after 20 mm, then straight on. */
function pointAt(mm: number): Vector {
  const turn = Math.min(Math.max((mm - 20) / 70, 0), Math.PI);
  const down = Math.max(mm - 20 - 70 * Math.PI, 0);
  return [70 * (1 - Math.cos(turn)), 0, Math.min(mm, 20) + 70 * Math.sin(turn) - down];
}

/** 30 mm wide, 55 mm from 130 to 240 mm. */
const sections = everyFive((mm) => {
  const across = mm > 130 && mm < 240 ? 55 : 30;
  return { point: pointAt(mm), maximumMm: across, minimumMm: across };
});

type FindingRow = readonly [placeId: string, finding: FindingId, state: string];

const patent = (...places: string[]): FindingRow[] =>
  places.map((place) => [place, "patency", "patent"]);
const ofArch = patent(
  "right-common-carotid-artery",
  "left-common-carotid-artery",
  "right-vertebral-artery",
  "left-vertebral-artery",
  "right-subclavian-artery",
  "left-subclavian-artery",
);

const findingsOf = (rows: readonly FindingRow[]): Finding[] =>
  rows.map(([place, finding, state], index) => ({
    key: `F${index}`,
    exam,
    place: placeById(place),
    finding,
    state,
    source: { file: "invented-findings.csv", sha256: null, at: null },
    reader: null,
    comment: null,
  }));

const facts: Partial<CaseFacts> = {
  archVariants: [],
  priorRepairs: [],
  diagnoses: ["descending thoracic aneurysm"],
};

const complete: PatientCase = {
  ...lineCase([...marks, ...sections], facts),
  findings: findingsOf([
    ...ofArch,
    ...patent("right-internal-iliac-artery", "left-internal-iliac-artery"),
    ["right-vertebral-artery", "dominance", "equal to the other"],
    ["left-vertebral-artery", "dominance", "equal to the other"],
    ["circle-of-willis", "circle of Willis", "complete"],
  ]),
};

type Change = (patientCase: PatientCase) => PatientCase;

const stationsWith =
  (change: (station: Station) => Station | null): Change =>
  (patientCase) => ({
    ...patientCase,
    centrelines: patientCase.centrelines.map((line) => ({
      ...line,
      stations: line.stations.flatMap((station) => change(station) ?? []),
    })),
  });
const without = (part: Partial<Station>): Change =>
  stationsWith((station) => ({ ...station, ...part }));
const withoutMark = (placeId: string): Change =>
  stationsWith((station) => (station.mark?.place.id === placeId ? null : station));
const stating =
  (stated: Partial<CaseFacts>): Change =>
  (patientCase) => ({ ...patientCase, facts: { ...patientCase.facts, ...stated } });
const withoutFinding =
  (placeId: string, finding: FindingId = "patency"): Change =>
  (patientCase) => ({
    ...patientCase,
    findings: patientCase.findings.filter(
      (one) => one.place.id !== placeId || one.finding !== finding,
    ),
  });
const both =
  (...changes: Change[]): Change =>
  (patientCase) =>
    changes.reduce((changed, change) => change(changed), patientCase);

/** What is known of one thing: open where it can't be told, with what is missing. */
interface Answer {
  isOpen: boolean;
  missing: readonly string[];
}
type Row = [input: string, change: Change, names: string];

const checkIn = (
  checks: readonly { id: string; outcome: string; missing: string[] }[] | undefined,
  id: string,
): Answer => {
  const check = checks?.find((one) => one.id === id);
  if (!check) throw new Error(`no check ${id}`);
  return { isOpen: check.outcome === "not-assessable", missing: check.missing };
};

function eachIsNeeded(
  read: (planning: Planning) => Answer,
  rows: readonly Row[],
  held: PatientCase = complete,
): void {
  test("is known where nothing is missing", () => {
    expect(read(planned(held))).toEqual({ isOpen: false, missing: [] });
  });
  test.each(rows)("without %s it is open and names it", (_, change, names) => {
    const { isOpen, missing } = read(planned(change(held)));
    expect(isOpen).toBe(true);
    expect(missing.join("\n")).toContain(names);
  });
}

const optionOf = ({ options }: Planning, zone: string) =>
  options.find((option) => option.zone === zone);

const unstated = both(without({ lumen: "unstated" }), stating({ diagnoses: null }));
const noWall = both(without({ wall: null }), stating({ priorRepairs: null }));
const noLine: Change = (patientCase) => ({ ...patientCase, centrelines: [] });
const endingAt = (endMm: number): Change =>
  stationsWith((station) => (station.distanceMm > endMm && !station.mark ? null : station));
const someThrombus = stationsWith((station) =>
  station.mark ? station : { ...station, thrombusArcDeg: 40, thrombusThicknessMm: 1 },
);

const ofAllEnds: Row[] = [
  ["a centreline", noLine, "centreline of the aorta with sections"],
  ["diameters", without({ maximumMm: null, minimumMm: null }), "largest diameter"],
  ["largest diameters beside smallest ones", without({ maximumMm: null }), "largest diameter"],
  ["points", without({ point: null }), "points of the centreline at most 15 mm apart"],
  ["the wall and earlier repairs", noWall, "prior repair (or none)"],
  ["the lumen and the diagnosis", unstated, "largest diameter"],
  ["thrombus", without({ thrombusArcDeg: null }), "thrombus on the circumference"],
  ["calcium", without({ calciumArcDeg: null }), "calcium of the circumference"],
];

describe("seal of a proximal landing in zone 2", () => {
  const read = (planning: Planning) => checkIn(optionOf(planning, "2")?.checks, "seal-length-20");
  eachIsNeeded(read, [
    ...ofAllEnds,
    ["points", without({ point: null }), "length along the inner curve from zone 2 on"],
    [
      "the mark of its border",
      withoutMark("left-common-carotid-artery"),
      "distal edge of the left common carotid artery on the centreline",
    ],
    ["sections further on", endingAt(80), "sections beyond the measured part of the centreline"],
  ]);
});

describe("seal of a proximal landing where there is some thrombus", () => {
  const read = (planning: Planning) => checkIn(optionOf(planning, "2")?.checks, "seal-length-20");
  eachIsNeeded(
    read,
    [["its thickness", without({ thrombusThicknessMm: null }), "thickness of thrombus"]],
    someThrombus(complete),
  );
});

describe("seal of a distal landing in zone 5", () => {
  const read = ({ distalLandings }: Planning) =>
    checkIn(distalLandings.find(({ zone }) => zone === "5")?.checks, "seal-length-20");
  eachIsNeeded(read, [
    ...ofAllEnds,
    [
      "the mark of its border",
      withoutMark("coeliac-artery"),
      "proximal edge of the coeliac artery on the centreline",
    ],
    ["sections as far as there", endingAt(80), "sections beyond the measured part"],
  ]);
});

describe("diameter of zone 2", () => {
  const read = (planning: Planning) => checkIn(optionOf(planning, "2")?.checks, "diameter-38");
  eachIsNeeded(read, [
    ["a centreline", noLine, "diameters in zone 2"],
    ["diameters", without({ maximumMm: null, minimumMm: null }), "diameters in zone 2"],
    ["the lumen and the diagnosis", unstated, "diameters in zone 2"],
    ["the near border", withoutMark("left-common-carotid-artery"), "diameters in zone 2"],
    ["the far border", withoutMark("left-subclavian-artery"), "diameters in zone 2"],
  ]);
});

describe("diameter of the native wall of zone 0", () => {
  const read = (planning: Planning) =>
    checkIn(optionOf(planning, "0")?.checks, "diameter-37-ascending");
  eachIsNeeded(read, [
    ["a centreline", noLine, "diameters in zone 0"],
    ["diameters", without({ maximumMm: null, minimumMm: null }), "diameters in zone 0"],
    ["earlier repairs", stating({ priorRepairs: null }), "prior repair (or none)"],
  ]);
});

describe("covered length of the aorta from zone 3 on", () => {
  const checksOf = ({ perfusion }: Planning) =>
    perfusion.cord.zones.find(({ zone }) => zone === "3")?.checks;
  const length = "length from the beginning of zone 3 to the coeliac artery";
  eachIsNeeded(
    (planning) => checkIn(checksOf(planning), "cord-coverage-sts"),
    [
      ["a centreline", noLine, "covered length from zone 3"],
      ["diameters", without({ maximumMm: null, minimumMm: null }), "covered length from zone 3"],
      ["sections further on", endingAt(80), "covered length from zone 3"],
      ["the near border", withoutMark("left-subclavian-artery"), length],
      ["the coeliac artery", withoutMark("coeliac-artery"), length],
    ],
  );
});

describe("supplies of the cord under a landing in zone 3", () => {
  eachIsNeeded(
    ({ perfusion }) => {
      const { supplies = [], missing = [] } =
        perfusion.cord.zones.find(({ zone }) => zone === "3") ?? {};
      return { isOpen: supplies.some(({ state }) => state === "unknown"), missing };
    },
    [
      ["the left subclavian", withoutFinding("left-subclavian-artery"), "left subclavian artery"],
      ["an iliac", withoutFinding("right-internal-iliac-artery"), "right internal iliac artery"],
      ["the other", withoutFinding("left-internal-iliac-artery"), "left internal iliac artery"],
      ["earlier repairs", stating({ priorRepairs: null }), "prior repair (or none)"],
      ["a centreline", noLine, "covered length"],
    ],
  );
});

describe("brain and arms under a landing in zone 3", () => {
  const rows = ofArch.map(([place]): Row => {
    const { label } = placeById(place);
    return [`the patency of the ${label}`, withoutFinding(place), label];
  });
  const isVertebral = ([input]: Row): boolean => input.includes("vertebral");
  const zoneThree = ({ perfusion }: Planning): Answer => {
    const { supplies = [], missing = [] } =
      perfusion.brain.zones.find(({ zone }) => zone === "3") ?? {};
    return { isOpen: supplies.some(({ check }) => check.outcome === "not-assessable"), missing };
  };
  eachIsNeeded(zoneThree, [
    ...rows.filter((row) => !isVertebral(row)),
    // One vertebral artery that is open is enough.
    [
      "both vertebral arteries",
      both(withoutFinding("right-vertebral-artery"), withoutFinding("left-vertebral-artery")),
      "vertebral artery",
    ],
    ["the arch", stating({ archVariants: null }), "which arch it is"],
  ]);
});

describe("facts of cord and brain", () => {
  eachIsNeeded(
    ({ perfusion: { cord, brain } }) => {
      const missing = [...cord.facts, ...brain.facts].flatMap((fact) => fact.missing);
      return { isOpen: missing.length > 0, missing };
    },
    [
      ["the diagnosis", stating({ diagnoses: null }), "diagnosis"],
      ["earlier repairs", stating({ priorRepairs: null }), "prior repair (or none)"],
      ["the arch", stating({ archVariants: null }), "which arch it is"],
      ["the circle of Willis", withoutFinding("circle-of-willis", "circle of Willis"), "circle of"],
      ...["right-vertebral-artery", "left-vertebral-artery"].flatMap((place): Row[] => {
        const { label } = placeById(place);
        return [
          [
            `dominance of the ${label}`,
            withoutFinding(place, "dominance"),
            `dominance of the ${label}`,
          ],
          [`patency of the ${label}`, withoutFinding(place), `patency of the ${label}`],
        ];
      }),
    ],
  );
});

describe("organs in a dissection", () => {
  const branches = [
    "coeliac-artery",
    "superior-mesenteric-artery",
    "right-renal-artery",
    "left-renal-artery",
    "zone-10-right",
    "zone-10-left",
  ];
  const rowsOf = (place: string): FindingRow[] => [
    [place, "fed by", "true lumen"],
    [place, "patency", "patent"],
    [place, "malperfusion", "absent"],
  ];
  const dissected: PatientCase = {
    ...lineCase([], { ...facts, diagnoses: ["type B dissection"] }),
    centrelines: [],
    findings: findingsOf([["zone-4", "dissection", "present"], ...branches.flatMap(rowsOf)]),
  };
  const labelOf = (place: string): string => placeById(place).label.replace(/^zone \d+, /, "");
  const rows = branches.flatMap((place): Row[] => [
    [
      `the lumen that feeds the ${labelOf(place)}`,
      withoutFinding(place, "fed by"),
      `lumen that feeds the ${labelOf(place)}`,
    ],
    [
      `the patency of the ${labelOf(place)}`,
      withoutFinding(place),
      `patency of the ${labelOf(place)}`,
    ],
    [
      `malperfusion at the ${labelOf(place)}`,
      withoutFinding(place, "malperfusion"),
      "malperfusion (or none) of the",
    ],
  ]);
  eachIsNeeded(
    ({ perfusion: { organs } }) => {
      const missing = organs.flatMap((branch) => branch.missing);
      expect(organs).toHaveLength(branches.length);
      return { isOpen: missing.length > 0, missing };
    },
    rows,
    dissected,
  );
});
