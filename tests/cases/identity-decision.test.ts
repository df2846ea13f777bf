import { describe, expect, test } from "vitest";
import { buildCases } from "../../src/cases/build-cases.ts";
import { patientKey } from "../../src/cases/identity.ts";
import type { ReadDocument, StatedPatient } from "../../src/readers/reading.ts";
import type { IdentityDecision } from "../../src/site/identity-decisions.ts";
import { sampleCaseRow, sampleDocument, sampleOptions, sampleReading } from "./sample-documents.ts";

const ada: Partial<StatedPatient> = { name: "Invented, Ada", birthDate: "1950-01-02", sex: "F" };
const bruno: Partial<StatedPatient> = {
  name: "Invented, Bruno",
  birthDate: "1961-03-04",
  sex: "M",
};

/** An invented report of one exam with one diameter; the value tells whose it is. */
const report = (file: string, value: string, patient: Partial<StatedPatient>): ReadDocument =>
  sampleDocument(`2024-0${file.length}-10`, [sampleReading("aortic arch", value, {}, file)], {
    sop: `2.25.${value}`,
    file,
    patient,
  });

/** The digest that a sample document has, as far as a decision needs it. */
const digestOf = (file: string): string => (report(file, "1", {}).source.sha256 ?? "").slice(0, 16);

const decision = (rest: Partial<IdentityDecision>): IdentityDecision => ({
  patientId: "P1",
  issuer: "LAB",
  by: "imaging lab",
  date: "2026-01-15",
  same: null,
  apart: null,
  leaveOut: [],
  ...rest,
});

const build = (
  documents: ReadDocument[],
  identities: IdentityDecision[] = [],
  rows = [] as ReturnType<typeof sampleCaseRow>[],
) =>
  buildCases(
    documents,
    rows.map((row) => ({ row, night: 1 })),
    { ...sampleOptions, identities },
  );
type Built = ReturnType<typeof build>;
const valuesById = ({ cases }: Built): Record<string, number[]> =>
  Object.fromEntries(
    cases.map(({ patient, measurements }) => [patient.id, measurements.map(({ value }) => value)]),
  );
const notes = ({ cases: [first] }: Built): string[] =>
  (first?.messages ?? []).flatMap(({ code, text }) => (code === "identity-decided" ? text : []));
const mismatches = ({ messages }: Built): string[] =>
  messages.flatMap(({ code, text }) => (code === "identity-decision-mismatch" ? text : []));

const clash = [report("a", "40", ada), report("bb", "50", bruno)];
const wrongBirthDate = [
  report("a", "40", ada),
  report("bb", "41", { ...ada, birthDate: "1950-02-01" }),
];

describe("without a decision", () => {
  test("every aspect that differs is said, with the values and the files, and all files are aside", () => {
    const built = build([...clash, report("ccc", "42", { name: "Ada Invented" })]);
    expect(built.cases).toEqual([]);
    expect(built.failed[0]?.failure.text).toBe(
      "the birth date differs between files: 1950-01-02 (a), 1961-03-04 (bb); nothing of this patient was used",
    );
    expect(built.aside).toHaveLength(3);
    expect(built.aside[0]?.reasons.map(({ data }) => data["what"])).toEqual([
      "birth date",
      "sex",
      "name",
    ]);
  });

  test("two names that each agree with a third and not with each other clash", () => {
    const named = ["Invented, Ada", "Invented, Ada Maria", "Invented, Ada Karin"].map(
      (name, index) => report("x".repeat(index + 1), `4${index}`, { name }),
    );
    expect(build(named.slice(0, 2)).failed).toEqual([]);
    expect(build(named).failed[0]?.failure.data["what"]).toBe("name");
  });

  test("names that agree in another spelling are one, and that is noted", () => {
    const built = build([
      report("a", "40", { name: "Müller, Zoë" }),
      report("bb", "41", { name: "MULLER^ZOE" }),
    ]);
    const note = built.cases[0]?.messages.find(({ code }) => code === "identity-name-spellings");
    expect(note?.data["values"]).toBe("Müller, Zoë (a), MULLER^ZOE (bb)");
    const plain = build([report("a", "40", ada), report("bb", "41", { name: "Ada INVENTED" })]);
    expect(plain.cases[0]?.messages.map(({ code }) => code)).not.toContain(
      "identity-name-spellings",
    );
  });
});

