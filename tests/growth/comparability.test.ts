import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { placeById } from "../../src/anatomy/places.ts";
import type { Exam, PriorRepair } from "../../src/cases/patient-case.ts";
import { comparability, offsetBetween, type SeriesPoint } from "../../src/growth/comparability.ts";
import { publishedShift } from "../../src/growth/comparability-offsets.ts";
import { edgeIds, phaseIds, planeIds } from "../../src/quantities/measured-quantity.ts";

type Stated = Partial<Pick<SeriesPoint, "edge" | "plane" | "phase">> &
  Partial<Pick<Exam, "modality" | "gated">>;
const point = (
  imagingDate: string,
  { modality = "CT", gated = true, ...rest }: Stated,
): SeriesPoint => ({
  exam: { imagingDate, modality, gated } as Exam,
  valuesMm: [50],
  measurements: [],
  edge: "outer",
  plane: "perpendicular",
  phase: "diastole",
  ...rest,
});
const ascending = placeById("mid-ascending");
const root = placeById("sinuses-of-valsalva");
const compare = (one: Stated, other: Stated, place = ascending, repairs: PriorRepair[] = []) =>
  comparability(point("2024-01-10", one), [point("2026-01-12", other)], place, repairs);

const walls =
  "inner against outer edge (measured at the ascending aorta; two walls, Eur Radiol 2014;24:2038-44)";
const cycle =
  "(measured at the ascending aorta; Bons, Int J Cardiol; Ann Vasc Surg 2016;35:168-73)";
const ctMr =
  "CT against MR (measured at the root, not at this place; 127 patients 2007 to 2017, " +
  "Multimodality Assessment of Thoracic Aortic Dimensions)";

describe("the reasons, word for word, in the ascending aorta", () => {
  test.each([
    ["alike", {}, {}, "comparable", []],
    [
      "inner and outer edge",
      { edge: "inner" },
      {},
      "not-comparable",
      [
        "inner edge on 2024-01-10, outer edge on 2026-01-12: " +
          `a shift of 2.9 to 3.1 mm is as large as the growth looked for, ${walls}`,
      ],
    ],
    [
      "edge not stated once",
      { edge: "unstated" },
      {},
      "not-comparable",
      [
        "edge not stated on 2024-01-10, outer edge on 2026-01-12: " +
          `a shift of 2.9 to 3.1 mm is as large as the growth looked for, ${walls}`,
      ],
    ],
    [
      "edge not stated twice",
      { edge: "unstated" },
      { edge: "unstated" },
      "comparable",
      ["edge not stated"],
    ],
    [
      "axial and perpendicular plane",
      { plane: "axial" },
      {},
      "not-comparable",
      [
        "axial plane on 2024-01-10, perpendicular plane on 2026-01-12: " +
          "a shift of 1.4 to 3.3 mm is as large as the growth looked for, axial against perpendicular plane " +
          "(measured at seven places of the thoracic aorta; mean 2.4 mm, J Magn Reson Imaging Dec 2007, 1480-5)",
      ],
    ],
    [
      "plane not stated once",
      {},
      { plane: "unstated" },
      "comparable",
      ["perpendicular plane on 2024-01-10, plane not stated on 2026-01-12"],
    ],
    ["plane not stated twice", { plane: "unstated" }, { plane: "unstated" }, "comparable", []],
    [
      "ultrasound and CT",
      { modality: "US" },
      {},
      "not-comparable",
      [
        "US on 2024-01-10, CT on 2026-01-12: a shift of 0.4 to 8.2 mm is as large as the growth looked for, " +
          "ultrasound against CT or MR (measured at the root, not at this place; means 0.4 and 0.6 mm, 140 patients, " +
          "Multimodality Assessment of Ascending Aortic Diameters; 2 mm, Br J Radiol 2021;94:20201232; 4.8 to 8.2 mm, 127 patients 2007 to 2017)",
      ],
    ],
    ["ultrasound twice", { modality: "US" }, { modality: "US" }, "comparable", []],
    [
      "a modality without a published shift",
      { modality: "XA" },
      {},
      "not-comparable",
      ["XA on 2024-01-10, CT on 2026-01-12: how far they shift a size is not known"],
    ],
    [
      "MR and CT",
      { modality: "MR" },
      {},
      "comparable-with-offset",
      [`MR on 2024-01-10, CT on 2026-01-12: possible shift of 0.2 to 1.9 mm, ${ctMr}`],
    ],
    [
      "modality not stated once",
      { modality: null },
      {},
      "comparable",
      ["modality not stated on 2024-01-10, CT on 2026-01-12"],
    ],
    [
      "modality not stated twice",
      { modality: null },
      { modality: null },
      "comparable",
      ["modality not stated"],
    ],
    [
      "systole and diastole",
      { phase: "systole" },
      {},
      "comparable-with-offset",
      [
        "systole on 2024-01-10, diastole on 2026-01-12: " +
          `possible shift of 1.5 to 3.6 mm, systole against diastole ${cycle}`,
      ],
    ],
    [
      "phase not stated once",
      { phase: "unstated" },
      {},
      "comparable",
      ["cardiac phase not stated on 2024-01-10, diastole on 2026-01-12"],
    ],
    ["phase not stated twice", { phase: "unstated" }, { phase: "unstated" }, "comparable", []],
    [
      "gated and not gated",
      { gated: false },
      {},
      "comparable-with-offset",
      [
        "not ECG-gated on 2024-01-10, ECG-gated on 2026-01-12: possible shift of 1.5 to 3.6 mm, " +
          `with against without ECG gating, taken as within systole and diastole ${cycle}`,
      ],
    ],
    [
      "gating not stated once",
      {},
      { gated: null },
      "comparable",
      ["ECG-gated on 2024-01-10, ECG gating not stated on 2026-01-12"],
    ],
    ["gating not stated twice", { gated: null }, { gated: null }, "comparable", []],
  ] as [string, Stated, Stated, string, string[]][])("%s", (_, one, other, verdict, reasons) => {
    expect(compare(one, other)).toMatchObject({ verdict, reasons });
  });

  test("a repair between them", () => {
    const repair = { words: "invented", date: "2025", zones: ["0"], kinds: ["graft" as const] };
    expect(compare({}, {}, ascending, [repair])).toEqual({
      verdict: "not-comparable",
      reasons: ["graft at this place in 2025, day not stated"],
      offset: null,
    });
  });
});

