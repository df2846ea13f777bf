import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { placeById } from "../../src/anatomy/places.ts";
import { malperfusionOf, parseMalperfusion, territoryOf } from "../../src/cases/malperfusion.ts";
import { examDate, sampleExam, sampleFindings, type SampleFinding } from "./sample-dissection.ts";

describe("parseMalperfusion", () => {
  test.each([
    ["none", []],
    [" None ", []],
    [
      "left renal on imaging; right leg clinical",
      ["left renal on imaging only", "right leg clinical"],
    ],
    ["coronary clinical, spinal cord", ["coronary clinical", "spinal cord not stated"]],
    [
      "left renal, on imaging only; right leg, clinical",
      ["left renal on imaging only", "right leg clinical"],
    ],
    ["supra-aortic (symptomatic)", ["supra-aortic clinical"]],
    ["SMA: silent", ["superior mesenteric on imaging only"]],
    ["celiac on imaging only;", ["coeliac on imaging only"]],
    ["Left Kidney imaging only", ["left renal on imaging only"]],
    ["both legs absent", ["right leg absent", "left leg absent"]],
  ])("%j", (words, expected) => {
    const { stated, problems } = parseMalperfusion(words);
    expect(stated.map(({ territory, state }) => `${territory} ${state}`)).toEqual(expected);
    expect(problems).toEqual([]);
  });

  test.each(["leg clinical", "renal on imaging", "clinical", "left renal dark", "no left renal"])(
    "%j is named and the other part stands",
    (words) => {
      const { stated, problems } = parseMalperfusion(`${words}; left arm clinical`);
      expect(stated).toEqual([{ territory: "left arm", state: "clinical" }]);
      expect(problems).toEqual([`"${words}" is no known territory with its state`]);
    },
  );
});

test.each([
  ["left-renal-artery", "left renal"],
  ["innominate-artery", "supra-aortic"],
  ["zone-11-right", "right leg"],
  ["left-subclavian-artery", "left arm"],
  ["inferior-mesenteric-artery", null],
  ["zone-9", null],
])("%s feeds %s", (place, territory) => {
  expect(territoryOf(placeById(place))).toBe(territory);
});

const later = "2024-09-01";
const recorded = (
  words: string | null,
  rows: readonly SampleFinding[],
  laterRows: readonly SampleFinding[] = [],
) =>
  malperfusionOf(
    words,
    [sampleExam(), sampleExam(later)],
    [...sampleFindings(rows), ...sampleFindings(laterRows, later)],
  );
const summary = ({ territories }: ReturnType<typeof recorded>) =>
  territories.map(({ territory, state }) => `${territory}: ${state}`);

describe("malperfusionOf", () => {
  const renal = (state: string): SampleFinding => ["left-renal-artery", "malperfusion", state];

  test("the sheet and an exam that say the same agree, and both are kept with their keys", () => {
    const both = recorded("left renal silent", [renal("on imaging only")]);
    expect(summary(both)).toEqual(["left renal: on imaging only"]);
    expect(both.territories[0]?.sources).toMatchObject([
      { by: "case sheet", exam: null, used: [] },
      { by: "finding", date: examDate, used: [`F0-${examDate}`] },
    ]);
  });

  test.each([
    ["left renal clinical", "on imaging only"],
    ["left renal", "absent"],
    ["none", "clinical"],
    ["left renal clinical; left renal absent", "clinical"],
  ])("the sheet says %j and the exam %j: they differ", (words, state) => {
    expect(summary(recorded(words, [renal(state)]))).toEqual(["left renal: sources differ"]);
  });

  test("a sheet without a state takes the exam's", () => {
    expect(summary(recorded("left renal", [renal("clinical")]))).toEqual(["left renal: clinical"]);
  });

  test("none in the sheet and absent in the exam agree", () => {
    const none = recorded("none", [renal("absent")]);
    expect(none.statedNone).toBe(true);
    expect(summary(none)).toEqual(["left renal: absent"]);
  });

  test("a change between exams is no difference: the later exam is in force, the earlier is kept", () => {
    const changed = recorded(null, [renal("clinical")], [renal("absent")]);
    expect(summary(changed)).toEqual(["left renal: absent"]);
    expect(changed.territories[0]?.sources.map(({ state }) => state)).toEqual([
      "clinical",
      "absent",
    ]);
  });

  test("of two branches of one territory the graver one speaks; two readings of one branch differ", () => {
    const left = (state: string): SampleFinding => [
      "left-common-carotid-artery",
      "malperfusion",
      state,
    ];
    const right: SampleFinding = ["right-common-carotid-artery", "malperfusion", "clinical"];
    expect(summary(recorded(null, [left("absent"), right]))).toEqual(["supra-aortic: clinical"]);
    expect(summary(recorded(null, [left("absent"), left("clinical")]))).toEqual([
      "supra-aortic: sources differ",
    ]);
  });

  test("nothing recorded is not none, and a place without a territory is named", () => {
    expect(recorded(null, [])).toEqual({ statedNone: false, territories: [], problems: [] });
    const elsewhere = recorded(null, [["inferior-mesenteric-artery", "malperfusion", "clinical"]]);
    expect(elsewhere.problems).toEqual([
      "malperfusion recorded at inferior mesenteric artery names no territory",
    ]);
  });

  test("the order of findings within an exam changes no state", () => {
    const rows: SampleFinding[] = ["clinical", "on imaging only", "absent"].flatMap((state) =>
      ["left-renal-artery", "right-renal-artery", "zone-10-left", "zone-11-left"].map(
        (place): SampleFinding => [place, "malperfusion", state],
      ),
    );
    fc.assert(
      fc.property(fc.shuffledSubarray(rows), (some) => {
        expect(summary(recorded(null, some))).toEqual(summary(recorded(null, some.toReversed())));
      }),
    );
  });
});