describe("one person", () => {
  const same = { birthDate: { stands: "1950-01-02", also: ["1950-02-01"] } };

  test("the value that stands is used everywhere, and the page says who decided", () => {
    const built = build(wrongBirthDate.toReversed(), [decision({ same })]);
    expect(valuesById(built)).toEqual({ P1: [40, 41] });
    expect(built.cases[0]?.patient.birthDate).toBe("1950-01-02");
    expect(notes(built)).toEqual([
      "the site decided on 2026-01-15 (imaging lab): one person; the birth date is 1950-01-02, also written 1950-02-01",
    ]);
    expect(mismatches(built)).toEqual([]);
  });

  test("a third value that nobody decided about is a new conflict", () => {
    const third = report("ccc", "60", { ...ada, birthDate: "1950-12-31" });
    const built = build([...wrongBirthDate, third], [decision({ same })]);
    expect(built.cases).toEqual([]);
    expect(mismatches(built)).toEqual([
      "the site's decision of 2026-01-15 (imaging lab) on patient ID P1 does not fit the files: the birth date of P1 still differs",
    ]);
  });

  test("an aspect that the decision does not name stays a conflict", () => {
    const built = build(clash, [decision({ same: { sex: { stands: "F", also: ["M"] } } })]);
    expect(built.failed[0]?.failure.data["what"]).toBe("birth date");
  });

  test("a name after a marriage", () => {
    const married = report("bb", "41", { ...ada, name: "Fictive, Ada" });
    const name = { stands: "Fictive, Ada", also: ["Invented, Ada"] };
    const built = build([report("a", "40", ada), married], [decision({ same: { name } })]);
    expect(valuesById(built)).toEqual({ P1: [40, 41] });
    expect(built.cases[0]?.patient.name).toBe("Fictive, Ada");
  });

  test("values that no file states are told: a mistyped decision decides nothing", () => {
    const mistyped = { birthDate: { stands: "1950-01-02", also: ["1950-02-10"] } };
    const built = build(wrongBirthDate, [decision({ same: mistyped })]);
    expect(built.cases).toEqual([]);
    expect(mismatches(built)[0]).toContain("no file states the birth date 1950-02-10");
  });
});

