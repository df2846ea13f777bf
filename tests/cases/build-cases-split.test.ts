import { stringify } from "csv-stringify/sync";
import fc from "fast-check";
import { expect, test } from "vitest";
import { buildCases } from "../../src/cases/build-cases.ts";
import type { Finding, Measurement, PatientCase } from "../../src/cases/patient-case.ts";
import { readFile } from "../../src/readers/read-file.ts";
import type { ReadDocument } from "../../src/readers/reading.ts";
import { sampleDocument, sampleFinding, sampleOptions, sampleReading } from "./sample-documents.ts";

/**
 * Whether readings are told to differ or to agree depends by its rule on the file that each stands in: two files count as
 * two readers.
 */
const toldByFile = new Set(["readings-differ", "readings-agree"]);

const withoutSource = (one: Measurement | Finding) => ({ ...one, key: null, source: null });

/** A case without keys and places in files, with its messages in one order. */
function meaningOf(documents: ReadDocument[]) {
  const { cases, failed } = buildCases(documents, [], sampleOptions);
  const meaning = cases.map((one: PatientCase) => ({
    ...one,
    measurements: one.measurements.map(withoutSource),
    findings: one.findings.map(withoutSource),
    messages: one.messages
      .filter(({ code }) => !toldByFile.has(code))
      .map(({ code, data }) => JSON.stringify([code, data]))
      .toSorted(),
  }));
  return { meaning, failed: failed.map(({ id, failure }) => [id, failure.code]) };
}

const shared = {
  patient_id: fc.constant("P1"),
  exam_date: fc.constantFrom("2024-01-10", "2025-01-10"),
  gated: fc.constantFrom("", "", "yes", "no", "perhaps"),
  modality: fc.constantFrom("", "CT", "CT", "MR"),
  reader: fc.constantFrom("", "AB", "CD"),
  comment: fc.constantFrom("", "seen twice"),
};
/** Mostly the first of some values, so that rows often say nearly the same. */
const mostly = (...values: [string, ...string[]]) =>
  fc.oneof({ weight: 3, arbitrary: fc.constant(values[0]) }, fc.constantFrom(...values));

const measurementRow = fc.record({
  place: mostly(
    "zone 3",
    "aortic arch",
    "arch",
    "left common iliac artery",
    "right common iliac artery",
    "elbow",
    "",
  ),
  quantity: mostly("diameter", "perimeter", "colour"),
  value: mostly("41", "41.0", "4.1", "50", "many", ""),
  unit: mostly("mm", "cm"),
  statistic: mostly("", "maximum", "mean"),
  lumen: mostly("", "true"),
  edge: mostly("", "outer"),
  ...shared,
});
const findingRow = fc.record({
  place: mostly("zone 3", "aortic arch", "arch", "left renal artery", "elbow", ""),
  finding: mostly(
    "dissection",
    "false lumen",
    "arch variant",
    "fed by",
    "malperfusion",
    "kink",
    "",
  ),
  state: mostly(
    "present",
    "absent",
    "patent",
    "partly thrombosed",
    "thrombosed",
    "usual",
    "right arch",
    "true lumen",
    "clinical",
    "",
  ),
  ...shared,
});

/** The documents of a sheet with these rows; none of no rows. */
function documentsOf(file: string, rows: readonly Record<string, string>[]): ReadDocument[] {
  if (rows.length === 0) return [];
  const read = readFile(Buffer.from(stringify([...rows], { header: true })), file);
  expect(read.setAside).toBeNull();
  return read.documents;
}

/** The order of the rows and the file of each, for so many rows. */
const dealt = (count: number) =>
  fc.record({
    order: fc.shuffledSubarray([...Array(count).keys()], { minLength: count }),
    files: fc.array(fc.constantFrom("a", "b"), { minLength: count, maxLength: count }),
  });

const sheetsAndDeals = fc
  .tuple(fc.array(measurementRow, { maxLength: 8 }), fc.array(findingRow, { maxLength: 8 }))
  .chain(([measurements, findings]) =>
    fc.record({
      measurements: fc.constant(measurements),
      findings: fc.constant(findings),
      measured: dealt(measurements.length),
      found: dealt(findings.length),
    }),
  );

test("sheets give the same case in whatever order their rows stand and over however many files", () => {
  const property = fc.property(sheetsAndDeals, ({ measurements, findings, measured, found }) => {
    const whole = [...documentsOf("m.csv", measurements), ...documentsOf("f.csv", findings)];
    const pieces = ["a", "b"].flatMap((name) => {
      const dealtTo = <Row>(rows: Row[], { order, files }: typeof measured): Row[] =>
        order.flatMap((index) => (files[index] === name ? (rows[index] as Row) : []));
      return [
        ...documentsOf(`${name}-f.csv`, dealtTo(findings, found)),
        ...documentsOf(`${name}-m.csv`, dealtTo(measurements, measured)),
      ];
    });
    expect(meaningOf(pieces)).toEqual(meaningOf(whole));
  });
  fc.assert(property, { numRuns: 500 });
});

test("a report gives the same case in whatever order its items stand", () => {
  const readings = ["zone 3", "aortic arch", "zone 3", "elbow", "zone 5"].map((place, index) =>
    sampleReading(place, `${40 + index}`, {}, `item ${index}`),
  );
  const findings = ["present", "absent", "present"].map((state, index) =>
    sampleFinding("zone 3", "dissection", state, { reader: `reader ${index}` }),
  );
  const reportOf = (ownReadings: typeof readings, ownFindings: typeof findings) => [
    sampleDocument("2024-01-10", ownReadings, { sop: "1.1", findings: ownFindings }),
  ];
  const expected = meaningOf(reportOf(readings, findings));
  expect(expected.meaning[0]?.measurements).toHaveLength(4);
  const property = fc.property(
    fc.shuffledSubarray(readings, { minLength: readings.length }),
    fc.shuffledSubarray(findings, { minLength: findings.length }),
    (items, seen) => {
      expect(meaningOf(reportOf(items, seen))).toEqual(expected);
    },
  );
  fc.assert(property);
});
