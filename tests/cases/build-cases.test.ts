import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { buildCases } from "../../src/cases/build-cases.ts";
import type { DatedCaseRow } from "../../src/cases/patient-files.ts";
import type { ReadDocument, StatedFinding } from "../../src/readers/reading.ts";
import {
  sampleCaseRow,
  sampleDocument,
  sampleFinding,
  sampleOptions,
  sampleReading,
} from "./sample-documents.ts";

const build = (documents: ReadDocument[], rows: DatedCaseRow[] = [], rest = {}) =>
  buildCases(documents, rows, { ...sampleOptions, ...rest });
const arch = (value: string, at?: string) => [sampleReading("aortic arch", value, {}, at)];
const first = sampleDocument("2024-01-10", arch("50"), { sop: "1.1" });
const second = sampleDocument("2025-01-10", arch("51"), { sop: "1.2" });

describe("buildCases", () => {
  test("one case per issuer and ID, exams in time, whatever the order of files", () => {
    const stranger = sampleDocument("2025-01-10", arch("40"), {
      patient: { issuer: "OTHER" },
      file: "o",
    });
    const documents = [second, stranger, first];
    const expected = build(documents);
    expect(expected.cases).toHaveLength(2);
    const own = expected.cases.find(({ patient }) => patient.issuer === "LAB");
    expect(own?.exams.map(({ imagingDate }) => imagingDate)).toEqual(["2024-01-10", "2025-01-10"]);
    expect(own?.measurements.map(({ value }) => value)).toEqual([50, 51]);
    fc.assert(
      fc.property(fc.shuffledSubarray(documents, { minLength: 3 }), (shuffled) => {
        expect(build(shuffled)).toEqual(expected);
      }),
    );
  });

  test.each([
    ["birth date", { birthDate: "1950-01-01" }, { birthDate: "1950-01-02" }],
    ["sex", { sex: "F" as const }, { sex: "M" as const }],
    ["name", { name: "Invented^Ada" }, { name: "Invented^Eva" }],
  ])("a patient whose %s differs between files fails and gives no number", (what, one, other) => {
    const { cases, failed } = build([
      { ...first, patient: { ...first.patient, ...one } },
      { ...second, patient: { ...second.patient, ...other } },
    ]);
    expect(cases).toEqual([]);
    expect(failed).toMatchObject([
      { id: "P1", failure: { code: "identity-conflict", data: { what } } },
    ]);
  });

  test("a case sheet row that contradicts the report is a conflict too", () => {
    const report = { ...first, patient: { ...first.patient, birthDate: "1950-01-01" } };
    const row = sampleCaseRow({ birthDate: "1951-01-01" });
    expect(build([report], [{ row, night: 1 }]).failed[0]?.failure.code).toBe("identity-conflict");
  });

  test("the same name in another spelling order is no conflict, and an unstated one neither", () => {
    const { failed, cases } = build([
      { ...first, patient: { ...first.patient, name: "Invented^Ada" } },
      second,
      {
        ...second,
        source: { ...second.source, file: "b" },
        patient: { ...second.patient, name: "ADA INVENTED" },
      },
    ]);
    expect(failed).toEqual([]);
    expect(cases).toHaveLength(1);
  });

  test("an ID without an issuer is another patient, with a warning, unless the site names the issuer", () => {
    const sheet = sampleDocument("2025-06-01", arch("52"), {
      patient: { issuer: null },
      file: "s",
    });
    const apart = build([first, sheet]);
    expect(apart.cases).toHaveLength(2);
    expect(apart.messages.map(({ code }) => code)).toEqual(["identity-issuer-not-stated"]);
    expect(build([first, sheet], [], { issuer: "LAB" }).cases).toHaveLength(1);
  });

  test("a report that a later one replaces is not used, and that is said", () => {
    const amended = sampleDocument("2024-01-10", arch("48"), {
      sop: "1.9",
      replaces: ["1.1"],
      file: "amended",
    });
    const [patientCase] = build([first, amended]).cases;
    expect(patientCase?.measurements.map(({ value }) => value)).toEqual([48]);
    expect(patientCase?.messages.map(({ code }) => code)).toContain("report-superseded");
  });

  test("reports that replace each other are all left out", () => {
    const a = sampleDocument("2024-01-10", arch("48"), { sop: "1", replaces: ["2"], file: "a" });
    const b = sampleDocument("2024-01-10", arch("49"), { sop: "2", replaces: ["1"], file: "b" });
    expect(build([a, b]).failed[0]?.failure.code).toBe("report-versions-in-a-ring");
  });

  test("two different files under one report UID are both left out", () => {
    const copy = sampleDocument("2024-01-10", arch("60"), { sop: "1.1", file: "copy" });
    const [patientCase] = build([first, copy, second]).cases;
    expect(patientCase?.measurements.map(({ value }) => value)).toEqual([51]);
    expect(
      patientCase?.messages.filter(({ code }) => code === "report-copies-differ"),
    ).toHaveLength(2);
  });

  test("two readings of one exam that differ are both kept and said", () => {
    const other = sampleDocument("2024-01-10", arch("53", "elsewhere"), {
      sop: "1.7",
      file: "other reader",
    });
    const [patientCase] = build([first, other]).cases;
    expect(patientCase?.exams).toHaveLength(1);
    expect(patientCase?.measurements.map(({ value }) => value).toSorted()).toEqual([50, 53]);
    expect(patientCase?.messages.map(({ code }) => code)).toContain("readings-differ");
  });

  test("an exam later than the as-of date is not used", () => {
    const [patientCase] = build([first, second], [], { asOf: "2024-06-01" }).cases;
    expect(patientCase?.exams.map(({ imagingDate }) => imagingDate)).toEqual(["2024-01-10"]);
    expect(patientCase?.messages.map(({ code }) => code)).toContain("exam-after-as-of");
    expect(build([second], [], { asOf: "2024-06-01" }).failed[0]?.failure.code).toBe(
      "exam-after-as-of",
    );
  });

  test("a case sheet row without any exam is a failed case", () => {
    const { failed } = build([], [{ row: sampleCaseRow(), night: 1 }]);
    expect(failed[0]?.failure.code).toBe("case-without-exam");
  });

  test("two studies of one day stay two exams; a sheet of that day stands alone", () => {
    const study = (studyUid: string, value: string) => {
      const document = sampleDocument("2024-01-10", arch(value), { sop: studyUid, file: studyUid });
      return { ...document, exam: { ...document.exam, studyUid } };
    };
    const sheet = sampleDocument("2024-01-10", arch("52"), { file: "sheet" });
    const [two] = build([study("1.5", "50"), study("1.6", "51"), sheet]).cases;
    expect(two?.exams.map(({ key }) => key)).toEqual(["2024-01-10a", "2024-01-10b", "2024-01-10c"]);
    const [one] = build([study("1.5", "50"), sheet]).cases;
    expect(one?.exams.map(({ key }) => key)).toEqual(["2024-01-10"]);
  });
});

