import { describe, expect, test } from "vitest";
import { centrelineSheet, everyMm } from "./centreline-sheet.ts";
import { expectOptionsGolden } from "./options-golden.ts";
import {
  optionOf,
  outcomesOf,
  requirementsOf,
  segmentOf,
  stretchOf,
  workedCase,
} from "./worked-case.ts";

// Invented: innominate and left carotid arteries leave at one ostium that ends at 70 mm; aneurysm from 115 mm on.
const worked = workedCase({
  id: "WORKED-05",
  caseSheet: `diagnosis,arch_variant,aetiology,prior_repair
descending thoracic aneurysm,common origin of the innominate and left common carotid arteries,degenerative,none`,
  findings: `innominate artery,patency,patent
left common carotid artery,patency,patent
left subclavian artery,patency,patent`,
  centreline: centrelineSheet({
    atMm: everyMm(5, 0, 325),
    sectionAt: (mm) =>
      mm < 115 || mm > 255 ? { largestMm: 32, leastMm: 30 } : { largestMm: 50, leastMm: 48 },
    marks: [
      [0, "sinotubular junction"],
      [70, "left common carotid artery", "distal edge"],
      [95, "left subclavian artery", "distal edge"],
      [205, "mid-descending aorta"],
      [325, "coeliac artery", "proximal edge"],
    ],
  }),
});

const convention =
  "the site's convention (archConventions in the site file) for: common origin of the innominate and left common carotid arteries";

describe("a common origin of the innominate and left carotid arteries", () => {
  test("zones 0 and 1 have no published border: nothing is computed, and what would give one is named", () => {
    for (const zone of ["0", "1"]) {
      const option = optionOf(worked, zone);
      expect(option.stopped).toContain(convention);
      expect(option.missing).toContain(convention);
      expect(new Set(option.checks.map(({ outcome }) => outcome))).toEqual(
        new Set(["not-assessable"]),
      );
      expect(segmentOf(worked, "proximal", zone).basis).toBe("none");
    }
  });

  test("a carotid-carotid bypass has no inflow of its own once the shared trunk is covered", () => {
    const requirements = requirementsOf(worked, "stent-graft-zone-1");
    expect(outcomesOf(requirements)).toMatchObject({
      "independent-right-carotid-inflow": "not-met",
      "zone-1-gap-20": "not-assessable",
      "zone-1-gap-25": "not-assessable",
    });
    expect(requirements.find(({ id }) => id === "zone-1-gap-20")?.missing).toEqual([convention]);
    // No line of re-feeding takes the right carotid artery as donor: so none asks whether it is open.
    expect(outcomesOf(requirements)["right-carotid-donor"]).toBeUndefined();
  });

  test("zones 2 and 3 are those of the usual arch", () => {
    // Zone 2 from 70 mm, last sound section 110, first failing 115: 110 - 70 = 40, at most 45.
    expect(stretchOf(segmentOf(worked, "proximal", "2"))).toEqual({
      startMm: 70,
      endMm: 110,
      lengthMm: { value: 40, low: 40, high: 45 },
    });
    expect(outcomesOf(optionOf(worked, "2").checks)).toMatchObject({ "seal-length-25": "met" });
    // Zone 3 from 95: 110 - 95 = 15, at most 20: not 20 mm as written, and within the gap.
    expect(segmentOf(worked, "proximal", "3").lengthMm).toEqual({ value: 15, low: 15, high: 20 });
    expect(optionOf(worked, "3").checks[0]).toMatchObject({ outcome: "not-met", spansLimit: true });
    expect(optionOf(worked, "2").branchesCovered).toEqual(["left subclavian artery"]);
    expect(outcomesOf(requirementsOf(worked, "stent-graft-zone-2"))).toMatchObject({
      "left-carotid-donor": "met",
    });
  });

  test("stored outcomes", () => expectOptionsGolden("WORKED-05", worked));
});
