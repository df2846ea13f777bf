import { describe, expect, test } from "vitest";
import {
  archPlanData,
  revascularisation,
} from "../../../src/planning/arch-plans/arch-plan-data.ts";
import type { ArchPlan } from "../../../src/planning/arch-plans/arch-plans.ts";
import type { CaseFacts } from "../../../src/cases/patient-case.ts";
import type { ArchConvention } from "../../../src/anatomy/arch-variants.ts";
import { priorRepairsOf } from "../../../src/cases/prior-repairs.ts";
import { planOf, plansOf } from "./arch-plan-case.ts";

const innominate = "innominate artery";
const carotid = "left common carotid artery";
const subclavian = "left subclavian artery";
const vertebral = "left vertebral artery";
const commonOrigin = "common origin of the innominate and left common carotid arteries";

const covered = (id: ArchPlan["id"], facts: Partial<CaseFacts> = {}) =>
  planOf(id, { facts }).covers;

describe("the plans", () => {
  test("stand in anatomical order, whatever the numbers say", () => {
    const order = archPlanData.plans.map(({ id }) => id);
    expect(order.slice(0, 5)).toEqual([4, 3, 2, 1, 0].map((zone) => `stent-graft-zone-${zone}`));
    const failing = plansOf({
      facts: { priorRepairs: priorRepairsOf("graft, zones 0 to 4, 2011") },
      readings: [{ place: "zone-0", mm: 61 }],
      findings: [["left-common-carotid-artery", "patency", "occluded"]],
    });
    expect(failing.map(({ id }) => id)).toEqual(order);
    expect(plansOf({ facts: { archVariants: ["right arch"] } }).map(({ id }) => id)).toEqual(order);
  });

  test.each([
    ["stent-graft-zone-4", "4", []],
    ["stent-graft-zone-3", "3", []],
    ["stent-graft-zone-2", "2", [subclavian]],
    ["stent-graft-zone-1", "1", [carotid, subclavian]],
    ["stent-graft-zone-0", "0", [innominate, carotid, subclavian]],
    ["hybrid-type-1", "0", [innominate, carotid, subclavian]],
    ["hybrid-type-2", "0", [innominate, carotid, subclavian]],
    ["hybrid-type-3", null, []],
    ["elephant-trunk", null, []],
    ["frozen-elephant-trunk", null, []],
    ["open-arch-repair", null, []],
    ["open-descending-repair", null, []],
  ] as const)("%s lands in %s and covers %j of the usual arch", (id, zone, branches) => {
    const plan = planOf(id, {});
    expect(plan.proximalZone).toBe(zone);
    expect(plan.covers).toEqual(branches);
    expect(plan.coversUnknown).toBeNull();
  });

  test("each covered branch has its own line of re-feeding, from another donor by zone", () => {
    const lines = (id: ArchPlan["id"]) => planOf(id, {}).refeeding;
    expect(lines("stent-graft-zone-3")).toEqual([]);
    expect(lines("stent-graft-zone-2")).toEqual([
      expect.stringContaining("from the left common carotid artery"),
    ]);
    expect(lines("stent-graft-zone-1")).toEqual([
      expect.stringMatching(/^left common carotid artery, .* right common carotid artery/),
      expect.stringMatching(/^left subclavian artery, .* re-fed left common carotid/),
    ]);
    expect(lines("hybrid-type-1").every((line) => line.includes("ascending aorta"))).toBe(true);
    expect(lines("hybrid-type-1")).toHaveLength(3);
    expect(lines("open-arch-repair")).toEqual(
      [innominate, carotid, subclavian].map(
        (branch) => `${branch}, joined to the arch graft by open surgery`,
      ),
    );
    expect(lines("open-descending-repair")).toEqual([]);
  });
});

