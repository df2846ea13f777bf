import { describe, expect, test } from "vitest";
import { buildDictionary, wordKey } from "../../src/anatomy/dictionary.ts";
import { placeTable } from "../../src/anatomy/places.ts";
import { quantityIds } from "../../src/quantities/measured-quantity.ts";
import { headingKey, unitInHeading } from "../../src/site/heading-key.ts";
import { allSheetFields } from "../../src/site/sheet-fields.ts";
import { quantityWords } from "../../src/site/sheet-settings.ts";

const { placeWords, quantityWords: known } = buildDictionary({ codes: {}, words: {} });

test.each(placeTable.map(({ place }) => place))("the label of $id is understood as it", (place) => {
  expect(placeWords.get(wordKey(place.label))?.id).toBe(place.id);
});

test.each(quantityIds)("the words of %s mean it and nothing more", (quantity) => {
  expect(known.get(quantityWords({ quantity }) ?? "")).toEqual({ quantity });
});

test("words exist for a path only where the dictionary has them", () => {
  expect(quantityWords({ quantity: "sound-length", path: "inner-curve" })).toBe(
    "sound length along the inner curve",
  );
  expect(quantityWords({ quantity: "area", path: "centreline" })).toBeNull();
});

test("every field is named once", () => {
  expect(new Set(allSheetFields).size).toBe(allSheetFields.length);
});

describe("headings", () => {
  test.each([
    ["  Ø  Asc\u00A0[mm] ", "ø asc [mm]"],
    ["Gro\u0308\u00DFe\nin mm", "größe in mm"],
  ])("%j is compared as %j", (heading, key) => {
    expect(headingKey(heading)).toBe(key);
  });

  test.each([
    ["Ø asc [mm]", "mm"],
    ["area (cm²)", "cm²"],
    ["area ( mm2 ) ", "mm2"],
    ["angle (°)", "°"],
    ["Ø (max) [cm]", "cm"],
    ["Ø [cm] (max)", null],
    ["Ø asc", null],
    ["mm", null],
    ["Ø [inch]", null],
  ])("%j states the unit %j", (heading, unit) => {
    expect(unitInHeading(heading)?.unit ?? null).toBe(unit);
  });
});
