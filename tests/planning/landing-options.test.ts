import { describe, expect, test } from "vitest";
import type { ArchConvention } from "../../src/anatomy/arch-variants.ts";
import { buildCases } from "../../src/cases/build-cases.ts";
import { type LandingOption, landingOptions } from "../../src/planning/landing-options.ts";
import type { CaseRow, Reading, StatedFinding } from "../../src/readers/reading.ts";
import {
  sampleCaseRow,
  sampleDocument,
  sampleFinding,
  sampleOptions,
  sampleReading,
} from "../cases/sample-documents.ts";

const basis = {
  asOf: "2026-01-15",
  readingSdMmOf: () => 1,
  inventory: null,
  archConventions: [] as readonly ArchConvention[],
};

/** Options of an invented case with these readings on 2026-01-12. */
function optionsOf(
  readings: Reading[],
  diagnosis: string | null = "descending thoracic aneurysm",
  {
    findings = [],
    archConventions = [],
    ...row
  }: Partial<CaseRow> & {
    findings?: StatedFinding[];
    archConventions?: readonly ArchConvention[];
  } = {},
): LandingOption[] {
  const { cases } = buildCases(
    [sampleDocument("2026-01-12", readings, { findings })],
    [{ row: sampleCaseRow({ diagnosis, onsetDate: "2020-01-01", ...row }), night: 1 }],
    sampleOptions,
  );
  const [patientCase] = cases;
  if (!patientCase) throw new Error("the invented case was not built");
  return landingOptions(patientCase, { ...basis, archConventions });
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

const commonOrigin = "common origin of the innominate and left common carotid arteries";
const aberrant = "aberrant right subclavian artery";
const all = ["0", "1", "2", "3", "4"].flatMap((zone) => [
  ...diameters(`zone ${zone}`, "32", "28"),
  sound(`zone ${zone}`, "30", "along the inner curve"),
]);
const zonesWhere = (options: LandingOption[], test: (option: LandingOption) => boolean) =>
  options.filter(test).map(({ zone }) => zone);
const isStopped = ({ stopped }: LandingOption) => stopped !== null;

/** A site's invented convention for an aberrant right subclavian artery. */
const ofAberrant: ArchConvention = {
  variant: aberrant,
  branches: {
    "0": ["right common carotid artery"],
    "1": ["left common carotid artery"],
    "2": ["left subclavian artery"],
    "3": [aberrant],
    "4": [],
  },
  date: "2026-01-02",
  by: "aortic team",
};

describe("landing options and the arch", () => {
  test("an arch that is not stated stops nothing, and every option says what it takes for granted", () => {
    const options = optionsOf(all);
    expect(zonesWhere(options, isStopped)).toEqual([]);
    for (const { assumes, questions } of options) {
      expect(assumes).toContain("not stated; this stands on the usual arch");
      expect(questions[0]?.text).toContain("Is the arch the usual one?");
    }
  });

  test("a usual arch that is stated leaves no question of the arch", () => {
    for (const { assumes, questions } of optionsOf(all, undefined, { archVariant: "usual" })) {
      expect(assumes).toBeNull();
      const texts = questions.map(({ text }) => text).join(" ");
      expect(texts).not.toMatch(/usual|share one origin|rise from the arch/);
    }
  });

  test.each([
    [commonOrigin, ["0", "1"]],
    ["left vertebral artery off the arch", []],
    [aberrant, ["0", "1", "3", "4"]],
    ["right arch", ["0", "1", "2", "3", "4"]],
  ])(
    "in an arch with %s the zones %j have no meaning and show no number",
    (archVariant, stopped) => {
      const options = optionsOf(all, undefined, { archVariant });
      expect(zonesWhere(options, isStopped)).toEqual(stopped);
      for (const option of options.filter(isStopped)) {
        expect(option).toMatchObject({
          label: `zone ${option.zone}`,
          soundLengths: [],
          diameterRange: null,
          reference: null,
          oversizing: null,
          branchesCovered: [],
          movedFirst: [],
        });
        expect(option.checks.length).toBeGreaterThan(0);
        for (const { outcome, reason } of option.checks) {
          expect([outcome, reason]).toEqual(["not-assessable", option.stopped]);
        }
        expect(option.stopped).toContain(archVariant);
        expect(option.missing.join()).toContain("archConventions");
      }
      for (const option of options.filter((one) => !isStopped(one))) {
        expect(option.oversizing).not.toBeNull();
      }
    },
  );

  test("a landing upstream of a zone without a meaning says that its branches are not all known", () => {
    const [, , two] = optionsOf(all, undefined, { archVariant: aberrant });
    expect(two?.branchesCovered).toEqual(["left subclavian artery"]);
    expect(two?.branchesUnknown).toContain("beyond the left subclavian");
    expect(two?.missing.join()).toContain(aberrant);
  });

  test("a site's convention gives the zones their branches, and a branch without a usual re-feeding stands on its own", () => {
    const options = optionsOf(all, undefined, {
      archVariant: aberrant,
      archConventions: [ofAberrant],
    });
    expect(zonesWhere(options, isStopped)).toEqual([]);
    expect(options.map(({ branchesCovered }) => branchesCovered.length)).toEqual([4, 3, 2, 1, 0]);
    expect(options[3]?.movedFirst).toEqual([
      `${aberrant}, on its own (common practice without a source)`,
    ]);
    expect(options[3]?.branchesUnknown).toBeNull();
    expect(options[0]?.movedFirst.join()).not.toContain("all three");
    expect(options[0]?.label).toBe("zone 0, set by the site's own convention");
    expect(options[0]?.zoneSource).toContain("2026-01-02 (aortic team)");
  });

  test("a left vertebral artery off the arch is covered from zone 2 on, and the bypass does not re-feed it", () => {
    const options = optionsOf(all, undefined, {
      archVariant: "left vertebral artery off the arch",
    });
    const covers = (option: LandingOption) =>
      option.branchesCovered.includes("left vertebral artery");
    expect(zonesWhere(options, covers)).toEqual(["0", "1", "2"]);
    expect(options[2]?.label).toBe("zone 2, left common carotid to left subclavian artery");
    expect(options[2]?.movedFirst).toEqual([
      "left subclavian artery, by bypass from the carotid artery or by transposition",
      "left vertebral artery, on its own (common practice without a source)",
    ]);
  });

  test("with a common origin the bypass from the right carotid artery is not listed as usual", () => {
    const archConventions: ArchConvention[] = [
      {
        ...ofAberrant,
        variant: commonOrigin,
        branches: {
          "0": ["innominate artery"],
          "1": ["left common carotid artery"],
          "2": ["left subclavian artery"],
          "3": [],
          "4": [],
        },
      },
    ];
    const [, one] = optionsOf(all, undefined, { archVariant: commonOrigin, archConventions });
    expect(one?.movedFirst.join()).not.toContain("right common carotid");
    expect(one?.movedFirst).toContain(
      "left common carotid artery, on its own (common practice without a source)",
    );
  });

  test("contradicting statements stop the zones that they divide differently and list the branches of each elsewhere", () => {
    const findings = [sampleFinding("", "arch variant", "left vertebral off the arch")];
    const agreeing = optionsOf(all, undefined, { archVariant: "usual", findings });
    expect(zonesWhere(agreeing, isStopped)).toEqual([]);
    expect(agreeing[2]?.branchesCovered).toContain("left vertebral artery");
    expect(agreeing[2]?.assumes).toContain("contradict");
    const other = [sampleFinding("", "arch variant", commonOrigin)];
    const options = optionsOf(all, undefined, { archVariant: "usual", findings: other });
    expect(zonesWhere(options, isStopped)).toEqual(["0", "1"]);
    expect(options[0]?.stopped).toContain("contradict");
    expect(options[0]?.missing).toEqual(["which arch it is"]);
    const archConventions = [{ ...ofAberrant, variant: commonOrigin } as const];
    const divided = { archVariant: "usual", findings: other, archConventions };
    expect(zonesWhere(optionsOf(all, undefined, divided), isStopped)).toEqual(["0", "1"]);
  });
});

describe("landing options and the wall", () => {
  const zoneZero = (priorRepair: string | null) => optionsOf(all, undefined, { priorRepair })[0];
  test.each([
    [null, /not stated: prior repair/, "not-assessable", true],
    ["none", /^native wall$/, "met", true],
    ["graft, zone 0, 2020-05", /^graft since 2020-05, by the case sheet/, "not-applicable", false],
    ["graft, 2020-05", /^not stated: which zones were repaired/, "not-assessable", true],
  ])("prior repair %j", (priorRepair, wall, outcome, isSized) => {
    const option = zoneZero(priorRepair);
    expect(option?.wall).toMatch(wall);
    expect(outcomeOf(option, "native-ascending-37")).toBe(outcome);
    expect(outcomeOf(option, "landing-diameter-38")).toBe("met");
    expect(option?.oversizing !== null).toBe(isSized);
  });

  test("what is missing to know the wall is named where a condition asks for it", () => {
    const [zero, , two] = optionsOf(all);
    expect(zero?.missing).toContain("prior repair (or none)");
    expect(two?.missing).not.toContain("prior repair (or none)");
  });

  test.each(["graft, zone 0, 2026-01-13", "graft, zone 0, 2019; graft, zone 0, 2026-01-13"])(
    "numbers from before a repair are not those of the zone that is there now: %s",
    (repair) => {
      const option = zoneZero(repair);
      expect(option).toMatchObject({ diameterRange: null, reference: null, soundLengths: [] });
      expect(option?.missing.join()).toContain("measurements of zone 0 after its repair");
    },
  );

  test("a repair of an unknown day leaves open which wall was measured", () => {
    const option = zoneZero("graft, zone 0");
    expect(option?.diameterRange).not.toBeNull();
    expect(option?.missing).toContain('whether "graft, zone 0" was before or after 2026-01-12');
  });
});

describe("landing options and a dissection", () => {
  const typeB = "type B dissection";
  const states = (options: LandingOption[]) => options.map(({ dissected }) => dissected?.state);

  test("without one nothing is said", () => {
    expect(states(optionsOf(all))).toEqual(Array.from({ length: 5 }));
  });

  test("the exam and the notation are both heard", () => {
    const findings = [
      sampleFinding("zone 3", "dissection", "present"),
      sampleFinding("zone 2", "dissection", "absent", {
        source: { file: "findings.csv", sha256: "ef", at: "record 3" },
      }),
    ];
    const seen = optionsOf(all, typeB, { findings });
    expect(states(seen)).toEqual(["not stated", "not stated", "no", "yes", "not stated"]);
    expect(seen[3]?.dissected?.used).toHaveLength(1);
    const both = optionsOf(all, typeB, { findings, dissection: "B_2,4" });
    expect(states(both)).toEqual(["no", "no", "sources differ", "yes", "yes"]);
  });

  test("the notation says nothing of a zone that was replaced", () => {
    const options = optionsOf(all, "type A dissection", {
      dissection: "A_4",
      priorRepair: "graft, zone 0, 2020-01-02",
    });
    expect(states(options)).toEqual(["not stated", "yes", "yes", "yes", "yes"]);
  });

  test("findings of a dissection beside a diagnosis without one give no window of an aneurysm", () => {
    const whole = all.map((one) => ({ ...one, terms: { ...one.terms, lumen: "whole" } }));
    const findings = [sampleFinding("zone 3", "dissection", "present")];
    const [, , two] = optionsOf(whole, "descending thoracic aneurysm", { findings });
    expect(two?.reference).not.toBeNull();
    expect(two?.oversizing).toBeNull();
    expect(two?.missing.join()).toContain("the dissection in the diagnosis");
  });
});
