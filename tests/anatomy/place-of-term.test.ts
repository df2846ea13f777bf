import { describe, expect, test } from "vitest";
import { buildDictionary } from "../../src/anatomy/dictionary.ts";
import { interpret, type Interpretation } from "../../src/anatomy/interpret.ts";
import type { ReadingTerms } from "../../src/anatomy/term.ts";
import { reportTerms, sheetTerms, term } from "./sample-terms.ts";

const dictionary = buildDictionary({ codes: {}, words: {} });
const read = (terms: ReadingTerms) => interpret(terms, dictionary);
const right = term("SCT:24028007");
const left = term("SCT:7771000");

describe("places by code", () => {
  // Codes: DICOM PS3.16 context groups 12291 and 4; the SRT spellings are the retired ones of the same concepts.
  test.each([
    ["SCT:54247002", "ascending-aorta"],
    ["SRT:T-42100", "ascending-aorta"],
    ["SNM3:T-42100", "ascending-aorta"],
    ["99SDM:T-42300", "aortic-arch"],
    ["SCT:57034009", "aortic-arch"],
    ["SCT:32672002", "descending-thoracic-aorta"],
    ["SRT:T-42200", "sinuses-of-valsalva"],
    ["SRT:T-42102", "sinotubular-junction"],
    ["SCT:7832008", "abdominal-aorta"],
    ["SRT:T-46400", "coeliac-artery"],
    ["SCT:85235006", "left-subclavian-artery"],
  ])("%s is the %s", (code, id) => {
    expect(read(reportTerms(code))).toMatchObject({
      place: { id },
      placeOrigin: "finding site",
      quantity: "diameter",
      statistic: "unstated",
      lumen: "unstated",
      edge: "unstated",
      path: "unstated",
    });
  });

  test.each(["SCT:15825003", "SCT:80891009", "99LOCAL:54247002", "SRT:T-99999", "DCM:54247002"])(
    "%s is not a place of the aorta that is known",
    (code) => {
      expect(read(reportTerms(code))).toMatchObject({ problem: "place-not-understood" });
    },
  );

  test("a modifier makes the site precise", () => {
    const middle = { modifiers: [term("NCIt:C25569")] };
    expect(read(reportTerms("SCT:32672002", middle))).toMatchObject({
      place: { id: "mid-descending" },
    });
    expect(read(reportTerms("SRT:T-42400", { modifiers: [term("SRT:G-A118")] }))).toMatchObject({
      place: { id: "proximal-descending" },
    });
  });

  test.each([
    ["a modifier that is not known", [term("SCT:46053002")]],
    ["a modifier without code", [term("somewhere")]],
    ["two modifiers of position", [term("NCIt:C25569"), term("SCT:40415009")]],
    ["another place as modifier", [term("SCT:88593004")]],
  ])("%s leaves the number out", (_, modifiers) => {
    expect(read(reportTerms("SCT:32672002", { modifiers }))).toMatchObject({
      problem: "place-modifier-not-understood",
    });
  });

  test("a position in words makes a coded site precise too", () => {
    expect(read(reportTerms("SCT:32672002", { modifiers: [term("mid")] }))).toMatchObject({
      place: { id: "mid-descending" },
    });
  });

  test("a site that is not known is said to be so, whatever its modifier", () => {
    expect(read(reportTerms("SCT:80891009", { modifiers: [term("NCIt:C25569")] }))).toMatchObject({
      problem: "place-not-understood",
    });
  });
});

describe("paired arteries", () => {
  test.each([
    ["SCT:73634005", right, "zone-10-right"],
    ["SCT:73634005", left, "zone-10-left"],
    ["SRT:T-46910", left, "zone-11-left"],
    ["SRT:T-46600", term("SRT:G-A100"), "right-renal-artery"],
    ["SCT:32062004", left, "left-common-carotid-artery"],
    ["SCT:36765005", right, "right-subclavian-artery"],
    ["SCT:181347005", right, "right-common-femoral-artery"],
  ])("%s with a side", (code, laterality, id) => {
    expect(read(reportTerms(code, { laterality }))).toMatchObject({ place: { id } });
  });

  test.each([
    ["no side", null],
    ["both sides", term("SCT:51440002")],
    ["a side without code", term("left")],
  ])("%s leaves the number out", (_, laterality) => {
    expect(read(reportTerms("SCT:73634005", { laterality }))).toMatchObject({
      problem: "place-side-not-stated",
    });
  });

  test("a modifier of a paired artery is not dropped in silence", () => {
    const terms = reportTerms("SCT:73634005", {
      laterality: left,
      modifiers: [term("SCT:40415009")],
    });
    expect(read(terms)).toMatchObject({ problem: "place-modifier-not-understood" });
  });

  test("a side that contradicts the artery leaves the number out; the same side is no news", () => {
    const subclavian = (laterality: typeof right) =>
      read(reportTerms("SCT:85235006", { laterality }));
    expect(subclavian(right)).toMatchObject({ problem: "terms-conflict" });
    expect(subclavian(left)).toMatchObject({ place: { id: "left-subclavian-artery" } });
  });
});

