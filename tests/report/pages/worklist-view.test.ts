import { readFileSync } from "node:fs";
import Handlebars from "handlebars";
import { describe, expect, test } from "vitest";
import { worklistOf, worklistsOf } from "../../../src/planning/worklists/completeness.ts";
import { procedures } from "../../../src/planning/worklists/worklists.ts";
import { measuredCaseOf, worklistBasisOf } from "../../../src/report/measured-case.ts";
import { type WorklistView, worklistViews } from "../../../src/report/pages/worklist-view.ts";
import {
  type PlanWorklist,
  planWorklist,
  worklistSchema,
} from "../../../src/report/worklist-schema.ts";
import { htmlText } from "../html-text.ts";
import { samplePlan } from "../sample-plan.ts";
import { missingPaths } from "../template-paths.ts";

type Missing = PlanWorklist["missing"][number];
const row = (what: string[], rest: Partial<Missing> = {}): Missing => ({
  what,
  where: "zone 2",
  form: "measurements",
  state: "not measured",
  date: null,
  lacks: null,
  why: ["graft diameters at the proximal end"],
  opens: 1,
  opensAlone: 0,
  used: [],
  ...rest,
});
const worklist = (missing: Missing[], procedure = "zone 2"): PlanWorklist => ({
  procedure,
  label: `stent graft from ${procedure}`,
  measured: 3,
  missingItems: missing.flatMap(({ what }) => what).length,
  notNeeded: 4,
  missing,
});
const viewOf = (...worklists: PlanWorklist[]): WorklistView => {
  const view = worklistViews(worklists, "INVENTED-1");
  if (!view) throw new Error("no worklist");
  return view;
};
const places = (count: number): string[] =>
  Array.from({ length: count }, (_, index) => `place ${index + 1}`);
/** Rows that nothing joins: each lacks something else. */
const rowsApart = (count: number): Missing[] =>
  places(count).map((where, index) =>
    row(["area", "perimeter"], { where, lacks: `reason ${index}` }),
  );

const template = readFileSync("templates/partials/worklist.hbs", "utf8");
const pageOf = (worklists: WorklistView | null): string =>
  htmlText(Handlebars.compile(template)({ sectionTag: "h2", itemTag: "h3", worklists }));