describe("the arch of the patient", () => {
  const vertebralOffArch: Partial<CaseFacts> = {
    archVariants: ["left vertebral artery off the arch"],
  };

  test("a left vertebral artery off the arch is covered from zone 2 and moved on its own", () => {
    const plan = planOf("stent-graft-zone-2", { facts: vertebralOffArch });
    expect(plan.covers).toEqual([vertebral, subclavian]);
    expect(plan.refeeding.find((line) => line.startsWith(vertebral))).toContain(
      "does not reach it",
    );
    expect(covered("stent-graft-zone-3", vertebralOffArch)).toEqual([]);
  });

  test("a common origin leaves zones 0 and 1 undefined; what lies further on is still covered", () => {
    const plan = planOf("stent-graft-zone-1", { facts: { archVariants: [commonOrigin] } });
    expect(plan.covers).toEqual([subclavian]);
    expect(plan.coversUnknown).toContain("not defined for this arch");
    expect(plan.refeeding.at(-1)).toContain("not known");
    expect(plan.missing.join()).toContain("archConventions");
    expect(plan.advice.length).toBeGreaterThan(0);
    const zoneTwo = planOf("stent-graft-zone-2", { facts: { archVariants: [commonOrigin] } });
    expect(zoneTwo.coversUnknown).toBeNull();
  });

  test("with the site's own convention the carotid has no usual way and the inflow fails", () => {
    const convention: ArchConvention = {
      variant: commonOrigin,
      branches: { "0": [innominate], "1": [carotid], "2": [subclavian], "3": [], "4": [] },
      date: "2026-01-01",
      by: "aortic surgeon",
    };
    const plan = planOf(
      "stent-graft-zone-1",
      { facts: { archVariants: [commonOrigin] } },
      { archConventions: [convention] },
    );
    expect(plan.covers).toEqual([carotid, subclavian]);
    expect(plan.refeeding).toContain(`${carotid}, on its own: no usual way fits this arch`);
    const inflow = plan.requirements.find(({ id }) => id === "independent-right-carotid-inflow");
    expect(inflow?.outcome).toBe("not-met");
  });

  test("an aberrant right subclavian artery and a right arch leave branches unknown", () => {
    const aberrant: Partial<CaseFacts> = { archVariants: ["aberrant right subclavian artery"] };
    const zoneTwo = planOf("stent-graft-zone-2", { facts: aberrant });
    expect(zoneTwo.covers).toEqual([subclavian]);
    expect(zoneTwo.coversUnknown).toContain("beyond the left subclavian");
    const right = planOf("stent-graft-zone-4", { facts: { archVariants: ["right arch"] } });
    expect(right.covers).toEqual([]);
    expect(right.coversUnknown).not.toBeNull();
  });

  test("an arch that is not stated is taken as usual and named missing", () => {
    const plan = planOf("stent-graft-zone-2", { facts: { archVariants: null } });
    expect(plan.covers).toEqual([subclavian]);
    expect(plan.coversUnknown).toContain("not stated");
    expect(plan.missing).toContain("arch variant (or usual)");
  });
});

describe("advice on the left subclavian artery", () => {
  test.each([
    ["stent-graft-zone-4", 0],
    ["stent-graft-zone-3", 0],
    ["stent-graft-zone-2", 9],
    ["stent-graft-zone-1", 9],
    ["stent-graft-zone-0", 9],
    ["hybrid-type-2", 9],
    ["frozen-elephant-trunk", 0],
  ] as const)("%s: %i voices, all of them", (id, count) => {
    expect(planOf(id, {}).advice).toHaveLength(count);
  });

  test("both sides of the unsettled numbers stand beside it", () => {
    const texts = planOf("stent-graft-zone-2", {}).facts.map(({ text }) => text);
    expect(texts.filter((text) => text.startsWith("Unsettled, one side"))).toHaveLength(1);
    expect(texts.filter((text) => text.startsWith("Unsettled, other side"))).toHaveLength(2);
    expect(revascularisation.evidence.length).toBeGreaterThanOrEqual(3);
  });
});

describe("facts of the patient beside a plan", () => {
  const factsOf = (...held: Parameters<typeof plansOf>) =>
    (plansOf(...held)[0]?.facts ?? []).filter(({ of }) => of === "patient").map(({ text }) => text);

  test.each([
    [{ birthDate: "1985-06-02" }, "Age 40 on 2026-06-01"],
    [{ facts: { aetiology: "Marfan" } }, "Marfan: the class 1 advice"],
    [{ facts: { aetiology: "ACTA2" } }, "does not name it"],
    [{ facts: { priorRepairs: priorRepairsOf("graft, zone 0, 2018") } }, "Prior repair: graft"],
    [
      { findings: [["left-common-carotid-artery", "patency", "narrowed"]] },
      "Left common carotid artery narrowed on 2026-03-02.",
    ],
    [
      { findings: [["innominate-artery", "wall calcium", "circumferential"]] },
      "Innominate artery, calcium of its wall: circumferential on 2026-03-02.",
    ],
    [
      { findings: [["left-subclavian-artery", "fed by", "false lumen"]] },
      "Left subclavian artery, fed by false lumen on 2026-03-02.",
    ],
    [
      { findings: [["innominate-artery", "dissection", "present"]] },
      "Innominate artery, dissection present on 2026-03-02.",
    ],
    [
      { findings: [["left-subclavian-artery", "supplies", "dialysis access"]] },
      "Left subclavian artery, supplies a dialysis access on 2026-03-02.",
    ],
    [
      { facts: { diagnoses: ["type B dissection"], malperfusionWords: "left renal clinical" } },
      "Malperfusion, left renal: clinical.",
    ],
  ] satisfies [Parameters<typeof plansOf>[0], string][])("%j: %s", (held, expected) => {
    expect(factsOf(held).some((text) => text.includes(expected))).toBe(true);
  });

  test("what is sound, or not stated, is no fact; what is not stated is missing", () => {
    const sound = {
      findings: [
        ["left-common-carotid-artery", "patency", "patent"],
        ["left-subclavian-artery", "supplies", "neither"],
      ],
    } as const;
    expect(factsOf(sound)).toEqual([expect.stringContaining("Age 66")]);
    const bare = { birthDate: null, facts: { aetiology: null, priorRepairs: null } };
    expect(factsOf(bare)).toEqual([]);
    expect(plansOf(bare)[0]?.missing).toEqual([
      "birth date",
      "aetiology",
      "prior repair (or none)",
    ]);
  });
});

