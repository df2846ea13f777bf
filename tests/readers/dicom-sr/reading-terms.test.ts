import { describe, expect, test } from "vitest";
import {
  coded,
  codeItem,
  container,
  type Elements,
  names,
  personItem,
  textItem,
} from "../../../fixtures/content-items.ts";
import { buildDictionary } from "../../../src/anatomy/dictionary.ts";
import { interpret } from "../../../src/anatomy/interpret.ts";
import type { ReadingTerms } from "../../../src/anatomy/term.ts";
import {
  arch,
  ascending,
  diameter,
  diameterItem,
  group,
  maximum,
  minimum,
  modifier,
  readContent,
  readingsOf,
  site,
} from "./invented-report.ts";

const dictionary = buildDictionary({ codes: {}, words: {} });
const right = coded("SCT", "24028007", "Right");
const left = coded("SCT", "7771000", "Left");
const renal = coded("SCT", "2841007", "Renal artery");
const proximal = coded("SCT", "40415009", "Proximal");
const distal = coded("SCT", "46053002", "Distal");
const laterality = (side: typeof right) => modifier(names.laterality, side);
const position = (where: typeof proximal) => modifier(names.topographicalModifier, where);

function termsOf(content: Elements[]): ReadingTerms {
  const [reading] = readingsOf(readContent(content));
  if (!reading) throw new Error("no reading");
  return reading.terms;
}
const placesOf = (content: Elements[]) =>
  termsOf(content).places.map(({ origin, terms }) => [origin, ...terms.map(({ words }) => words)]);
const modifiersOf = (content: Elements[]) => termsOf(content).modifiers.map(({ words }) => words);
const placed = (content: Elements[]) => {
  const result = interpret(termsOf(content), dictionary);
  return "problem" in result ? result.problem : result.place.id;
};

describe("the finding site of the nearest level counts", () => {
  test("number, group, container above, and root", () => {
    const inner = (own: Elements[]) => diameterItem("42", own);
    expect(placesOf([group(site(arch), inner([site(ascending)]))])).toEqual([
      ["finding site", "Ascending aorta"],
    ]);
    expect(placesOf([group(site(arch), inner([]))])).toEqual([["finding site", "Aortic arch"]]);
    const chapter = container(names.imagingMeasurements, [site(arch), group(inner([]))]);
    expect(placesOf([site(ascending), chapter])).toEqual([["finding site", "Aortic arch"]]);
    expect(placesOf([site(ascending), group(inner([]))])).toEqual([
      ["finding site", "Ascending aorta"],
    ]);
  });

  test("two at one level are both kept", () => {
    const content = [group(site(arch), site(ascending), diameterItem("42"))];
    expect(placesOf(content)).toEqual([["finding site", "Aortic arch", "Ascending aorta"]]);
    expect(placed(content)).toBe("place-conflict");
  });

  test("also where it is contained instead of modifying, and where the number stands below it", () => {
    const contained = codeItem("CONTAINS", names.findingSite, arch);
    expect(placed([group(contained, diameterItem("42"))])).toBe("aortic-arch");
    const above = codeItem("CONTAINS", names.findingSite, arch, [diameterItem("42")]);
    expect(placed([container(coded("DCM", "121070", "Findings"), [above])])).toBe("aortic-arch");
  });

  test("a site contained instead of modifying is told once for the file", () => {
    const contained = codeItem("CONTAINS", names.findingSite, arch);
    const twice = [group(contained, diameterItem("42"), diameterItem("43"))];
    const notes = (content: Elements[]) =>
      readContent(content).messages.flatMap(({ code, data }) =>
        code === "finding-site-contained" ? [data["count"]] : [],
      );
    expect(notes(twice)).toEqual([2]);
    expect(notes([group(site(arch), diameterItem("42"))])).toEqual([]);
    expect(notes([contained, group(site(arch), diameterItem("42"))])).toEqual([]);
  });

  test("a site in another spelling of the same terminology", () => {
    expect(placed([group(site(coded("SRT", "T-42300", "Arch")), diameterItem("42"))])).toBe(
      "aortic-arch",
    );
  });
});

