import { describe, expect, test } from "vitest";
import {
  type ArchConvention,
  archScheme,
  type ArchVariantId,
  archVariantIds,
  archVariantOf,
  archVariantWords,
} from "../../src/anatomy/arch-variants.ts";
import { placeTable } from "../../src/anatomy/places.ts";

const common = "common origin of the innominate and left common carotid arteries";
const vertebral = "left vertebral artery off the arch";
const aberrant = "aberrant right subclavian artery";
const zones = ["0", "1", "2", "3", "4"] as const;
const definedIn = (variants: ArchVariantId[], conventions: ArchConvention[] = []) => {
  const scheme = archScheme(variants, conventions);
  return zones.filter((zone) => scheme.zones[zone] !== null).join("");
};

describe("words", () => {
  test.each([
    ["usual", "usual"],
    ["None", "usual"],
    ["Left arch, three branches", "usual"],
    ["bovine arch", common],
    ["Common origin of the brachiocephalic trunk and left common carotid artery", common],
    ["arco bovino", common],
    ["left vertebral from the arch", vertebral],
    ["A. vertebralis links aus dem Aortenbogen", vertebral],
    ["Arteria lusoria", aberrant],
    ["ARSA", aberrant],
    ["artère sous-clavière droite aberrante", aberrant],
    ["right-sided aortic arch", "right arch"],
    ["Rechter Aortenbogen", "right arch"],
  ])("%j", (words, id) => {
    expect(archVariantOf(words)).toBe(id);
  });

  test.each([
    "left arch",
    "type II arch",
    "variant",
    "RAA",
    "aberrant left subclavian artery",
    "left vertebral artery",
    "right subclavian artery",
    "double arch",
    "",
  ])("%j names none", (words) => {
    expect(archVariantOf(words)).toBeNull();
  });

  test("every variant is known by its own name, and every spelling names one", () => {
    for (const id of archVariantIds) expect(archVariantOf(id)).toBe(id);
    for (const words of archVariantWords) expect(archVariantIds).toContain(archVariantOf(words));
  });

  test("a place that only one variant has states it", () => {
    const stated = placeTable.filter(({ place }) => place.variant !== null);
    expect(stated.map(({ place }) => [place.id, place.variant])).toEqual([
      ["common-origin-innominate-left-carotid", common],
      ["aberrant-right-subclavian-artery", aberrant],
    ]);
  });
});

describe("zones of an arch", () => {
  test("the usual arch, stated or as an empty list", () => {
    const scheme = archScheme([], []);
    expect(scheme).toEqual(archScheme(["usual"], []));
    expect(zones.map((zone) => scheme.zones[zone]?.branches)).toEqual([
      ["innominate artery"],
      ["left common carotid artery"],
      ["left subclavian artery"],
      [],
      [],
    ]);
    expect(scheme.zones["3"]?.to).toBe("2 cm distal to it");
    expect(scheme.undefinedBecause).toBeNull();
    expect(scheme.source).toMatch(/^ACC\/AHA 2022 .* page 6$/);
  });

  test.each<[ArchVariantId[], string]>([
    [[common], "234"],
    [[vertebral], "01234"],
    [[aberrant], "2"],
    [["right arch"], ""],
    [[common, vertebral], "234"],
    [[common, aberrant], "2"],
    [[vertebral, "right arch"], ""],
  ])("%j defines zones %j", (variants, defined) => {
    expect(definedIn(variants)).toBe(defined);
    expect(archScheme(variants, []).undefinedBecause === null).toBe(defined === "01234");
  });

  test("the sentence names the zones and every reason", () => {
    const { undefinedBecause } = archScheme([common, aberrant], []);
    expect(undefinedBecause).toMatch(
      /^Zones 0, 1, 3 and 4 are not defined for this arch: the innominate .*; there is no .*\.$/,
    );
  });

  test("a left vertebral artery off the arch is one more branch of zone 2, and its source says that it is recalled", () => {
    const { zones: found, source } = archScheme([vertebral], []);
    expect(found["2"]?.branches).toEqual(["left vertebral artery", "left subclavian artery"]);
    expect(found["2"]?.from).toBe("distal edge of the left common carotid artery origin");
    expect(source).toContain("recalled");
    expect(archScheme([common, vertebral], []).zones["2"]?.branches).toHaveLength(2);
  });
});

describe("a site's own convention", () => {
  const subclavian = ["left subclavian artery"];
  const ofCommon: ArchConvention = {
    variant: common,
    branches: { "0": [common], "1": [], "2": subclavian, "3": [], "4": [] },
    date: "2025-01-15",
    by: "head of imaging",
  };
  const ofAberrant: ArchConvention = {
    variant: aberrant,
    branches: {
      "0": ["right common carotid artery"],
      "1": ["left common carotid artery"],
      "2": subclavian,
      "3": [aberrant],
      "4": [],
    },
    date: "2025-02-01",
    by: "arch meeting",
  };

  test("defines what the published map leaves open, and keeps the borders that hold", () => {
    const {
      zones: found,
      undefinedBecause,
      source,
    } = archScheme([aberrant], [ofCommon, ofAberrant]);
    expect(undefinedBecause).toBeNull();
    expect(found["0"]).toEqual({
      from: "set by the site's own convention",
      to: "set by the site's own convention",
      branches: ["right common carotid artery"],
    });
    expect(found["3"]).toEqual({
      from: "distal edge of the left subclavian artery origin",
      to: "2 cm distal to it",
      branches: [aberrant],
    });
    expect(source).toContain(
      "the site's convention of 2025-02-01 (arch meeting) for aberrant right subclavian artery",
    );
    expect(source).not.toContain("2025-01-15");
  });

  test("of one variant does not speak for another", () => {
    expect(definedIn([common, aberrant], [ofCommon])).toBe("2");
    expect(definedIn(["right arch"], [ofCommon, ofAberrant])).toBe("");
  });

  test("and a variant that only adds a branch go together", () => {
    const { zones: found } = archScheme([vertebral, common], [ofCommon]);
    expect(found["0"]?.branches).toEqual([common]);
    expect(found["1"]?.branches).toEqual([]);
    expect(found["2"]?.branches).toEqual(["left vertebral artery", "left subclavian artery"]);
  });

  test("and another that replace the same branch in different ways leave the zone open", () => {
    const { zones: found, undefinedBecause } = archScheme(
      [common, aberrant],
      [ofCommon, ofAberrant],
    );
    expect(found["0"]).toBeNull();
    expect(found["3"]?.branches).toEqual([aberrant]);
    expect(undefinedBecause).toMatch(/^Zone 0 is not defined .* in different ways\.$/);
  });
});