describe("the possible shift", () => {
  test("CT against MR and the cardiac cycle add up; phase and gating are one movement", () => {
    const mr = { modality: "MR" };
    const sizeOf = (one: Stated) => {
      const { offset } = compare(one, {}, root);
      return offset && [offset.lowMm, offset.highMm];
    };
    expect(sizeOf({})).toBeNull();
    expect(sizeOf(mr)).toEqual([0.2, 1.9]);
    expect(sizeOf({ phase: "systole" })).toEqual([0, 5]);
    expect(sizeOf({ phase: "systole", gated: false })).toEqual([0, 5]);
    expect(sizeOf({ ...mr, gated: false })).toEqual([0, 6.9]);
  });

  test("there is none where the pair is not comparable", () => {
    expect(compare({ modality: "MR", edge: "inner" }, {}).offset).toBeNull();
  });

  test("two exams that are shifted alike are not shifted against each other", () => {
    const mr = [point("2023-01-10", { modality: "MR" }), point("2024-01-10", { modality: "MR" })];
    expect(offsetBetween(mr[0] as SeriesPoint, mr[1] as SeriesPoint, ascending)).toBeNull();
  });

  test("its source says where nobody measured it", () => {
    expect(publishedShift("phase", "descending").source).not.toContain("not at this place");
    expect(publishedShift("phase", "abdominal")).toEqual({
      ...publishedShift("phase", "descending"),
      source:
        "systole against diastole (measured at the descending aorta, not at this place; J Vasc Surg 2014;59:74-9)",
    });
    expect(publishedShift("edge", null)).toMatchObject({ lowMm: 2.9, highMm: 3.1 });
  });
});

describe("properties", () => {
  const stated = fc.record({
    edge: fc.constantFrom(...edgeIds),
    plane: fc.constantFrom(...planeIds),
    phase: fc.constantFrom(...phaseIds),
    modality: fc.constantFrom("CT", "MR", "US", "XA", null),
    gated: fc.constantFrom(true, false, null),
  });
  const place = fc
    .constantFrom("sinuses-of-valsalva", "mid-ascending", "zone-3", "zone-9")
    .map(placeById);
  const repairs = fc.array(
    fc.record({
      words: fc.constant("invented"),
      date: fc.constantFrom("2023", "2025", "2026-01", null),
      zones: fc.constantFrom<PriorRepair["zones"]>(["0"], ["3"], ["9"], null),
      kinds: fc.constant<PriorRepair["kinds"]>(["graft"]),
    }),
    { maxLength: 2 },
  );
  const rank = { comparable: 2, "comparable-with-offset": 1, "not-comparable": 0 };

  test("the verdict and the shift are the same from either side", () => {
    fc.assert(
      fc.property(stated, stated, place, repairs, (one, other, at, done) => {
        const [a, b] = [point("2024-01-10", one), point("2026-01-12", other)];
        const there = comparability(a, [b], at, done);
        const back = comparability(b, [a], at, done);
        expect(back.verdict).toBe(there.verdict);
        expect(back.offset).toEqual(there.offset);
        expect(back.reasons).toHaveLength(there.reasons.length);
      }),
    );
  });

  test("what is alike is comparable, and a verdict with a shift has one", () => {
    fc.assert(
      fc.property(stated, stated, place, (one, other, at) => {
        expect(compare(one, one, at).verdict).toBe("comparable");
        const { verdict, offset } = compare(one, other, at);
        expect(offset !== null).toBe(verdict === "comparable-with-offset");
      }),
    );
  });

  test("leaving an aspect unstated on one side is never more comparable than stating it alike", () => {
    const unstated = {
      edge: "unstated",
      plane: "unstated",
      phase: "unstated",
      modality: null,
      gated: null,
    } as const;
    const aspect = fc.constantFrom(...(Object.keys(unstated) as (keyof typeof unstated)[]));
    fc.assert(
      fc.property(stated, stated, aspect, place, (one, other, open, at) => {
        const alike = compare(one, { ...other, [open]: one[open] }, at);
        const once = compare(one, { ...other, [open]: unstated[open] }, at);
        expect(rank[once.verdict]).toBeLessThanOrEqual(rank[alike.verdict]);
        expect(once.reasons.length).toBeGreaterThanOrEqual(alike.reasons.length);
      }),
    );
  });
});
