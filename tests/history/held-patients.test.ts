import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { describe, expect, test } from "vitest";
import { buildDictionary } from "../../src/anatomy/dictionary.ts";
import { patientKey } from "../../src/cases/identity.ts";
import { exportOf } from "../../src/history/export-patient.ts";
import {
  findPatient,
  findPatients,
  type HeldPatient,
  heldPatients,
} from "../../src/history/held-patients.ts";
import { heldExams, heldRows } from "../../src/history/held-versions.ts";
import { type HeldPart, History } from "../../src/history/history.ts";
import { remainsOf } from "../../src/history/remains.ts";
import { standings } from "../../src/history/standing.ts";
import type { CaseRow, ReadDocument } from "../../src/readers/reading.ts";
import { parseSiteConfig } from "../../src/site/site-config.ts";
import { sampleCaseRow, sampleDocument, sampleReading } from "../cases/sample-documents.ts";

/** One file of one night. */
interface Dropped {
  name: string;
  documents?: ReadDocument[];
  caseRows?: CaseRow[];
}
/** What a store holds after these nights; the digest of a file is its name. */
function holdingsOf(...nights: Dropped[][]): HeldPart[] {
  const history = new History(":memory:");
  for (const [index, files] of nights.entries()) {
    const read = files.map(({ name, documents = [], caseRows = [] }) => {
      const source = { file: name, sha256: name };
      return {
        file: name,
        sha256: name,
        kind: "measurement sheet" as const,
        documents: documents.map((one) => ({ ...one, source: { ...one.source, ...source } })),
        caseRows: caseRows.map((one) => ({ ...one, source: { ...one.source, ...source } })),
        meetingRows: [],
        setAside: null,
        messages: [],
      };
    });
    history.addNight({ files: read, held: new Set(), withdrawn: [] }, `2026-01-1${index + 1}`);
  }
  const parts = history.holdings();
  history.close();
  return parts;
}
const document = (id: string, issuer: string | null, rest = {}): ReadDocument =>
  sampleDocument("2024-01-10", [sampleReading("aortic arch", "50")], {
    patient: { id, issuer, ...rest },
  });
const first = (patients: HeldPatient[]): HeldPatient => patients[0] as HeldPatient;
const nobody = { issuer: null, identities: [] };

describe("heldPatients", () => {
  const parts = holdingsOf(
    [{ name: "shared", documents: [document("P2", null), document("P1", "LAB")] }],
    [{ name: "own", documents: [document("P1", null)], caseRows: [sampleCaseRow()] }],
  );
  const inShort = (patients: HeldPatient[]) =>
    patients.map(({ id, issuer, parts: own, shared }) => [id, issuer, own.length, [...shared]]);

  test("an ID without an issuer stands for itself, unless the site has one", () => {
    expect(inShort(heldPatients(parts, null))).toEqual([
      ["P1", "LAB", 2, ["shared", "own"]],
      ["P1", null, 1, ["own"]],
      ["P2", null, 1, ["shared"]],
    ]);
    expect(inShort(heldPatients(parts, "LAB"))).toEqual([
      ["P1", "LAB", 3, ["shared"]],
      ["P2", "LAB", 1, ["shared"]],
    ]);
  });

  const patients = heldPatients(parts, null);
  test.each([
    [{ patient: "P1", issuer: "LAB" }, patientKey("P1", "LAB")],
    [{ patient: patientKey("P1", null), issuer: null }, patientKey("P1", null)],
    [{ patient: "P2", issuer: null }, patientKey("P2", null)],
    [{ patient: "P1", issuer: null }, "history-patient-ambiguous"],
    [{ patient: "P3", issuer: null }, "history-patient-unknown"],
    [{ patient: "P1", issuer: "OTHER" }, "history-patient-unknown"],
    [{ patient: "p1", issuer: "LAB" }, "history-patient-unknown"],
  ])("%j", (wanted, expected) => {
    const result = findPatient(patients, wanted);
    expect("one" in result ? result.one.key : result.failure.code).toBe(expected);
  });

  test("without a wish all are found, also none in an empty history", () => {
    const all = { patient: null, issuer: null };
    expect(findPatients(patients, all)).toEqual({ found: patients });
    expect(findPatients([], all)).toEqual({ found: [] });
  });

  test("an export holds the files of the patient without what is of others", () => {
    const [lab] = heldPatients(parts, "LAB");
    const { patient, files } = exportOf(lab as HeldPatient);
    expect(patient).toEqual({ id: "P1", issuer: "LAB", key: patientKey("P1", "LAB") });
    const inFiles = files.map(({ name, night, asOf, isShared, messages, ...held }) => [
      [name, night, asOf, isShared, messages],
      held.documents.map(({ patient: { id } }) => id),
      held.caseRows.map(({ patientId }) => patientId),
    ]);
    expect(inFiles).toEqual([
      [["shared", 1, "2026-01-11", true, null], ["P1"], []],
      [["own", 2, "2026-01-12", false, []], ["P1"], ["P1"]],
    ]);
  });
});

