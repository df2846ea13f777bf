import { describe, expect, test } from "vitest";
import {
  buildDictionary,
  codeKey,
  qualifierMeaning,
  wordKey,
} from "../../src/anatomy/dictionary.ts";
import { placeTable } from "../../src/anatomy/places.ts";

const dictionary = buildDictionary({ codes: {}, words: {} });

describe("dictionary", () => {
  test("retired spellings become their SCT code; other schemes stay", () => {
    expect(codeKey({ scheme: "SRT", value: "T-42000" })).toBe("SCT:15825003");
    expect(codeKey({ scheme: "SRT", value: "T-00000" })).toBe("SRT:T-00000");
    expect(codeKey({ scheme: "99LAB", value: "T-42000" })).toBe("99LAB:T-42000");
    expect(codeKey({ scheme: "SCT", value: "15825003" })).toBe("SCT:15825003");
  });

  test("every spelling and every code of the table leads back to its place", () => {
    for (const { place, words, codes } of placeTable) {
      for (const spelling of words) {
        expect(dictionary.placeWords.get(wordKey(spelling)), spelling).toBe(place);
      }
      for (const code of codes) {
        const found = code.includes(" + ")
          ? dictionary.combinedCodes.get(code)?.id
          : dictionary.codes.get(code)?.place;
        expect(found, code).toBe(place.id);
      }
    }
  });

  test("an artery with a side is paired, and every paired artery has both sides", () => {
    for (const site of dictionary.pairedSites) {
      for (const side of ["SCT:24028007", "SCT:7771000"]) {
        expect(dictionary.combinedCodes.get(`${site} + ${side}`), `${site} ${side}`).toBeDefined();
      }
      expect(dictionary.codes.get(site)?.place, site).toBeUndefined();
    }
    expect(dictionary.pairedSites.size).toBeGreaterThan(4);
  });

  test("a site's addition to a place that does not exist is a defect", () => {
    expect(() => buildDictionary({ codes: {}, words: { "the bend": "no-such-place" } })).toThrow(
      "no-such-place",
    );
  });

  test("qualifiers of DICOM context group 42", () => {
    expect(qualifierMeaning({ scheme: "DCM", value: "114006" })).toBe("measurement failure");
    expect(qualifierMeaning({ scheme: "DCM", value: "114099" })).toBeNull();
  });
});
