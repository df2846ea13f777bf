import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { buildCases, type BuiltCases } from "../../src/cases/build-cases.ts";
import type { ReadDocument } from "../../src/readers/reading.ts";
import { sampleDocument, sampleOptions, sampleReading } from "./sample-documents.ts";

interface Wish {
  sop: string;
  value?: string;
  replaces?: string[];
  identical?: string[];
  preliminary?: "PRELIMINARY" | "FINAL";
  id?: string;
  file?: string;
  study?: string;
}

/** An invented report of 2024-01-10 with one diameter of the arch. */
function report(wish: Wish): ReadDocument {
  const { sop, value = "50", replaces = [], id = "P1", file = sop, study = "2.25.9" } = wish;
  const reading = sampleReading("aortic arch", value, {}, `item of ${file}`);
  const document = sampleDocument("2024-01-10", [reading], {
    sop,
    replaces,
    file,
    patient: { id },
  });
  if (!document.report) throw new Error("a sample report has a version");
  const { identical: identicalUids = [], preliminary = null } = wish;
  return {
    ...document,
    exam: { ...document.exam, studyUid: study },
    report: { ...document.report, identicalUids, preliminary },
  };
}

/** Builds in every order and holds that it makes no difference. */
function build(...wishes: Wish[]): BuiltCases {
  const documents = wishes.map(report);
  const built = buildCases(documents, [], sampleOptions);
  fc.assert(
    fc.property(fc.shuffledSubarray(documents, { minLength: documents.length }), (shuffled) => {
      expect(buildCases(shuffled, [], sampleOptions)).toEqual(built);
    }),
    { seed: 4, numRuns: 20 },
  );
  return built;
}

const valuesOf = ({ cases }: BuiltCases): number[] =>
  cases.flatMap(({ measurements }) => measurements.map(({ value }) => value));
const codesOf = ({ cases, failed }: BuiltCases): string[] => [
  ...cases.flatMap(({ messages }) => messages.map(({ code }) => code)),
  ...failed.map(({ failure }) => failure.code),
];

