import { describe, expect, test } from "vitest";
import type { ArchConvention, ArchVariantId } from "../../../src/anatomy/arch-variants.ts";
import type { PatientCase } from "../../../src/cases/patient-case.ts";
import { suppliesOf } from "../../../src/planning/perfusion/branch-supply.ts";
import { landingArch } from "../../../src/planning/landing/landing-arch.ts";
import { type BrainZone, brainZones } from "../../../src/planning/perfusion/perfusion-brain.ts";
import { perfusion } from "../../../src/planning/perfusion/perfusion.ts";
import { noSiteConfig } from "../../../src/site/site-config.ts";
import { asOf, type FindingRow, inventedCase } from "../access/access-case.ts";

const patent: FindingRow[] = [
  "right-common-carotid-artery",
  "left-common-carotid-artery",
  "right-vertebral-artery",
  "left-vertebral-artery",
  "right-subclavian-artery",
  "left-subclavian-artery",
].map((place): FindingRow => [place, "patency", "patent"]);

const caseOf = (
  findings: readonly FindingRow[],
  archVariants: ArchVariantId[] | null,
): PatientCase => inventedCase({ findings, facts: { archVariants } });

/** Outcome by territory in one zone. */
function outcomes(
  zone: string,
  findings: readonly FindingRow[] = patent,
  archVariants: ArchVariantId[] | null = [],
  conventions: readonly ArchConvention[] = [],
): Record<string, string> {
  const found = zoneOf(zone, findings, archVariants, conventions);
  return Object.fromEntries(
    found.supplies.map(({ check }) => [check.id.replace("supply-", ""), check.outcome]),
  );
}

function zoneOf(
  zone: string,
  findings: readonly FindingRow[] = patent,
  archVariants: ArchVariantId[] | null = [],
  conventions: readonly ArchConvention[] = [],
): BrainZone {
  const own = caseOf(findings, archVariants);
  const found = brainZones(own, asOf, landingArch(own, conventions)).find(
    (one) => one.zone === zone,
  );
  if (!found) throw new Error(`no zone ${zone}`);
  return found;
}

const without = (placeId: string, finding = "patency"): FindingRow[] =>
  patent.filter((row) => row[0] !== placeId || row[1] !== finding);
const withState = (placeId: string, state: string): FindingRow[] => [
  ...without(placeId),
  [placeId, "patency", state],
];

describe("the usual arch with everything patent", () => {
  const territories = ["right-carotid", "left-carotid", "posterior", "right-arm", "left-arm"];
  test.each([
    // The landing covers the innominate, left common carotid and left subclavian artery.
    ["0", ["not-met", "not-met", "not-met", "not-met", "not-met"]],
    // The right vertebral artery comes by the innominate artery, which stays open.
    ["1", ["met", "not-met", "met", "met", "not-met"]],
    ["2", ["met", "met", "met", "met", "not-met"]],
    ["3", ["met", "met", "met", "met", "met"]],
    ["4", ["met", "met", "met", "met", "met"]],
  ])("zone %s", (zone, expected) => {
    expect(outcomes(zone)).toEqual(
      Object.fromEntries(territories.map((territory, index) => [territory, expected[index]])),
    );
  });

  test("each covered branch has its usual re-feeding", () => {
    expect(zoneOf("2")).toMatchObject({
      notRefed: [],
      refeeding: [expect.stringContaining("left subclavian")],
    });
    expect(zoneOf("3").refeeding).toEqual([]);
  });
});

