import { describe, expect, test } from "vitest";
import { archOf } from "../../src/cases/arch.ts";
import { buildCases } from "../../src/cases/build-cases.ts";
import {
  sampleCaseRow,
  sampleDocument,
  sampleFinding,
  sampleOptions,
  sampleReading,
} from "./sample-documents.ts";

const commonOrigin = "common origin of the innominate and left common carotid arteries";
const leftVertebral = "left vertebral artery off the arch";
const aberrant = "aberrant right subclavian artery";

/** The arch of an invented case: the sheet's words, arch findings, and places that were measured. */
function archFrom(archVariant: string | null, findings: string[] = [], places: string[] = []) {
  const document = sampleDocument(
    "2026-01-12",
    ["zone 2", ...places].map((place) => sampleReading(place, "30")),
    {
      findings: findings.map((state, index) =>
        sampleFinding("", "arch variant", state, {
          source: { file: "findings.csv", sha256: "ef", at: `record ${index}` },
        }),
      ),
    },
  );
  const row = sampleCaseRow({ archVariant });
  const [patientCase] = buildCases([document], [{ row, night: 1 }], sampleOptions).cases;
  if (!patientCase) throw new Error("the invented case was not built");
  return { arch: archOf(patientCase), patientCase };
}

describe("archOf", () => {
  test.each([
    ["nothing is stated", null, [], [], null],
    ["the sheet says usual", "usual", [], [], []],
    ["a finding says usual", null, ["usual"], [], []],
    ["the sheet names a variant", aberrant, [], [], [aberrant]],
    ["a place exists in one variant only", null, [], [aberrant], [aberrant]],
    ["two witnesses say the same", commonOrigin, [commonOrigin], [commonOrigin], [commonOrigin]],
    [
      "two variants stand together, in the order of the vocabulary",
      leftVertebral,
      [commonOrigin],
      [],
      [commonOrigin, leftVertebral],
    ],
    [
      "one source states both",
      `${leftVertebral}; ${commonOrigin}`,
      [],
      [],
      [commonOrigin, leftVertebral],
    ],
  ])("%s", (_, sheet, findings, places, expected) => {
    const { arch } = archFrom(sheet, findings, places);
    expect(arch.variants).toEqual(expected);
    expect(arch.conflict).toBeNull();
  });

  test.each([
    [
      "sheet against finding",
      "usual",
      [commonOrigin],
      [],
      ["usual (case sheet)", `${commonOrigin} (findings)`],
    ],
    [
      "sheet against a place",
      "usual",
      [],
      [aberrant],
      ["usual (case sheet)", `${aberrant} (readings)`],
    ],
    [
      "one exam against itself",
      null,
      ["usual", leftVertebral],
      [],
      ["usual (findings)", `${leftVertebral} (findings)`],
    ],
    [
      "an artery of a left arch in a right one",
      "right arch",
      [],
      [aberrant],
      ["right arch (case sheet)", `${aberrant} (readings)`],
    ],
  ])("a contradiction leaves the arch open: %s", (_, sheet, findings, places, said) => {
    const { arch } = archFrom(sheet, findings, places);
    expect(arch.variants).toBeNull();
    for (const words of said) expect(arch.conflict).toContain(words);
  });

  test("each statement names its witnesses", () => {
    const { arch, patientCase } = archFrom("usual", [commonOrigin], [commonOrigin]);
    const reading = patientCase.measurements.find(({ place }) => place.variant === commonOrigin);
    expect(arch.stated).toEqual([
      { by: "case sheet", variant: "usual", used: [] },
      { by: "readings", variant: commonOrigin, used: [reading?.key] },
      { by: "findings", variant: commonOrigin, used: [patientCase.findings[0]?.key] },
    ]);
  });

  test("a finding at a place of one variant states that variant", () => {
    const fedBy = sampleFinding(aberrant, "fed by", "true lumen");
    const document = sampleDocument("2026-01-12", [], { findings: [fedBy] });
    const [patientCase] = buildCases([document], [], sampleOptions).cases;
    expect(patientCase && archOf(patientCase).variants).toEqual([aberrant]);
  });
});
