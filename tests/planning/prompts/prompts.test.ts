import { describe, expect, test } from "vitest";
import { buildCases } from "../../../src/cases/build-cases.ts";
import { promptsOf } from "../../../src/planning/prompts/prompts.ts";
import type { CaseRow, Reading } from "../../../src/readers/reading.ts";
import {
  sampleCaseRow,
  sampleDocument,
  sampleFinding,
  sampleOptions,
  sampleReading,
} from "../../cases/sample-documents.ts";

type Statement = [place: string, finding: string, state: string];

/** Prompts of an invented case; every finding and reading is of 2026-01-12. */
function promptsFor(
  row: Partial<CaseRow>,
  findings: Statement[] = [],
  readings: Reading[] = [sampleReading("zone 5", "40")],
) {
  const document = sampleDocument("2026-01-12", readings, {
    findings: findings.map(([place, finding, state], index) =>
      sampleFinding(place, finding, state, {
        source: { file: "findings.csv", sha256: "ef", at: `record ${index}` },
      }),
    ),
  });
  const dated = [{ row: sampleCaseRow(row), night: 1 }];
  const [patientCase] = buildCases([document], dated, sampleOptions).cases;
  if (!patientCase) throw new Error("the invented case was not built");
  return promptsOf(patientCase, "2026-01-15");
}
const raisedBy = (prompts: ReturnType<typeof promptsFor>, text: string) =>
  prompts.filter((prompt) => prompt.text.includes(text)).map((prompt) => prompt.raisedBy);

const isUsual = "Is the arch the usual one";
const whichArch = "Which arch";
const entryTear = "Where is the entry tear";
const falseLumen = "Is the false lumen patent";
const feeds = "Which lumen feeds";
const repaired = "What was repaired";