describe("findings of a case", () => {
  const sheet = (date: string, ...findings: StatedFinding[]) =>
    sampleDocument(date, [], { file: `findings-${date}.csv`, findings });

  test("an exam with findings and no measurement is an exam, and a patient with findings only a case", () => {
    const documents = [
      sheet("2025-01-10", sampleFinding("zone 4", "false lumen", "patent")),
      sheet("2024-01-10", sampleFinding("zone 3", "entry tear", "present")),
    ];
    const [found] = build(documents).cases;
    expect(found?.measurements).toEqual([]);
    expect(found?.exams.map(({ key }) => key)).toEqual(["2024-01-10", "2025-01-10"]);
    expect(found?.findings.map(({ exam, place }) => [exam, place.id])).toEqual([
      ["2024-01-10", "zone-3"],
      ["2025-01-10", "zone-4"],
    ]);
  });

  test("findings join the measurements of the same exam; what is not understood is said", () => {
    const rows = [
      sampleFinding("zone 4", "false lumen", "patent"),
      sampleFinding("zone 4", "false lumen", "thrombosed"),
      sampleFinding("zone 4", "false lumen", "completely thrombosed"),
    ];
    const [found] = build([first, sheet("2024-01-10", ...rows)]).cases;
    expect(found?.exams).toHaveLength(1);
    expect(found?.measurements).toHaveLength(1);
    expect(found?.findings).toHaveLength(2);
    expect(found?.messages.map(({ code }) => code)).toEqual(
      expect.arrayContaining(["finding-state-not-understood", "findings-differ"]),
    );
  });

  test.each([
    ["gating", { gated: true }, { gated: false }, "whether it was gated"],
    ["modality", { modality: "CT" }, { modality: "MR" }, "the modality"],
  ])(
    "files that disagree on the %s leave it not stated, and that is said",
    (_, one, other, what) => {
      const sheets = [one, other].map((exam, index) =>
        sampleDocument("2024-01-10", arch(`5${index}`), { file: `${index}.csv`, exam }),
      );
      const [found] = build(sheets).cases;
      expect(found?.exams[0]).toMatchObject(
        Object.fromEntries(Object.keys(one).map((key) => [key, null])),
      );
      const said = found?.messages.filter(({ code }) => code === "exam-facts-differ");
      expect(said).toMatchObject([{ data: { date: "2024-01-10", what } }]);
    },
  );
});

