import { describe, expect, test } from "vitest";
import type { ArchConvention } from "../../../src/anatomy/arch-variants.ts";
import type { LandingOption } from "../../../src/planning/landing/landing-options.ts";
import { sampleFinding, sampleReading } from "../../cases/sample-documents.ts";
import { everyFive, lineCase, marks, basisOf } from "./sample-segments.ts";
import { diameters, everyZone, ofWholeLumen, optionsIn, optionsOf, sound } from "./read-cases.ts";

const outcomeOf = (option: LandingOption | undefined, id: string) =>
  option?.checks.find((check) => check.id === id)?.outcome;
const zoneTwo = (...given: Parameters<typeof optionsOf>) => optionsOf(...given)[2];

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

  test("the range of diameters is of all readings across the zone", () => {
    expect(zoneTwo(diameters("zone 2", "32", "28"))?.diameterRange).toMatchObject({
      lowMm: 28,
      highMm: 32,
    });
    expect(zoneTwo([])?.diameterRange).toBeNull();
  });

  test("the stretch of the sections is judged where the exam has a centreline, the diameters of the zone beside it", () => {
    const options = optionsIn(
      lineCase([...marks, ...everyFive()], {}, [{ place: "zone-2", mm: 39 }]),
      basisOf(),
    );
    // Zone 2 begins at 68 mm; every section up to the coeliac artery at 300 mm holds.
    expect(options[2]?.segments[0]).toMatchObject({ basis: "centreline", startMm: 68, endMm: 300 });
    expect(outcomeOf(options[2], "diameter-38")).toBe("not-met");
    expect(options[2]?.soundLengths).toEqual([]);
    expect(options[2]?.missing).toContain("length along the inner curve from zone 2 on");
  });

  test("segments under the widest conditions stand beside those of the strictest, which alone are judged", () => {
    // 39 mm holds under 40 mm, not at most 38 mm; 37.5 to 39 mm is no widening over 2 mm.
    const options = optionsIn(
      lineCase([...marks, ...everyFive((mm) => ({ maximumMm: mm > 85 ? 39 : 37.5 }))]),
      basisOf(),
    );
    const two = options[2];
    expect(two?.segments.map(({ conditions }) => conditions)).toEqual([
      "strictest published",
      "widest published",
    ]);
    // 85 - 68 = 17 mm: under 20 mm, within the gap to the section at 90 mm.
    expect(two?.checks[0]).toMatchObject({ id: "seal-length-20", outcome: "not-met" });
    expect(two?.checks[0]?.reason).toContain("17.0 mm");
    for (const { segments, zone } of options) {
      expect(segments.every((segment) => segment.zone === zone)).toBe(true);
    }
  });
});