describe("versions of an exam", () => {
  const dictionary = buildDictionary({ codes: {}, words: {} });
  const numbers = (arch: string, descending = "40") => [
    sampleReading("aortic arch", arch),
    sampleReading("descending aorta", descending),
  ];
  const exams = (parts: HeldPart[], identity: Parameters<typeof standings>[1] = nobody) =>
    heldExams(first(heldPatients(parts, null)), standings(parts, identity), dictionary);

  test("a replaced report stays with its night, and both numbers are shown", () => {
    const [exam, ...others] = exams(
      holdingsOf(
        [{ name: "a", documents: [sampleDocument("2024-01-10", numbers("50"), { sop: "1.1" })] }],
        [{ name: "c", documents: [sampleDocument("2023-01-10", numbers("45"), { sop: "1.3" })] }],
        [
          {
            name: "b",
            documents: [
              sampleDocument("2024-01-10", numbers("52"), { sop: "1.2", replaces: ["1.1"] }),
            ],
          },
        ],
      ),
    ).toReversed();
    expect(others.map((one) => [one.exam, one.differences])).toEqual([["2023-01-10", []]]);
    expect(exam?.versions).toMatchObject([
      { night: 1, asOf: "2026-01-11", isUsed: false, reason: { code: "report-superseded" } },
      { night: 3, asOf: "2026-01-13", isUsed: true, reason: null, numbers: 2, reportUid: "1.2" },
    ]);
    expect(exam?.differences.map(({ what, values }) => [what.split(",")[0], values])).toMatchObject(
      [
        [
          "aortic arch",
          [
            { value: "50 mm", night: 1 },
            { value: "52 mm", night: 3 },
          ],
        ],
      ],
    );
  });

  test("a sheet that is dropped again with another value shows both, one that is alike shows none", () => {
    const sheet = (name: string, arch: string, unit = "mm"): Dropped => ({
      name,
      documents: [sampleDocument("2024-01-10", [sampleReading("aortic arch", arch, { unit })])],
    });
    const differences = (...nights: Dropped[]) =>
      exams(holdingsOf(...nights.map((one) => [one])))[0]?.differences.map(({ values }) =>
        values.map(({ value, night }) => [value, night]),
      );
    expect(differences(sheet("a", "50"), sheet("b", "50.0"), sheet("c", "5", "cm"))).toEqual([]);
    expect(differences(sheet("a", "50"), sheet("b", "51"), sheet("c", "50"))).toEqual([
      [
        ["50 mm", 1],
        ["51 mm", 2],
        ["50 mm", 3],
      ],
    ]);
  });

  test("two readings inside one document are no correction", () => {
    const two = [sampleReading("aortic arch", "50"), sampleReading("aortic arch", "51")];
    const [exam] = exams(
      holdingsOf([{ name: "a", documents: [sampleDocument("2024-01-10", two)] }]),
    );
    expect(exam?.differences).toEqual([]);
  });

  const clash = holdingsOf(
    [{ name: "a", documents: [document("P1", "LAB", { birthDate: "1950-01-02" })] }],
    [{ name: "b", documents: [document("P1", "LAB", { birthDate: "1950-02-01" })] }],
  );
  const siteOf = (decision: string) => {
    const text = `identities:\n  - patientId: P1\n    issuer: LAB\n    by: data manager\n    date: 2026-01-10\n${decision}`;
    const { site, messages } = parseSiteConfig(text, "site.yaml");
    expect(messages).toEqual([]);
    return site ?? nobody;
  };
  test.each([
    ["nothing", () => nobody, ["identity-conflict", "identity-conflict"]],
    [
      "one person",
      () => siteOf("    same: { birthDate: { stands: 1950-01-02, also: [1950-02-01] } }\n"),
      [null, null],
    ],
    [
      "a file to leave out",
      () => siteOf("    leaveOut: [{ birthDate: 1950-02-01 }]\n"),
      [null, "identity-left-out"],
    ],
  ])("files that disagree, where the site decides %s", (_, identity, codes) => {
    const [exam] = exams(clash, identity());
    expect(exam?.versions.map(({ reason }) => reason?.code ?? null)).toEqual(codes);
    expect(exam?.versions.map(({ isUsed }) => isUsed)).toEqual(codes.map((code) => code === null));
  });

  test("rows of the case sheet are shown with the columns that changed, by their headings", () => {
    const parts = holdingsOf(
      [{ name: "a", caseRows: [sampleCaseRow({ heightCm: 170, diagnosis: "aneurysm" })] }],
      [{ name: "b", caseRows: [sampleCaseRow({ heightCm: null, diagnosis: "aneurysm" })] }],
    );
    const { versions, differences } = heldRows(first(heldPatients(parts, null)));
    expect(versions.map(({ night, source }) => [night, source.file])).toEqual([
      [1, "a"],
      [2, "b"],
    ]);
    expect(differences.map(({ what, values }) => [what, values.map(({ value }) => value)])).toEqual(
      [["height_cm", ["170", null]]],
    );
  });
});