describe("what is not known", () => {
  test.each([
    ["right-common-carotid-artery", "right-carotid", "patency of the right common carotid artery"],
    ["left-common-carotid-artery", "left-carotid", "patency of the left common carotid artery"],
    ["right-subclavian-artery", "right-arm", "patency of the right subclavian artery"],
    ["left-subclavian-artery", "left-arm", "patency of the left subclavian artery"],
  ])(
    "without the patency of the %s its territory is open and names it",
    (placeId, territory, missing) => {
      const zone = zoneOf("3", without(placeId));
      const check = zone.supplies.find(({ check: { id } }) => id === `supply-${territory}`)?.check;
      expect(check).toMatchObject({ outcome: "not-assessable", missing: [missing] });
      expect(zone.missing).toContain(missing);
    },
  );

  test("an unknown right vertebral artery matters once the left one is covered", () => {
    const findings = without("right-vertebral-artery");
    expect(outcomes("3", findings)["posterior"]).toBe("met");
    expect(outcomes("2", findings)["posterior"]).toBe("not-assessable");
  });

  test("an arch that is not stated shows no territory as kept and none as covered, and names the arch", () => {
    const zone = zoneOf("3", patent, null);
    for (const { check } of zone.supplies) {
      expect(check).toMatchObject({ outcome: "not-assessable", missing: ["which arch it is"] });
    }
    expect(outcomes("2", patent, null)["left-arm"]).toBe("not-assessable");
    const { assumes } = perfusion(caseOf(patent, null), {
      asOf,
      dissection: null,
      archConventions: [],
      planning: noSiteConfig.planning,
      coverage: [],
    });
    expect(assumes).toContain("not stated");
  });

  test("readers that differ leave a territory open", () => {
    const findings: FindingRow[] = [
      ...patent,
      ["left-common-carotid-artery", "patency", "occluded"],
    ];
    expect(outcomes("3", findings)["left-carotid"]).toBe("not-assessable");
  });
});

describe("closed and doubtful inflows", () => {
  test.each(["occluded", "absent"])(
    "a right vertebral artery that is %s leaves the left one alone",
    (state) => {
      const findings = withState("right-vertebral-artery", state);
      expect(outcomes("2", findings)["posterior"]).toBe("not-met");
      expect(outcomes("3", findings)["posterior"]).toBe("met");
    },
  );

  test("an occluded innominate artery closes what it feeds, whatever is said further on", () => {
    const findings: FindingRow[] = [...patent, ["innominate-artery", "patency", "occluded"]];
    expect(outcomes("3", findings)).toMatchObject({
      "right-carotid": "not-met",
      "right-arm": "not-met",
      posterior: "met",
    });
    expect(outcomes("2", findings)["posterior"]).toBe("not-met");
  });

  test("a narrowed artery is an open one", () => {
    expect(outcomes("3", withState("left-common-carotid-artery", "narrowed"))["left-carotid"]).toBe(
      "met",
    );
  });

  test("a hypoplastic right vertebral artery leaves zone 2 open to the question whether it suffices", () => {
    const findings: FindingRow[] = [
      ...patent,
      ["right-vertebral-artery", "dominance", "hypoplastic"],
    ];
    const check = zoneOf("2", findings).supplies.find(
      ({ check: { id } }) => id === "supply-posterior",
    )?.check;
    expect(check).toMatchObject({
      outcome: "not-assessable",
      missing: ["whether the hypoplastic right vertebral artery feeds enough"],
    });
  });

  test("a left vertebral artery that does not join the other feeds a territory of its own", () => {
    const findings: FindingRow[] = [
      ...patent,
      ["left-vertebral-artery", "dominance", "not joined to the basilar artery"],
    ];
    expect(outcomes("2", findings)).toMatchObject({
      posterior: "met",
      "left-vertebral-artery-apart": "not-met",
    });
    expect(outcomes("3", findings)["left-vertebral-artery-apart"]).toBe("met");
  });

  test("a coronary bypass graft and a dialysis access hang on their artery", () => {
    const findings: FindingRow[] = [
      ...patent,
      ["left-subclavian-artery", "supplies", "coronary bypass graft"],
      ["left-subclavian-artery", "supplies", "dialysis access"],
    ];
    const own = caseOf(findings, []);
    expect(suppliesOf(own, asOf).map(({ territory }) => territory)).toEqual(
      expect.arrayContaining([
        "coronary bypass graft fed by the left subclavian artery",
        "dialysis access fed by the left subclavian artery",
      ]),
    );
    expect(outcomes("2", findings)).toMatchObject({
      "left-subclavian-artery-coronary-bypass-graft": "not-met",
      "left-subclavian-artery-dialysis-access": "not-met",
    });
  });

  test("that nothing hangs on an artery is no territory, and takes none away that another reader names", () => {
    const territories = (...states: string[]) => {
      const stated = states.map((state): FindingRow => [
        "left-subclavian-artery",
        "supplies",
        state,
      ]);
      return suppliesOf(caseOf([...patent, ...stated], []), asOf).map(({ id }) => id);
    };
    expect(territories("neither")).toEqual(territories());
    expect(territories("neither", "dialysis access")).toEqual([
      ...territories(),
      "left-subclavian-artery-dialysis-access",
    ]);
  });
});

