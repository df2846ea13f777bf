// Sources: the Python library pydicom (Debian package python3-pydicom), and the programs dsrdump and dcmdump of DCMTK
// (Debian package dcmtk).
import { execFileSync } from "node:child_process";
import { expect, test } from "vitest";
import type { ByteOptions } from "../../fixtures/byte-writer.ts";
import {
  coded,
  codeElements,
  container,
  type Elements,
  measuredValue,
  numberItem,
  referenceItem,
  text,
} from "../../fixtures/content-items.ts";
import {
  arch,
  diameter,
  diameterItem,
  group,
  millimetre,
  read,
  readingsOf,
  reportBytes,
  site,
} from "../readers/dicom-sr/invented-report.ts";
import { numbersByDsrdump } from "./dcmtk.ts";
import { describeWithTools } from "./outside-tools.ts";
import { describeWithPydicom } from "./pydicom.ts";
import { byPydicom, once, ours, scratchFolder, withoutPlace } from "./report-comparison.ts";

const { write } = scratchFolder("report-structures");

/** The same sequence with the value representation UN: what a program writes that does not know the tag. */
const asUnknown = (element: Elements[string] | undefined): Elements[string] => ({
  vr: "UN",
  Value: element?.Value ?? [],
});

/** A number whose value, units and concept name are sequences with the value representation UN. */
function unknownNumber(): Elements {
  const value = measuredValue("42.5", millimetre);
  const hidden = { ...value, "004008EA": asUnknown(value["004008EA"]) };
  const number = numberItem("CONTAINS", diameter, [hidden]);
  return {
    ...number,
    "0040A043": asUnknown(number["0040A043"]),
    "0040A300": asUnknown(number["0040A300"]),
  };
}

/** Private elements of several kinds, at every level of a number. */
const privateElements: Elements = {
  "00410010": text("LO", "INVENTED"),
  "00411001": text("LT", "99.9 mm, not to be read"),
  "00411002": { vr: "SQ", Value: [{ "00411003": text("DS", "99.9") }, {}] },
  "00411004": { vr: "UN", Value: [{ "00411005": text("DS", "99.9") }] },
};
const value = measuredValue("40.5", millimetre);
const withPrivateElements = group(
  { ...site(arch), ...privateElements },
  {
    ...numberItem("CONTAINS", diameter, [{ ...value, ...privateElements }]),
    ...privateElements,
  },
);

const withReferences = group(
  diameterItem("42", [referenceItem("INFERRED FROM", [1, 1, 3])]),
  diameterItem("43"),
);
const comprehensive = { "00080016": text("UI", "1.2.840.10008.5.1.4.1.1.88.33") };

/** Containers within containers, a number at every level. */
function nested(levels: number): Elements {
  let inner = group(diameterItem("0.5"));
  for (let level = 1; level <= levels; level++) {
    inner = container(coded("99TEST", `L${level}`, "Part"), [inner, diameterItem(`${level}`)]);
  }
  return inner;
}
/** Deeper than any template, below the limit of 256 sequences with room for those of a number. */
const nestedLevels = 240;

interface Case {
  name: string;
  content: Elements[];
  header?: Elements;
  options?: ByteOptions;
  count: number;
}
const lengthForms = ["defined", "undefined"] as const;
const unknownSequences = (
  encoding: "explicit" | "big-endian",
  lengths: "defined" | "undefined",
) => ({
  name: `sequences stored as UN, ${encoding}, ${lengths} lengths`,
  content: [group(unknownNumber(), diameterItem("41"))],
  options: { encoding, lengths },
  count: 2,
});
const privateEverywhere = (
  encoding: "explicit" | "implicit" | "big-endian",
  lengths: "defined" | "undefined",
) => ({
  name: `private elements, ${encoding}, ${lengths} lengths`,
  content: [withPrivateElements, withPrivateElements],
  header: privateElements,
  options: { encoding, lengths },
  count: 2,
});
const cases: Case[] = [
  ...lengthForms.map((lengths) => unknownSequences("explicit", lengths)),
  ...lengthForms.map((lengths) => privateEverywhere("explicit", lengths)),
  ...lengthForms.map((lengths) => privateEverywhere("implicit", lengths)),
  privateEverywhere("big-endian", "defined"),
  { name: "items by reference", content: [withReferences], header: comprehensive, count: 2 },
  ...lengthForms.map((lengths) => ({
    name: `${nestedLevels} levels, ${lengths} lengths`,
    content: [nested(nestedLevels)],
    options: { lengths },
    count: nestedLevels + 1,
  })),
  {
    name: "empty items, and items of the same name",
    content: [{}, group({}, diameterItem("1"), {}, diameterItem("1")), {}],
    count: 2,
  },
];
const bytesOf = ({ content, header = {}, options = {} }: Case) =>
  reportBytes(content, header, options);

describeWithPydicom("structures that real reports have, as pydicom reads them", () => {
  const reports = once(() => byPydicom(cases.map((one) => write(bytesOf(one)))));
  test.each(cases)("$name", (one) => {
    const report = ours(bytesOf(one));
    expect(report.numbers).toHaveLength(one.count);
    expect(reports()[cases.indexOf(one)]).toEqual(report);
    expect(report.numbers.map((number) => number.value)).not.toContain("99.9");
  });
});

describeWithTools(["dsrdump", "dcmdump"], "and as DCMTK reads them", () => {
  // In a big endian file pydicom 2.3.1 does not read the content of UN sequences as little endian.
  test.each([
    unknownSequences("explicit", "undefined"),
    unknownSequences("big-endian", "undefined"),
    ...lengthForms.map((lengths) => privateEverywhere("explicit", lengths)),
    ...lengthForms.map((lengths) => privateEverywhere("big-endian", lengths)),
  ])("$name", (one) => {
    const numbers = withoutPlace(ours(bytesOf(one)));
    expect(numbers).toHaveLength(one.count);
    expect(numbersByDsrdump(write(bytesOf(one)))).toEqual(numbers);
  });

  test("items by reference are shown and are no numbers of their own", () => {
    const bytes = reportBytes([withReferences], comprehensive);
    const path = write(bytes);
    expect(execFileSync("dsrdump", ["-q", path], { encoding: "utf8" })).toContain("1.1.3");
    expect(numbersByDsrdump(path)).toEqual(withoutPlace(ours(bytes)));
  });

  test("values of a deep tree", () => {
    const bytes = reportBytes([nested(nestedLevels)]);
    const printed = execFileSync("dcmdump", ["-q", "+P", "0040,a30a", write(bytes)], {
      encoding: "utf8",
    });
    const values = [...printed.matchAll(/DS \[([^\]]*)\]/g)].map(([, digits]) => digits?.trim());
    expect(readingsOf(read(bytes)).map(({ valueText }) => valueText)).toEqual(values);
  });
});

test("a code that stands in a UN sequence is looked up like any other", () => {
  const concept = codeElements(diameter);
  const item = { ...diameterItem("42"), "0040A043": { vr: "UN", Value: [concept] } };
  const [reading] = readingsOf(read(reportBytes([group(item)])));
  expect(reading?.terms.quantity.code).toEqual({ scheme: "SCT", value: "81827009" });
});