describe("report versions", () => {
  test("a chain of versions: the last one counts", () => {
    const built = build(
      { sop: "1", value: "50" },
      { sop: "2", value: "51", replaces: ["1"] },
      { sop: "3", value: "52", replaces: ["2"] },
    );
    expect(valuesOf(built)).toEqual([52]);
    expect(codesOf(built).filter((code) => code === "report-superseded")).toHaveLength(2);
  });

  test("a predecessor that never came is normal", () => {
    const built = build({ sop: "2", replaces: ["1"] });
    expect(valuesOf(built)).toEqual([50]);
    expect(codesOf(built)).toEqual(["case-without-row"]);
  });

  test.each([
    ["the predecessor is here", [{ sop: "1", value: "40" }]],
    ["the predecessor never came", []],
  ])("two reports that replace the same one both stand, and that is said: %s", (_, before) => {
    const built = build(
      ...before,
      { sop: "2", value: "51", replaces: ["1"] },
      { sop: "3", value: "52", replaces: ["1"] },
    );
    expect(valuesOf(built).toSorted()).toEqual([51, 52]);
    expect(codesOf(built).filter((code) => code === "report-replaced-twice")).toHaveLength(2);
    expect(codesOf(built)).toContain("readings-differ");
  });

  test("a fork that a later report ends is none", () => {
    const built = build(
      { sop: "2", value: "51", replaces: ["1"] },
      { sop: "3", value: "52", replaces: ["1"] },
      { sop: "4", value: "53", replaces: ["2", "3"] },
    );
    expect(valuesOf(built)).toEqual([53]);
    expect(codesOf(built)).not.toContain("report-replaced-twice");
  });

  test("a final report beside a preliminary one: replaced only where it says so", () => {
    const apart = build(
      { sop: "1", value: "50", preliminary: "PRELIMINARY" },
      { sop: "2", value: "51", preliminary: "FINAL" },
    );
    expect(valuesOf(apart).toSorted()).toEqual([50, 51]);
    expect(codesOf(apart)).toEqual(
      expect.arrayContaining([
        "report-preliminary-beside-final",
        "report-not-final",
        "readings-differ",
      ]),
    );
    const named = build(
      { sop: "1", value: "50", preliminary: "PRELIMINARY" },
      { sop: "2", value: "51", preliminary: "FINAL", replaces: ["1"] },
    );
    expect(valuesOf(named)).toEqual([51]);
    expect(codesOf(named)).toEqual(["report-superseded", "case-without-row"]);
  });

  test("a ring of three is refused, and what it would have replaced is replaced all the same", () => {
    const built = build(
      { sop: "0", value: "40" },
      { sop: "1", value: "50", replaces: ["3", "0"] },
      { sop: "2", value: "51", replaces: ["1"] },
      { sop: "3", value: "52", replaces: ["2"] },
    );
    expect(valuesOf(built)).toEqual([]);
    expect(codesOf(built)).toEqual(["report-versions-in-a-ring"]);
    expect(built.aside.map(({ why }) => why)).toEqual(["versions", "versions", "versions"]);
    expect(codesOf(build({ sop: "1", replaces: ["1"] }))).toEqual(["report-versions-in-a-ring"]);
  });

  test("two files under one UID: neither, until a later report replaces both", () => {
    const copies: Wish[] = [
      { sop: "1", file: "a", value: "50" },
      { sop: "1", file: "b", value: "51" },
    ];
    const built = build(...copies);
    expect(valuesOf(built)).toEqual([]);
    expect(codesOf(built)).toEqual(["report-copies-differ"]);
    expect(built.failed[0]?.failure.data["files"]).toBe("a, b");
    expect(valuesOf(build(...copies, { sop: "2", value: "52", replaces: ["1"] }))).toEqual([52]);
  });

  test("declared identical documents count once, in either direction, and are replaced together", () => {
    const pair: Wish[] = [
      { sop: "1", identical: ["2"], study: "2.25.1" },
      { sop: "2", study: "2.25.2" },
    ];
    const built = build(...pair);
    expect(valuesOf(built)).toEqual([50]);
    expect(built.cases[0]?.exams).toHaveLength(1);
    expect(codesOf(built)).toContain("report-identical");
    const three = build(...pair, { sop: "3", identical: ["2"], study: "2.25.3" });
    expect(valuesOf(three)).toEqual([50]);
    const replaced = build(...pair, { sop: "4", value: "55", replaces: ["2"] });
    expect(valuesOf(replaced)).toEqual([55]);
  });

  test("documents that declare themselves identical and are not are refused", () => {
    const built = build({ sop: "1", identical: ["2"] }, { sop: "2", value: "51" });
    expect(valuesOf(built)).toEqual([]);
    expect(codesOf(built)).toEqual(["report-copies-differ"]);
  });

  test("a report that was corrected under another patient ID is not used any more", () => {
    const built = build({ sop: "1", id: "P1" }, { sop: "2", id: "P2", replaces: ["1"] });
    expect(built.cases.map(({ patient }) => patient.id)).toEqual(["P2"]);
    expect(built.failed).toMatchObject([
      { id: "P1", failure: { code: "report-replaced-elsewhere" } },
    ]);
  });

  test("one report UID under two patient IDs is used for neither", () => {
    const built = build(
      { sop: "1", id: "P1", file: "a" },
      { sop: "1", id: "P2", file: "b" },
      { sop: "7", id: "P2", value: "44" },
    );
    expect(valuesOf(built)).toEqual([44]);
    expect(built.failed).toMatchObject([{ id: "P1", failure: { code: "report-copies-differ" } }]);
  });

  test("any tangle of versions: every report is used, replaced, a copy or refused, and never twice", () => {
    const wishes = fc.uniqueArray(
      fc.record({
        sop: fc.constantFrom("1", "2", "3", "4", "5"),
        replaces: fc.subarray(["1", "2", "3", "4", "5", "6"], { maxLength: 2 }),
        identical: fc.subarray(["1", "2", "3"], { maxLength: 1 }),
        value: fc.constantFrom("50", "51"),
        id: fc.constantFrom("P1", "P2"),
        file: fc.constantFrom("a", "b"),
      }),
      { selector: ({ sop, file }) => `${sop} ${file}`, minLength: 1, maxLength: 7 },
    );
    fc.assert(
      fc.property(wishes, (list) => {
        const documents = list.map((wish) => report({ ...wish, file: `${wish.sop}${wish.file}` }));
        const built = buildCases(documents, [], sampleOptions);
        const used = built.cases.flatMap(({ measurements }) =>
          measurements.map(({ source }) => source.at),
        );
        expect(new Set(used).size).toBe(used.length);
        const replaced = new Set(list.flatMap(({ replaces }) => replaces));
        for (const { sop, file } of list) {
          if (replaced.has(sop)) expect(used).not.toContain(`item of ${sop}${file}`);
        }
        const said = new Set(
          [
            ...built.cases.flatMap(({ messages }) => messages),
            ...built.aside.flatMap(({ reasons }) => reasons),
            ...built.failed.map(({ failure }) => failure),
          ].map(({ place }) => place?.file),
        );
        for (const { sop, file } of list) {
          const isUsed = used.includes(`item of ${sop}${file}`);
          const isFailed = built.failed.some(({ id }) =>
            list.some((one) => one.id === id && one.sop === sop),
          );
          expect(isUsed || isFailed || said.has(`${sop}${file}`)).toBe(true);
        }
      }),
      { seed: 3, numRuns: 500 },
    );
  });
});
