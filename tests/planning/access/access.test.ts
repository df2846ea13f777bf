import { describe, expect, test } from "vitest";
import type { Measurement } from "../../../src/cases/patient-case.ts";
import { access } from "../../../src/planning/access/access.ts";
import type { AccessSide } from "../../../src/planning/access/access-side.ts";
import type { InventoryRow } from "../../../src/readers/csv/inventory.ts";
import { noSiteConfig } from "../../../src/site/site-config.ts";
import {
  asOf,
  type FindingRow,
  graft,
  iliacs,
  inventedCase,
  line,
  reading,
  station,
} from "./access-case.ts";

const basis = {
  asOf,
  inventory: [graft("G1", 8, "24 Fr")] as readonly InventoryRow[] | null,
  planning: noSiteConfig.planning,
  readingSdMmOf: () => 0.25,
  stationSdMmOf: () => 0.25,
};

const accessOf = (stated: Parameters<typeof inventedCase>[0], more: Partial<typeof basis> = {}) =>
  access(inventedCase(stated), { ...basis, ...more });

const rightOf = (
  stated: Parameters<typeof inventedCase>[0],
  more: Partial<typeof basis> = {},
): AccessSide => {
  const [right] = accessOf(stated, more).sides;
  if (!right) throw new Error("the right side is always there");
  return right;
};
const checkOf = (side: AccessSide, id: string) =>
  [...side.checks, ...(side.sheaths ?? []).flatMap(({ checks }) => checks)].find(
    (check) => check.id === id,
  );

const wide = iliacs("right", [9, 8, 8.5]);
const clear: FindingRow[] = (
  ["zone-10-right", "zone-11-right", "right-common-femoral-artery"] as const
).flatMap((place): FindingRow[] => [
  [place, "patency", "patent"],
  [place, "wall calcium", "absent"],
  [place, "access repair", "absent"],
]);
const course = [
  reading("zone-11-right", 70, { quantity: "angle", statistic: "maximum", unit: "deg" }),
  reading("zone-10-right", 1.2, { quantity: "tortuosity", statistic: "unstated", unit: "1" }),
];
const areas = ["zone-10-right", "zone-11-right", "right-common-femoral-artery"].map((place) =>
  reading(place, 60, { quantity: "area", unit: "mm2" }),
);
/** All that a side can be judged by. */
const whole = { measurements: [...wide, ...areas, ...course], findings: clear };