describe("prompts", () => {
  test("a report that is not final is asked for", () => {
    const final = sampleDocument("2026-01-12", [sampleReading("zone 5", "40")], { sop: "1.2.3" });
    const partial = {
      ...final,
      report: final.report && { ...final.report, completion: "PARTIAL" },
    };
    const [patientCase] = buildCases([partial], [], sampleOptions).cases;
    const prompts = patientCase ? promptsOf(patientCase, "2026-01-15") : [];
    expect(raisedBy(prompts, "final report of the exam of 2026-01-12")).toEqual([
      "the report is partial",
    ]);
  });

  test("a plain case raises none", () => {
    expect(promptsFor({ diagnosis: "abdominal aneurysm", priorRepair: "none" })).toEqual([]);
  });

  test.each([
    [{ considered: "arch repair" }, "the arch is not stated: arch repair"],
    [{ considered: "descending repair" }, "the arch is not stated: descending repair"],
    [{ diagnosis: "arch aneurysm" }, "the arch is not stated: arch aneurysm"],
    [{ diagnosis: "type B dissection" }, "the arch is not stated: type B dissection"],
  ])("an arch that is not stated, where it matters: %j", (row, expected) => {
    expect(raisedBy(promptsFor(row), isUsual)).toEqual([expected]);
    expect(raisedBy(promptsFor({ ...row, archVariant: "usual" }), isUsual)).toEqual([]);
  });

  test("a dissection seen in the arch makes the arch matter too", () => {
    const seen: Statement[] = [["zone 2", "dissection", "present"]];
    const row = { diagnosis: "penetrating ulcer" };
    expect(raisedBy(promptsFor(row, seen), isUsual)[0]).toContain("dissection in the arch");
    expect(raisedBy(promptsFor(row, [["zone 5", "dissection", "present"]]), isUsual)).toEqual([]);
  });

  test("contradicting statements of the arch are one question", () => {
    const prompts = promptsFor({ archVariant: "usual", considered: "arch repair" }, [
      ["", "arch variant", "right arch"],
    ]);
    expect(raisedBy(prompts, whichArch)[0]).toContain("right arch (findings)");
    expect(raisedBy(prompts, isUsual)).toEqual([]);
  });

  test.each([
    ["left vertebral artery off the arch", "dominant", "neuroradiology"],
    ["aberrant right subclavian artery", "Kommerell", "imaging lab"],
  ])("%s asks for what hangs on it", (archVariant, text, answeredBy) => {
    const prompts = promptsFor({ archVariant });
    expect(raisedBy(prompts, text)).toEqual([`${archVariant} (case sheet)`]);
    expect(prompts[0]?.answeredBy).toBe(answeredBy);
  });

  test("a dissection of which nothing is said asks for the true lumen and the entry tear", () => {
    const prompts = promptsFor({ diagnosis: "type B dissection", archVariant: "usual" });
    expect(prompts.map(({ text }) => text)).toEqual([
      expect.stringContaining("wire"),
      expect.stringContaining(entryTear),
    ]);
    expect(prompts[0]?.raisedBy).toBe("type B dissection");
  });

  test.each(["present", "not found"])("an entry tear that is %s is not asked for", (state) => {
    const prompts = promptsFor({ diagnosis: "type B dissection" }, [
      ["zone 3", "entry tear", state],
    ]);
    expect(raisedBy(prompts, entryTear)).toEqual([]);
  });

  test("a notation that the exam contradicts is asked about with the reason", () => {
    const row = { diagnosis: "type B dissection", dissection: "B_3,5" };
    const prompts = promptsFor(row, [["zone 9", "dissection", "present"]]);
    expect(raisedBy(prompts, "B_3,5")[0]).toContain("zone 9");
    const agreeing = promptsFor(row, [["zone 4", "dissection", "present"]]);
    expect(raisedBy(agreeing, "B_3,5")).toEqual([]);
  });

  test("zones without a state of the false lumen are one question; a range tells of all its zones", () => {
    const dissected: Statement[] = ["3", "4", "9"].map((zone) => [
      `zone ${zone}`,
      "dissection",
      "present",
    ]);
    const row = { diagnosis: "type B dissection" };
    const open = promptsFor(row, [...dissected, ["zone 3", "false lumen", "patent"]]);
    expect(raisedBy(open, falseLumen)).toEqual(["not stated on 2026-01-12: zone 4, zone 9"]);
    const range: Statement = ["descending thoracic aorta", "false lumen", "patent"];
    const told = promptsFor(row, [...dissected, range]);
    expect(raisedBy(told, falseLumen)).toEqual(["not stated on 2026-01-12: zone 9"]);
  });

  test("branches without a feeding lumen are asked for only where one of them is stated", () => {
    const row = { diagnosis: "type B dissection" };
    const dissected: Statement[] = [
      ["zone 6", "dissection", "present"],
      ["zone 8", "dissection", "present"],
    ];
    expect(raisedBy(promptsFor(row, dissected), feeds)).toEqual([]);
    const some = promptsFor(row, [...dissected, ["left renal artery", "fed by", "false lumen"]]);
    expect(raisedBy(some, feeds)).toEqual([
      "stated on 2026-01-12 of left renal artery, not of coeliac artery, right renal artery",
    ]);
  });

  test.each([
    [
      "left renal clinical; right leg clinical",
      ["clinical malperfusion stated: left renal, right leg"],
    ],
    ["left renal on imaging only", []],
    ["none", []],
  ])("malperfusion %j", (malperfusion, expected) => {
    const prompts = promptsFor({ diagnosis: "type B dissection", malperfusion });
    expect(raisedBy(prompts, "malperfusion")).toEqual(expected);
  });

  test("repairs that leave something open are one question", () => {
    const priorRepair = "graft, zone 0, 2019; stent graft; valve replacement 2020; bypass";
    expect(raisedBy(promptsFor({ priorRepair }), repaired)).toEqual([
      "prior repair as stated: stent graft (not stated: zones, date); bypass (not stated: date)",
    ]);
  });

  test.each([
    ["stent graft, zones 5 to 6, 2024", "repaired before 2026-01-12, by the case sheet: zone 5"],
    ["stent graft, zones 5 to 6, 2026-01-14", undefined],
    ["stent graft, zone 9, 2024", undefined],
    ["valve replacement 2024", undefined],
  ])("a diameter measured on a repair: %s", (priorRepair, expected) => {
    expect(raisedBy(promptsFor({ priorRepair }), "of the repair itself")[0]).toBe(expected);
  });

  test("diameters without an edge are one question with their places", () => {
    const readings = ["zone 3", "zone 5"].map((place) =>
      sampleReading(place, "40", { edge: null }),
    );
    expect(raisedBy(promptsFor({}, [], readings), "wall edges")).toEqual([
      "no edge stated on 2026-01-12: zone 3, zone 5",
    ]);
  });
});