describe("side and position of the site", () => {
  test("as its children, beside it, or at the number", () => {
    const number = diameterItem("6");
    expect(placed([group(site(renal, [laterality(right)]), number)])).toBe("right-renal-artery");
    expect(placed([group(site(renal), laterality(left), number)])).toBe("left-renal-artery");
    expect(placed([group(site(renal), diameterItem("6", [laterality(left)]))])).toBe(
      "left-renal-artery",
    );
    expect(placed([laterality(left), group(site(renal), number)])).toBe("left-renal-artery");
    expect(placed([group(site(renal), number)])).toBe("place-side-not-stated");
  });

  test("two sides are none, and a side of another site is not taken", () => {
    const number = diameterItem("6", [site(renal)]);
    expect(
      placed([group(site(renal), laterality(left), laterality(right), diameterItem("6"))]),
    ).toBe("place-side-not-stated");
    const twoSites = [site(renal, [laterality(left)]), site(renal, [laterality(right)])];
    expect(placed([group(...twoSites, diameterItem("6"))])).toBe("place-side-not-stated");
    expect(placed([group(site(arch), laterality(left), number)])).toBe("place-side-not-stated");
  });

  test("the topographical modifier as child, beside the site, or at the number", () => {
    expect(placed([group(site(arch, [position(proximal)]), diameterItem("42"))])).toBe(
      "proximal-arch",
    );
    expect(placed([group(site(arch), position(proximal), diameterItem("42"))])).toBe(
      "proximal-arch",
    );
    expect(placed([group(site(arch), diameterItem("42", [position(proximal)]))])).toBe(
      "proximal-arch",
    );
    expect(placed([group(site(arch, [position(distal)]), diameterItem("42"))])).toBe(
      "place-modifier-not-understood",
    );
  });

  test("a modifier of a farther site is not taken", () => {
    const number = diameterItem("42", [site(ascending)]);
    expect(modifiersOf([group(site(arch), position(proximal), number)])).toEqual([]);
  });
});

describe("places where there is no finding site", () => {
  const finding = (what: typeof arch) => codeItem("CONTAINS", names.finding, what);
  const aneurysm = coded("SCT", "85659009", "Aneurysm");

  test("a finding names the place unless it is a vessel disease", () => {
    expect(placesOf([group(finding(arch), diameterItem("42"))])).toEqual([
      ["finding", "Aortic arch"],
    ]);
    expect(placesOf([group(finding(aneurysm), diameterItem("42"))])).toEqual([
      ["tracking identifier", "tracked"],
    ]);
  });

  test("a finding beside a site is the disease", () => {
    expect(placesOf([group(finding(ascending), site(arch), diameterItem("42"))])).toEqual([
      ["finding site", "Aortic arch"],
    ]);
  });

  test("containers are offered from the nearest outward, chapters of the report are not", () => {
    const own = coded("99TEST", "SEGMENT", "Segment");
    const content = [container(arch, [container(own, [diameterItem("42")])])];
    expect(placesOf(content)).toEqual([
      ["enclosing container", "Segment"],
      ["enclosing container", "Aortic arch"],
    ]);
    expect(placed(content)).toBe("aortic-arch");
    expect(placed([container(coded("SCT", "10200004", "Liver"), [diameterItem("42")])])).toBe(
      "place-not-stated",
    );
  });

  test("the tracking identifier only where no public code says what the group is about", () => {
    const tracked = textItem("HAS OBS CONTEXT", names.trackingIdentifier, "isthmus");
    const inGroup = (...more: Elements[]) =>
      container(names.measurementGroup, [tracked, ...more, diameterItem("42")]);
    const thyroid = coded("SCT", "69748006", "Thyroid");
    expect(placed([inGroup()])).toBe("aortic-isthmus");
    expect(placed([container(coded("99TEST", "A", "Part"), [inGroup()])])).toBe("aortic-isthmus");
    expect(placed([inGroup(site(thyroid))])).toBe("place-not-understood");
    expect(placed([inGroup(finding(thyroid))])).toBe("place-not-understood");
    expect(placed([container(thyroid, [inGroup()])])).toBe("place-not-stated");
  });

  test("a quantity that carries its place goes before the tracking identifier", () => {
    const ascendingDiameter = coded("LN", "18012-5", "Ascending aorta diameter");
    expect(placed([group(diameterItem("42", [], ascendingDiameter))])).toBe("ascending-aorta");
  });
});