describe("the lumen of the way in", () => {
  test("worked by hand: 24 Fr is 8 mm; in 7.5 mm the ratio is 1.067, with 0.49 mm of error 1.001 to 1.141", () => {
    const side = rightOf({ measurements: iliacs("right", [9, 7.5, 8.5]) });
    expect(side.narrowest).toMatchObject({ valueMm: 7.5, isWhole: true });
    const [sheath] = side.sheaths ?? [];
    expect(sheath?.ratio?.value).toBeCloseTo(8 / 7.5, 12);
    expect(sheath?.ratio?.low).toBeCloseTo(8 / 7.99, 12);
    expect(sheath?.ratio?.high).toBeCloseTo(8 / 7.01, 12);
    expect(checkOf(side, "sheath-ratio-1-05")).toMatchObject({
      outcome: "not-met",
      spansLimit: true,
      source: expect.stringContaining("not confirmed"),
    });
    expect(checkOf(side, "sheath-ratio-1-45")).toMatchObject({ outcome: "met", spansLimit: false });
    // The teaching table asks 8 mm for 22 to 25 Fr.
    expect(checkOf(side, "sheath-teaching-table")).toMatchObject({
      outcome: "not-met",
      limit: ">= 8 mm",
    });
  });

  test("the narrowest of the whole way counts, not the femoral artery", () => {
    const side = rightOf({ measurements: iliacs("right", [6, 8, 9]) });
    expect(side.narrowest).toMatchObject({ valueMm: 6, at: "right common iliac artery" });
    // The conduit limit is of the external iliac and the femoral artery alone.
    expect(checkOf(side, "access-conduit")).toMatchObject({
      outcome: "met",
      value: { value: 8 },
    });
  });

  test.each([
    [0, "least lumen diameter of the right common iliac artery"],
    [1, "least lumen diameter of the right external iliac artery"],
    [2, "least lumen diameter of the right common femoral artery"],
  ])("without stretch %i a wide lumen is not assessable and names it", (index, missing) => {
    const measurements = wide.filter((_, at) => at !== index);
    const check = checkOf(rightOf({ measurements }), "sheath-ratio-1-05");
    expect(check).toMatchObject({ outcome: "not-assessable", missing: [missing] });
    expect(check?.value?.high).toBeNull();
  });

  test("a part of the way can show that a sheath does not pass", () => {
    const side = rightOf({ measurements: [reading("zone-11-right", 5)] });
    expect(checkOf(side, "sheath-ratio-1-05")).toMatchObject({ outcome: "not-met", missing: [] });
    expect(side.narrowest?.isWhole).toBe(false);
    expect(checkOf(side, "access-conduit")).toMatchObject({ outcome: "not-met" });
  });

  test.each<[string, Partial<Measurement>, string]>([
    [
      "an outer edge",
      { edge: "outer" },
      "least diameter of the right external iliac artery between inner edges",
    ],
    [
      "no stated edge",
      { edge: "unstated" },
      "least diameter of the right external iliac artery between inner edges",
    ],
    [
      "a largest diameter",
      { statistic: "maximum" },
      "least lumen diameter of the right external iliac artery",
    ],
    [
      "no stated statistic",
      { statistic: "unstated" },
      "least lumen diameter of the right external iliac artery",
    ],
  ])("%s bounds the lumen from above only", (_, rest, missing) => {
    const others = wide.filter(({ place }) => place.id !== "zone-11-right");
    const wideOne = reading("zone-11-right", 8, rest);
    const narrowOne = reading("zone-11-right", 5, rest);
    const open = checkOf(rightOf({ measurements: [...others, wideOne] }), "sheath-ratio-1-05");
    expect(open).toMatchObject({ outcome: "not-assessable", missing: [missing] });
    const shut = checkOf(rightOf({ measurements: [...others, narrowOne] }), "sheath-ratio-1-05");
    expect(shut?.outcome).toBe("not-met");
  });

  test("a short axis is a least diameter; a false lumen is none", () => {
    const others = wide.filter(({ place }) => place.id !== "zone-11-right");
    const axis = reading("zone-11-right", 8, { quantity: "short-axis", statistic: "unstated" });
    expect(rightOf({ measurements: [...others, axis] }).narrowest?.isWhole).toBe(true);
    const wrong = reading("zone-11-right", 8, { lumen: "false" });
    expect(rightOf({ measurements: [...others, wrong] }).narrowest?.isWhole).toBe(false);
  });

  test("in a dissected artery the whole lumen does not show that a sheath passes, the true lumen does", () => {
    const findings: FindingRow[] = [["zone-11-right", "dissection", "present"]];
    const side = rightOf({ measurements: wide, findings });
    expect(checkOf(side, "sheath-ratio-1-05")).toMatchObject({
      outcome: "not-assessable",
      missing: ["least diameter of the true lumen of the right external iliac artery"],
    });
    const measurements = [...wide, reading("zone-11-right", 7.7, { lumen: "true" })];
    expect(checkOf(rightOf({ measurements, findings }), "sheath-ratio-1-05")?.outcome).toBe("met");
  });

  test("the latest exam that has the least diameter counts, with its date", () => {
    const older = iliacs("right", [9, 9, 9]).map((one) => ({
      ...one,
      key: `${one.key}-old`,
      exam: "2024-01-01",
    }));
    const newer = reading("zone-11-right", 7);
    const side = rightOf({ measurements: [...older, newer] });
    expect(side.stretches.map(({ words }) => words.slice(-10))).toEqual([
      "2024-01-01",
      "2026-01-12",
      "2024-01-01",
    ]);
    expect(side.narrowest).toMatchObject({ valueMm: 7, isWhole: true });
  });
});