const commonOrigin = "common origin of the innominate and left common carotid arteries";
const aberrant = "aberrant right subclavian artery";
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
    const options = optionsOf(everyZone);
    expect(zonesWhere(options, isStopped)).toEqual([]);
    for (const { assumes, questions } of options) {
      expect(assumes).toContain("not stated; this stands on the usual arch");
      expect(questions[0]?.text).toContain("Is the arch the usual one?");
    }
  });

  test("a usual arch that is stated leaves no question of the arch", () => {
    for (const { assumes, questions } of optionsOf(everyZone, undefined, {
      archVariant: "usual",
    })) {
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
      const options = optionsOf(everyZone, undefined, { archVariant });
      expect(zonesWhere(options, isStopped)).toEqual(stopped);
      for (const option of options.filter(isStopped)) {
        expect(option).toMatchObject({
          label: `zone ${option.zone}`,
          soundLengths: [],
          diameterRange: null,
          branchesCovered: [],
          movedFirst: [],
        });
        expect(option.checks.length).toBeGreaterThan(0);
        for (const { outcome, reason } of option.checks) {
          expect([outcome, reason]).toEqual([
            "not-assessable",
            expect.stringContaining(`${option.stopped}`),
          ]);
        }
        expect(option.stopped).toContain(archVariant);
        expect(option.missing.join()).toContain("archConventions");
        expect(option.missing.join()).not.toContain("diameters");
        expect(option.segments.map(({ basis }) => basis)).toEqual(["none"]);
      }
      for (const option of options.filter((one) => !isStopped(one))) {
        expect(option.diameterRange).not.toBeNull();
        expect(outcomeOf(option, "seal-length-25")).toBe("met");
      }
    },
  );

  test("a landing upstream of a zone without a meaning says that its branches are not all known", () => {
    const [, , two] = optionsOf(everyZone, undefined, { archVariant: aberrant });
    expect(two?.branchesCovered).toEqual(["left subclavian artery"]);
    expect(two?.branchesUnknown).toContain("beyond the left subclavian");
    expect(two?.missing.join()).toContain(aberrant);
  });

  test("a site's convention gives the zones their branches, and a branch without a usual re-feeding stands on its own", () => {
    const options = optionsOf(everyZone, undefined, {
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
    const options = optionsOf(everyZone, undefined, {
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
    const [, one] = optionsOf(everyZone, undefined, { archVariant: commonOrigin, archConventions });
    expect(one?.movedFirst.join()).not.toContain("right common carotid");
    expect(one?.movedFirst).toContain(
      "left common carotid artery, on its own (common practice without a source)",
    );
  });

  test("contradicting statements stop the zones that they divide differently and list the branches of each elsewhere", () => {
    const findings = [sampleFinding("", "arch variant", "left vertebral off the arch")];
    const agreeing = optionsOf(everyZone, undefined, { archVariant: "usual", findings });
    expect(zonesWhere(agreeing, isStopped)).toEqual([]);
    expect(agreeing[2]?.branchesCovered).toContain("left vertebral artery");
    expect(agreeing[2]?.assumes).toContain("contradict");
    const other = [sampleFinding("", "arch variant", commonOrigin)];
    const options = optionsOf(everyZone, undefined, { archVariant: "usual", findings: other });
    expect(zonesWhere(options, isStopped)).toEqual(["0", "1"]);
    expect(options[0]?.stopped).toContain("contradict");
    expect(options[0]?.missing).toEqual(["which arch it is"]);
    const archConventions = [{ ...ofAberrant, variant: commonOrigin } as const];
    const divided = { archVariant: "usual", findings: other, archConventions };
    expect(zonesWhere(optionsOf(everyZone, undefined, divided), isStopped)).toEqual(["0", "1"]);
  });
});

describe("questions of zone 2 that findings answer", () => {
  const asked = (...given: [place: string, finding: string, state: string][]) => {
    const findings = given.map(([place, finding, state], index) =>
      sampleFinding(place, finding, state, {
        source: { file: "findings.csv", sha256: "ef", at: `record ${index}` },
      }),
    );
    const texts = zoneTwo(everyZone, undefined, { archVariant: "usual", findings })?.questions;
    return (texts ?? []).map(({ text }) => text);
  };
  const dependants = "Does a coronary bypass or a dialysis access depend on";
  const dominance = "Which vertebral artery is dominant?";
  const subclavian = "left subclavian artery";

  test.each([
    [[], true, true],
    [[[subclavian, "supplies", "neither"]], false, true],
    [[[subclavian, "supplies", "dialysis access"]], false, true],
    [
      [
        [subclavian, "supplies", "neither"],
        [subclavian, "supplies", "dialysis access"],
      ],
      true,
      true,
    ],
    [[["left vertebral artery", "dominance", "dominant"]], true, false],
  ] satisfies [[string, string, string][], boolean, boolean][])(
    "%j: what hangs on the artery asked %s, dominance asked %s",
    (findings, asksDependants, asksDominance) => {
      const texts = asked(...findings);
      expect(texts.some((text) => text.startsWith(dependants))).toBe(asksDependants);
      expect(texts.includes(dominance)).toBe(asksDominance);
    },
  );
});

describe("landing options and the wall", () => {
  const zoneZero = (priorRepair: string | null) =>
    optionsOf(everyZone, undefined, { priorRepair })[0];
  test.each([
    [null, /not stated: prior repair/, "not-assessable"],
    ["none", /^native wall$/, "met"],
    ["graft, zone 0, 2020-05", /^graft since 2020-05, by the case sheet/, "not-applicable"],
    ["graft, 2020-05", /^not stated: which zones were repaired/, "not-assessable"],
  ])("prior repair %j", (priorRepair, wall, outcome) => {
    const option = zoneZero(priorRepair);
    expect(option?.wall).toMatch(wall);
    expect(outcomeOf(option, "diameter-37-ascending")).toBe(outcome);
    expect(outcomeOf(option, "diameter-38")).toBe("met");
  });

  test("what is missing to know the wall is named where a condition asks for it", () => {
    const [zero, , two] = optionsOf(everyZone);
    expect(zero?.missing).toContain("prior repair (or none)");
    expect(two?.missing).not.toContain("prior repair (or none)");
  });

  test.each(["graft, zone 0, 2026-01-13", "graft, zone 0, 2019; graft, zone 0, 2026-01-13"])(
    "numbers from before a repair are not those of the zone that is there now: %s",
    (repair) => {
      const option = zoneZero(repair);
      expect(option).toMatchObject({ diameterRange: null, soundLengths: [] });
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
    expect(states(optionsOf(everyZone))).toEqual(Array.from({ length: 5 }));
  });

  test("the exam and the notation are both heard", () => {
    const findings = [
      sampleFinding("zone 3", "dissection", "present"),
      sampleFinding("zone 2", "dissection", "absent", {
        source: { file: "findings.csv", sha256: "ef", at: "record 3" },
      }),
    ];
    const seen = optionsOf(everyZone, typeB, { findings });
    expect(states(seen)).toEqual(["not stated", "not stated", "no", "yes", "not stated"]);
    expect(seen[3]?.dissected?.used).toHaveLength(1);
    const both = optionsOf(everyZone, typeB, { findings, dissection: "B_2,4" });
    expect(states(both)).toEqual(["no", "no", "sources differ", "yes", "yes"]);
  });

  test("the notation says nothing of a zone that was replaced", () => {
    const options = optionsOf(everyZone, "type A dissection", {
      dissection: "A_4",
      priorRepair: "graft, zone 0, 2020-01-02",
    });
    expect(states(options)).toEqual(["not stated", "yes", "yes", "yes", "yes"]);
  });

  test("a diameter that does not name its lumen is not used", () => {
    const readings = diameters("zone 2", "32", "28");
    expect(zoneTwo(readings, typeB)).toMatchObject({
      diameterRange: null,
      missing: expect.arrayContaining(["diameters in zone 2"]),
    });
    expect(zoneTwo(ofWholeLumen(readings), typeB)?.diameterRange).toMatchObject({ highMm: 32 });
  });
});
