import { describe, expect, test } from "vitest";
import { sizing, type SizingInput } from "../../../src/planning/sizing/sizing.ts";
import { sizingSchema } from "../../../src/report/sizing-schema.ts";
import {
  aneurysmInput,
  dissectionInput,
  inventedDissection,
  round,
  row,
  section,
} from "./sizing-samples.ts";

const walls = (
  proximal: Partial<SizingInput["walls"]["proximal"]>,
  distal: Partial<SizingInput["walls"]["distal"]>,
): SizingInput["walls"] => ({
  proximal: { wall: "native", isDissected: false, ...proximal },
  distal: { wall: "native", isDissected: false, ...distal },
});

test("with everything known nothing is missing, in aneurysm and in dissection", () => {
  expect(sizing(aneurysmInput()).missing).toEqual([]);
  expect(sizing(dissectionInput()).missing).toEqual([]);
});

describe("each input that is taken away is named", () => {
  const trueLumen = section({ lumen: "true", perimeterMm: 69.039338, areaMm2: 282.7433 });
  test.each<[string, SizingInput, string, keyof ReturnType<typeof sizing> | null]>([
    [
      "proximal sections",
      aneurysmInput({ proximal: [] }),
      "a section of the whole lumen at the proximal end",
      "tapers",
    ],
    [
      "distal sections",
      aneurysmInput({ distal: [] }),
      "a section of the whole lumen at the distal end",
      "tapers",
    ],
    [
      "the perpendicular diameter",
      aneurysmInput({ proximal: [section({ maximumMm: 32 })] }),
      "reference diameter at the proximal end, invented place: the diameter perpendicular to the largest",
      "tapers",
    ],
    ["diagnoses", aneurysmInput({ diagnoses: null }), "diagnosis", "tapers"],
    [
      "the proximal wall",
      aneurysmInput({ walls: walls({ wall: "unclear: prior repair (or none)" }, {}) }),
      "the wall at the proximal end (prior repair (or none))",
      "tapers",
    ],
    [
      "the distal wall",
      aneurysmInput({ walls: walls({}, { wall: "unclear: prior repair (or none)" }) }),
      "the wall at the distal end (prior repair (or none))",
      "tapers",
    ],
    [
      "the aetiology",
      aneurysmInput({ aetiology: null }),
      "aetiology (a heritable disease raises a question of its own)",
      null,
    ],
    [
      "the coverage",
      aneurysmInput({ coverage: null }),
      "length to be covered, fabric edge to fabric edge",
      "pieces",
    ],
    ["the inventory", aneurysmInput({ inventory: null }), "inventory of the site", "pieces"],
    [
      "the onset date",
      dissectionInput({ onsetDate: null }),
      "onset date of the dissection (the onset date is not stated)",
      "tapers",
    ],
    [
      "whether the proximal end is dissected",
      dissectionInput({ walls: walls({ isDissected: null }, { isDissected: true }) }),
      "whether the wall at the proximal end is dissected",
      null,
    ],
    [
      "whether the distal end is dissected",
      dissectionInput({ distal: [round(30)], walls: walls({}, { isDissected: null }) }),
      "whether the wall at the distal end is dissected",
      "tapers",
    ],
    [
      "the true lumen",
      dissectionInput({ distal: [round(36)] }),
      "perimeter or area of the true lumen at the distal end",
      "tapers",
    ],
    [
      "perimeter and area of the true lumen",
      dissectionInput({
        distal: [section({ lumen: "true", maximumMm: 30, minimumMm: 12 }), round(36)],
      }),
      "reference diameter at the distal end, invented place: the perimeter or the area of the true lumen is not measured",
      "tapers",
    ],
    [
      "the whole aorta beside the true lumen",
      dissectionInput({ distal: [trueLumen] }),
      "size of the whole aorta at the distal end",
      null,
    ],
    [
      "perimeters in one section",
      dissectionInput({ distal: [trueLumen, section({ areaMm2: 1000 })] }),
      "perimeters of the true lumen and of the whole aorta in one section at the distal end",
      null,
    ],
    [
      "the true lumen at the proximal end",
      dissectionInput({ walls: walls({ isDissected: true }, { isDissected: true }) }),
      "true lumen at the proximal end",
      "tapers",
    ],
    [
      "one convention at both ends",
      dissectionInput({
        proximal: [section({ areaMm2: 700 })],
        distal: [section({ lumen: "true", perimeterMm: 69 }), round(36)],
      }),
      "perimeter, or area, of the true lumen at both ends alike",
      null,
    ],
  ])("%s", (_, input, named, emptied) => {
    const result = sizing(input);
    expect(result.missing).toContainEqual(expect.stringContaining(named));
    if (emptied) expect(result[emptied]).toEqual([]);
    expect(sizingSchema.parse(structuredClone(result))).toEqual(result);
  });

  test("what rests on nothing missing is still computed", () => {
    const result = sizing(aneurysmInput({ distal: [] }));
    expect(result.proximal.windows[0]?.interval?.graftLowMm).toBeCloseTo(35.2, 8);
    expect(result.inventory?.rows[0]?.distal.oversizing).toBeNull();
    expect(result.inventory?.answers[0]?.sentence).toContain("Not to be judged at the distal end");
    expect(result.pieces).not.toEqual([]);
  });
});

