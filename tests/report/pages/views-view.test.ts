import { copyFileSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { afterAll, describe, expect, test } from "vitest";
import type { RingAngles } from "../../../src/report/pages/ring-angles-view.ts";
import { viewsView } from "../../../src/report/pages/views-view.ts";
import { loadTemplates } from "../../../src/report/template-engine.ts";
import type { PlanViews } from "../../../src/report/views-schema.ts";
import { landingViews } from "../../../src/planning/views/landing-views.ts";
import { caseWith, viewBasis } from "../../planning/views/sample-lines.ts";
import { htmlText } from "../html-text.ts";
import { sampleViews } from "../sample-views.ts";

const folder = mkdtempSync(join(tmpdir(), "views-"));
afterAll(() => rmSync(folder, { recursive: true }));
mkdirSync(join(folder, "partials"));
for (const partial of ["views.hbs", "raw.hbs"])
  copyFileSync(
    new URL(`../../../templates/partials/${partial}`, import.meta.url),
    join(folder, "partials", partial),
  );
writeFileSync(join(folder, "page.hbs"), "{{> views}}");
const render = loadTemplates(pathToFileURL(`${folder}/`));
const page = (views: PlanViews): string =>
  htmlText(render("page", { ...viewsView(views, "p-"), sectionTag: "h2", itemTag: "h3" }));

const view = (views: PlanViews) => viewsView(views, "p-");
const rowOf = (views: PlanViews) => view(views).ringRows[0]!;
const ofSample = () => ({ ring: sampleViews().rings[0]!, sample: sampleViews() });

describe("section of the views", () => {
  test("a ring with its place, diameter and tilt; exam and position once for all rings", () => {
    const { ringsLie, ringRows } = view(sampleViews());
    expect(ringsLie).toBe("border, 2026-03-02, lying HFS (site file, invented lab)");
    expect(ringRows[0]).toMatchObject({
      ring: "Distal edge of the left common carotid artery",
      aside: "",
      at: "20.0",
      diameter: "30.0 (±\u00a02.0)",
      // arcsin(2 / 30) = 3.82 degrees.
      allowedTilt: "3.8",
    });
  });

  test("rings of two exams each say how they lie, and carry their date", () => {
    const { ring, sample } = ofSample();
    const { ringsLie, ringRows } = view({
      ...sample,
      rings: [ring, { ...ring, date: "2026-04-01" }],
    });
    expect(ringsLie).toBeNull();
    expect(ringRows.map(({ ring: name, aside }) => [name, aside])).toEqual([
      [
        "Distal edge of the left common carotid artery, 2026-03-02",
        "border, 2026-03-02, lying HFS (site file, invented lab)",
      ],
      [
        "Distal edge of the left common carotid artery, 2026-04-01",
        "border, 2026-04-01, lying HFS (site file, invented lab)",
      ],
    ]);
  });

  test("angles in whole degrees with the words of the trade, and whether they are in reach", () => {
    expect(rowOf(sampleViews()).nearest).toEqual(["LAO 54° / cranial 26° (±\u00a00°), within"]);
    expect(rowOf(sampleViews()).withoutTilt).toBe("LAO 62° / 0° (±\u00a00°), within");
    const steep = rowOf(sampleViews([0.1, 0.9, 0.4]));
    expect(steep.nearest[0]).toContain("beyond");
    expect(steep.nearest[1]).toContain("the same within reach: ");
    expect(steep.nearest[1]).toContain("cranial 45°");
    expect(rowOf(sampleViews([0, 1, 0])).nearest[0]).toBe(
      "none: the vessel runs from front to back",
    );
  });

  test("the tables hold every step to the side, in two columns, and every common view", () => {
    const [{ family, displacement }] = view(sampleViews()).ringAngles as [RingAngles];
    expect(family.map((column) => column.length)).toEqual([7, 6]);
    expect(family.flat()[10]).toEqual({
      primary: "LAO 60°",
      secondary: "cranial 7° ±\u00a00°",
      reach: "within",
    });
    // 30 mm seen from LAO 45 at a tilt of 16.45 degrees: 8.49 mm; 20 mm seen as 19.18.
    expect(displacement[2]).toEqual({
      view: "LAO 45° / 0°",
      tilt: "16.4",
      apart: "8.5 (±\u00a00.6)",
      shown: "19.2",
    });
    expect(displacement).toHaveLength(6);
  });

  test("what the axes of several rings share is said once", () => {
    const { ring, sample } = ofSample();
    const axisOf = (scatter: string) => ({
      ...ring.axis!,
      method: `line through the points within 10 mm of 20.0 mm; scatter ${scatter}`,
    });
    const { axesShare, ringAngles } = view({
      ...sample,
      rings: [
        { ...ring, axis: axisOf("1.0°") },
        { ...ring, label: "another edge", axis: axisOf("2.0°") },
      ],
    });
    expect(axesShare).toBe("line through the points within 10 mm of the ring");
    expect(ringAngles.map(({ aside }) => aside)).toEqual([
      expect.stringContaining("axis: scatter 1.0°"),
      expect.stringContaining("axis: scatter 2.0°"),
    ]);
  });

  test("a position that is not stated leaves the bend and takes the angles, with the reason", () => {
    const found = view(sampleViews(undefined, null));
    expect(found.ringAngles).toEqual([]);
    expect(found.ringsLie).toContain("position not stated");
    expect(found.ringRows[0]?.nearest).toEqual(["can't be told"]);
    expect(found.bendRows[0]).toMatchObject({ reach: "20.0 to 40.0", turn: "0.0" });
    expect(found.ringGaps).toContainEqual({
      rings: "Distal edge of the left common carotid artery",
      what: "C-arm angles",
      missing: expect.stringContaining("how the patient lay in the scanner (patient position"),
    });
  });

  test("rings that lack the same share a row, and branches that lack the same of each", () => {
    const { ring, sample } = ofSample();
    const lacks = (branch: string) => ({
      what: `view of the origin of the ${branch} in profile`,
      missing: `course of the ${branch} in patient coordinates`,
    });
    const notAssessable = [lacks("innominate artery"), lacks("left subclavian artery")];
    const { ringGaps } = view({
      ...sample,
      rings: ["1", "2"].map((zone) => ({
        ...ring,
        label: `proximal edge in zone ${zone}`,
        notAssessable,
      })),
    });
    expect(ringGaps).toEqual([
      {
        rings: "Proximal edge in zone 1, 2",
        what: "View of the origin in profile: innominate, left subclavian artery",
        missing: "course of the branch in patient coordinates",
      },
    ]);
  });

  test("the bends of all rings in one table: each number with its error", () => {
    const { ring, sample } = ofSample();
    const range = (value: number) => ({ value, low: value - 1, high: value + 1 });
    const stretch = {
      ...ring.stretch!,
      meanRadiusMm: 34.2,
      leastRadiusMm: 32.8,
      sides: { innerMm: range(21.3), outerMm: range(54.6), differenceMm: range(33.3) },
    };
    const { bendRows } = view({ ...sample, rings: [{ ...ring, stretch, edge: null }] });
    expect(bendRows[0]?.radius).toEqual(["34.2", "least 32.8"]);
    expect(bendRows[0]?.sides).toEqual([
      "inner 21.3 (±\u00a01.0)",
      "outer 54.6 (±\u00a01.0)",
      "apart 33.3 (±\u00a01.0)",
    ]);
    expect(bendRows[0]?.gaps).toEqual(["–"]);
  });

  test("the page prints tables, warnings and sources", () => {
    const text = page(sampleViews());
    expect(text).toContain("Views and bends at the landing rings");
    expect(text).toContain("LAO 75° caudal 38°");
    expect(text).toContain("Origin of the left common carotid artery in profile");
    expect(text).toContain("confirm it on the table with the wire in place");
    expect(text).toContain("2.3 ± 1.1 mm from the real one (14 patients). [");
    expect(text).toContain("30 mm of depth at 750 mm from the source shift by 2.0 mm");
    expect(text).toContain("45° to head and foot. [");
    for (const { note, text: source } of view(sampleViews()).viewSources)
      expect(text).toContain(`${note} ${source}.`);
    expect(text).toContain("common practice, no source");
    expect(text).not.toContain("NaN");
  });

  test("without any ring the page says what is missing", () => {
    const text = page(landingViews(caseWith(), viewBasis) as PlanViews);
    expect(text).toContain("No ring could be placed.");
    expect(text).toContain("aortic centreline with points in DICOM patient coordinates");
  });
});
