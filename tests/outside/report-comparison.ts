import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, expect } from "vitest";
import { readableName } from "../../src/readers/dicom-sr/levels.ts";
import { read, readingsOf } from "../readers/dicom-sr/invented-report.ts";
import { type OutsideNumber, type PydicomReport, readWithPydicom } from "./pydicom.ts";

/** A folder of its own for a file of tests, removed after them. */
export function scratchFolder(name: string) {
  const folder = mkdtempSync(join(tmpdir(), `${name}-`));
  afterAll(() => rmSync(folder, { recursive: true }));
  let fileCount = 0;
  const newPath = (): string => join(folder, `${++fileCount}.dcm`);
  const write = (bytes: Uint8Array): string => {
    const path = newPath();
    writeFileSync(path, bytes);
    return path;
  };
  return { folder, newPath, write };
}

/** The result of the first call, for all calls: one start of a program for many tests. */
export function once<T>(make: () => T): () => T {
  let made: { value: T } | null = null;
  return () => {
    made ??= { value: make() };
    return made.value;
  };
}

/** A report as this program reads it, in the form of pydicom's; fails where it is set aside. */
export function ours(bytes: Uint8Array): PydicomReport {
  const file = read(bytes);
  expect(file.setAside).toBeNull();
  const [document] = file.documents;
  return {
    patientId: document?.patient.id ?? null,
    patientName: document?.patient.name ?? null,
    numbers: readingsOf(file).map(({ source, terms, valueText, unit, trackingIdentifier }) => ({
      at: source.at ?? "",
      concept: terms.quantity.words,
      value: valueText,
      unit: unit?.code?.value ?? null,
      scheme: unit?.code?.scheme ?? null,
      tracking: trackingIdentifier,
    })),
  };
}

/** What pydicom reads, with the name written as this program writes names; null for a file that it fails on. */
export function byPydicom(files: string[]): (PydicomReport | null)[] {
  return readWithPydicom(files).map(
    (report) =>
      report && {
        ...report,
        patientName: report.patientName === null ? null : readableName(report.patientName),
      },
  );
}

/** What the programs of DCMTK say of each number too. */
export const withoutPlace = ({ numbers }: PydicomReport): OutsideNumber[] =>
  numbers.map(({ concept, value, unit, scheme }) => ({ concept, value, unit, scheme }));
