import { mkdirSync, rmSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import fc from "fast-check";
import { coded } from "../../fixtures/content-items.ts";
import { writeStructuredReport } from "../../fixtures/structured-report-writer.ts";
import { sha256Of } from "../../src/readers/read-file.ts";
import type { Says } from "../../src/site/identity-decisions.ts";

/** Who an invented person is; several of them share one patient ID. */
export interface SharedPerson {
  label: string;
  name: string;
  birthDate: string;
  sex: "F" | "M" | "O";
}
export type Aspect = "name" | "birthDate" | "sex";

/** One file of one person, with numbers that no other file has. */
export interface ClashingFile {
  file: string;
  person: number;
  kind: "report" | "measurements" | "cases";
  /** What it says of the person; measurement sheets say nothing. */
  states: readonly Aspect[];
  values: number[];
  /** 1 or 2. */
  night: number;
}

export const sharedId = "SHARED-1";
export const bystanderId = "OTHER-1";
const allAspects: readonly Aspect[] = ["name", "birthDate", "sex"];
const names = ["Invented^Ada", "Invented^Eva", "Fictive^Ada"];
const birthDates = ["1950-01-02", "1950-02-01", "1971-11-30"];
const sexes = ["F", "M", "O"] as const;

/** A clash: persons who differ in these aspects, and their files. */
export interface Clash {
  persons: SharedPerson[];
  differ: readonly Aspect[];
  files: ClashingFile[];
}

/** Two or three persons under one ID; the first file of each is a report that says all of them. */
export const clash: fc.Arbitrary<Clash> = fc
  .record({
    count: fc.integer({ min: 2, max: 3 }),
    differ: fc.subarray([...allAspects], { minLength: 1 }),
    seeds: fc.array(
      fc.record({
        person: fc.nat(2),
        kind: fc.constantFrom("report" as const, "measurements" as const, "cases" as const),
        states: fc.subarray([...allAspects]),
        night: fc.integer({ min: 1, max: 2 }),
      }),
      { maxLength: 5 },
    ),
    order: fc.shuffledSubarray([0, 1, 2, 3, 4, 5, 6, 7], { minLength: 8 }),
    firstNights: fc.tuple(fc.constantFrom(1, 2), fc.constantFrom(1, 2), fc.constantFrom(1, 2)),
  })
  .map(({ count, differ, seeds, order, firstNights }) => {
    const pick = <T>(aspect: Aspect, pool: readonly T[], index: number): T =>
      pool[differ.includes(aspect) ? index : 0] as T;
    const persons = Array.from({ length: count }, (_, index) => ({
      label: "ABC"[index] ?? "",
      name: pick("name", names, index),
      birthDate: pick("birthDate", birthDates, index),
      sex: pick("sex", sexes, index),
    }));
    const first = persons.map((_, person) => ({
      person,
      kind: "report" as const,
      states: allAspects,
      night: firstNights[person] ?? 1,
    }));
    const more = seeds.map(({ person: wanted, kind, states, night }) => {
      const person = wanted % count;
      const said = { report: states, measurements: [], cases: allAspects }[kind];
      return { person, kind, states: said, night: Math.max(night, firstNights[person] ?? 1) };
    });
    const files = [...first, ...more].map((seed, index): ClashingFile => {
      const { person, kind } = seed;
      const count = { report: 2, measurements: 3, cases: 0 }[kind];
      const values = Array.from({ length: count }, (_, at) => 30 + 10 * person + index + at / 10);
      const end = kind === "report" ? "dcm" : "csv";
      return { ...seed, values, file: `in-${order[index]}/${kind}-${index}.${end}` };
    });
    return { persons, differ, files };
  });

/** A day of its own for each file, so that no two of them share an exam. */
const dateOf = (values: number[]): string =>
  `2024-${String(Math.floor((values[0] ?? 0) % 12) + 1).padStart(2, "0")}-1${Math.floor((values[0] ?? 0) / 10) - 3}`;

function bytesOf(one: ClashingFile, persons: SharedPerson[]): Uint8Array {
  const person = persons[one.person] as SharedPerson;
  if (one.kind === "report") {
    const says = (aspect: Aspect): string => (one.states.includes(aspect) ? person[aspect] : "");
    return reportBytes(sharedId, one.file, one.values, {
      name: says("name"),
      birthDate: says("birthDate").replaceAll("-", ""),
      sex: says("sex") as "F" | "M" | "O" | "",
    });
  }
  const [family = "", given = ""] = person.name.split("^");
  const bystander = Number(/(\d)\.csv$/.exec(one.file)?.[1]);
  const lines =
    one.kind === "cases"
      ? [
          "patient_id,name,birth_date,sex,height_cm",
          `${sharedId},${given} ${family},${person.birthDate},${person.sex},170`,
          `${bystanderId},Other Person,1940-01-01,F,16${bystander}`,
        ]
      : [
          "patient_id,exam_date,place,quantity,value,unit",
          ...one.values.map(
            (value) =>
              `${sharedId},${dateOf(one.values)},aortic arch,diameter,${value.toFixed(1)},mm`,
          ),
          `${bystanderId},2025-01-0${bystander + 1},aortic arch,diameter,8${bystander}.0,mm`,
        ];
  return new TextEncoder().encode(`${lines.join("\n")}\n`);
}

/** The number that a sheet of the clash states of the bystander. */
export const bystanderValue = ({ file, kind }: ClashingFile): number[] =>
  kind === "measurements" ? [80 + Number(/(\d)\.csv$/.exec(file)?.[1])] : [];

const millimetre = coded("UCUM", "mm", "millimeter");
const diameter = coded("SCT", "81827009", "Diameter");
const arch = coded("SCT", "57034009", "Aortic arch");

function reportBytes(
  id: string,
  file: string,
  values: number[],
  says: { name: string; birthDate: string; sex: "F" | "M" | "O" | "" },
): Uint8Array {
  const number = file.replaceAll(/\D/g, "");
  const date = dateOf(values).replaceAll("-", "");
  return writeStructuredReport({
    patient: { id, issuer: "LAB", ...says },
    studyUid: `2.25.1${number}`,
    seriesUid: `2.25.2${number}`,
    sopInstanceUid: `2.25.3${number}`,
    studyDate: date,
    contentDate: date,
    observer: "Reader^Invented",
    completion: "COMPLETE",
    verification: "UNVERIFIED",
    images: {
      sopClassUid: "1.2.840.10008.5.1.4.1.1.2",
      seriesUid: `2.25.4${number}`,
      instanceUids: [`2.25.5${number}`],
      modality: coded("DCM", "CT", "Computed Tomography"),
      studyDate: date,
      acquisitionDate: date,
    },
    groups: [
      {
        trackingIdentifier: "arch",
        trackingUid: `2.25.6${number}`,
        findingSite: arch,
        numbers: values.map((value) => ({
          concept: diameter,
          value: value.toFixed(1),
          unit: millimetre,
        })),
      },
    ],
  });
}

export const digestOf = (one: ClashingFile, persons: SharedPerson[]): string =>
  sha256Of(bytesOf(one, persons));

/** Empties the folder and puts these files into it. */
export function fillFolder(folder: string, files: ClashingFile[], persons: SharedPerson[]): void {
  rmSync(folder, { recursive: true, force: true });
  mkdirSync(folder);
  for (const one of files) {
    mkdirSync(dirname(join(folder, one.file)), { recursive: true });
    writeFileSync(join(folder, one.file), bytesOf(one, persons));
  }
}

/** The lines of a decision that give each file to its person: by what they differ in, else by their digests. */
export function whoseFiles({ persons, differ, files }: Clash): (Says & { as: string })[] {
  return [
    ...persons.map((person) => ({
      as: person.label,
      ...Object.fromEntries(differ.map((aspect) => [aspect, person[aspect]])),
    })),
    ...files
      .filter(({ states }) => !differ.every((aspect) => states.includes(aspect)))
      .map((one) => ({
        as: persons[one.person]?.label ?? "",
        sha256: digestOf(one, persons),
      })),
  ];
}
