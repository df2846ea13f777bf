import { describe, expect, test } from "vitest";
import { planningOf } from "../../../src/planning/planning.ts";
import type { SizingInput } from "../../../src/planning/sizing/sizing.ts";
import { sizingsView } from "../../../src/report/pages/sizings-view.ts";
import { basisOf, everyFive, lineCase, marks } from "../../planning/landing/sample-segments.ts";
import {
  aneurysmInput,
  dissectionInput,
  round,
  row,
  section,
} from "../../planning/sizing/sizing-samples.ts";
import { aneurysms, inventory, one, pair, textOf } from "../sample-sizings.ts";

describe("pairs", () => {
  test("windows that come to the same share a line and stay named; those of two ends stand as proximal/distal", () => {
    const walls = {
      proximal: { wall: "graft", isDissected: false },
      distal: { wall: "native", isDissected: false },
    } as const;
    const { sizingPairs } = sizingsView({ sizings: [pair("2", "5", aneurysmInput({ walls }))] });
    const named = sizingPairs[0]?.lines.flatMap(({ windows }) => windows.split(", "));
    expect(named?.toSorted()).toEqual(["W1/W2", "W1/W3", "W1/W4", "W1/W5", "W1/W6"]);
    const view = sizingsView({ sizings: [pair("2", "5", aneurysmInput({ proximal: [] }))] });
    expect(view.sizingPairs[0]?.lines).toEqual([
      {
        windows: "W1, W2, W3, W4, W5",
        rows: "proximal end not judged",
        taper: "not computed",
        straight: null,
      },
    ]);
  });

  test("rows inside only for the measured diameter, and rows outside only for it, are told apart", () => {
    const at = (graftMm: number) =>
      pair(
        "2",
        "5",
        aneurysmInput({
          proximal: [round(32, { errorMm: 1 })],
          inventory: [row("G", graftMm, 32)],
        }),
      );
    const rowsOf = (graftMm: number) =>
      sizingsView({ sizings: [at(graftMm)] }).sizingPairs[0]?.lines[0]?.rows;
    // 10 to 20 % of 32 mm: 35.2 to 38.4; of 31 to 33 mm, at widest 34.1 to 39.6, at narrowest 36.3 to 37.2.
    expect(rowsOf(37)).toBe("G");
    expect(rowsOf(36)).toBe("G ±");
    expect(rowsOf(39)).toBe("none; proximal nearest G 0.6 mm too large; out ±: G");
    expect(rowsOf(40)).toBe("none; proximal nearest G 1.6 mm too large");
  });

  test("pairs of rows are counted beyond the first three", () => {
    const many = [
      ...Array.from({ length: 4 }, (_, index) => row(`P${index}`, 36, 36)),
      row("D0", 32, 32),
    ];
    const text = textOf([pair("2", "5", aneurysmInput({ inventory: many }))]);
    expect(text).toContain("Two rows: P0 inside D0 (joint 12.5 %, up to 250.0 mm); P1 inside D0");
    expect(text).toContain("1 more pair in the plan file.");
  });

  test("a piece that is not longer than the overlap is said, not counted", () => {
    const text = textOf([pair("2", "5", aneurysmInput({ inventory: [row("G", 36, 32, 40)] }))]);
    expect(text).toContain(
      "Pieces of 40.0 mm: none, as a piece of 40 mm is not longer than the overlap of 50 mm (overlap 50.0 mm)",
    );
  });
});

