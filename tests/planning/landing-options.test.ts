import { describe, expect, test } from "vitest";
import { buildDictionary } from "../../src/anatomy/dictionary.ts";
import { buildCases } from "../../src/cases/build-cases.ts";
import { landingOptions } from "../../src/planning/landing-options.ts";
import type { Reading } from "../../src/readers/reading.ts";
import { sampleCaseRow, sampleDocument, sampleReading } from "../cases/sample-documents.ts";

const basis = { asOf: "2026-01-15", readingSdMmOf: () => 1, inventory: null };

/** Options of an invented case with these readings on 2026-01-12. */
function optionsOf(readings: Reading[], diagnosis: string | null = "descending thoracic aneurysm") {
  const { cases } = buildCases(
    [sampleDocument("2026-01-12", readings)],
    [{ row: sampleCaseRow({ diagnosis, onsetDate: "2020-01-01" }), night: 1 }],
    {
      asOf: basis.asOf,
      issuer: null,
      identities: [],
      dictionary: buildDictionary({ codes: {}, words: {} }),
      reportMessages: new Map(),
    },
  );
  const [patientCase] = cases;
  if (!patientCase) throw new Error("the invented case was not built");
  return landingOptions(patientCase, basis);
}

const sound = (zone: string, value: string, along: string) =>
  sampleReading(zone, value, {
    statistic: null,
    edge: null,
    quantity: { words: `sound length ${along}`.trim(), code: null },
  });
const diameters = (zone: string, maximum: string, minimum: string) => [
  sampleReading(zone, maximum, { edge: "inner" }, `${zone} maximum`),
  sampleReading(zone, minimum, { edge: "inner", statistic: "minimum" }, `${zone} minimum`),
];
const zoneTwo = (readings: Reading[], diagnosis?: string | null) =>
  optionsOf(readings, diagnosis)[2];
const outcomeOf = (option: ReturnType<typeof zoneTwo>, id: string) =>
  option?.checks.find((check) => check.id === id)?.outcome;

describe("landing options", () => {
  test("the five candidate zones are always there, in order, with what each covers", () => {
    const options = optionsOf([sampleReading("mid-descending aorta", "57")]);
    expect(options.map(({ zone, branchesCovered }) => [zone, branchesCovered.length])).toEqual([
      ["0", 3],
      ["1", 2],
      ["2", 1],
      ["3", 0],
      ["4", 0],
    ]);
    for (const option of options) {
      expect(option.checks.every(({ outcome }) => outcome === "not-assessable")).toBe(true);
      expect(option.missing).toContain(`sound length in zone ${option.zone}`);
      expect(option.missing).toContain(`diameters in zone ${option.zone}`);
    }
  });

  test("worked by hand: 32 by 28 mm is 30 mm; 10 to 20 % is 33 to 36 mm; with 1.96 mm of error 35.2 to 33.6 mm, none for sure", () => {
    const option = zoneTwo(diameters("zone 2", "32", "28"));
    expect(option?.reference).toMatchObject({ diameterMm: 30, edge: "inner" });
    const { oversizing } = option ?? {};
    expect(oversizing?.graftLowMm).toBeCloseTo(33, 9);
    expect(oversizing?.graftHighMm).toBeCloseTo(36, 9);
    expect(oversizing?.surelyInsideLowMm).toBeCloseTo(31.96 * 1.1, 9);
    expect(oversizing?.surelyInsideHighMm).toBeCloseTo(28.04 * 1.2, 9);
    expect(option?.diameterRange).toMatchObject({ lowMm: 28, highMm: 32 });
  });

  test("in the arch a centreline length can fail a limit but not show that it holds", () => {
    const onCentreline = (value: string) =>
      zoneTwo([sound("zone 2", value, "along the centreline")]);
    expect(outcomeOf(onCentreline("19.9"), "seal-length-20")).toBe("not-met");
    expect(outcomeOf(onCentreline("20"), "seal-length-20")).toBe("not-assessable");
    expect(onCentreline("20")?.missing).toContain("sound length along the inner curve in zone 2");
  });

  test("with the inner curve the shorter of the two is judged", () => {
    const option = zoneTwo([
      sound("zone 2", "38", "along the centreline"),
      sound("zone 2", "24.9", "along the inner curve"),
    ]);
    expect(outcomeOf(option, "seal-length-20")).toBe("met");
    expect(outcomeOf(option, "seal-length-25")).toBe("not-met");
  });

  test("zone 4 runs straight enough for the centreline", () => {
    const option = optionsOf([sound("zone 4", "40", "along the centreline")])[4];
    expect(outcomeOf(option, "seal-length-25")).toBe("met");
  });

  test.each([
    ["37.9", "met", "met"],
    ["38", "met", "met"],
    ["38.1", "met", "not-met"],
    ["40", "not-met", "not-met"],
  ])("largest diameter %s mm: under 40 %s, at most 38 %s", (value, under40, atMost38) => {
    const option = zoneTwo(diameters("zone 2", value, "30"));
    expect(outcomeOf(option, "landing-diameter-40")).toBe(under40);
    expect(outcomeOf(option, "landing-diameter-38")).toBe(atMost38);
  });

  test("a limit inside the error of the diameter is said to be so", () => {
    const spansLimit = (value: string) =>
      zoneTwo(diameters("zone 2", value, "30"))?.checks.find(
        ({ id }) => id === "landing-diameter-40",
      )?.spansLimit;
    expect(spansLimit("38.1")).toBe(true);
    expect(spansLimit("38.0")).toBe(false);
  });

  test("one diameter alone is not taken for a round vessel", () => {
    const option = zoneTwo([sampleReading("zone 2", "32", { edge: "inner" })]);
    expect(option?.reference).toBeNull();
    expect(option?.oversizing).toBeNull();
    expect(option?.missing.join()).toContain("perpendicular");
  });

  test("in a dissection a diameter that does not name its lumen is not used", () => {
    const dissection = "type B dissection";
    expect(zoneTwo(diameters("zone 2", "32", "28"), dissection)?.diameterRange).toBeNull();
    const whole = diameters("zone 2", "32", "28").map((reading) => ({
      ...reading,
      terms: { ...reading.terms, lumen: "whole" },
    }));
    const option = zoneTwo(whole, dissection);
    expect(option?.oversizing).toMatchObject({ lowPercent: 0, highPercent: 10 });
  });

  test("without a diagnosis there is no oversizing window, and that is said", () => {
    const option = zoneTwo(diameters("zone 2", "32", "28"), null);
    expect(option?.oversizing).toBeNull();
    expect(option?.missing).toContain("diagnosis");
  });
});
