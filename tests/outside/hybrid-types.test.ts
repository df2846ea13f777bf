/**
 * Types of hybrid arch repair and open arch operations, against a second transcription of what was read.
 *
 * - Dohle and Desai, chapter on hybrid arch repair, abstract: type I, native ascending under 37 mm, over 30 mm of landing.
 * - Vallabhajosyula et al., Ann Cardiothorac Surg (article 2744), and Front Cardiovasc Med 2022, 882783: type II, the
 *   grading; the latter also 200 patients.
 * - J Vasc Surg 2014, 319 patients, 697 landing zones, abstract: endoleak by surface, under 25 mm of graft in both failures.
 * - Tian 2020, 37 studies: frozen elephant trunk.
 * - CT series of 547 grafts, 1986 to 2005; knitted grafts, 1996: size against label.
 * - Recalled, no text seen: type III itself; the elephant trunk; 25 to 30 mm.
 * - J Am Heart Assoc 2017;6:e004649, abstract: retrograde dissection; J Vasc Surg 2018 (doi 10.1016/j.jvs.2017.08.070): no
 *   effect of a bare stent.
 */
import { expect, test } from "vitest";
import { archPlanData } from "../../src/planning/arch-plans/arch-plan-data.ts";
import { holds } from "../../src/quantities/limit.ts";
import { planOf } from "../planning/arch-plans/arch-plan-case.ts";

test.each([
  ["ascending-under-37", "<", 37, true, "Dohle and Desai"],
  ["landing-over-30", ">", 30, true, "Dohle and Desai"],
  ["graft-length-25", ">=", 25, true, "J Vasc Surg 2014"],
  ["graft-length-30", ">=", 30, false, "recalled"],
  ["distal-length-20", ">=", 20, false, "no guideline text seen"],
])("%s: %s %d mm, seen %s, %s", (id, operator, valueMm, confirmed, source) => {
  const limit = archPlanData.limits.find((one) => one.id === id);
  expect(limit).toMatchObject({ operator, valueMm, confirmed });
  expect(limit?.source).toContain(source);
});

test.each([
  ["hybrid-type-1-meaning", ["native ascending", "zone 0", "37 mm"], true],
  ["hybrid-type-2-meaning", ["replaced", "moved to the graft"], true],
  ["hybrid-type-2-outcome", ["200", "8.0 %", "3.5 %", "3.0 %"], true],
  ["hybrid-grading", ["proximal and the distal landing zone"], true],
  ["hybrid-type-3-meaning", ["elephant trunk", "stent graft completes"], false],
  ["surgical-graft-landing", ["3.7 %", "2.5 %", "0 %", ".44", "319", "697"], true],
  ["surgical-graft-size", ["17 %", "169", "21 %", "63", "16.2 %", "18 patients"], true],
  ["elephant-trunk-meaning", ["second stage"], false],
  [
    "frozen-elephant-trunk-outcome",
    ["37", "4178", "10.2 %", "7.7 %", "6.5 %", "93.9, 89.3 and 86.8 %"],
    true,
  ],
  [
    "retrograde-dissection",
    ["2.5 % (2.0 to 3.1)", "37.1 %", "5.33", "1.81", "2.06", "zone 0", "no effect"],
    true,
  ],
  // ACC/AHA 2022, section 6.5.3.2 and Table 18.
  ["class-1-excludes", ["class 1", "Marfan", "Loeys-Dietz", "vascular Ehlers-Danlos"], true],
  ["open-2a", ["2a", "10 years"], true],
])("%s holds %j, seen: %s", (id, numbers, confirmed) => {
  const fact = archPlanData.facts.find((one) => one.id === id);
  for (const number of numbers) expect(fact?.text).toContain(number);
  expect(fact?.confirmed).toBe(confirmed);
});

test("what was only recalled says so in its source", () => {
  const rows = [...archPlanData.facts, ...archPlanData.limits].filter((row) => !row.confirmed);
  expect(rows.length).toBeGreaterThan(0);
  for (const { source } of rows) {
    expect(source).toMatch(/recalled|digest|no guideline text seen|common practice/);
  }
});

/** By the chapter the ascending aorta is healthy under 37 mm: 37.0 is out, 36.9 in; a 30 mm landing is out, 30.1 in. */
test("limits are strict as printed", () => {
  expect([36.9, 37].map((mm) => holds(mm, "<", 37))).toEqual([true, false]);
  expect([30, 30.1].map((mm) => holds(mm, ">", 30))).toEqual([false, true]);
  const outcome = (mm: number) =>
    planOf("hybrid-type-1", { readings: [{ place: "zone-0", mm }] }).requirements.find(
      ({ id }) => id === "ascending-under-37",
    )?.outcome;
  expect([outcome(36.9), outcome(37)]).toEqual(["met", "not-met"]);
});
