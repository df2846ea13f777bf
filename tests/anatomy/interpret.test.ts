import { describe, expect, test } from "vitest";
import { buildDictionary } from "../../src/anatomy/dictionary.ts";
import { interpret } from "../../src/anatomy/interpret.ts";
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

describe("which origin names the place", () => {
  test("the first origin with a term decides; empty ones are passed over", () => {
    const places: ReadingTerms["places"] = [
      { origin: "finding site", terms: [] },
      { origin: "enclosing container", terms: [term("SCT:57034009")] },
      { origin: "tracking identifier", terms: [term("ascending aorta")] },
    ];
    expect(read(reportTerms("", { places }))).toMatchObject({
      place: { id: "aortic-arch" },
      placeOrigin: "enclosing container",
    });
  });

  test("a concept name that carries its site is asked last", () => {
    const quantity = term("LN:18012-5");
    expect(read(reportTerms("", { places: [], quantity }))).toMatchObject({
      place: { id: "ascending-aorta" },
      placeOrigin: "concept name",
      quantity: "diameter",
    });
    for (const [site, place] of [
      ["SCT:54247002", "ascending-aorta"],
      ["SCT:113262008", "thoracic-aorta"],
    ] as const) {
      expect(read(reportTerms(site, { quantity }))).toMatchObject({
        place: { id: place },
        placeOrigin: "finding site",
      });
    }
  });

  test("a concept name that carries another site than the finding site leaves the number out", () => {
    const quantity = term("LN:18012-5");
    for (const site of ["SCT:57034009", "SCT:85235006", "SCT:8128003"]) {
      expect(read(reportTerms(site, { quantity }))).toMatchObject({
        problem: "terms-conflict",
        data: { other: "ascending aorta" },
      });
    }
  });

  test("two terms of one origin must agree", () => {
    const sites = (...codes: string[]): ReadingTerms["places"] => [
      { origin: "finding site", terms: codes.map(term) },
    ];
    expect(read(reportTerms("", { places: sites("SCT:54247002", "SRT:T-42100") }))).toMatchObject({
      place: { id: "ascending-aorta" },
    });
    expect(read(reportTerms("", { places: sites("SCT:54247002", "SCT:57034009") }))).toMatchObject({
      problem: "place-conflict",
      data: { met: "ascending aorta", other: "aortic arch", origin: "finding site" },
    });
  });

  test("no term at all", () => {
    expect(read(reportTerms("", { places: [] }))).toEqual({
      problem: "place-not-stated",
      data: {},
    });
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

  test.each([
    "",
    "aorta",
    "zone 10",
    "zone 12",
    "zone",
    "arch aneurysm",
    "common iliac artery",
    "mid",
  ])("%j is no place", (words) => {
    expect(read(sheetTerms(words))).toMatchObject({ problem: "place-not-understood" });
  });

  test.each([
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

describe("quantity, statistic, lumen, edge, path", () => {
  test.each([
    ["SCT:81827009", { quantity: "diameter", edge: "unstated" }],
    ["SRT:G-0364", { quantity: "diameter", edge: "inner" }],
    ["SCT:103339001", { quantity: "long-axis" }],
    ["SCT:118565006", { quantity: "volume" }],
    ["DCM:122332", { quantity: "perimeter", edge: "inner" }],
  ])("quantity code %s", (code, expected) => {
    expect(read(reportTerms("SCT:54247002", { quantity: term(code) }))).toMatchObject(expected);
  });

  test.each(["SCT:246205007", "99LOCAL:DIAM", "SCT:54247002"])("%s is no quantity", (code) => {
    expect(read(reportTerms("SCT:54247002", { quantity: term(code) }))).toMatchObject({
      problem: "quantity-not-understood",
    });
  });

  test("modifiers say statistic and lumen, in retired codes too", () => {
    const modifiers = [term("SRT:G-A437"), term("DCM:122361")];
    expect(read(reportTerms("SCT:32672002", { modifiers }))).toMatchObject({
      place: { id: "descending-thoracic-aorta" },
      statistic: "maximum",
      lumen: "false",
    });
  });

  test("two modifiers that contradict each other", () => {
    const modifiers = [term("DCM:122360"), term("DCM:122361")];
    expect(read(reportTerms("SCT:32672002", { modifiers }))).toEqual({
      problem: "terms-conflict",
      data: { met: "true", other: "false" },
    });
  });

  test("the cells of a sheet", () => {
    const cells = { statistic: "Max", lumen: "true lumen", edge: "Outer-to-outer" };
    expect(read(sheetTerms("mid arch", cells))).toMatchObject({
      statistic: "maximum",
      lumen: "true",
      edge: "outer",
    });
    expect(read(sheetTerms("mid arch", { statistic: "", lumen: " ", edge: "" }))).toMatchObject({
      statistic: "unstated",
      lumen: "unstated",
      edge: "unstated",
    });
  });

  test.each([
    [{ statistic: "median" }, "statistic-not-understood"],
    [{ lumen: "both" }, "lumen-not-understood"],
    [{ edge: "leading" }, "edge-not-understood"],
    [{ quantity: term("size") }, "quantity-not-understood"],
  ] as const)("a cell that is not understood: %j", (cells, problem) => {
    expect(read(sheetTerms("mid arch", cells))).toMatchObject({ problem });
  });

  test("the cell must agree with what the quantity says", () => {
    const terms = reportTerms("SCT:54247002", { quantity: term("SCT:397413000"), edge: "outer" });
    expect(read(terms)).toMatchObject({ problem: "terms-conflict" });
  });

  test("a length names its path", () => {
    const quantity = term("sound length along the inner curve");
    expect(read(sheetTerms("zone 2", { quantity }))).toMatchObject({
      quantity: "sound-length",
      path: "inner-curve",
    });
  });
});

describe("codes and words of a site", () => {
  const local = buildDictionary({
    codes: {
      "99LAB:TL-DIAM": { quantity: "diameter", lumen: "true", statistic: "maximum" },
      "99LAB:LEN-IN": { quantity: "length", path: "inner-curve" },
      "99LAB:CL": { path: "centreline" },
      "99LAB:ISTH": { place: "aortic-isthmus" },
    },
    words: { "Bottom of the arch": "aortic-isthmus" },
  });

  test("one code may say several things, and all of them count", () => {
    const terms = reportTerms("99LAB:ISTH", { quantity: term("99LAB:TL-DIAM") });
    expect(interpret(terms, local)).toMatchObject({
      place: { id: "aortic-isthmus" },
      lumen: "true",
      statistic: "maximum",
    });
  });

  test("and must agree with the others", () => {
    const lumens = { quantity: term("99LAB:TL-DIAM"), modifiers: [term("DCM:122361")] };
    expect(interpret(reportTerms("99LAB:ISTH", lumens), local)).toMatchObject({
      problem: "terms-conflict",
    });
    const paths = { quantity: term("99LAB:LEN-IN"), modifiers: [term("99LAB:CL")] };
    expect(interpret(reportTerms("99LAB:ISTH", paths), local)).toMatchObject({
      problem: "terms-conflict",
    });
  });

  test("a site's word", () => {
    expect(interpret(sheetTerms("bottom of the ARCH"), local)).toMatchObject({
      place: { id: "aortic-isthmus" },
    });
    expect(read(sheetTerms("bottom of the arch"))).toMatchObject({
      problem: "place-not-understood",
    });
  });
});