describe("a path with sections", () => {
  const sections = (narrowMm: number | null) => [
    station(0, { markId: "aortic-bifurcation", minimumMm: 10 }),
    station(20, { minimumMm: 9, areaMm2: 70 }),
    station(50, { markId: "right-internal-iliac-artery", minimumMm: 8.4 }),
    station(90, { minimumMm: narrowMm }),
    station(120, { markId: "right-common-femoral-artery", minimumMm: 8.2 }),
  ];

  test("is divided by its marks, and its narrowest section counts", () => {
    const side = rightOf({ centrelines: [line("right access path", sections(7.9))] });
    expect(side.stretches.map(({ lumenMm }) => lumenMm?.value)).toEqual([9, 7.9, 8.2]);
    expect(side.narrowest).toMatchObject({ valueMm: 7.9, isWhole: true });
    expect(side.largestGapMm).toBe(40);
  });

  test("a section without a least diameter leaves the way open, and is counted", () => {
    const side = rightOf({ centrelines: [line("right access path", sections(null))] });
    expect(checkOf(side, "sheath-ratio-1-05")).toMatchObject({
      outcome: "not-assessable",
      missing: ["least diameter of the right external iliac artery at 1 of 2 sections"],
    });
  });

  test("without marks it can only show that a sheath does not pass", () => {
    const unmarked = (mm: number) =>
      rightOf({ centrelines: [line("right access path", [station(0, { minimumMm: mm })])] });
    expect(checkOf(unmarked(9), "sheath-ratio-1-05")).toMatchObject({
      outcome: "not-assessable",
      missing: expect.arrayContaining([expect.stringContaining("marks on the right access path")]),
    });
    expect(checkOf(unmarked(5), "sheath-ratio-1-05")?.outcome).toBe("not-met");
  });

  test("worked by hand: a quarter circle is pi/2 over sqrt 2 = 1.1107 times its chord", () => {
    const points = Array.from({ length: 91 }, (_, deg) => {
      const turn = (deg * Math.PI) / 180;
      return station(deg, { point: [100 * Math.cos(turn), 0, 100 * Math.sin(turn)] });
    });
    const side = rightOf({ centrelines: [line("right access path", points)] });
    const check = checkOf(side, "access-tortuosity");
    expect(check?.outcome).toBe("met");
    expect(check?.value?.value).toBeCloseTo(Math.PI / 2 / Math.SQRT2, 4);
  });

  test("two points are no course", () => {
    const ends = [station(0, { point: [0, 0, 0] }), station(100, { point: [0, 0, -90] })];
    const side = rightOf({ centrelines: [line("right access path", ends)] });
    expect(checkOf(side, "access-tortuosity")?.outcome).toBe("not-assessable");
  });

  test("calcium all round at one section is circumferential", () => {
    const arcs = (deg: number) => [
      station(0, { markId: "zone-10-right", calciumArcDeg: 20 }),
      station(50, { markId: "zone-11-right", calciumArcDeg: deg }),
      station(90, { markId: "right-common-femoral-artery", calciumArcDeg: 0 }),
    ];
    const calciumOf = (deg: number) =>
      checkOf(rightOf({ centrelines: [line("right access path", arcs(deg))] }), "access-calcium");
    expect(calciumOf(360)).toMatchObject({ outcome: "not-met" });
    expect(calciumOf(200)).toMatchObject({ outcome: "met" });
  });
});