describe("remainsOf", () => {
  test("finds what an output folder still holds of a patient, and nothing of others", () => {
    const out = mkdtempSync(join(tmpdir(), "remains-"));
    const put = (name: string, content = ""): void => {
      mkdirSync(dirname(join(out, name)), { recursive: true });
      writeFileSync(join(out, name), content);
    };
    const digest = "0123456789abcdef0123";
    const own = holdingsOf([{ name: digest, documents: [document("TEST-1", null)] }]);
    const [patient] = heldPatients(own, "LAB");
    const key = patientKey("TEST-1", "LAB");
    const labelled = patientKey("TEST-1", "LAB", "A");
    for (const folder of [key, labelled, "another"]) put(`patients/${folder}/plan.json`);
    put("index.html");
    put("packets/2026-01-20/packet.html", "<td>TEST-1</td>");
    put("packets/2026-01-27/packet.html", "<td>TEST-2</td>");
    put("set-aside/0123456789abcdef.dcm", "bytes");
    put("set-aside/1111111111111111.csv", "patient_id\nTEST-1\n");
    put("set-aside/2222222222222222.csv", "patient_id\nTEST-2\n");
    put("history.sqlite.version-2.bak");
    put("history.sqlite");
    const { site } = parseSiteConfig(
      "issuer: LAB\nidentities:\n  - patientId: TEST-1\n    by: data manager\n    date: 2026-01-10\n    apart: [{ as: A, sex: F }, { as: B, sex: M }]\n",
      "site.yaml",
    );
    expect(remainsOf(out, patient as HeldPatient, site ?? nobody)).toEqual({
      reports: [`patients/${key}`, `patients/${labelled}`].toSorted(),
      lists: ["index.html"],
      stay: [
        "packets/2026-01-20",
        "set-aside/0123456789abcdef.dcm",
        "set-aside/1111111111111111.csv",
        "history.sqlite.version-2.bak",
      ],
    });
    rmSync(out, { recursive: true });
  });
});
