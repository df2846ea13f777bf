import { cpSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { afterAll, describe, expect, test } from "vitest";
import { dissectionOf } from "../../../src/cases/dissection.ts";
import { perfusion, type PerfusionBasis } from "../../../src/planning/perfusion/perfusion.ts";
import { perfusionView } from "../../../src/report/pages/perfusion-view.ts";
import { perfusionSchema } from "../../../src/report/perfusion-schema.ts";
import { loadTemplates } from "../../../src/report/template-engine.ts";
import { noSiteConfig } from "../../../src/site/site-config.ts";
import {
  asOf,
  type FindingRow,
  inventedCase,
  lengthOf,
} from "../../planning/access/access-case.ts";
import { htmlText } from "../html-text.ts";

const folder = mkdtempSync(join(tmpdir(), "perfusion-"));
afterAll(() => rmSync(folder, { recursive: true }));
cpSync("templates/partials", join(folder, "partials"), { recursive: true });
writeFileSync(join(folder, "page.hbs"), "{{> perfusion}}");
const render = loadTemplates(pathToFileURL(`${folder}/`));

function viewOf(stated: Parameters<typeof inventedCase>[0], more: Partial<PerfusionBasis> = {}) {
  const patientCase = inventedCase(stated);
  const result = perfusion(patientCase, {
    asOf,
    dissection: dissectionOf(patientCase, asOf),
    archConventions: [],
    planning: noSiteConfig.planning,
    coverage: [],
    ...more,
  });
  // The schema takes what is computed as it is.
  expect(perfusionSchema.parse(result)).toEqual(result);
  return perfusionView(perfusionSchema.parse(result));
}
const textOf = (view: object): string =>
  htmlText(render("page", { ...view, sectionTag: "h2", itemTag: "h3" }));

const findings: FindingRow[] = [
  ["right-vertebral-artery", "patency", "patent"],
  ["left-subclavian-artery", "patency", "patent"],
  ["left-renal-artery", "fed by", "false lumen"],
  ["zone-4", "dissection", "present"],
];
const rich = {
  findings,
  measurements: [lengthOf("zone-3", 20), lengthOf("zone-4", 100), lengthOf("zone-5", 120)],
  facts: { archVariants: [], diagnoses: ["type B dissection"] },
};
const coverage = [{ leastMm: 150, mostMm: 210, beyondBorderMm: 0, fromZone: "3" }];

describe("the view of perfusion", () => {
  test("a column for each zone with covered length, share, rest and the four supplies", () => {
    const view = viewOf(rich, { coverage });
    expect(view.perfusionZones).toEqual(["Zone 0", "Zone 1", "Zone 2", "Zone 3", "Zone 4"]);
    const inZone3 = view.cordRows.map(({ label, cells }) => [
      label,
      cells.flatMap(({ text, span }) => Array.from({ length: span }, () => text))[3],
    ]);
    expect(inZone3).toEqual([
      ["Covered, mm", "150.0 to 210.0"],
      ["Share, %", "62.5 to 87.5"],
      // 240 mm to the coeliac artery less what is covered.
      ["Left over, mm", "30.0 to 90.0"],
      ["Left subclavian", "Open: not covered; patent, 2026-01-12"],
      ["Intercostal", "Part closed: covered along the new graft"],
      ["Lumbar", "Unknown: not stated"],
      ["Internal iliac", "Unknown: right not stated; left not stated"],
    ]);
  });

  test("zones of which the same is said share a cell", () => {
    const { cordRows } = viewOf(rich, { coverage });
    expect(cordRows[0]?.cells).toEqual([
      { text: "not known", span: 3 },
      { text: "150.0 to 210.0", span: 1 },
      // Zones 4 and 5 end to end: 100 and 120 mm.
      { text: "at most 220.0", span: 1 },
    ]);
    for (const { cells } of cordRows)
      expect(cells.reduce((sum, { span }) => sum + span, 0)).toBe(5);
  });

  test("limits of the same words and outcomes are one row with the sources of all", () => {
    const { cordLimits, perfusionSources } = viewOf(rich, { coverage });
    const [row, ...others] = cordLimits.filter(
      ({ label }) => label === "Covered length at most 200 mm",
    );
    expect(others).toEqual([]);
    // Two guidelines of different years name the same length.
    expect(row?.notes).toBe("[2] [3]");
    expect(perfusionSources[1]?.text).toContain("ESVS 2017");
    expect(perfusionSources[2]?.text).toContain("STS/AATS 2022");
  });

  test("each limit has a mark in words for each zone", () => {
    const { cordLimits } = viewOf(rich, { coverage });
    const marksOf = (label: string) =>
      cordLimits
        .find((row) => row.label === label)
        ?.cells.map(({ mark, text }) => mark.word + text);
    expect(marksOf("Covered length under 205 mm")).toEqual([
      "can't be judged",
      "can't be judged",
      "can't be judged",
      "not met ±",
      "can't be judged",
    ]);
  });

  test("a territory names the arteries that stay", () => {
    const { brainRows } = viewOf(rich);
    const posterior = brainRows.find(({ territory }) => territory.startsWith("Back of the brain"));
    // A landing in zone 0 covers the innominate and the left subclavian artery, the ways of both vertebral arteries.
    expect(posterior?.cells.map(({ mark, text, span }) => [mark.word + text, span])).toEqual([
      ["not met", 1],
      ["met: by the right vertebral artery", 4],
    ]);
  });

  test("statements that contradict each other name each other, second-hand ones are marked", () => {
    const { perfusionStatements, perfusionSources } = viewOf(rich);
    expect(perfusionStatements.map(({ heading }) => heading)).toEqual([
      "Spinal cord",
      "Brain and arms",
      "Gut",
    ]);
    const rows = perfusionStatements.flatMap((group) => group.rows);
    expect(rows.map(({ number }) => number)).toEqual(rows.map((_, index) => `S${index + 1}`));
    expect(rows[0]?.contrary).toBe(" Found otherwise: S2.");
    expect(rows[1]?.contrary).toBe(" Found otherwise: S1.");
    const digest = rows.find(({ text }) => text.includes("within 2 cm of the coeliac origin"));
    const source = perfusionSources.find(({ note }) => note === digest?.note);
    expect(source?.text).toBe(
      "STS/AATS 2022 guideline, by a digest (not confirmed against the source)",
    );
  });

  test("facts stated alike are said once", () => {
    const { perfusionFacts } = viewOf(rich);
    expect(perfusionFacts).toContain("Patency of the right vertebral artery: patent, 2026-01-12");
    expect(perfusionFacts.filter((fact) => fact.endsWith(": not stated"))).toHaveLength(1);
    expect(perfusionFacts.join()).toContain(
      "atency of the right internal iliac, left internal iliac",
    );
  });

  test("the page holds the lumens of a dissection and the question that they raise", () => {
    const text = textOf(viewOf(rich, { coverage }));
    expect(text).toContain("Left renal artery left kidney false lumen, 2026-01-12");
    expect(text).toContain(
      "What happens to the left kidney when the pressure in the false lumen falls?",
    );
    expect(text).toContain("raised by: left renal artery: fed by false lumen, 2026-01-12");
    expect(text).toContain("no score is made of them");
  });

  test("a case without numbers says what is unknown, and that the arch is assumed", () => {
    const view = viewOf({});
    expect(view.organRows).toEqual([]);
    const text = textOf(view);
    expect(text).toContain("The arch is not stated; this stands on the usual arch.");
    expect(text).toContain("covered length from zone 0, 1, 2, 3, 4");
    expect(text).not.toContain("Gut, kidneys and legs by lumen");
  });

  test("an arch that the zones are not defined for is named once for all zones", () => {
    const { perfusionZones, refeeding } = viewOf({ facts: { archVariants: ["right arch"] } });
    expect(perfusionZones[0]).toBe("Zone 0, not defined");
    expect(refeeding).toHaveLength(1);
    expect(refeeding[0]).toMatch(/^Zone 0, 1, 2, 3, 4: /);
  });
});
