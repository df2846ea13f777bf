import { describe, expect, test } from "vitest";
import { expectOptionsGolden } from "./options-golden.ts";
import { outcomesOf, workedCase } from "./worked-case.ts";

// Invented: narrow on the right (8, 6.5 and 7.5 mm), occluded left external iliac artery between 9 and 8 mm.
const worked = workedCase({
  id: "WORKED-13",
  caseSheet: `diagnosis,arch_variant,aetiology,prior_repair
descending thoracic aneurysm,usual,degenerative,none`,
  measurements: `right common iliac artery,diameter,minimum,whole,inner,8,mm
right external iliac artery,diameter,minimum,whole,inner,6.5,mm
right external iliac artery,angle,,,,95,deg
right common femoral artery,diameter,minimum,whole,inner,7.5,mm
left common iliac artery,diameter,minimum,whole,inner,9,mm
left common femoral artery,diameter,minimum,whole,inner,8,mm`,
  findings: `right common iliac artery,patency,patent
right external iliac artery,patency,narrowed
right common femoral artery,patency,patent
left common iliac artery,patency,patent
left external iliac artery,patency,occluded
left common femoral artery,patency,patent
right common iliac artery,wall calcium,part of the circumference
right external iliac artery,wall calcium,circumferential
right common femoral artery,wall calcium,absent`,
});

const [right, left] = worked.planning.access.sides;
const sheath = (side: typeof right, french: string) =>
  side?.sheaths?.find(({ asWritten }) => asWritten === `${french} Fr`);
const ratioOf = (side: typeof right, french: string) => sheath(side, french)?.ratio;

describe("sheaths in French against the iliac and femoral arteries", () => {
  test("right side: 6.5 mm at the narrowest", () => {
    // 95 % of the least of three: 6.5 - 1.96 = 4.54 to 6.5 + 1.96 = 8.46.
    expect(right?.narrowest).toMatchObject({ valueMm: 6.5, isWhole: true });
    expect(right?.narrowest?.lowMm).toBeCloseTo(4.54, 9);
    expect(right?.narrowest?.highMm).toBeCloseTo(8.46, 9);
    expect(right?.narrowest?.at).toBe("right external iliac artery");
  });

  test.each([
    // 1 Fr = 1/3 mm outside: French / 3 / 6.5 = ratio.
    ["20", 20 / 3 / 6.5, 1.0256],
    ["21", 7 / 6.5, 1.0769],
    ["22", 22 / 3 / 6.5, 1.1282],
    ["24", 8 / 6.5, 1.2308],
    ["25", 25 / 3 / 6.5, 1.2821],
    ["26", 26 / 3 / 6.5, 1.3333],
  ])("right side, %s Fr", (french, ratio, rounded) => {
    expect(ratio).toBeCloseTo(rounded, 4);
    const row = sheath(right, french);
    expect(row?.ratio?.value).toBeCloseTo(ratio, 9);
    // At most 1.05: 20 Fr alone. At most 1.45: all. The error of 1.96 mm lets each go either way of 1.05.
    const [site, looser] = row?.checks ?? [];
    expect(site).toMatchObject({
      id: "sheath-ratio-1-05",
      outcome: french === "20" ? "met" : "not-met",
      spansLimit: true,
    });
    expect(looser).toMatchObject({ id: "sheath-ratio-1-45", outcome: "met", spansLimit: true });
  });

  test("right side, 20 Fr: range of the ratio", () => {
    // 6.6667 / 8.46 = 0.7880 to 6.6667 / 4.54 = 1.4684.
    expect(ratioOf(right, "20")?.low).toBeCloseTo(0.788, 4);
    expect(ratioOf(right, "20")?.high).toBeCloseTo(1.4684, 4);
  });

  test("least lumen by the teaching table: 7 mm for 17 to 21 Fr, 8 mm for 22 to 25 Fr, none for 26 Fr", () => {
    const tables = Object.fromEntries(
      right?.sheaths?.map(({ asWritten, checks }) => [
        asWritten,
        checks.find(({ id }) => id === "sheath-teaching-table")?.outcome,
      ]) ?? [],
    );
    // 6.5 < 7 and 6.5 < 8.
    expect(tables).toEqual({
      "20 Fr": "not-met",
      "21 Fr": "not-met",
      "22 Fr": "not-met",
      "24 Fr": "not-met",
      "25 Fr": "not-met",
      "26 Fr": "not-applicable",
    });
  });

  test("right side: way in", () => {
    expect(outcomesOf(right?.checks ?? [])).toEqual({
      "access-conduit": "not-met", // the least of 6.5 and 7.5 mm is under 7 mm
      "access-open": "met", // narrowed is open
      "access-unrepaired": "met",
      "access-calcium": "not-met",
      "access-angle": "not-met", // 95 > 90 degrees
      "access-tortuosity": "not-assessable",
    });
    // 4.54 to 8.46 holds 7 mm.
    expect(right?.checks[0]?.spansLimit).toBe(true);
  });

  test("left side: occluded, and the lumen of that stretch not measured", () => {
    expect(left?.narrowest).toMatchObject({ valueMm: 8, isWhole: false });
    expect(outcomesOf(left?.checks ?? [])).toEqual({
      "access-conduit": "not-assessable",
      "access-open": "not-met",
      "access-unrepaired": "met",
      "access-calcium": "not-assessable",
      "access-angle": "not-assessable",
      "access-tortuosity": "not-assessable",
    });
    // 20 Fr: 6.6667 / 8 = 0.8333 at least; whether it is within 1.05 the stretch that is missing decides.
    expect(ratioOf(left, "20")?.value).toBeCloseTo(0.8333, 4);
    expect(ratioOf(left, "20")?.high).toBeNull();
    expect(sheath(left, "20")?.checks[0]).toMatchObject({
      outcome: "not-assessable",
      missing: ["least lumen diameter of the left external iliac artery"],
    });
    // 26 Fr: 8.6667 / 8 = 1.0833 is over 1.05 already.
    expect(sheath(left, "26")?.checks[0]?.outcome).toBe("not-met");
  });

  test("stored outcomes", () => expectOptionsGolden("WORKED-13", worked));
});
