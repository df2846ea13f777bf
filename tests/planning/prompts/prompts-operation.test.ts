import { describe, expect, test } from "vitest";
import type { CaseFacts } from "../../../src/cases/patient-case.ts";
import { priorRepairsOf } from "../../../src/cases/prior-repairs.ts";
import { promptsOf } from "../../../src/planning/prompts/prompts.ts";
import { asOf } from "../../guidelines/invented-case.ts";
import { archPlanCase, type ArchPlanCase } from "../arch-plans/arch-plan-case.ts";

type Computed = Parameters<typeof promptsOf>[2];
const promptsFor = (held: ArchPlanCase, computed: Computed = {}) =>
  promptsOf(archPlanCase(held), asOf, computed);
const raisedBy = (held: ArchPlanCase, words: string, computed: Computed = {}) =>
  promptsFor(held, computed)
    .filter(({ text }) => text.includes(words))
    .map((prompt) => prompt.raisedBy);

const considering = (...considered: string[]): Partial<CaseFacts> => ({ considered });
const repaired = (words: string): Partial<CaseFacts> => ({ priorRepairs: priorRepairsOf(words) });
const descending: ArchPlanCase = { facts: considering("descending repair") };
const withFacts = (facts: Partial<CaseFacts>): ArchPlanCase => ({
  facts: { ...descending.facts, ...facts },
});
const dissected: Partial<CaseFacts> = { diagnoses: ["type B dissection"] };
const sharpBend = {
  // R 32 mm, D 40 mm: inner radius 12 mm, 40 / 12 = 3.33.
  readings: [
    { place: "zone-3", mm: 32, quantity: "radius" as const, statistic: "unstated" as const },
    { place: "zone-3", mm: 40 },
  ],
};

