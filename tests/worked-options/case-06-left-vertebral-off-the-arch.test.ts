import { describe, expect, test } from "vitest";
import { centrelineSheet, everyMm } from "./centreline-sheet.ts";
import { expectOptionsGolden } from "./options-golden.ts";
import {
  optionOf,
  outcomesOf,
  requirementsOf,
  segmentOf,
  workedCase,
  type WorkedCase,
} from "./worked-case.ts";

// Invented: the dominant left vertebral artery leaves the arch in zone 2; aneurysm from 120 mm on.
const withRightVertebral = (id: string, dominance: string): WorkedCase =>
  workedCase({
    id,
    caseSheet: `diagnosis,arch_variant,aetiology,prior_repair
descending thoracic aneurysm,left vertebral artery off the arch,degenerative,none`,
    findings: `innominate artery,patency,patent
right subclavian artery,patency,patent
right vertebral artery,patency,patent
right vertebral artery,dominance,${dominance}
left vertebral artery,patency,patent
left vertebral artery,dominance,dominant
left common carotid artery,patency,patent
left subclavian artery,patency,patent`,
    centreline: centrelineSheet({
      atMm: everyMm(5, 0, 325),
      sectionAt: (mm) =>
        mm < 120 || mm > 255 ? { largestMm: 32, leastMm: 30 } : { largestMm: 50, leastMm: 48 },
    }),
  });

const worked = withRightVertebral("WORKED-06", "hypoplastic");
const posterior = ({ planning }: WorkedCase, zone: string) =>
  planning.perfusion.brain.zones
    .find((one) => one.zone === zone)
    ?.supplies.find(({ check }) => check.id === "supply-posterior")?.check;

describe("a dominant left vertebral artery off the arch", () => {
  test("a landing in zone 2 covers it beside the left subclavian artery", () => {
    expect(optionOf(worked, "2").branchesCovered.toSorted()).toEqual([
      "left subclavian artery",
      "left vertebral artery",
    ]);
    // Two arteries, two ways: the bypass to the subclavian artery does not reach the vertebral one.
    expect(optionOf(worked, "2").movedFirst).toHaveLength(2);
    expect(outcomesOf(requirementsOf(worked, "stent-graft-zone-2"))).toMatchObject({
      "left-vertebral-not-dominant": "not-met",
      "transposition-room": "not-applicable",
      "left-carotid-donor": "met",
      "left-subclavian-supplies": "not-assessable",
    });
  });

  test("back of the brain: covered on the left, hypoplastic on the right", () => {
    expect(posterior(worked, "2")).toMatchObject({
      outcome: "not-assessable",
      missing: ["whether the hypoplastic right vertebral artery feeds enough"],
    });
    // From zone 3 on the left one stays open.
    expect(posterior(worked, "3")?.outcome).toBe("met");
    expect(optionOf(worked, "3").branchesCovered).toEqual([]);
  });

  test("with an equal right vertebral artery the back of the brain keeps an inflow; with none on the right it loses both", () => {
    const equal = withRightVertebral("WORKED-06-EQUAL", "equal to the other");
    expect(posterior(equal, "2")?.outcome).toBe("met");
    const apart = withRightVertebral("WORKED-06-APART", "not joined to the basilar artery");
    expect(posterior(apart, "2")?.outcome).toBe("not-met");
  });

  test("what the move to zone 2 gains in length", () => {
    // Last sound section 115, first failing 120. Zone 2: 115 - 85 = 30, at most 35. Zone 3: 115 - 105 = 10, at most 15.
    expect(segmentOf(worked, "proximal", "2").lengthMm).toEqual({ value: 30, low: 30, high: 35 });
    expect(segmentOf(worked, "proximal", "3").lengthMm).toEqual({ value: 10, low: 10, high: 15 });
    expect(outcomesOf(optionOf(worked, "2").checks)).toMatchObject({
      "seal-length-20": "met",
      "seal-length-25": "met",
    });
    for (const check of optionOf(worked, "3").checks.slice(0, 2)) {
      expect(check).toMatchObject({ outcome: "not-met", spansLimit: false });
    }
  });

  test("stored outcomes", () => expectOptionsGolden("WORKED-06", worked));
});