describe("other arches", () => {
  test("a left vertebral artery off the arch is covered in zone 2 and no usual bypass re-feeds it", () => {
    const zone = zoneOf("2", patent, ["left vertebral artery off the arch"]);
    expect(zone.notRefed).toEqual(["left vertebral artery"]);
    // The right one still feeds the back of the brain, and alone does not once it is occluded.
    expect(outcomes("2", patent, ["left vertebral artery off the arch"])["posterior"]).toBe("met");
    const occluded = withState("right-vertebral-artery", "occluded");
    expect(outcomes("2", occluded, ["left vertebral artery off the arch"])["posterior"]).toBe(
      "not-met",
    );
  });

  test("an aberrant right subclavian artery: zones 0 and 1 are not defined, zone 2 may cover it too", () => {
    const variants: ArchVariantId[] = ["aberrant right subclavian artery"];
    expect(zoneOf("1", patent, variants).stopped).not.toBeNull();
    expect(outcomes("2", patent, variants)).toMatchObject({
      "left-arm": "not-met",
      "right-arm": "not-assessable",
      posterior: "not-assessable",
    });
  });

  test("by a site's convention a landing in zone 2 covers both subclavian and both vertebral arteries", () => {
    const convention: ArchConvention = {
      variant: "aberrant right subclavian artery",
      branches: {
        "0": ["right common carotid artery"],
        "1": ["left common carotid artery"],
        "2": ["left subclavian artery"],
        "3": ["aberrant right subclavian artery"],
        "4": [],
      },
      date: "2026-01-05",
      by: "aortic surgeon",
    };
    expect(outcomes("2", patent, ["aberrant right subclavian artery"], [convention])).toMatchObject(
      {
        "left-arm": "not-met",
        "right-arm": "not-met",
        posterior: "not-met",
        "right-carotid": "met",
      },
    );
  });

  test("with a common origin what covers it takes both carotid arteries", () => {
    const convention: ArchConvention = {
      variant: "common origin of the innominate and left common carotid arteries",
      branches: {
        "0": [],
        "1": ["common origin of the innominate and left common carotid arteries"],
        "2": ["left subclavian artery"],
        "3": [],
        "4": [],
      },
      date: "2026-01-05",
      by: "aortic surgeon",
    };
    const variants: ArchVariantId[] = [convention.variant];
    expect(outcomes("1", patent, variants, [convention])).toMatchObject({
      "right-carotid": "not-met",
      "left-carotid": "not-met",
      posterior: "not-met",
    });
    expect(outcomes("2", patent, variants, [convention])).toMatchObject({
      "right-carotid": "met",
      "left-carotid": "met",
      posterior: "met",
    });
  });

  test("a right arch stops every zone and says what is missing", () => {
    const zone = zoneOf("2", patent, ["right arch"]);
    expect(zone.stopped).not.toBeNull();
    expect(zone.supplies.every(({ check }) => check.outcome === "not-assessable")).toBe(true);
    expect(zone.missing.length).toBeGreaterThan(0);
  });
});