describe("the section of what is still to be measured", () => {
  test("says in one line for each procedure how many of the needed items are measured", () => {
    const view = viewOf(worklist([row(["area", "perimeter"])]), worklist([], "zone 3"));
    expect(view.counts).toEqual([
      "Zone 2 (stent graft from zone 2): 3 of 5 items measured, 4 not needed here.",
      "Zone 3 (stent graft from zone 3): 3 of 3 items measured, 4 not needed here.",
    ]);
    expect(view.more).toBeNull();
  });

  test("a label that only repeats the procedure is not said twice", () => {
    const view = viewOf({ ...worklist([], "frozen trunk"), label: "frozen trunk" });
    expect(view.counts).toEqual(["Frozen trunk: 3 of 3 items measured, 4 not needed here."]);
  });

  test("an item that several procedures lack stands once, with the checks of all of them summed", () => {
    const area = { where: "zone 5", opens: 2, opensAlone: 1 };
    const { rows } = viewOf(
      worklist([row(["area"], area)]),
      worklist([row(["area"], { ...area, opens: 3 })], "zone 3"),
      worklist([row(["angle"])], "access"),
      worklist([], "open descending"),
    );
    expect(rows.map((one) => [one.what, one.opens, one.opensAlone, one.procedures])).toEqual([
      ["Area", 5, 2, "zones 2, 3"],
      ["Angle", 1, 0, "access"],
    ]);
  });

  test("the procedures are named by the shorter of what needs it and what does not", () => {
    const all = ["zone 0", "hybrid type I", "open arch", "access"];
    const needs = (own: string[]) =>
      viewOf(...all.map((id) => worklist(own.includes(id) ? [row(["area"])] : [], id))).rows[0]
        ?.procedures;
    expect(needs(all)).toBe("all");
    expect(needs(["zone 0", "hybrid type I", "open arch"])).toBe("all but access");
    expect(needs(["open arch"])).toBe("open arch");
    expect(viewOf(worklist([row(["area"])])).rows[0]?.procedures).toBe("zone 2");
  });

  test("first stands what is the last thing that a check lacks, then what most checks lack", () => {
    const { rows } = viewOf(
      worklist([
        row(["perimeter"], { opens: 1 }),
        row(["area"], { opens: 9 }),
        row(["angle"], { opens: 2, opensAlone: 2 }),
      ]),
    );
    expect(rows.map(({ what }) => what)).toEqual(["Angle", "Area", "Perimeter"]);
  });

  test("alike items of one place, and one set of items at several places, share a row", () => {
    const wheres = ["proximal edge of the coeliac artery", "distal edge of the coeliac artery"];
    const { rows } = viewOf(
      worklist(
        [...wheres, "zone 5"].map((where) =>
          row(["smallest diameter, inner edge", "area, inner edge"], { where }),
        ),
      ),
    );
    expect(rows.map(({ what, where }) => [what, where])).toEqual([
      ["Smallest diameter, area, inner edge", "both edges of coeliac; zone 5"],
    ]);
  });

  test("stations are asked for in words, not by the columns of a sheet", () => {
    const stations = "stations every 10 mm with";
    const { rows } = viewOf(
      worklist([
        row([`${stations} x_mm, y_mm, z_mm, axes, patient_position`], { opens: 3 }),
        row([`${stations} perimeter_mm, area_mm2, true lumen`], { opens: 2 }),
        row(["arch_variant"]),
      ]),
    );
    expect(rows.map(({ what }) => what)).toEqual([
      "Points in space every 10 mm",
      "Perimeter, area, true lumen every 10 mm",
      "Arch variant",
    ]);
  });

  test("a state says why what was found does not count, and the exam once where it is one", () => {
    const exam = "(exam of 2026-01-12)";
    const missing = [
      row(["a"], {
        lacks: `no perimeter_mm at 8 of 9 stations; no area_mm2 at 8 of 9 stations ${exam}`,
      }),
      row(["b"], { lacks: `measured, lumen not stated; measured, edge outer ${exam}` }),
      row(["c"], { state: "out of date", date: "2025-01-02", lacks: "not in the latest exam" }),
      row(["d"]),
    ];
    const one = viewOf(worklist(missing));
    expect(one.exam).toBe("2026-01-12");
    expect(one.rows.map(({ state }) => state)).toEqual([
      "not measured: no perimeter, area at 8 of 9 stations",
      "measured, but lumen not stated, edge outer",
      "out of date, 2025-01-02: not in the latest exam",
      "not measured",
    ]);
    const other = row(["e"], { lacks: "measured, edge outer (exam of 2025-11-30)" });
    const two = viewOf(worklist([...missing, other]));
    expect(two.exam).toBeNull();
    expect(two.rows.at(1)?.state).toBe(
      "measured, but lumen not stated, edge outer (exam of 2026-01-12)",
    );
  });

  test("after twelve rows it says how many items are left, and how to print them", () => {
    const view = viewOf(worklist(rowsApart(14)), worklist(rowsApart(3), "zone 3"));
    expect(view.rows).toHaveLength(12);
    expect(view.more).toBe(
      '4 more items; all of one procedure on a blank sheet: aortic-packet sheet --patient "INVENTED-1" --for "zone 2".',
    );
    const both = viewOf(worklist(rowsApart(14)), worklist(rowsApart(14), "zone 3"));
    expect(both.more).toMatch(/--for "zone 2"; likewise for "zone 3"\.$/);
    expect(viewOf(worklist(rowsApart(12))).more).toBeNull();
  });

  test("alike items of one place stand in one row of the report, and each in one row only", () => {
    const measured = measuredCaseOf(samplePlan);
    for (const list of worklistsOf(procedures, measured, worklistBasisOf(samplePlan))) {
      const { missing, missingItems } = planWorklist(list);
      const named = missing.flatMap(({ what, where }) => what.map((one) => `${one}: ${where}`));
      expect(named.toSorted()).toEqual(list.missing.map(({ what }) => what).toSorted());
      expect(named.length).toBe(missingItems);
      const weights = missing.map(({ opens, opensAlone }) => opensAlone * 1000 + opens);
      expect(weights).toEqual(weights.toSorted((a, b) => b - a));
    }
  });

  test("shown and left items add up to all that is missing, each counted once", () => {
    const measured = measuredCaseOf(samplePlan);
    const lists = worklistsOf(procedures, measured, worklistBasisOf(samplePlan)).map(planWorklist);
    const items = new Set(
      lists.flatMap(({ missing }) =>
        missing.flatMap(({ what, where, form }) => what.map((one) => [one, where, form].join("|"))),
      ),
    );
    // One thing at one place to each row, so that a row is an item.
    const apart = [...items].map((key, index) =>
      row([key], { where: `place ${index}`, opens: index + 1 }),
    );
    const { rows, more } = viewOf(worklist(apart));
    expect(rows).toHaveLength(12);
    expect(more).toContain(`${items.size - 12} more items`);
    const sums = viewOf(...lists).rows.map(({ opens, opensAlone }) => opensAlone * 1000 + opens);
    expect(sums).toEqual(sums.toSorted((a, b) => b - a));
  });

  test("a worklist of a report fits its schema, and the template finds all that it asks for", () => {
    const measured = measuredCaseOf(samplePlan);
    const basis = worklistBasisOf(samplePlan);
    const together = worklistsOf(procedures, measured, basis);
    expect(together).toEqual(procedures.map((one) => worklistOf(one, measured, basis)));
    const lists = together.map(planWorklist);
    for (const list of lists) expect(worklistSchema.parse(list)).toEqual(list);
    const worklists = viewOf(...lists);
    const view = { sectionTag: "h2", itemTag: "h3", worklists };
    expect(missingPaths("worklist", view, new Map([["worklist", template]]), new Set())).toEqual(
      [],
    );
    const page = pageOf(worklists);
    for (const line of worklists.counts) expect(page).toContain(line);
    for (const { what, where, state, opens } of worklists.rows)
      for (const cell of [what, where, state, String(opens)]) expect(page).toContain(cell);
    expect(page).toContain("Checks that wait");
    expect(page).toContain("Needed by");
    expect(page).not.toMatch(/_mm\b|_deg\b/);
  });

  test("where nothing is missing, and where no procedure is asked for, it says so", () => {
    const page = pageOf(viewOf(worklist([])));
    expect(page).toContain("3 of 3 items measured");
    expect(page).toContain("Nothing is missing.");
    expect(worklistViews([], "INVENTED-1")).toBeNull();
    expect(pageOf(null)).toContain("No worklist was asked for.");
  });
});