/** Words of the question, the case that raises it, a part of what it says, the same case without the fact. */
const rows: [words: string, raising: ArchPlanCase, said: string, silent: ArchPlanCase][] = [
  ["Which wire", descending, "considered: descending repair", {}],
  ["What is the fall-back", descending, "considered: descending repair", {}],
  ["Who follows the repair", descending, "considered: descending repair", {}],
  [
    "holds the device at the turn",
    {
      ...descending,
      readings: [{ place: "zone-3", mm: 75, quantity: "angle", asWritten: "75 deg" }],
    },
    "angle 75 deg, zone 3",
    { ...descending, readings: [{ place: "zone-3", mm: 60, quantity: "angle" }] },
  ],
  [
    "holds the device at the turn",
    { ...descending, ...sharpBend },
    "inner radius 12.0 mm at 40.0 mm",
    // R 60 mm, D 40 mm: inner radius 40 mm, 40 / 40 = 1.
    {
      ...descending,
      readings: [
        { place: "zone-3", mm: 60, quantity: "radius" },
        { place: "zone-3", mm: 40 },
      ],
    },
  ],
  [
    "new dissection of the ascending aorta",
    descending,
    "2.5 % after thoracic stent grafting, mortality 37.1 %",
    withFacts(repaired("graft, zone 0, 2018")),
  ],
  [
    "new dissection of the ascending aorta",
    withFacts(dissected),
    "5.33 times as often in dissection",
    { facts: dissected },
  ],
  ["balloon", withFacts(dissected), "type B dissection", descending],
  ["intravascular ultrasound", withFacts(dissected), "SVS 2021", descending],
  [
    "Which vertebral artery is dominant, and is the circle of Willis complete?",
    descending,
    "not stated",
    {
      ...descending,
      findings: [
        ["left-vertebral-artery", "dominance", "equal to the other"],
        ["circle-of-willis", "circle of Willis", "complete"],
      ],
    },
  ],
  [
    "Is the circle of Willis complete?",
    { ...descending, findings: [["left-vertebral-artery", "dominance", "dominant"]] },
    "not stated",
    { ...descending, findings: [["circle-of-willis", "circle of Willis", "incomplete"]] },
  ],
  [
    "Which vertebral artery is dominant?",
    { ...descending, findings: [["circle-of-willis", "circle of Willis", "complete"]] },
    "not stated",
    { ...descending, findings: [["right-vertebral-artery", "dominance", "dominant"]] },
  ],
  [
    "feeds the back of the brain",
    { ...descending, findings: [["left-vertebral-artery", "dominance", "dominant"]] },
    "left vertebral artery dominant on 2026-03-02",
    { ...descending, findings: [["left-vertebral-artery", "dominance", "equal to the other"]] },
  ],
  [
    "feeds the back of the brain",
    { ...descending, findings: [["right-vertebral-artery", "dominance", "hypoplastic"]] },
    "right vertebral artery hypoplastic",
    { ...descending, findings: [["left-vertebral-artery", "dominance", "hypoplastic"]] },
  ],
  [
    "feeds the back of the brain",
    { ...descending, findings: [["circle-of-willis", "circle of Willis", "incomplete"]] },
    "circle of Willis incomplete",
    { ...descending, findings: [["circle-of-willis", "circle of Willis", "complete"]] },
  ],
  [
    "left vertebral artery kept",
    withFacts({ archVariants: ["left vertebral artery off the arch"] }),
    "does not reach it",
    { facts: { archVariants: ["left vertebral artery off the arch"] } },
  ],
  [
    "coronary graft or dialysis access",
    { ...descending, findings: [["left-subclavian-artery", "supplies", "dialysis access"]] },
    "left subclavian artery supplies a dialysis access on 2026-03-02",
    { ...descending, findings: [["left-subclavian-artery", "supplies", "neither"]] },
  ],
  [
    "coronary graft or dialysis access",
    {
      ...descending,
      findings: [
        ["innominate-artery", "supplies", "coronary bypass graft"],
        ["innominate-artery", "supplies", "neither"],
      ],
    },
    "innominate artery supplies a coronary bypass graft on 2026-03-02 (readers differ: one states none)",
    descending,
  ],
  [
    "spinal cord",
    withFacts(repaired("stent graft, zone 9, 2016")),
    "earlier abdominal repair: stent graft, zone 9, 2016",
    withFacts(repaired("graft, zone 0, 2016")),
  ],
  [
    "spinal cord",
    withFacts(repaired("open repair of an infrarenal aneurysm 2016")),
    "infrarenal",
    withFacts(repaired("graft, zone 9, 2026-12-01")),
  ],
  [
    "spinal cord",
    { facts: considering("thoraco-abdominal repair") },
    "considered: thoraco-abdominal repair",
    descending,
  ],
  [
    "coeliac",
    { ...descending, readings: [{ place: "zone-5", mm: 14, quantity: "sound-length" }] },
    "sound length above it 14 mm",
    { ...descending, readings: [{ place: "zone-5", mm: 20, quantity: "sound-length" }] },
  ],
  ["coeliac", withFacts({ diagnoses: ["thoraco-abdominal aneurysm"] }), "ESC 2024", descending],
  ["heritable disease", withFacts({ aetiology: "Marfan" }), "Marfan; ACC/AHA 2022", descending],
  ["brain perfused", { facts: considering("arch repair") }, "considered: arch repair", descending],
  [
    "chest re-entered",
    { facts: { ...considering("arch repair"), ...repaired("graft, zone 0, 2018") } },
    "graft, zone 0, 2018; no distance from the sternum is measured",
    { facts: { ...considering("arch repair"), ...repaired("stent graft, zones 3 to 4, 2018") } },
  ],
  [
    "chest re-entered",
    { facts: { ...considering("aortic valve surgery"), ...repaired("hemiarch replacement 2015") } },
    "hemiarch replacement 2015 (kind or zones not stated)",
    {
      facts: {
        ...considering("aortic valve surgery"),
        ...repaired("open repair of an infrarenal aneurysm 2016"),
      },
    },
  ],
  [
    "One stage or several",
    { facts: considering("arch repair", "descending repair") },
    "arch repair, descending repair",
    { facts: considering("arch repair", "aortic valve surgery") },
  ],
];