describe("references in a landing stretch", () => {
  test("the largest section sizes the end, the others stay visible", () => {
    const proximal = [
      round(31, { place: "near" }),
      round(32, { place: "far", used: ["M7"] }),
      section({ place: "alone", maximumMm: 40 }),
    ];
    const { proximal: end, missing } = sizing(aneurysmInput({ proximal }));
    expect(end.reference).toMatchObject({ place: "far", used: ["M7"] });
    expect(end.sections.map(({ place }) => place)).toEqual(["near", "far", "alone"]);
    expect(missing).toEqual([expect.stringContaining("at the proximal end, alone:")]);
  });

  test("the spread is told for a graft in the middle of the first window, else for the vessel's own size", () => {
    const axes = section({ maximumMm: 36, minimumMm: 24 });
    const inWindow = sizing(aneurysmInput({ proximal: [axes] })).proximal.spread;
    expect(inWindow).toMatchObject({ graftMm: 34.5, mm: expect.closeTo(0.9069, 4) });
    // 34.5 / 29.3939 - 34.5 / 30.3008 = 1.17371 - 1.13858 = 3.513 points.
    expect(inWindow?.points).toBeCloseTo(3.513, 2);
    const without = sizing(aneurysmInput({ proximal: [axes], diagnoses: ["coarctation"] }));
    expect(without.proximal.spread?.graftMm).toBe(30);
  });

  test("a lumen that is not stated is the whole one only where no dissection is spoken of and a diagnosis is stated", () => {
    const proximal = [round(32, { lumen: "unstated" })];
    expect(sizing(aneurysmInput({ proximal })).proximal.reference).not.toBeNull();
    const dissection = inventedDissection();
    for (const more of [{ diagnoses: null }, { dissection }]) {
      expect(sizing(aneurysmInput({ proximal, ...more })).proximal.reference).toBeNull();
    }
  });

  test("false lumens size nothing", () => {
    const distal = [round(40, { lumen: "false" })];
    expect(sizing(dissectionInput({ distal })).distal.reference).toBeNull();
  });

  test("an outer edge raises the question of the lumen", () => {
    const { questions } = sizing(aneurysmInput({ proximal: [round(32, { edge: "outer" })] }));
    expect(questions).toContainEqual({
      text: expect.stringContaining("between inner edges at the proximal end"),
      raisedBy: "invented place, outer edge",
      answeredBy: "imaging lab",
    });
  });
});

describe("windows", () => {
  test("all sources of a situation stand side by side, each with its interval", () => {
    const { proximal } = sizing(aneurysmInput());
    expect(
      proximal.windows.map(({ window, interval }) => [
        window.id,
        Number(interval?.graftLowMm.toFixed(2)),
        Number(interval?.graftHighMm.toFixed(2)),
      ]),
    ).toEqual([
      ["aneurysm-10-to-20", 35.2, 38.4],
      ["aneurysm-10-to-15", 35.2, 36.8],
      ["aneurysm-10-to-25", 35.2, 40],
      ["aneurysm-under-20", 32, 38.4],
      ["aneurysm-under-15", 32, 36.8],
    ]);
  });

  test("what lies surely inside: 32 mm read to 1 mm and 10 to 20 % is 33 x 1.1 = 36.3 to 31 x 1.2 = 37.2 mm", () => {
    const { proximal } = sizing(aneurysmInput({ proximal: [round(32, { errorMm: 1 })] }));
    expect(proximal.windows[0]?.interval?.surelyInsideLowMm).toBeCloseTo(36.3, 8);
    expect(proximal.windows[0]?.interval?.surelyInsideHighMm).toBeCloseTo(37.2, 8);
  });

  test("the window of the proximal diameter alone is not laid at the distal end", () => {
    const { proximal, distal } = sizing(
      dissectionInput({ distal: [round(27)], walls: walls({}, {}) }),
    );
    expect(proximal.windows.map(({ window }) => window.id)).toEqual([
      "acute-dissection-0-to-10",
      "acute-dissection-under-10",
    ]);
    expect(distal.windows.map(({ window }) => window.id)).toEqual(["acute-dissection-0-to-10"]);
  });

  test("a true or false lumen measured at the distal end shows that it is dissected; a statement that it is not stands", () => {
    const idsOf = (isDissected: boolean | null) =>
      sizing(dissectionInput({ walls: walls({}, { isDissected }) })).distal.situations.map(
        ({ id }) => id,
      );
    expect(idsOf(null)).toEqual(["true-lumen-end"]);
    expect(idsOf(false)).toEqual(["acute-dissection"]);
  });

  test("each end has the windows of its own wall, and its facts and questions", () => {
    const result = sizing(aneurysmInput({ walls: walls({ wall: "graft" }, {}) }));
    expect(result.proximal.windows.map(({ window }) => window.id)).toEqual([
      "surgical-graft-10-to-20",
    ]);
    expect(result.distal.windows).toHaveLength(5);
    expect(result.tapers).toHaveLength(5);
    expect(result.facts.some(({ text }) => text.includes("17 % (ascending"))).toBe(true);
    expect(result.questions[0]).toMatchObject({
      text: expect.stringContaining("not taken from its label"),
      raisedBy: "surgical graft, against its measured lumen",
    });
  });

  test("a row is laid against every window", () => {
    const { inventory } = sizing(aneurysmInput({ inventory: [row("G", 39, 34)] }));
    expect(inventory?.rows[0]?.both.map(({ proximal, outcome }) => [proximal, outcome])).toEqual([
      ["aneurysm-10-to-20", "not-met"],
      ["aneurysm-10-to-15", "not-met"],
      ["aneurysm-10-to-25", "met"],
      ["aneurysm-under-20", "not-met"],
      ["aneurysm-under-15", "not-met"],
    ]);
  });
});

