import { describe, expect, test } from "vitest";
import {
  archPlanData,
  revascularisation,
} from "../../../src/planning/arch-plans/arch-plan-data.ts";
import type { LandingSegment } from "../../../src/planning/landing/landing-segment.ts";
import { type ArchPlanCase, planOf } from "./arch-plan-case.ts";
import { sound } from "./requirement-row.ts";
import { aortaRows } from "./requirement-rows-aorta.ts";
import { branchRows } from "./requirement-rows-branches.ts";

const rows = [...branchRows, ...aortaRows];

describe("requirements of a plan", () => {
  test.each(rows)("%s of %s, %j: %s", (requirement, plan, held, expected) => {
    const check = planOf(plan, held).requirements.find(({ id }) => id === requirement);
    const missing = check?.missing ?? [];
    const said = missing.length > 0 ? `${check?.outcome}: ${missing.join("; ")}` : check?.outcome;
    expect(said).toBe(expected);
    expect(check?.reason).toMatch(/\.$/);
    expect(missing.every((what) => planOf(plan, held).missing.includes(what))).toBe(true);
  });

  test("every requirement that a plan or a line of re-feeding asks for is in the table", () => {
    const asked = [
      ...archPlanData.plans.flatMap(({ requires }) => requires),
      ...revascularisation.refeeding.flatMap(({ requires }) => requires),
    ];
    const tested = new Set(rows.map(([requirement]) => requirement));
    expect([...new Set(asked)].filter((id) => !tested.has(id))).toEqual([]);
    expect(archPlanData.limits.every(({ id }) => asked.includes(id))).toBe(true);
  });

  test("an interval that holds the limit is told, with its keys", () => {
    const held = { readings: [{ place: "zone-0", mm: 36 }] };
    const check = planOf("hybrid-type-1", held).requirements.find(
      ({ id }) => id === "ascending-under-37",
    );
    // 36 mm with an SD of 1 mm: 36 ± 1.96 mm, from 34.04 to 37.96 mm.
    expect(check).toMatchObject({
      outcome: "met",
      spansLimit: true,
      used: ["M0"],
      limit: "< 37 mm",
    });
    expect(check?.value?.low).toBeCloseTo(34.04, 9);
    expect(check?.value?.high).toBeCloseTo(37.96, 9);
    const sure = planOf("hybrid-type-1", { readings: [{ place: "zone-0", mm: 33 }] });
    expect(sure.requirements.find(({ id }) => id === "ascending-under-37")?.spansLimit).toBe(false);
  });

  test("a recalled limit says so, a seen one does not", () => {
    const { requirements } = planOf("hybrid-type-2", {});
    const sourceOf = (id: string) => requirements.find((check) => check.id === id)?.source ?? "";
    expect(sourceOf("graft-length-30")).toContain("not confirmed against the source");
    expect(sourceOf("graft-length-25")).not.toContain("not confirmed");
  });
});

const segment = (more: Partial<LandingSegment>): LandingSegment => {
  const end = { what: "Invented.", condition: null, atMm: null, used: [], source: null };
  return {
    end: "proximal",
    zone: "0",
    basis: "centreline",
    exam: "2026-03-02",
    date: "2026-03-02",
    conditions: "strictest published",
    startMm: 10,
    endMm: 50,
    zoneStartMm: 10,
    zoneEndMm: null,
    lengthMm: { value: 40, low: 36, high: 44 },
    innerMm: { value: 32, low: 29, high: 35 },
    outerMm: null,
    curveMethod: null,
    begunBy: end,
    endedBy: end,
    surface: "native",
    leftOut: [],
    notAssessed: [],
    spacing: { largestMm: 5, neededMm: null, words: "" },
    stations: [],
    used: ["S1"],
    missing: [],
    ...more,
  };
};

describe("lengths out of landing segments", () => {
  const landing = (proximal: LandingSegment[], readings: ArchPlanCase["readings"] = []) =>
    planOf("hybrid-type-1", { readings }, { segments: { proximal, distal: [] } }).requirements.find(
      ({ id }) => id === "landing-over-30",
    );

  test("the strictest segment is judged on its inner curve, with its interval", () => {
    const widest = segment({
      conditions: "widest published",
      innerMm: { value: 60, low: 60, high: 60 },
    });
    expect(landing([widest, segment({})])).toMatchObject({
      outcome: "met",
      value: { value: 32, low: 29, high: 35, unit: "mm" },
      spansLimit: true,
      used: ["S1"],
    });
  });

  test("without an inner curve it can only fail", () => {
    expect(landing([segment({ innerMm: null })])?.outcome).toBe("not-assessable");
    const short = segment({ innerMm: null, lengthMm: { value: 20, low: 18, high: 22 } });
    expect(landing([short])?.outcome).toBe("not-met");
  });

  test("with a condition of the wall that is open it can only fail too", () => {
    const notAssessed = [{ condition: "calcium", missing: "calcium at 4 of 6 stations" }];
    expect(landing([segment({ notAssessed })])).toMatchObject({
      outcome: "not-assessable",
      missing: ["calcium at 4 of 6 stations"],
    });
    const short = { value: 20, low: 18, high: 22 };
    expect(landing([segment({ notAssessed, innerMm: short })])?.outcome).toBe("not-met");
  });

  test("a stretch of graft is no landing in the native wall", () => {
    expect(landing([segment({ surface: "graft" })])?.missing).toEqual(["sound length in zone 0"]);
  });

  test("a segment without a length leaves the measured sound length", () => {
    const none = segment({ lengthMm: null, innerMm: null });
    expect(landing([none], [sound("zone-0", 28)])).toMatchObject({ outcome: "not-met" });
  });

  test("the distal end is taken from the distal segments", () => {
    const distal = [segment({ end: "distal", zone: "5", innerMm: null })];
    const plan = planOf("hybrid-type-3", {}, { segments: { proximal: [], distal } });
    expect(plan.requirements.find(({ id }) => id === "distal-length-20")?.outcome).toBe("met");
  });
});