describe("what is not known", () => {
  test("pieces need the length to be covered and an inventory", () => {
    const piecesOf = (more: Partial<SizingInput>) =>
      sizingsView({ sizings: [pair("2", "5", aneurysmInput(more))] }).sizingPairs[0]?.pieces;
    expect(piecesOf({ coverage: null })).toBe("Pieces not computed.");
    expect(piecesOf({ inventory: null })).toBe("Pieces not computed: the site names no inventory.");
    expect(piecesOf({ inventory: [] })).toBe("Pieces: the inventory has no row.");
  });

  test("a plan without sizings says why", () => {
    expect(textOf([])).toContain(
      "No end could be sized: no candidate zone has sizes where a proximal end would lie.",
    );
    expect(textOf([])).not.toContain("Unknown for sizing");
  });

  test("what is missing stands once, with the pairs that it is missing for where it is not all", () => {
    const text = textOf(aneurysms);
    expect(text).toContain("length to be covered, fabric edge to fabric edge [from zone 0]");
    expect(text).toContain("Without a distal end, sized at the proximal end alone: zone 0.");
    const without = aneurysmInput({ aetiology: null, inventory });
    const to5 = [
      pair("2", "4", aneurysmInput()),
      pair("2", "5", without),
      pair("3", "5", without),
      pair("3", "4", aneurysmInput()),
    ];
    const lacks = "aetiology (a heritable disease raises a question of its own)";
    expect(textOf(to5)).toContain(`Unknown for sizing: ${lacks} [to zone 5].`);
    expect(textOf(to5.slice(1, 3))).toContain(`Unknown for sizing: ${lacks}.`);
    const mixed = [
      pair("2", "4", without),
      pair("2", "5", aneurysmInput()),
      pair("3", "4", aneurysmInput()),
      pair("3", "5", without),
    ];
    expect(textOf(mixed)).toContain(`${lacks} [zone 2 to 4, zone 3 to 5]`);
    expect(textOf([pair("2", "5", aneurysmInput())])).toContain("Unknown for sizing: nothing.");
  });

  test.each([
    ["inventory", { inventory: null }, "The site names no inventory: no row was tested."],
    ["rows", { inventory: [] }, "The inventory has no row."],
    [
      "coverage",
      { coverage: null },
      "Zone 2 to zone 5 : length to be covered not known; vessel ratio 1.1429",
    ],
    [
      "proximal sections",
      { proximal: [] },
      "Proximal, zone 2 none: no section of the whole lumen there",
    ],
    ["diagnosis", { diagnoses: null }, "all: no window"],
    [
      "the perpendicular diameter",
      { proximal: [section({ maximumMm: 32 })] },
      "none: invented place: the diameter perpendicular to the largest",
    ],
  ])("%s", (_, more, said) => {
    expect(textOf([pair("2", "5", aneurysmInput(more))])).toContain(said);
  });

  test("an end without a reference keeps its windows and their sources, and no row stands against it", () => {
    const view = sizingsView({
      sizings: [pair("2", "5", aneurysmInput({ proximal: [], inventory }))],
    });
    expect(view.sizingWindowSources).toHaveLength(5);
    expect(view.sizingInventory[0]?.ends.map(({ label }) => label)).toEqual(["Distal, zone 5"]);
    const none = sizingsView({
      sizings: [pair("2", null, aneurysmInput({ proximal: [], distal: [] }))],
    });
    expect(none.sizingWindows).toBeNull();
    expect(none.sizingInventory).toEqual([]);
  });
});

describe("distal end in the true lumen", () => {
  test("a true lumen without perimeter or area is said, not reckoned", () => {
    const without = [section({ lumen: "true", maximumMm: 30, minimumMm: 12 })];
    const text = textOf([
      pair("2", "5", dissectionInput({ distal: without, inventory: [row("G", 30, 30)] })),
    ]);
    expect(text).toContain("the perimeter or the area of the true lumen is not measured");
    expect(text).toContain(
      "5 G 30.0 not computed not computed not computed not computed can't be judged",
    );
    expect(text).toMatch(
      /Taper of the true lumen, zone 2 to 5: Not measured: .*can't be judged <= 25 %/,
    );
  });
});

describe("sizings of a whole case with a centreline", () => {
  test("each end of an invented aorta stands once, with the pairs that its stretches allow", () => {
    const isWide = (mm: number): boolean => mm >= 120 && mm < 180;
    const stations = [
      ...marks,
      ...everyFive((mm) => ({
        maximumMm: isWide(mm) ? 60 : mm < 120 ? 32 : 29,
        minimumMm: isWide(mm) ? 58 : mm < 120 ? 31 : 28,
      })),
    ];
    const patientCase = lineCase(stations, { diagnoses: ["descending thoracic aneurysm"] });
    const { sizings, coverages } = planningOf(patientCase, { ...basisOf(), inventory });
    const view = sizingsView({ sizings });
    expect(coverages.length).toBeGreaterThan(2);
    expect(view.sizingPairs.map(({ heading }) => heading)).toEqual(
      coverages.map(({ fromZone, toZone }) => `Zone ${fromZone} to zone ${toZone}`),
    );
    for (const [index, { leastMm, mostMm }] of coverages.entries()) {
      expect(view.sizingPairs[index]?.covered).toContain(
        `covers ${one(leastMm)} to ${one(mostMm)} mm`,
      );
    }
    const labels = view.sizingEnds.map(({ label }) => label);
    expect(new Set(labels).size).toBe(labels.length);
    const text = textOf(sizings);
    expect(text).toContain("Proximal, zone 2 31.5 mm (± 2.0), mean");
    expect(text).toContain("Distal, zone 5 28.5 mm (± 2.0), mean");
  });
});