describe("places by words", () => {
  test.each([
    ["Mid-Ascending  Aorta", "mid-ascending"],
    ["mid ascending", "mid-ascending"],
    ["MID_ASCENDING", "mid-ascending"],
    ["celiac axis", "coeliac-artery"],
    ["zone 3", "zone-3"],
    ["Zone 10 left", "zone-10-left"],
    ["thoracoabdominal aorta", "thoraco-abdominal-aorta"],
    [" STJ ", "sinotubular-junction"],
  ])("%j", (words, id) => {
    expect(read(sheetTerms(words))).toMatchObject({ place: { id }, placeOrigin: "sheet column" });
  });

  test.each(["", "aorta", "zone 12", "zone", "arch aneurysm", "mid"])("%j is no place", (words) => {
    expect(read(sheetTerms(words))).toMatchObject({ problem: "place-not-understood" });
  });

  test.each(["common iliac artery", "CIA", "CCA", "zone 10", "A. renalis", "Vertebral artery"])(
    "%j is on both sides: the side must be stated",
    (words) => {
      expect(read(sheetTerms(words))).toMatchObject({ problem: "place-side-not-stated" });
      expect(read(sheetTerms(words, { laterality: term("left") }))).toMatchObject({
        problem: "place-side-not-stated",
      });
      const { place } = read(sheetTerms(words, { laterality: left })) as Interpretation;
      expect(place.id).toMatch(/left/);
      expect(read(sheetTerms(`left ${words}`, { laterality: left }))).toMatchObject({ place });
      expect(read(sheetTerms(`left ${words}`, { laterality: right }))).toMatchObject({
        problem: "terms-conflict",
      });
    },
  );

  test.each([
    ["ascending aorta", "NCIt:C25569", "mid-ascending"],
    ["Aorta, ascending", "middle", "mid-ascending"],
    ["arch", "SRT:G-A118", "proximal-arch"],
    ["Aortic arch", "Prox.", "proximal-arch"],
    ["descending thoracic aorta", "mid", "mid-descending"],
    ["anastomosis", "SCT:46053002", "distal-anastomosis"],
  ])("%j with the position %j", (words, position, id) => {
    expect(read(sheetTerms(words, { modifiers: [term(position)] }))).toMatchObject({
      place: { id },
    });
  });

  test.each([
    ["ascending aorta", ["proximal"]],
    ["ascending aorta", ["somewhere"]],
    ["ascending aorta", ["mid", "proximal"]],
    ["mid-ascending aorta", ["mid"]],
    ["left subclavian artery", ["SCT:40415009"]],
    ["15 mm distal to the left subclavian artery", ["distal"]],
  ])("%j with the positions %j stands for another place, not known", (words, positions) => {
    expect(read(sheetTerms(words, { modifiers: positions.map(term) }))).toMatchObject({
      problem: "place-modifier-not-understood",
    });
  });

  test("a position beside a word that is no place does not make it one", () => {
    expect(read(sheetTerms("aorta", { modifiers: [term("mid")] }))).toMatchObject({
      problem: "place-not-understood",
    });
  });

  test.each([
    ["15 mm distal to LSA", 15],
    ["15 mm distal to the left subclavian artery", 15],
    ["15mm distal to left subclavian", 15],
    ["12.5 mm distal to the left-subclavian artery", 12.5],
  ])("%j is a distance", (words, distance) => {
    expect(read(sheetTerms(words))).toMatchObject({
      place: { id: `left-subclavian-artery+${distance}mm`, zones: ["3"] },
    });
  });

  test.each([
    "-15 mm distal to the left subclavian artery",
    "\u221215 mm distal to the left subclavian artery",
    "10-15 mm distal to the left subclavian artery",
    "1,5 mm distal to the left subclavian artery",
    "15 mm proximal to the left subclavian artery",
    "2 cm distal to the left subclavian artery",
    "15 mm distal to the right subclavian artery",
  ])("%j is refused", (words) => {
    expect(read(sheetTerms(words))).toMatchObject({ problem: "place-not-understood" });
  });
});
