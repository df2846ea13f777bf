import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import fc from "fast-check";
import { afterAll, describe, expect, test } from "vitest";
import { type Intake, takeIn } from "../../src/batch/intake.ts";
import { History } from "../../src/history/history.ts";
import type { IdentityDecision } from "../../src/site/identity-decisions.ts";
import { noSiteConfig } from "../../src/site/site-config.ts";
import {
  bystanderId,
  bystanderValue,
  type Clash,
  clash,
  type ClashingFile,
  digestOf,
  fillFolder,
  sharedId,
  whoseFiles,
} from "./clashing-files.ts";

const folder = join(mkdtempSync(join(tmpdir(), "clashes-")), "inbox");
afterAll(() => rmSync(join(folder, ".."), { recursive: true }));
const asOf = "2026-01-15";

/** One night: reads what lies in the folder and remembers it. */
function night(history: History, identities: IdentityDecision[] = []): Intake {
  const site = { ...noSiteConfig, issuer: "LAB", identities };
  const intake = takeIn(folder, history, { asOf, site, onFile: () => {} });
  history.addNight(intake.night, asOf);
  return intake;
}

const sorted = (values: number[]): number[] => values.toSorted((a, b) => a - b);
/** The numbers of each case, by the patient ID that it shows. */
const valuesById = ({ cases }: Intake): Record<string, number[]> =>
  Object.fromEntries(
    cases.map(({ patient, measurements }) => [
      patient.id,
      sorted(measurements.map(({ value }) => value)),
    ]),
  );
const valuesOf = (files: ClashingFile[]): number[] => sorted(files.flatMap(({ values }) => values));
const bystanderValues = (files: ClashingFile[]): number[] => sorted(files.flatMap(bystanderValue));
const decision = (rest: Partial<IdentityDecision>): IdentityDecision => ({
  patientId: sharedId,
  issuer: "LAB",
  by: "imaging lab",
  date: asOf,
  same: null,
  apart: null,
  leaveOut: [],
  ...rest,
});

/** What must be seen of the bystander, whatever the others do. */
const bystander = (files: ClashingFile[]): Record<string, number[]> => {
  const values = bystanderValues(files);
  return values.length === 0 ? {} : { [bystanderId]: values };
};

/** Two nights on which the files come; the folder is emptied between them or not. */
function comeIn({ files, persons }: Clash, history: History, isEmptied: boolean): void {
  const early = files.filter((file) => file.night === 1);
  fillFolder(folder, early, persons);
  const one = valuesById(night(history));
  const there = [...new Set(early.map(({ person }) => person))];
  const own = there.length === 1 ? { [sharedId]: valuesOf(early) } : {};
  expect(one).toEqual({ ...own, ...bystander(early) });

  fillFolder(folder, isEmptied ? files.filter((file) => file.night === 2) : files, persons);
  const two = night(history);
  expect(valuesById(two)).toEqual(bystander(files));
  expect(two.failed.map(({ id }) => id)).toContain(sharedId);
  for (const { row, read, details } of two.files) {
    if (read.documents.every(({ patient }) => patient.id !== sharedId)) continue;
    const isShared = [
      ...read.documents.map(({ patient }) => patient.id),
      ...read.caseRows.map(({ patientId }) => patientId),
    ].every((id) => id === sharedId);
    if (isShared) expect(row.outcome).toBe("set-aside");
    expect(details.map(({ code }) => code)).toContain("identity-conflict");
  }

  fillFolder(folder, [], persons);
  const three = night(history);
  expect(valuesById(three), "the contradiction stays until someone decides").toEqual(
    bystander(files),
  );
  expect(three.failed.map(({ id }) => id)).toContain(sharedId);
}

/** Holds on the night after the decision, with an empty folder or all files in it, and on the night after that. */
function expectAfterwards(
  one: Clash,
  history: History,
  identities: IdentityDecision[],
  expected: Record<string, number[]>,
  thirdFolder: ClashingFile[],
): void {
  fillFolder(folder, thirdFolder, one.persons);
  expect(valuesById(night(history, identities))).toEqual(expected);
  fillFolder(folder, [], one.persons);
  expect(valuesById(night(history, identities))).toEqual(expected);
}

/** Fifty of the 200 clashes. */
const fifty = (part: number) => ({ numRuns: 50, seed: 20_260_115 + part });

describe("200 generated clashes of two or three persons under one patient ID, no number on the wrong patient", () => {
  test("50 that the site decides to be several persons: each gets every number of theirs", () => {
    fc.assert(
      fc.property(clash, fc.boolean(), fc.boolean(), (one, isEmptied, isKept) => {
        const history = new History(":memory:");
        comeIn(one, history, isEmptied);
        const identities = [decision({ apart: whoseFiles(one) })];
        const expected = Object.fromEntries(
          one.persons.map(({ label }, person) => [
            `${sharedId} (${label})`,
            valuesOf(one.files.filter((file) => file.person === person)),
          ]),
        );
        const all = { ...expected, ...bystander(one.files) };
        expectAfterwards(one, history, identities, all, isKept ? one.files : []);
        history.close();
      }),
      fifty(1),
    );
  }, 120_000);

  test("50 that the site decides to be one person, written in several ways: all numbers are back", () => {
    fc.assert(
      fc.property(clash, fc.boolean(), fc.boolean(), (one, isEmptied, isKept) => {
        const history = new History(":memory:");
        comeIn(one, history, isEmptied);
        const same = Object.fromEntries(
          one.differ.map((aspect) => {
            const [stands = "", ...also] = one.persons.map((person) => person[aspect]);
            return [aspect, { stands, also }];
          }),
        );
        const expected = { [sharedId]: valuesOf(one.files), ...bystander(one.files) };
        expectAfterwards(one, history, [decision({ same })], expected, isKept ? one.files : []);
        history.close();
      }),
      fifty(2),
    );
  }, 120_000);

  test("50 in which the site leaves out the files of all but the first person", () => {
    fc.assert(
      fc.property(clash, fc.boolean(), fc.boolean(), (one, isEmptied, isKept) => {
        const history = new History(":memory:");
        comeIn(one, history, isEmptied);
        const wrong = one.files.filter(({ person }) => person !== 0);
        const identities = [
          decision({ leaveOut: wrong.map((file) => ({ sha256: digestOf(file, one.persons) })) }),
        ];
        const right = valuesOf(one.files.filter(({ person }) => person === 0));
        // A bystander's rows in a sheet that is left out for the shared ID are the bystander's still.
        const expected = { [sharedId]: right, ...bystander(one.files) };
        expectAfterwards(one, history, identities, expected, isKept ? one.files : []);
        history.close();
      }),
      fifty(3),
    );
  }, 120_000);

  test("50 in which the wrong files are taken out of the folder", () => {
    fc.assert(
      fc.property(clash, (drawn) => {
        const isFirst = (file: ClashingFile) => file.person === 0;
        const files = drawn.files.map((file, index) =>
          index === 0 ? { ...file, night: 1 } : file,
        );
        const one = { ...drawn, files };
        const history = new History(":memory:");
        comeIn(one, history, false);
        const right = files.filter(isFirst);
        const sheets = files.filter((file) => !isFirst(file) && file.kind === "measurements");
        const expected = { [sharedId]: valuesOf(right), ...bystander([...right, ...sheets]) };
        expectAfterwards(one, history, [], expected, right);
        history.close();
      }),
      fifty(4),
    );
  }, 120_000);
});