describe("one straight graft for both ends", () => {
  const checkOf = (proximalMm: number, distalMm: number, errorMm = 0) =>
    sizing(
      aneurysmInput({
        proximal: [round(proximalMm, { errorMm })],
        distal: [round(distalMm, { errorMm, used: ["M2"] })],
      }),
    ).tapers[0];

  test("met exactly at 12 / 11, the limit of 10 to 20 %, and at its inverse", () => {
    expect(checkOf(36, 33)).toMatchObject({
      straight: { outcome: "met", used: ["M1", "M2"] },
      straightMm: { lowMm: expect.closeTo(39.6, 8), highMm: expect.closeTo(39.6, 8) },
    });
    expect(checkOf(33, 36)?.straight.outcome).toBe("met");
    expect(checkOf(36.01, 33)?.straight.outcome).toBe("not-met");
    expect(checkOf(33, 36.01)).toMatchObject({
      straight: { outcome: "not-met" },
      straightMm: null,
    });
  });

  test("a wider distal end needs a graft that widens: the needed difference lies below 0", () => {
    // 28 and 32 mm: 28 x 1.1 - 32 x 1.2 = -7.6; 28 x 1.2 - 32 x 1.1 = -1.6.
    expect(checkOf(28, 32)?.neededMm).toEqual({
      lowMm: expect.closeTo(-7.6, 8),
      highMm: expect.closeTo(-1.6, 8),
    });
  });

  test("the reading error that holds the limit is said", () => {
    expect(checkOf(32, 29.2, 1)?.straight).toMatchObject({ outcome: "not-met", spansLimit: true });
    expect(checkOf(32, 20, 1)?.straight.spansLimit).toBe(false);
    expect(checkOf(32, 1, 1)?.straight).toMatchObject({ spansLimit: true, value: { low: null } });
  });
});

describe("notes", () => {
  test("a heritable disease is a question where an end lies in native wall, and not in grafts alone", () => {
    const asks = (more: Partial<SizingInput>) =>
      sizing(aneurysmInput({ aetiology: "Marfan", ...more })).questions.some(({ raisedBy }) =>
        raisedBy.includes("Marfan"),
      );
    expect(asks({})).toBe(true);
    expect(asks({ walls: walls({ wall: "graft" }, { wall: "stent graft" }) })).toBe(false);
    expect(asks({ aetiology: "degenerative" })).toBe(false);
  });

  test("two pieces are a question with how many pairs raised it", () => {
    const inventory = [row("inner", 36, 36), row("outer", 32, 32)];
    const { piecePairs, questions } = sizing(aneurysmInput({ inventory }));
    expect(piecePairs).toHaveLength(1);
    expect(questions.at(-1)).toMatchObject({
      raisedBy: "pairs of inventory rows whose numbers lie in the windows: 1",
    });
  });

  test("where one row fits in one piece two pieces are listed and not asked about", () => {
    const { piecePairs, questions } = sizing(aneurysmInput());
    expect(piecePairs?.map(({ proximalRow }) => proximalRow)).toEqual(["G03", "G07"]);
    expect(questions.some(({ text }) => text.includes("two pieces"))).toBe(false);
    const coverage = { leastMm: 160, mostMm: 200 };
    const longer = sizing(aneurysmInput({ coverage }));
    expect(longer.questions.some(({ text }) => text.includes("two pieces"))).toBe(true);
  });

  test("without coverage or inventory there are no pairs, which is not the same as none", () => {
    expect(sizing(aneurysmInput({ coverage: null })).piecePairs).toBeNull();
    expect(sizing(aneurysmInput({ inventory: [] })).piecePairs).toEqual([]);
  });

  test("an aneurysm has no part on the true lumen", () => {
    expect(sizing(aneurysmInput()).trueLumen).toBeNull();
  });
});
