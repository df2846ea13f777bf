import { describe, expect, test } from "vitest";
import { expectOptionsGolden } from "./options-golden.ts";
import { optionOf, outcomesOf, requirementsOf, segmentOf, workedCase } from "./worked-case.ts";

// Invented: the reader states sound lengths and nothing else.
const worked = workedCase({
  id: "WORKED-04",
  caseSheet: `diagnosis,arch_variant,aetiology,prior_repair
descending thoracic aneurysm,usual,degenerative,none`,
  measurements: `zone 0,sound length along the inner curve,,,,31,mm
zone 2,sound length along the inner curve,,,,22,mm
zone 2,sound length along the centreline,,,,28,mm
zone 3,sound length along the centreline,,,,20,mm
zone 4,sound length,,,,30,mm`,
});

describe("sound lengths as stated", () => {
  test("zone 2: the shorter of both paths counts", () => {
    const segment = segmentOf(worked, "proximal", "2");
    expect(segment.basis).toBe("sound length as stated");
    expect(segment.lengthMm?.value).toBe(28);
    expect(segment.innerMm?.value).toBe(22);
    // 22 >= 20; 22 < 25. A stated length carries no error: no limit is spanned.
    const [twenty, twentyFive] = optionOf(worked, "2").checks;
    expect(twenty).toMatchObject({ outcome: "met", spansLimit: false });
    expect(twentyFive).toMatchObject({ outcome: "not-met", spansLimit: false });
  });

  test("zone 3: 20 mm on the centreline alone can fail 25 mm, not show 20 mm", () => {
    expect(outcomesOf(optionOf(worked, "3").checks)).toMatchObject({
      "seal-length-20": "not-assessable",
      "seal-length-25": "not-met",
    });
    expect(optionOf(worked, "3").checks[0]?.missing).toEqual([
      "length along the inner curve from zone 3 on",
    ]);
  });

  test("zone 4 is not in the bend: 30 mm reach 20 and 25 mm, whatever the path", () => {
    expect(outcomesOf(optionOf(worked, "4").checks)).toMatchObject({
      "seal-length-20": "met",
      "seal-length-25": "met",
    });
  });

  test("zone 0: 31 mm on the inner curve is over 30 mm, also for a hybrid repair in the native ascending aorta", () => {
    expect(outcomesOf(optionOf(worked, "0").checks)).toMatchObject({
      "seal-length-hybrid-30": "met",
    });
    expect(outcomesOf(requirementsOf(worked, "hybrid-type-1"))).toMatchObject({
      "landing-over-30": "met",
      "ascending-under-37": "not-assessable",
      "native-ascending": "met",
    });
  });

  test("zone 1: nothing is stated", () => {
    const { checks } = optionOf(worked, "1");
    expect(new Set(checks.map(({ outcome }) => outcome))).toEqual(new Set(["not-assessable"]));
    expect(checks[0]?.missing).toContain("sound length in zone 1");
  });

  test("stored outcomes", () => expectOptionsGolden("WORKED-04", worked));
});
