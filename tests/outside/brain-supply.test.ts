/**
 * The arteries of brain and arms, and figures on them, against sources that were not written here.
 *
 * Sources:
 * - Courses: common anatomy as any textbook has it; from memory. That a left vertebral artery off the arch lies between
 *   the left common carotid and the left subclavian artery is read off its origin.
 * - Ann Vasc Surg 2022;87:205 (stroke in arch and descending aorta).
 * - A post-mortem study of 92 subjects (right vertebral artery).
 * - Surg Radiol Anat 2018;40:779 and Aorta 2016;4:64 (left vertebral artery off the arch).
 * - J Endovasc Ther 2012;19:373-82 (aberrant right subclavian artery).
 * - Background of the 2009 guideline on the left subclavian artery, J Vasc Surg 2009;50:1155.
 * - A radiology teaching file and a review, Ir J Med Sci 2022 (common origin).
 */
import { describe, expect, test } from "vitest";
import type { ArchVariantId } from "../../src/anatomy/arch-variants.ts";
import { courseOf } from "../../src/planning/perfusion/branch-supply.ts";
import { perfusionData } from "../../src/planning/perfusion/perfusion-statements.ts";

describe("statements", () => {
  test.each([
    ["stroke-arch", ["7.1 %", "2.9 %", "3.2 %"], "Ann Vasc Surg 2022;87:205"],
    ["subclavian-covered-risks", ["6 %", "4 %", "2 %", "5 %"], "J Vasc Surg 2009;50:1155"],
    ["subclavian-no-stroke-benefit", ["no fewer strokes"], "J Vasc Surg 2020"],
    ["right-vertebral-small", ["under 2 mm", "5.4 %", "3.3 %", "92"], "post-mortem"],
    ["left-vertebral-dominant", ["60 %"], "J Vasc Surg 2009;50:1155"],
    ["left-vertebral-arch", ["3.6 %", "0.7 to 15 %"], "Surg Radiol Anat 2018;40:779"],
    ["aberrant-right-subclavian", ["0.4 to 2.3 %", "60 %"], "J Endovasc Ther 2012;19:373"],
    ["common-origin", ["15 to 25 %"], "Ir J Med Sci 2022"],
  ])("%s", (id, figures, source) => {
    const row = perfusionData.statements.find((one) => one.id === id);
    for (const figure of figures) expect(row?.says).toContain(figure);
    expect(row?.source).toContain(source);
    expect(row?.confirmed).toBe(true);
  });

  test("every statement on the brain was transcribed here", () => {
    expect(perfusionData.statements.filter(({ about }) => about === "brain")).toHaveLength(8);
  });
});

describe("the ostium by which an artery is fed, from memory of common anatomy", () => {
  test.each<[Parameters<typeof courseOf>[0], ArchVariantId[], string]>([
    ["right-common-carotid-artery", [], "innominate-artery"],
    ["right-subclavian-artery", [], "innominate-artery"],
    ["right-vertebral-artery", [], "innominate-artery"],
    ["left-common-carotid-artery", [], "left-common-carotid-artery"],
    ["left-vertebral-artery", [], "left-subclavian-artery"],
    ["left-subclavian-artery", [], "left-subclavian-artery"],
    ["left-vertebral-artery", ["left vertebral artery off the arch"], "left-vertebral-artery"],
    [
      "right-subclavian-artery",
      ["aberrant right subclavian artery"],
      "aberrant-right-subclavian-artery",
    ],
    [
      "right-vertebral-artery",
      ["aberrant right subclavian artery"],
      "aberrant-right-subclavian-artery",
    ],
    [
      "right-common-carotid-artery",
      ["aberrant right subclavian artery"],
      "right-common-carotid-artery",
    ],
  ])("%s with %j: %s", (artery, variants, ostium) => {
    expect(courseOf(artery, variants).ostia).toEqual([ostium]);
  });

  test.each(["left-common-carotid-artery", "right-common-carotid-artery"] as const)(
    "with a common origin the %s shares its ostium with the innominate artery",
    (artery) => {
      const { ostia } = courseOf(artery, [
        "common origin of the innominate and left common carotid arteries",
      ]);
      expect(ostia).toContain("common-origin-innominate-left-carotid");
      expect(ostia).toContain("innominate-artery");
      expect(ostia).toContain("left-common-carotid-artery");
    },
  );
});
