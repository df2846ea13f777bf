import { describe, expect, test } from "vitest";
import { buildDictionary } from "../../../src/anatomy/dictionary.ts";
import { placeOfTerm } from "../../../src/anatomy/place-of-term.ts";
import { understandFinding } from "../../../src/cases/findings.ts";
import { findingStates } from "../../../src/cases/vocabulary.ts";
import { stationColumns } from "../../../src/planning/worklists/worklist-data.ts";
import {
  calculatorLabel,
  procedures,
  type WorkItem,
} from "../../../src/planning/worklists/worklists.ts";
import { sheetFields } from "../../../src/site/sheet-fields.ts";
import { quantityWords } from "../../../src/site/sheet-settings.ts";

const dictionary = buildDictionary({ codes: {}, words: {} });
const placesOf = (item: WorkItem) => {
  if (item.form === "measurements") return [item.place];
  if (item.form === "findings") return item.place === null ? [] : [item.place];
  if (item.form === "mark") return [item.mark.place];
  return item.form === "stretch" ? [item.from.place, item.to.place] : [];
};

test("the procedures, in the order of the file", () => {
  expect(procedures.map(({ id }) => id)).toEqual([
    "zone 0",
    "zone 1",
    "zone 2",
    "zone 3",
    "zone 4",
    "hybrid type I",
    "hybrid type II",
    "hybrid type III",
    "elephant trunk",
    "frozen elephant trunk",
    "open arch",
    "open descending",
    "access",
    "distal landing",
    "follow-up",
  ]);
});

describe.each(procedures.map((procedure) => [procedure.id, procedure] as const))("%s", (_, one) => {
  test("each item stands once, decides something that has a name, and its group names a source", () => {
    const ids = one.items.map(({ id }) => id);
    expect(new Set(ids).size).toBe(ids.length);
    for (const { decides } of one.items) {
      expect(decides.length).toBeGreaterThan(0);
      for (const calculator of decides) expect(calculatorLabel(calculator)).toMatch(/^\S.*\S$/);
    }
    expect(one.basis.length).toBeGreaterThan(0);
    for (const { source, what } of one.basis) expect(`${what}${source}`.length).toBeGreaterThan(20);
  });

  test("the label of every place is read back as that place", () => {
    for (const place of one.items.flatMap(placesOf)) {
      const term = { words: place.label, code: null };
      expect(placeOfTerm(term, "sheet column", null, [], dictionary)).toMatchObject({
        id: place.id,
      });
    }
  });

  test("every quantity has words in a sheet, every finding fits its place, every column exists", () => {
    for (const item of one.items) {
      if (item.form === "measurements") {
        const { quantity, path } = item;
        const words = quantityWords({ quantity, ...(path === null ? {} : { path }) });
        expect(dictionary.quantityWords.get(words ?? "")?.quantity, item.id).toBe(quantity);
      }
      if (item.form === "findings") {
        const [state = ""] = findingStates[item.finding];
        const place = item.place?.label ?? "zone 4";
        const source = { file: "invented.csv", sha256: "00", at: null };
        const stated = { source, place, finding: item.finding, state, reader: null, comment: null };
        expect(understandFinding(stated, "e", dictionary).message, item.id).toBeNull();
      }
      if (item.form === "stretch") expect(item.columns.length).toBeGreaterThan(0);
    }
  });

  test("what makes an item superfluous can be asked of somebody", () => {
    const all = new Set(procedures.flatMap(({ items }) => items.map(({ id }) => id)));
    for (const { unless } of one.items) for (const id of unless) expect(all).toContain(id);
  });
});

test("the columns of a station are columns of a centreline sheet", () => {
  const known: readonly string[] = sheetFields["centreline sheet"].optional;
  for (const column of stationColumns) expect(known).toContain(column);
});

test.each([
  ["zone 0", "zone-0"],
  ["zone 1", "zone-1"],
  ["zone 2", "zone-2"],
  ["zone 3", "zone-3"],
  ["zone 4", "zone-4"],
])("%s asks for its own zone and for no other proximal landing", (id, zone) => {
  const items = procedures.find((one) => one.id === id)?.items ?? [];
  const landings = items.flatMap((item) =>
    item.form === "measurements" && item.id.includes("sound length") ? [item.place.id] : [],
  );
  expect([...new Set(landings)]).toEqual([zone, "zone-5"]);
});

test("the gap of zone 1 is not asked for where there is a common origin", () => {
  const items = procedures.find(({ id }) => id === "zone 1")?.items ?? [];
  const ofZone = items.filter((item) => item.form === "measurements" && item.place.id === "zone-1");
  expect(ofZone.length).toBeGreaterThan(0);
  for (const { notWith } of ofZone) {
    expect(notWith).toEqual(["common origin of the innominate and left common carotid arteries"]);
  }
});
