import { cpSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { afterAll, describe, expect, test } from "vitest";
import { access } from "../../../src/planning/access/access.ts";
import type { InventoryRow } from "../../../src/readers/csv/inventory.ts";
import { accessSchema } from "../../../src/report/access-schema.ts";
import { accessView } from "../../../src/report/pages/access-view.ts";
import { loadTemplates } from "../../../src/report/template-engine.ts";
import { noSiteConfig } from "../../../src/site/site-config.ts";
import { asOf, graft, iliacs, inventedCase, reading } from "../../planning/access/access-case.ts";
import { htmlText } from "../html-text.ts";

const folder = mkdtempSync(join(tmpdir(), "access-"));
afterAll(() => rmSync(folder, { recursive: true }));
cpSync("templates/partials", join(folder, "partials"), { recursive: true });
writeFileSync(join(folder, "page.hbs"), "{{> access}}");
const render = loadTemplates(pathToFileURL(`${folder}/`));

const inventory = [graft("G1", 22 / 3, "22 Fr"), graft("G2", 8, "8.0 mm")];
function viewOf(
  stated: Parameters<typeof inventedCase>[0],
  rows: readonly InventoryRow[] | null = inventory,
) {
  const result = access(inventedCase(stated), {
    asOf,
    inventory: rows,
    planning: noSiteConfig.planning,
    readingSdMmOf: () => 0.25,
    stationSdMmOf: () => 0.25,
  });
  // The schema takes what is computed as it is.
  expect(accessSchema.parse(result)).toEqual(result);
  return accessView(accessSchema.parse(result));
}
const textOf = (view: object): string =>
  htmlText(render("page", { ...view, sectionTag: "h2", itemTag: "h3" }));

const rich = { measurements: [...iliacs("right", [9, 7.5, 8.5]), reading("zone-11-left", 6)] };

const cellsOf = (view: ReturnType<typeof viewOf>, label: string): string[] | undefined =>
  view.accessRows.find((row) => row.label === label)?.cells;

describe("the view of the access", () => {
  test("the sizes of both sides stand side by side, each with its error", () => {
    const view = viewOf(rich);
    expect(view.accessSides).toEqual(["Right", "Left"]);
    expect(cellsOf(view, "Narrowest")).toEqual([
      "7.5 mm (±\u00a00.5), external iliac artery",
      "at most 6.0 mm (±\u00a00.5), external iliac artery; the way is not measured whole, so that it can only show that a sheath is too large",
    ]);
    const [right, left] = cellsOf(view, "External iliac artery") ?? [];
    expect(right).toMatch(/^7\.5 mm \(±\u00a00\.5\), inner edge, /);
    expect(left).toMatch(/^6\.0 mm \(±\u00a00\.5\), inner edge, /);
    expect(cellsOf(view, "Common iliac artery")?.[1]).toBe("not measured");
  });

  test("a diameter that is not stated to be the least is an upper bound, and says so", () => {
    const stretch = {
      id: "common iliac" as const,
      label: "right common iliac artery",
      lumenMm: { value: 14.2, low: 12.4, high: 16 },
      isLeast: false,
      areaMm2: null,
      words: "a diameter that is not stated to be the least 14.2 mm, outer edge, 2026-01-12",
      used: [],
      areaUsed: [],
      missing: "least lumen diameter of the right common iliac artery",
    };
    const side = {
      side: "right" as const,
      stretches: [stretch],
      unplaced: null,
      narrowest: null,
      largestGapMm: null,
      internalIliac: { words: "not stated", used: [] },
      checks: [],
      sheaths: null,
      missing: [stretch.missing],
    };
    expect(
      cellsOf(accessView({ sides: [side], questions: [], statements: [] }), "Common iliac artery"),
    ).toEqual([
      "at most 14.2 mm (±\u00a01.8), a diameter that is not stated to be the least, outer edge, 2026-01-12",
    ]);
  });

  test("a row for each size of sheath: ratio with its interval, marks in words, for each side", () => {
    const table = viewOf(rich).accessSheaths;
    expect(table?.rows.map(({ size, rows, cells }) => [size, rows, cells[0]?.ratio])).toEqual([
      ["22 Fr (7.3 mm)", "G1", "0.978 (0.918 to 1.046)"],
      ["8.0 mm", "G2", "1.067 (1.001 to 1.141)"],
    ]);
    expect(table?.rows[1]?.cells[1]?.ratio).toBe("at least 1.333");
    const marks = table?.rows[1]?.cells[0]?.marks.map(
      ({ limit, mark, more }) => `${limit} ${mark.word}${more}`,
    );
    expect(marks).toEqual(["<= 1.05 not met ±"]);
  });

  test("an outcome that all sizes of a side share is said once, and none is lost", () => {
    const table = viewOf(rich).accessSheaths;
    const every = table?.every?.map(({ marks }) =>
      marks.map(({ limit, mark }) => `${limit} ${mark.word}`),
    );
    expect(every?.[0]).toEqual([
      "<= 1.45 met",
      "area <= 1.35 can't be judged",
      "table >= 8 mm not met",
    ]);
    // Four limits, on each side either shared by all sizes or beside every one of them.
    for (const side of [0, 1])
      expect(
        (table?.every?.[side]?.marks.length ?? 0) +
          (table?.rows[0]?.cells[side]?.marks.length ?? 0),
      ).toBe(4);
  });

  test("what is unknown on both sides is said once, the rest by side", () => {
    const [both, some] = viewOf(rich).accessUnknown;
    expect(both?.label).toBe("Unknown on both sides");
    expect(both?.cells).toHaveLength(1);
    expect(both?.cells[0]?.text).toContain(
      "patency of the common iliac, external iliac, common femoral, internal iliac artery",
    );
    expect(some?.cells.map(({ text }) => text)).toEqual([
      "nothing more",
      "least lumen diameter of the common iliac, common femoral artery",
    ]);
  });

  test("a condition that both sides answer alike is one cell", () => {
    const { accessChecks } = viewOf(rich);
    const open = accessChecks.find(({ label }) => label === "No occlusion on the way");
    expect(open?.cells.map(({ span, mark, reason }) => [span, mark.word, reason])).toEqual([
      [2, "can't be judged", "All stretches: not stated."],
    ]);
    const conduit = accessChecks[0];
    expect(conduit?.cells.map(({ span, mark }) => [span, mark.word])).toEqual([
      [1, "met"],
      [1, "not met"],
    ]);
  });

  test("the page holds both sides, the limits with numbered sources and the statements", () => {
    const view = viewOf(rich);
    const text = textOf(view);
    expect(text).toContain("Least diameter Right Left");
    expect(text).toContain("diameter at most 1.05 [1]");
    expect(text).toMatch(/not met ±/);
    expect(text).toContain("Neither side is picked");
    for (const { note, text: source } of view.accessSources) {
      expect(text).toContain(`${note} ${source}`);
    }
    expect(text).toContain("class 1, level B-NR");
    expect(text).toContain("not confirmed against the source");
  });

  test("a question names the fact that raised it", () => {
    const view = viewOf({
      measurements: [...iliacs("right", [6, 6, 6]), ...iliacs("left", [6, 6, 6])],
    });
    expect(textOf(view)).toContain(
      "raised by: on both sides not outer sheath over least lumen diameter at most 1.05: 22 Fr (G1); 8.0 mm (G2)",
    );
  });

  test("without numbers and without an inventory the page says so", () => {
    const text = textOf(viewOf({}, null));
    expect(text).toContain("No inventory is named in the site file");
    expect(text).toContain("Narrowest not measured not measured");
    expect(text).not.toContain("Outer sheath over least lumen");
  });
});
