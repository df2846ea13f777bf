import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { applyRuleDecisions } from "../../src/guidelines/apply-rule-decisions.ts";
import { loadRules } from "../../src/guidelines/load-rules.ts";
import { noSiteConfig, parseSiteConfig } from "../../src/site/site-config.ts";

const text = readFileSync("fixtures/site-example.yaml", "utf8");

test("the commented example loads and shows every key", () => {
  const { site, messages } = parseSiteConfig(text, "site-example.yaml");
  expect(messages).toEqual([]);
  const shown = [...text.matchAll(/^([a-zA-Z]+):/gm)].map(([, key]) => key);
  expect(shown.toSorted()).toEqual(Object.keys(noSiteConfig).toSorted());
  expect(site?.sheets.map(({ name }) => name)).toEqual([
    "aorta table of the example lab",
    "follow-up list of the example lab",
    "dissection list of the example lab",
    "patient list of the example lab",
  ]);
});

/** A line of the example as it should be, as it is misspelt, and what is said of it. */
test.each([
  ["issuer: EX", "isuer: EX", "isuer is not a key here; did you mean issuer?"],
  ["place: zone-3 }", "place: zone-33 }", "zone-33 is none of its values; did you mean zone-3?"],
  ["maximum, edge: inner", "maximum, egde: inner", "egde is not a key here"],
  [
    "maximum, edge: inner",
    "maxmum, edge: inner",
    "maxmum is none of its values; did you mean maximum?",
  ],
  [
    "Born: birth_date\n      Ø",
    "Born: birthdate\n      Ø",
    "birthdate is none of its values; did you mean birth_date?",
  ],
  ["place: sinuses-of-valsalva", "place: sinus-of-valsalva", "did you mean sinuses-of-valsalva?"],
  ["quantity: area, ", "quantty: area, ", "quantty is not a key here; did you mean quantity?"],
  ["decimal: comma", "decimal: coma", "coma is none of its values; did you mean comma?"],
  ["totalRows:", "totalRow:", "totalRow is not a key here; did you mean totalRows?"],
  ["edge: outer, region", "edg: outer, region", "edg is not a key here; did you mean edge?"],
  ["ja: yes", "ja: y", "y is none of its values; they are yes, no"],
  ["Datum: exam_date", "Datum: comment", "a long sheet needs a column for exam_date"],
  ["Sex: sex", "Sex: gated", "gated is not a field of a case sheet"],
  ["Sex: sex", "Sex: birth_date", "birth_date is stated twice"],
  ["Ø zone 3 [mm]: {", "Ø zone 3 [mm]: { unit: cm,", "the heading states mm, and cm is declared"],
  ["Height (cm):", "Height (m):", "the heading states m, and cm is declared"],
  ["Ø asc:", "Ø  SINUS:", "the same heading stands above"],
  ["quantity: sound-length", "quantity: area", "this quantity is not known along this path"],
  ["unit: mm }", "unit: MM }", "not one of mm, cm"],
  ["Befund: finding", "Befund: comment", "a finding sheet needs a column for finding"],
  ["phase: diastole", "phase: diastol", "diastol is none of its values; did you mean diastole?"],
  ["[innominate-artery]", "[innominat-artery]", "did you mean innominate-artery?"],
  ["neighbourStepMm: 20", "neighbourStepMm: 0", "Too small"],
  ["decision: hide", "decision: hid", "hid is none of its values; did you mean hide?"],
  ["reason: the", "reson: the", "reson is not a key here; did you mean reason?"],
  ["value: 52", "valu: 52", "valu is not a key here; did you mean value?"],
  ["titleLines: 2 #", "titleLines: two #", "expected number"],
])("%s written %s is told with its line and the nearest word", (good, bad, what) => {
  const before = text.slice(0, text.indexOf(good));
  expect(text).toContain(good);
  const { site, messages } = parseSiteConfig(text.replace(good, bad), "site-example.yaml");
  expect(site).toBeNull();
  const said = messages.find((message) => message.text.includes(what));
  expect(said, messages.map((message) => message.text).join("\n")).toBeDefined();
  const isWholeSheet = what.includes("needs a column");
  const line = isWholeSheet
    ? text.slice(0, text.lastIndexOf("columns:", before.length)).split("\n").length
    : before.split("\n").length;
  expect(said?.place?.at).toBe(`line ${line}`);
});

test("its decisions about criteria can all be followed", () => {
  const { site } = parseSiteConfig(text, "site-example.yaml");
  const { hidden, messages } = applyRuleDecisions(loadRules(), site?.rules ?? []);
  expect(messages).toEqual([]);
  expect(hidden).toHaveLength(1);
});

test("two sheets with the same headings are a mistake", () => {
  const sheet = "  - name: a\n    columns: {id: patient_id, born: birth_date}\n";
  const { messages } = parseSiteConfig(`sheets:\n${sheet}${sheet}`, "site.yaml");
  expect(messages).toMatchObject([
    { place: { at: "line 5" }, data: { what: "it has the same headings as a" } },
  ]);
});