describe("several persons", () => {
  const apart = [
    { as: "A", birthDate: "1950-01-02" },
    { as: "B", birthDate: "1961-03-04" },
  ];

  test("each gets the files that are theirs, a key and an ID of their own, and a note", () => {
    const rows = [sampleCaseRow({ birthDate: "1961-03-04", heightCm: 180 })];
    const built = build(clash, [decision({ apart })], rows);
    expect(valuesById(built)).toEqual({ "P1 (A)": [40], "P1 (B)": [50] });
    const keys = built.cases.map(({ key }) => key);
    expect(keys.toSorted()).toEqual(
      [patientKey("P1", "LAB", "A"), patientKey("P1", "LAB", "B")].toSorted(),
    );
    expect(keys).not.toContain(patientKey("P1", "LAB"));
    const heights = built.cases.map(({ patient, facts }) => [patient.id, facts.heightCm]);
    expect(Object.fromEntries(heights)).toEqual({ "P1 (A)": null, "P1 (B)": 180 });
    expect(notes(built)[0]).toMatch(
      /several persons share this patient ID; this one is ".": files with birth date/,
    );
  });

  test("a file that does not say whose it is stays aside, and both pages say so, until its digest is decided", () => {
    const sheet = report("ccc", "45", {});
    const built = build([...clash, sheet], [decision({ apart })]);
    expect(valuesById(built)).toEqual({ "P1 (A)": [40], "P1 (B)": [50] });
    expect(built.aside).toMatchObject([
      { why: "undecided", reasons: [{ code: "identity-undecided" }] },
    ]);
    for (const { messages } of built.cases) {
      expect(messages.map(({ code }) => code)).toContain("identity-undecided");
    }
    const named = build(
      [...clash, sheet],
      [decision({ apart: [...apart, { as: "A", sha256: digestOf("ccc") }] })],
    );
    expect(valuesById(named)).toEqual({ "P1 (A)": [40, 45], "P1 (B)": [50] });
  });

  test("a file of the same name with other content is not decided about", () => {
    const lines = [...apart, { as: "A", sha256: digestOf("ccc") }];
    const sheet = report("ccc", "45", {});
    const changed = { ...sheet, source: { ...sheet.source, sha256: "f".repeat(64) } };
    const built = build([...clash, changed], [decision({ apart: lines })]);
    expect(valuesById(built)).toEqual({ "P1 (A)": [40], "P1 (B)": [50] });
    expect(built.aside.map(({ why }) => why)).toEqual(["undecided"]);
    expect(mismatches(built)[0]).toContain("no file has the SHA-256");
  });

  test("a file that answers to two persons is of neither", () => {
    const both = [...apart, { as: "B", sha256: digestOf("a") }];
    const built = build(clash, [decision({ apart: both })]);
    expect(valuesById(built)).toEqual({ "P1 (B)": [50] });
    expect(built.aside.map(({ why }) => why)).toEqual(["undecided"]);
  });

  test("a person whose files still disagree stays without numbers; the other one has theirs", () => {
    const third = report("ccc", "46", { ...ada, sex: "M" });
    const built = build([...clash, third], [decision({ apart })]);
    expect(valuesById(built)).toEqual({ "P1 (B)": [50] });
    expect(built.failed).toMatchObject([{ id: "P1 (A)", failure: { data: { what: "sex" } } }]);
    expect(mismatches(built)[0]).toContain("the sex of P1 (A) still differs");
  });

  test("conditions of one line hold together", () => {
    const lines = [
      { as: "A", name: "Invented, Ada", sex: "F" as const },
      { as: "B", name: "Invented, Ada", sex: "M" as const },
    ];
    const built = build(clash, [decision({ apart: lines })]);
    expect(valuesById(built)).toEqual({ "P1 (A)": [40] });
    expect(mismatches(built)[0]).toContain("no file has sex M and name Invented, Ada");
  });
});

describe("files left out", () => {
  test("the others are used, and the page names what was left out", () => {
    const built = build(clash, [decision({ leaveOut: [{ sex: "M" }] })]);
    expect(valuesById(built)).toEqual({ P1: [40] });
    expect(notes(built)[0]).toContain("left out as not of this patient: bb");
    expect(built.aside).toMatchObject([
      { why: "decided", reasons: [{ code: "identity-left-out" }] },
    ]);
  });

  test("one of two files under one report UID can be left out by its digest", () => {
    const copies = ["a", "bb"].map((file, index) => ({
      ...report(file, `4${index}`, ada),
      report: report("x", "40", ada).report,
    }));
    expect(build(copies).cases).toEqual([]);
    const built = build(copies, [decision({ leaveOut: [{ sha256: digestOf("bb") }] })]);
    expect(valuesById(built)).toEqual({ P1: [40] });
  });

  test("a patient of whom all files are left out is no patient", () => {
    const built = build(clash, [decision({ leaveOut: [{ sex: "M" }, { sex: "F" }] })]);
    expect(built.cases).toEqual([]);
    expect(built.failed).toEqual([]);
    expect(built.aside).toHaveLength(2);
  });
});

describe("decisions that do not fit", () => {
  test("a patient ID that no file names", () => {
    const built = build(clash, [decision({ patientId: "P2", leaveOut: [{ sex: "M" }] })]);
    expect(mismatches(built)[0]).toContain("no file names this patient ID");
    expect(built.failed).toHaveLength(1);
  });

  test("a decision without an issuer is about the site's own patients", () => {
    const options = { issuer: null, leaveOut: [{ sex: "M" as const }] };
    expect(build(clash, [decision(options)]).cases).toEqual([]);
    const own = clash.map((one) => ({ ...one, patient: { ...one.patient, issuer: null } }));
    expect(valuesById(build(own, [decision(options)]))).toEqual({ P1: [40] });
  });
});
