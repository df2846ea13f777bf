// Source: four public structured reports with the numbers, dates and flags on which four independent readers agree
// (the README beside them says from where each comes). They are not shipped with the program; they are looked for in
// the folder `shared/samples/sr` beside the checkout. None of them is a report of an aorta.
import { existsSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { describe, expect, test } from "vitest";
import { buildDictionary } from "../../src/anatomy/dictionary.ts";
import { interpret } from "../../src/anatomy/interpret.ts";
import { measure } from "../../src/cases/measure.ts";
import type { Reading } from "../../src/readers/reading.ts";
import { messageCodes, read, readingsOf } from "../readers/dicom-sr/invented-report.ts";

const folder = fileURLToPath(new URL("../../../shared/samples/sr/", import.meta.url));
const isHere = existsSync(folder);
if (!isHere) process.stdout.write("skipped the public reports: shared/samples/sr is not here\n");

const dictionary = buildDictionary({ codes: {}, words: {} });
const fileOf = (name: string) => read(readFileSync(`${folder}${name}.dcm`));

/** Why a reading does not become a measurement; fails where it does. */
function reasonOf(reading: Reading): string {
  const { measurement, messages } = measure(reading, "exam", dictionary);
  expect(measurement).toBeNull();
  expect(messages).toHaveLength(1);
  return messages[0]?.code ?? "none";
}

const reasonsOf = (readings: Reading[]): Record<string, number> => {
  const counts: Record<string, number> = {};
  for (const reading of readings) {
    const reason = reasonOf(reading);
    counts[reason] = (counts[reason] ?? 0) + 1;
  }
  return counts;
};

describe.skipIf(!isHere)("public reports that are not of an aorta", () => {
  test("PET: 22 numbers of one group, 2 of the image library", () => {
    const file = fileOf("dcmqi_sr_example");
    const [document, ...others] = file.documents;
    expect(others).toEqual([]);
    expect(document?.exam).toMatchObject({
      imagingDate: "1986-03-11",
      imagingDateOrigin: "acquisition date",
      modality: "PT",
    });
    expect(document?.report?.completion).toBe("PARTIAL");
    expect(document?.patient.id).toBe("QIN-HEADNECK-01-0003");
    expect(file.messages).toMatchObject([{ code: "numbers-of-images", data: { count: 2 } }]);
    const readings = readingsOf(file);
    expect(readings).toHaveLength(22);
    expect(new Set(readings.map(({ terms }) => terms.quantity.words)).size).toBeLessThan(22);
    expect(reasonsOf(readings)).toEqual({
      "quantity-not-understood": 21,
      "place-not-understood": 1,
    });
  });

  test("CT of the liver: 6 numbers, 19 of the image library, one volume in two units", () => {
    const file = fileOf("tid1500fhir_ct_liver");
    const [document] = file.documents;
    expect(document?.exam).toMatchObject({ imagingDate: "2003-04-17", modality: "CT" });
    expect(document?.report).toMatchObject({ completion: "COMPLETE", verification: "VERIFIED" });
    expect(messageCodes(file)).toEqual(["imaging-date-from-study", "numbers-of-images"]);
    expect(file.messages[1]?.data).toEqual({ count: 19 });
    const readings = readingsOf(file);
    expect(readings.map(({ valueText, unit }) => [valueText, unit?.code?.value])).toEqual([
      ["37.3289", "[hnsf'U]"],
      ["-778", "[hnsf'U]"],
      ["221", "[hnsf'U]"],
      ["59.1691", "[hnsf'U]"],
      ["70361.9", "mm3"],
      ["70.3619", "cm3"],
    ]);
    expect(readings.map(({ terms }) => terms.modifiers.map(({ words }) => words).join())).toEqual([
      "Mean",
      "Minimum",
      "Maximum",
      "Standard Deviation",
      "",
      "",
    ]);
    expect(reasonsOf(readings)).toEqual({
      "quantity-not-understood": 4,
      "place-not-understood": 2,
    });
  });

  test("two axes without a physical unit and without a site", () => {
    const file = fileOf("dcmjs_sample_sr");
    expect(file.documents[0]?.exam.imagingDate).toBe("2009-02-28");
    const readings = readingsOf(file);
    expect(readings.map(({ valueText, unit }) => [valueText, unit?.code?.value])).toEqual([
      ["64.4505437946691", "1"],
      ["42.9670291964462", "1"],
    ]);
    expect(reasonsOf(readings)).toEqual({ "place-not-understood": 2 });
  });

  test("one area at a spinal structure", () => {
    const file = fileOf("hd_sr_document");
    expect(file.documents[0]?.exam.imagingDate).toBe("2004-01-19");
    expect(file.documents[0]?.report?.preliminary).toBe("PRELIMINARY");
    const readings = readingsOf(file);
    expect(readings.map(({ valueText, unit }) => [valueText, unit?.code?.value])).toEqual([
      ["1.7", "cm2"],
    ]);
    expect(reasonsOf(readings)).toEqual({ "place-not-understood": 1 });
  });

  test("no number is placed, even with a unit that the program knows", () => {
    const names = ["dcmqi_sr_example", "tid1500fhir_ct_liver", "dcmjs_sample_sr", "hd_sr_document"];
    const results = names.flatMap((name) =>
      readingsOf(fileOf(name)).map(({ terms }) => interpret(terms, dictionary)),
    );
    expect(results).toHaveLength(22 + 6 + 2 + 1);
    expect(results.every((result) => "problem" in result)).toBe(true);
  });

  test("cut short at any of many places, none is read as whole", () => {
    for (const name of ["hd_sr_document", "tid1500fhir_ct_liver"]) {
      const bytes = readFileSync(`${folder}${name}.dcm`);
      for (let length = 140; length < bytes.length; length += 37) {
        expect(read(bytes.subarray(0, length)).kind, `${name} cut at ${length}`).toBe("unreadable");
      }
    }
  });
});
