/**
 * Figures on the blood supply of the cord against a second transcription, from notes of the sources.
 *
 * Sources (abstracts unless said otherwise):
 * - Ann Thorac Surg, December 2008: 241 patients.
 * - A series of 2006 to 2021, journal not shown: 269 patients.
 * - Xie, J Cardiothorac Surg 2021: 171 patients.
 * - J Vasc Surg 2009;49:302.
 * - EuREC registry, 2012: 2235 patients.
 * - ESVS 2017 and STS/AATS 2022: by a digest of the guidelines, not their text.
 * - ESC 2024, recommendation table 40 and section 9.2.5.3.3 (text of the guideline).
 * - ACC/AHA 2022, table on protection of the cord.
 * - PMC9767776; Wynn, spinal drainage complications.
 */
import { describe, expect, test } from "vitest";
import { perfusionData } from "../../src/planning/perfusion/perfusion-statements.ts";

const statementOf = (id: string) => perfusionData.statements.find((one) => one.id === id);

describe("statements", () => {
  test.each([
    [
      "cord-length-longer",
      ["260.5", "195.8", "88.8", "67.6", "17.3", "63.1", "241", ".002"],
      "Ann Thorac Surg",
      true,
    ],
    [
      "cord-length-no-difference",
      ["205 mm or more", "4.7", "4.2", ".84", "269"],
      "2006 to 2021",
      true,
    ],
    ["cord-subclavian-unfed", ["10.7", "1.4", "171", "28"], "J Cardiothorac Surg", true],
    ["cord-subclavian-no-difference", ["Neither", "241"], "Ann Thorac Surg", true],
    ["cord-abdominal-aneurysm", ["4.35", "1.43 to 14.3", ".44"], "J Vasc Surg 2009;49:302", true],
    [
      "cord-territories",
      ["two or more of four", "38 of 2235", "1.7 %", "hypotension"],
      "EuREC registry 2012",
      true,
    ],
    ["cord-drain-esvs", ["over 200 mm", "abdominal repair", "superseded"], "ESVS 2017", false],
    ["cord-drain-sts", ["over 20 cm", "within 2 cm"], "STS/AATS 2022", false],
    ["cord-drain-routine", ["not unequivocally"], "PMC9767776", true],
    ["cord-drain-complications", ["10.1 %", "5.2 %", "724"], "Wynn", true],
    ["cord-rescue", ["class 1", "B-NR"], "ACC/AHA 2022", true],
    ["subclavian-first-esc", ["class I", "level B"], "table 40", true],
    ["coeliac-coverage", ["collaterals suffice", "controversial"], "9.2.5.3.3", true],
  ])("%s", (id, figures, source, wasSeen) => {
    const row = statementOf(id);
    for (const figure of figures) expect(row?.says).toContain(figure);
    expect(row?.source).toContain(source);
    expect(row?.confirmed).toBe(wasSeen);
  });

  test("1.7 % is 38 of 2235", () => {
    expect((100 * 38) / 2235).toBeCloseTo(1.7, 1);
  });

  test("every statement on the cord and the gut was transcribed here", () => {
    const own = perfusionData.statements.filter(({ about }) => about !== "brain");
    expect(own).toHaveLength(13);
  });

  test("statements that contradict each other name each other or a statement that is there", () => {
    const ids = new Set(perfusionData.statements.map(({ id }) => id));
    for (const { against } of perfusionData.statements) {
      for (const other of against) expect(ids).toContain(other);
    }
    expect(statementOf("cord-length-longer")?.against).toEqual(["cord-length-no-difference"]);
    expect(statementOf("cord-length-no-difference")?.against).toEqual(["cord-length-longer"]);
  });
});

describe("limits", () => {
  test("covered length over 200 mm in two guidelines, by a digest; 20 mm above the coeliac artery in one", () => {
    expect(perfusionData.coverageLimits).toMatchObject([
      { overMm: 200, source: expect.stringContaining("ESVS 2017"), confirmed: false },
      { overMm: 200, source: expect.stringContaining("STS/AATS 2022"), confirmed: false },
    ]);
    expect(perfusionData.coeliacLimit).toMatchObject({
      withinMm: 20,
      source: expect.stringContaining("STS/AATS 2022"),
      confirmed: false,
    });
  });

  test("the site's default of 205 mm is the dividing line of the series that found no difference", () => {
    expect(perfusionData.siteDefault).toMatchObject({ fromMm: 205, confirmed: true });
  });
});