describe("what else is on the way", () => {
  test("with everything stated every condition is judged and nothing but the internal iliac is missing", () => {
    const side = rightOf(whole);
    const outcomes = [...side.checks, ...(side.sheaths?.[0]?.checks ?? [])].map(
      ({ id, outcome }) => [id, outcome],
    );
    expect(outcomes).toEqual([
      ["access-conduit", "met"],
      ["access-open", "met"],
      ["access-unrepaired", "met"],
      ["access-calcium", "met"],
      ["access-angle", "met"],
      ["access-tortuosity", "met"],
      ["sheath-ratio-1-05", "met"],
      ["sheath-ratio-1-45", "met"],
      // 8 mm has 50.27 mm2: 0.838 of 60 mm2.
      ["sheath-area-ratio-1-35", "met"],
      ["sheath-teaching-table", "met"],
    ]);
    expect(side.missing).toEqual(["patency of the right internal iliac artery"]);
  });

  test.each<[string, (one: { key: string }) => boolean, string, string]>([
    [
      "an angle",
      ({ key }) => key.includes("angle"),
      "access-angle",
      "angle of the right iliac arteries",
    ],
    [
      "tortuosity",
      ({ key }) => key.includes("tortuosity"),
      "access-tortuosity",
      "tortuosity index of the right access path",
    ],
    [
      "an area",
      ({ key }) => key.includes("zone-11-right-area"),
      "sheath-area-ratio-1-35",
      "least lumen area of the right external iliac artery",
    ],
  ])("without %s its condition is not assessable and names it", (_, isIt, id, missing) => {
    const side = rightOf({
      ...whole,
      measurements: whole.measurements.filter((one) => !isIt(one)),
    });
    expect(checkOf(side, id)).toMatchObject({ outcome: "not-assessable", missing: [missing] });
    expect(side.missing).toContain(missing);
  });

  test.each(clear.map((row) => [row[0], row[1]] as const))(
    "without %s %s its condition is not assessable and names it",
    (placeId, finding) => {
      const findings = clear.filter((row) => !(row[0] === placeId && row[1] === finding));
      const ids = {
        patency: "access-open",
        "wall calcium": "access-calcium",
        "access repair": "access-unrepaired",
      } as Record<string, string>;
      const check = checkOf(rightOf({ ...whole, findings }), ids[finding] ?? "");
      expect(check?.outcome).toBe("not-assessable");
      expect(check?.missing).toHaveLength(1);
    },
  );

  test.each<[FindingRow, string]>([
    [["zone-10-right", "patency", "occluded"], "access-open"],
    [["zone-11-right", "wall calcium", "circumferential"], "access-calcium"],
    [["right-common-femoral-artery", "access repair", "bypass graft"], "access-unrepaired"],
    [["zone-10-right", "access repair", "stent"], "access-unrepaired"],
  ])("%s is not met and raises a question", (row, id) => {
    const findings = [...clear.filter((one) => one[0] !== row[0] || one[1] !== row[1]), row];
    const { sides, questions } = accessOf({ ...whole, findings });
    expect(sides[0]?.checks.find((check) => check.id === id)?.outcome).toBe("not-met");
    expect(questions.some(({ raisedBy }) => raisedBy.startsWith("right side:"))).toBe(true);
  });

  test("readers that differ leave the condition open", () => {
    const findings: FindingRow[] = [...clear, ["zone-10-right", "patency", "occluded"]];
    expect(checkOf(rightOf({ ...whole, findings }), "access-open")).toMatchObject({
      outcome: "not-assessable",
      missing: ["patency of the right common iliac artery (readers differ)"],
    });
  });

  test("the case sheet counts where no finding speaks: none, a graft in zone 10, a bypass", () => {
    const repair = (
      priorRepairs: { words: string; zones: string[]; kinds: ("graft" | "bypass")[] }[],
    ) =>
      checkOf(
        rightOf({ facts: { priorRepairs: priorRepairs.map((one) => ({ ...one, date: null })) } }),
        "access-unrepaired",
      )?.outcome;
    expect(repair([])).toBe("met");
    expect(
      repair([
        { words: "graft of zones 9 to 10", zones: ["9", "10-right", "10-left"], kinds: ["graft"] },
      ]),
    ).toBe("not-met");
    expect(repair([{ words: "bypass", zones: [], kinds: ["bypass"] }])).toBe("not-assessable");
  });

  test("both sides over the ratio raise one question for both; one side alone does not", () => {
    const both = accessOf({
      measurements: [...iliacs("right", [6, 6, 6]), ...iliacs("left", [6, 6, 6])],
    });
    const isForBoth = ({ raisedBy }: { raisedBy: string }) => raisedBy.startsWith("on both sides");
    expect(both.questions.filter(isForBoth)).toHaveLength(1);
    const one = accessOf({
      measurements: [...iliacs("right", [6, 6, 6]), ...iliacs("left", [9, 9, 9])],
    });
    expect(one.questions.filter(isForBoth)).toEqual([]);
  });

  test("without an inventory no sheath is judged, and that is missing", () => {
    const side = rightOf(whole, { inventory: null });
    expect(side.sheaths).toBeNull();
    expect(side.missing).toContain("the site's inventory, for the sheath sizes");
  });

  test("one entry a size, smallest first, with the rows that need it", () => {
    const inventory = [graft("B", 8, "24 Fr"), graft("A", 22 / 3, "22 Fr"), graft("C", 8, "24 Fr")];
    expect(rightOf(whole, { inventory }).sheaths).toMatchObject([
      { asWritten: "22 Fr", rows: ["A"] },
      { asWritten: "24 Fr", rows: ["B", "C"] },
    ]);
  });

  test("a site's own ratio stands first, the published ones beside it", () => {
    const ids = (sheathRatio: number) =>
      rightOf(whole, { planning: { ...noSiteConfig.planning, sheathRatio } })
        .sheaths?.[0]?.checks.filter(({ id }) => id.startsWith("sheath-ratio"))
        .map(({ id }) => id);
    expect(ids(1.1)).toEqual(["sheath-ratio-of-site", "sheath-ratio-1-05", "sheath-ratio-1-45"]);
    expect(ids(1.45)).toEqual(["sheath-ratio-1-45", "sheath-ratio-1-05"]);
  });
});