describe("questions on an operation", () => {
  test.each(rows)("%s %j", (words, raising, said, silent) => {
    const raised = raisedBy(raising, words);
    expect(raised).toHaveLength(1);
    expect(raised[0]).toContain(said);
    expect(raisedBy(silent, words)).toEqual([]);
  });

  test("each is short, a question, and has a role that answers", () => {
    for (const [, raising] of rows) {
      const prompts = promptsFor(raising);
      expect(new Set(prompts.map(({ text }) => text)).size).toBe(prompts.length);
      for (const { text, answeredBy } of prompts) {
        expect(text.length).toBeLessThan(110);
        expect(text).toMatch(/\?/);
        expect(answeredBy).not.toBe("");
      }
    }
  });

  test("none is raised on renal function or on a size read in shock: no fact of the case tells of them", () => {
    const texts = rows.flatMap(([, raising]) => promptsFor(raising).map(({ text }) => text));
    expect(texts.filter((text) => /shock|contrast|kidney/i.test(text))).toEqual([]);
  });
});

describe("when an operation is in sight", () => {
  const wire = "Which wire";
  const aneurysm: Partial<CaseFacts> = { diagnoses: ["descending thoracic aneurysm"] };

  test.each([
    ["a patient who is followed up", { facts: aneurysm }, {}, []],
    [
      "a size criterion that is met",
      { facts: aneurysm },
      { limitsReached: ["descending aorta 62.0 mm, at least 60 mm"] },
      ["descending aorta 62.0 mm, at least 60 mm"],
    ],
    [
      "the same where the sheet says that nothing is considered",
      { facts: { ...aneurysm, considered: [] } },
      { limitsReached: ["descending aorta 62.0 mm, at least 60 mm"] },
      [],
    ],
    [
      "a criterion of a part that takes no thoracic stent graft",
      { facts: { diagnoses: ["abdominal aneurysm"] } },
      { limitsReached: ["infrarenal aorta 56.0 mm"] },
      [],
    ],
    [
      "a dissection on day 14",
      { facts: { ...dissected, onsetDate: "2026-05-18" } },
      {},
      ["dissection, day 14 after the onset"],
    ],
    ["a dissection on day 15", { facts: { ...dissected, onsetDate: "2026-05-17" } }, {}, []],
    ["a dissection without an onset date", { facts: dissected }, {}, []],
    ["an abdominal repair", { facts: considering("abdominal repair") }, {}, []],
    ["valve surgery", { facts: considering("aortic valve surgery") }, {}, []],
  ] satisfies [string, ArchPlanCase, Computed, string[]][])("%s", (_, held, computed, expected) => {
    expect(raisedBy(held, wire, computed)).toEqual(expected);
  });

  test("facts computed elsewhere raise the turn and the cord", () => {
    const turn = "turn of 48 degrees over 20 mm";
    const cover = "from zone 2: 240 mm covered";
    const computed = { sharpTurns: [turn], longCover: [cover] };
    expect(raisedBy(descending, "holds the device", computed)).toEqual([turn]);
    expect(raisedBy(descending, "spinal cord", computed)).toEqual([cover]);
    expect(raisedBy({}, "spinal cord", computed)).toEqual([]);
  });
});

test("dominance is asked about once, and not where an exam tells it", () => {
  const variant: Partial<CaseFacts> = { archVariants: ["left vertebral artery off the arch"] };
  const question = "Which vertebral artery is dominant";
  expect(raisedBy({ facts: variant }, question)).toEqual([
    "left vertebral artery off the arch (case sheet)",
  ]);
  const told: ArchPlanCase = {
    facts: variant,
    findings: [["left-vertebral-artery", "dominance", "dominant"]],
  };
  expect(raisedBy(told, question)).toEqual([]);
  expect(raisedBy(withFacts(variant), question)).toHaveLength(1);
});