describe("modifiers", () => {
  const derived = (what: typeof maximum) => modifier(names.derivation, what);
  const qualifierValue = coded("99TEST", "Q", "Qualifier value");
  const inArch = (own: Elements[], ...beside: Elements[]) => [
    group(site(arch), ...beside, diameterItem("42", own)),
  ];
  const statistic = (content: Elements[]) => {
    const result = interpret(termsOf(content), dictionary);
    return "problem" in result ? result.problem : result.statistic;
  };

  test("a derivation by its own name or by a qualifier value, at the number or the group", () => {
    expect(statistic(inArch([derived(maximum)]))).toBe("maximum");
    expect(statistic(inArch([modifier(qualifierValue, maximum)]))).toBe("maximum");
    expect(statistic(inArch([], derived(minimum)))).toBe("minimum");
    expect(statistic(inArch([]))).toBe("unstated");
  });

  test("the nearest derivation counts, two at one level contradict each other", () => {
    expect(statistic(inArch([derived(maximum)], derived(minimum)))).toBe("maximum");
    expect(statistic(inArch([modifier(qualifierValue, maximum)], derived(minimum)))).toBe(
      "maximum",
    );
    expect(statistic(inArch([derived(maximum), derived(minimum)]))).toBe("terms-conflict");
  });

  test("a derivation that is no size leaves the number out", () => {
    const deviation = coded("SCT", "386136009", "Standard Deviation");
    expect(placed(inArch([derived(deviation)]))).toBe("place-modifier-not-understood");
  });

  test("an unknown modifier leaves the number out, an unknown method does not", () => {
    const unknown = coded("99TEST", "M", "Unknown");
    expect(placed(inArch([modifier(qualifierValue, unknown)]))).toBe(
      "place-modifier-not-understood",
    );
    expect(placed(inArch([], modifier(qualifierValue, unknown)))).toBe(
      "place-modifier-not-understood",
    );
    expect(placed(inArch([modifier(names.measurementMethod, unknown)]))).toBe("aortic-arch");
    expect(placed(inArch([], modifier(names.measurementMethod, unknown)))).toBe("aortic-arch");
  });

  test("a method that the site's dictionary knows is used", () => {
    const method = coded("99TEST", "OUTER", "Outer to outer");
    const site = buildDictionary({ codes: { "99TEST:OUTER": { edge: "outer" } }, words: {} });
    const terms = termsOf(inArch([modifier(names.measurementMethod, method)]));
    expect(interpret(terms, site)).toMatchObject({ edge: "outer" });
    expect(interpret(terms, dictionary)).toMatchObject({ edge: "unstated" });
  });

  test("language, country and procedure say nothing of the number; properties and qualitative codes neither", () => {
    const normality = codeItem("HAS PROPERTIES", coded("DCM", "121402", "Normality"), maximum);
    const quality = codeItem("CONTAINS", coded("99TEST", "C", "Calcified"), maximum);
    const language = modifier(names.language, coded("RFC5646", "en", "English"));
    expect(modifiersOf(inArch([normality], quality, language))).toEqual([]);
    expect(modifiersOf([modifier(qualifierValue, maximum), ...inArch([])])).toEqual([]);
  });

  test("the lumen as topographical or other modifier", () => {
    const lumen = coded("DCM", "122361", "False lumen");
    for (const name of [names.topographicalModifier, qualifierValue]) {
      const result = interpret(termsOf(inArch([modifier(name, lumen)])), dictionary);
      expect(result).toMatchObject({ lumen: "false", place: { id: "aortic-arch" } });
    }
  });
});

test("a report in another language is understood by its codes alone", () => {
  const inGerman = (concept: typeof arch, words: string) => ({ ...concept, meaning: words });
  const content = [
    modifier(names.language, coded("RFC5646", "de", "Deutsch")),
    container(inGerman(names.measurementGroup, "Messgruppe"), [
      textItem("HAS OBS CONTEXT", inGerman(names.trackingIdentifier, "Kennung"), "Bogen, größter"),
      modifier(inGerman(names.findingSite, "Befundort"), inGerman(arch, "Aortenbogen")),
      diameterItem(
        "42",
        [modifier(inGerman(names.derivation, "Ableitung"), inGerman(maximum, "Größtwert"))],
        inGerman(diameter, "Durchmesser"),
      ),
    ]),
  ];
  expect(interpret(termsOf(content), dictionary)).toMatchObject({
    place: { id: "aortic-arch" },
    placeOrigin: "finding site",
    quantity: "diameter",
    statistic: "maximum",
  });
});

test("reader, comment and tracking identifier of the nearest level", () => {
  const [reading] = readingsOf(
    readContent([
      personItem("HAS OBS CONTEXT", names.personObserverName, "Outer^Reader"),
      group(
        textItem("HAS OBS CONTEXT", names.personObserverName, "Inner^Reader^M^Dr"),
        site(arch),
        diameterItem("42", [
          textItem("HAS CONCEPT MOD", coded("DCM", "121050", "Equivalent Meaning"), "D max\\arch"),
        ]),
      ),
    ]),
  );
  expect(reading).toMatchObject({
    reader: "Inner, Reader M",
    comment: "D max\\arch",
    trackingIdentifier: "tracked",
    terms: { quantity: { words: diameter.meaning, code: { scheme: "SCT", value: "81827009" } } },
  });
});
