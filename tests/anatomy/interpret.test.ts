import { describe, expect, test } from "vitest";
import { buildDictionary } from "../../src/anatomy/dictionary.ts";
import { interpret } from "../../src/anatomy/interpret.ts";
import type { ReadingTerms } from "../../src/anatomy/term.ts";
import { reportTerms, sheetTerms, term } from "./sample-terms.ts";

const dictionary = buildDictionary({ codes: {}, words: {} });
const read = (terms: ReadingTerms) => interpret(terms, dictionary);

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

  test("a concept name that carries its site is made precise by a position, or left out", () => {
    const named = (quantity: string) =>
      read(
        reportTerms("", {
          places: [],
          quantity: term(quantity),
          modifiers: [term("NCIt:C25569")],
        }),
      );
    expect(named("LN:18012-5")).toMatchObject({
      place: { id: "mid-ascending" },
      placeOrigin: "concept name",
    });
    expect(named("LN:18014-1")).toMatchObject({ problem: "place-modifier-not-understood" });
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

describe("quantity, statistic, lumen, edge, path, plane, phase", () => {
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
    [{ edge: "leading edge to leading edge" }, "edge-not-understood"],
    [{ edge: "inner to outer" }, "edge-not-understood"],
    [{ plane: "sagittal" }, "plane-not-understood"],
    [{ plane: "oblique" }, "plane-not-understood"],
    [{ plane: "MPR" }, "plane-not-understood"],
    [{ phase: "75 %" }, "phase-not-understood"],
    [{ phase: "atrial systole" }, "phase-not-understood"],
    [{ quantity: term("size") }, "quantity-not-understood"],
    [{ quantity: term("area-derived diameter") }, "quantity-not-understood"],
  ] as const)("a cell that is not understood: %j", (cells, problem) => {
    expect(read(sheetTerms("mid arch", cells))).toMatchObject({ problem });
  });

  test("the cell must agree with what the quantity says", () => {
    const terms = reportTerms("SCT:54247002", { quantity: term("SCT:397413000"), edge: "outer" });
    expect(read(terms)).toMatchObject({ problem: "terms-conflict" });
  });

  test.each([
    ["perpendicular", "perpendicular"],
    ["Perpendicular to the centerline", "perpendicular"],
    ["double-oblique", "perpendicular"],
    ["orthogonal", "perpendicular"],
    ["doble oblicuo", "perpendicular"],
    ["loodrecht op de centerline", "perpendicular"],
    ["Axial", "axial"],
    ["transverse", "axial"],
    ["assiale", "axial"],
    ["", "unstated"],
  ])("the plane %j is %s", (plane, expected) => {
    expect(read(sheetTerms("mid arch", { plane }))).toMatchObject({ plane: expected });
  });

  test.each([
    ["Systole", "systole"],
    ["end-systolic", "systole"],
    ["télésystole", "systole"],
    ["Enddiastole", "diastole"],
    ["End diastole", "diastole"],
    ["diástole", "diastole"],
    [" ", "unstated"],
  ])("the phase %j is %s", (phase, expected) => {
    expect(read(sheetTerms("mid arch", { phase }))).toMatchObject({ phase: expected });
  });

  // Codes: DICOM PS3.16 context groups 12233, 12307 and 3337; SRT spellings from the mapping of the same part.
  test.each([
    ["SCT:111973004", "systole"],
    ["SRT:F-32020", "systole"],
    ["SCT:416430001", "systole"],
    ["DCM:109070", "systole"],
    ["SCT:90892000", "diastole"],
    ["SRT:R-FAB5C", "diastole"],
    ["DCM:109022", "diastole"],
  ])("a modifier or method %s is %s", (code, phase) => {
    const place = { id: "ascending-aorta" };
    const asModifier = reportTerms("SCT:54247002", { modifiers: [term(code)] });
    expect(read(asModifier)).toMatchObject({ place, phase });
    const asMethod = reportTerms("SCT:54247002", { methods: [term(code)] });
    expect(read(asMethod)).toMatchObject({ place, phase });
    const other = phase === "systole" ? "diastole" : "systole";
    expect(read({ ...asModifier, phase: other })).toMatchObject({ problem: "terms-conflict" });
  });

  test("atrial systole lies in diastole and is read as neither", () => {
    expect(read(reportTerms("SCT:54247002", { modifiers: [term("SCT:59972007")] }))).toMatchObject({
      problem: "place-modifier-not-understood",
    });
  });

  test.each([
    ["Maximum diameter", { quantity: "diameter", statistic: "maximum" }],
    ["Dmax", { quantity: "diameter", statistic: "maximum" }],
    ["Maximaler Durchmesser", { quantity: "diameter", statistic: "maximum" }],
    ["diamètre minimal", { quantity: "diameter", statistic: "minimum" }],
    ["true lumen diameter", { quantity: "diameter", lumen: "true" }],
    ["double-oblique diameter", { quantity: "diameter", plane: "perpendicular" }],
    ["axial diameter", { quantity: "diameter", plane: "axial" }],
    ["Querschnittsfläche", { quantity: "area", statistic: "unstated" }],
    ["perímetro", { quantity: "perimeter" }],
    ["omtrek", { quantity: "perimeter" }],
    ["asse maggiore", { quantity: "long-axis" }],
    ["centerline length", { quantity: "length", path: "centreline" }],
    ["length along the outer curve", { quantity: "length", path: "outer-curve" }],
    ["longueur le long de la petite courbure", { quantity: "length", path: "inner-curve" }],
    ["Winkel", { quantity: "angle" }],
  ])("the quantity %j", (words, expected) => {
    expect(read(sheetTerms("mid arch", { quantity: term(words) }))).toMatchObject(expected);
  });

  test.each([
    [{ edge: "Outer wall to outer wall" }, { edge: "outer" }],
    [{ edge: "Außenwand" }, { edge: "outer" }],
    [{ edge: "inner-inner" }, { edge: "inner" }],
    [{ edge: "pared interna" }, { edge: "inner" }],
    [{ edge: "buitenwand" }, { edge: "outer" }],
    [{ statistic: "máximo" }, { statistic: "maximum" }],
    [{ statistic: "minimale" }, { statistic: "minimum" }],
    [{ statistic: "gemiddeld" }, { statistic: "mean" }],
    [{ statistic: "avg." }, { statistic: "mean" }],
    [{ lumen: "FL" }, { lumen: "false" }],
    [{ lumen: "vrai chenal" }, { lumen: "true" }],
  ])("a cell %j", (cells, expected) => {
    expect(read(sheetTerms("mid arch", cells))).toMatchObject(expected);
  });

  test("a plane or phase that the quantity contradicts leaves the number out", () => {
    const quantity = term("axial diameter");
    expect(read(sheetTerms("mid arch", { quantity, plane: "orthogonal" }))).toEqual({
      problem: "terms-conflict",
      data: { met: "axial", other: "perpendicular" },
    });
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
      "99LAB:MPR": { plane: "perpendicular" },
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

  test("a site's code for the plane, as modifier or method", () => {
    for (const aspect of ["modifiers", "methods"]) {
      const terms = reportTerms("99LAB:ISTH", { [aspect]: [term("99LAB:MPR")] });
      expect(interpret(terms, local)).toMatchObject({ plane: "perpendicular", phase: "unstated" });
    }
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
