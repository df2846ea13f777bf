import { describe, expect, test } from "vitest";
import type { GlanceCheck } from "../../../src/report/pages/glance-view.ts";
import { glanceView } from "../../../src/report/pages/glance-view.ts";

const check = (id: string, outcome: GlanceCheck["outcome"], value?: number): GlanceCheck => ({
  id,
  label: id.startsWith("same") ? "same words" : `label of ${id}`,
  source: `Body of ${id}, by a digest`,
  outcome,
  value: value === undefined ? null : { value, unit: "mm" },
  spansLimit: value === 20.5,
});

const view = glanceView([
  { heading: "Zone 1", stopped: "no zone 1 in this arch", groups: [] },
  {
    heading: "Zone 2",
    stopped: null,
    groups: [
      { title: "Landing", checks: [check("a", "met", 31.2), check("b", "not-assessable")] },
      {
        title: "Cord",
        checks: [check("d", "not-applicable"), check("same-1", "met"), check("same-2", "not-met")],
      },
    ],
  },
  {
    heading: "Zone 3",
    stopped: null,
    groups: [{ title: "Landing", checks: [check("a", "not-met", 20.5), check("c", "met")] }],
  },
]);
const texts = view.groups.flatMap(({ title, rows }) =>
  rows.map(({ label, cells }) => [
    title,
    label,
    ...cells.map((cell) => cell && [cell.mark.word, cell.value].filter(Boolean).join(" ")),
  ]),
);

describe("glanceView", () => {
  test("a row for each condition, a column for each zone; what is no condition of a zone is empty", () => {
    expect(view.columns).toEqual(["Zone 1", "Zone 2", "Zone 3"]);
    expect(texts).toEqual([
      ["Landing", "Label of a", "unknown", "holds 31.2 mm", "fails 20.5 mm ±"],
      ["Landing", "Label of b", "unknown", "unknown", null],
      ["Landing", "Label of c", "unknown", null, "holds"],
      ["Cord", "Label of d", "unknown", "not for this", null],
      ["Cord", "Same words (Body of same-1)", "unknown", "holds", null],
      ["Cord", "Same words (Body of same-2)", "unknown", "fails", null],
    ]);
  });

  test("holds, fails and unknown differ in shape, not only in word", () => {
    const shapes = view.groups[0]?.rows.flatMap(({ cells }) =>
      cells.flatMap((cell) => (cell ? [`${cell.mark.word} ${cell.mark.svg.markup}`] : [])),
    );
    const byWord = new Map(
      shapes?.map((text) => [text.split(" ")[0], text.split(" ").slice(1).join(" ")]),
    );
    expect(new Set(byWord.values()).size).toBe(byWord.size);
    expect(byWord.size).toBe(3);
  });
});