describe("questions of a plan", () => {
  const raisedBy = (id: ArchPlan["id"], held: Parameters<typeof plansOf>[0], words: string) =>
    planOf(id, held)
      .questions.filter(({ text }) => text.includes(words))
      .map((question) => question.raisedBy);

  test("age and heritable disease are asked of plans with a stent graft only", () => {
    const held = { birthDate: "1990-01-01", facts: { aetiology: "Marfan" } };
    expect(raisedBy("stent-graft-zone-3", held, "young")).toEqual([
      "age 36; no source seen gives a limit",
    ]);
    expect(raisedBy("open-arch-repair", held, "young")).toEqual([]);
    expect(raisedBy("hybrid-type-1", held, "native wall")).toEqual(["Marfan"]);
    expect(raisedBy("hybrid-type-1", {}, "native wall")).toEqual([]);
    expect(raisedBy("hybrid-type-1", { birthDate: null }, "young")).toEqual([]);
  });

  test("a short zone 1 is asked about once, with its length", () => {
    const held = { readings: [{ place: "zone-1", mm: 12, quantity: "length" }] } as const;
    const asked = raisedBy("stent-graft-zone-1", { readings: [...held.readings] }, "zone 1 alone");
    expect(asked).toHaveLength(1);
    expect(asked[0]).toContain("12.0 mm");
    expect(raisedBy("stent-graft-zone-1", {}, "zone 1 alone")).toEqual([]);
    expect(
      raisedBy("stent-graft-zone-2", { readings: [...held.readings] }, "zone 1 alone"),
    ).toEqual([]);
  });

  test("a diseased branch is asked about where branches are moved", () => {
    const held = { findings: [["left-common-carotid-artery", "patency", "narrowed"]] } as const;
    expect(raisedBy("stent-graft-zone-2", held, "along its length")).toEqual([
      "left common carotid artery narrowed on 2026-03-02",
    ]);
    expect(raisedBy("open-descending-repair", held, "along its length")).toEqual([]);
  });

  test("every question names who answers and is short", () => {
    for (const { questions } of plansOf({ facts: { aetiology: "Marfan" } })) {
      for (const { text, raisedBy, answeredBy } of questions) {
        expect(text.length).toBeLessThan(110);
        expect(text).toMatch(/\?$/);
        expect(raisedBy).not.toBe("");
        expect(answeredBy).not.toBe("");
      }
    }
  });
});

test("exams after the as-of date are not heard", () => {
  const held = { findings: [["left-common-carotid-artery", "patency", "patent"]] } as const;
  const plan = planOf("stent-graft-zone-2", held, { asOf: "2026-01-01" });
  expect(plan.requirements.find(({ id }) => id === "left-carotid-donor")?.outcome).toBe(
    "not-assessable",
  );
});

test("no check or question of a plan recommends or ranks", () => {
  const plans = plansOf({
    facts: { aetiology: "Marfan", archVariants: ["left vertebral artery off the arch"] },
    readings: [{ place: "zone-0", mm: 45 }],
    findings: [["left-common-carotid-artery", "patency", "occluded"]],
  });
  const said = plans.flatMap(({ requirements, questions, refeeding }) => [
    ...requirements.flatMap(({ label, reason }) => [label, reason]),
    ...questions.map(({ text }) => text),
    ...refeeding,
  ]);
  expect(
    said.filter((text) => /\b(?:should|best|prefer|recommend|better|advise)/i.test(text)),
  ).toEqual([]);
});