describe("case facts", () => {
  const factsOf = (...rows: DatedCaseRow[]) => build([first], rows).cases[0];

  test("the row of the latest night is in force", () => {
    const found = factsOf(
      { row: sampleCaseRow({ heightCm: 160 }), night: 1 },
      { row: sampleCaseRow({ heightCm: 161 }), night: 2 },
    );
    expect(found?.facts.heightCm).toBe(161);
    expect(found?.messages.map(({ code }) => code)).toContain("case-row-replaced");
  });

  test("two rows of one night that differ leave only the differing fact unknown", () => {
    const found = factsOf(
      { row: sampleCaseRow({ heightCm: 160, weightKg: 60 }), night: 1 },
      { row: sampleCaseRow({ heightCm: 161, weightKg: 60 }), night: 1 },
    );
    expect(found?.facts).toMatchObject({ heightCm: null, weightKg: 60 });
    expect(found?.messages.map(({ code }) => code)).toContain("case-rows-differ");
  });

  test("a word that the criteria do not know leaves its fact unknown and says which words they know", () => {
    const found = factsOf({
      row: sampleCaseRow({ diagnosis: "arch aneurysm; blister" }),
      night: 1,
    });
    expect(found?.facts.diagnoses).toBeNull();
    expect(found?.messages.find(({ code }) => code === "case-word-not-understood")?.text).toContain(
      '"blister"',
    );
  });

  test.each([
    [null, null],
    ["none", []],
    [
      "stent graft zones 3 to 5, 2023-06-15; hemiarch 2019",
      [
        {
          words: "stent graft zones 3 to 5, 2023-06-15",
          date: "2023-06-15",
          zones: ["3", "4", "5"],
        },
        { words: "hemiarch 2019", date: "2019", zones: null },
      ],
    ],
    [
      "graft zones 3 and 4, 2020-01",
      [{ words: "graft zones 3 and 4, 2020-01", date: "2020-01", zones: ["3", "4"] }],
    ],
    ["graft zones 0, 1", [{ words: "graft zones 0, 1", date: null, zones: ["0", "1"] }]],
    ["graft zone 10 left", [{ words: "graft zone 10 left", date: null, zones: ["10-left"] }]],
    ["graft zone 12", [{ words: "graft zone 12", date: null, zones: null }]],
    [
      "stent graft zone 3, 2023-06-15",
      [{ words: "stent graft zone 3, 2023-06-15", date: "2023-06-15", zones: ["3"] }],
    ],
    [
      "graft zone 9-10",
      [{ words: "graft zone 9-10", date: null, zones: ["9", "10-left", "10-right"] }],
    ],
  ])("prior repair %j", (priorRepair, expected) => {
    const found = factsOf({ row: sampleCaseRow({ priorRepair }), night: 1 });
    const repairs = found?.facts.priorRepairs?.map(({ words, date, zones }) => ({
      words,
      date,
      zones,
    }));
    expect(repairs ?? null).toEqual(expected);
  });
});
