import { buildDictionary } from "../../src/anatomy/dictionary.ts";
import { buildCases } from "../../src/cases/build-cases.ts";
import { dissectionOf } from "../../src/cases/dissection.ts";
import type { PatientCase } from "../../src/cases/patient-case.ts";
import type { LandingSegment } from "../../src/planning/landing/landing-segment.ts";
import { type Planning, planningOf } from "../../src/planning/planning.ts";
import { type InventoryRow, readInventory } from "../../src/readers/csv/inventory.ts";
import { readFile } from "../../src/readers/read-file.ts";
import { noSiteConfig } from "../../src/site/site-config.ts";
import { stationColumns } from "./centreline-sheet.ts";

const asOf = "2026-03-01";
/** Day of the only exam of the worked cases. */
const examDate = "2026-02-27";

/** Half of the 95 % interval of a diameter read with an SD of 1 mm. */
export const errorMm = 1.96;

const bytesOf = (text: string): Uint8Array => new TextEncoder().encode(text);

/** A generic stock of grafts: id, diameter at both ends, covered length, outer sheath in French (1 Fr = 1/3 mm). */
const inventoryText = `id,proximal_mm,distal_mm,covered_length_mm,sheath_outer_fr
G28,28,28,100,20
G30,30,30,150,21
G32,32,32,150,22
G34,34,34,150,22
G36T,36,32,150,24
G36,36,36,200,24
G38,38,38,200,25
G40T,40,36,200,26
`;

function inventoryRows(): InventoryRow[] {
  const file = { file: "inventory.csv", sha256: "00" };
  const { rows, messages } = readInventory(bytesOf(inventoryText), file, noSiteConfig);
  if (messages.length > 0) throw new Error(messages.map(({ text }) => text).join("\n"));
  return rows;
}

/** What an invented case states, each as the text of a sheet. Exam rows are written without patient and date. */
interface WorkedSheets {
  id: string;
  /** Heading and one row, without the patient. */
  caseSheet: string;
  /** Rows of place,quantity,statistic,lumen,edge,value,unit. */
  measurements?: string;
  /** Rows of place,finding,state. */
  findings?: string;
  /** Rows of `stationColumns`. */
  centreline?: string;
}

const examRows = (id: string, rows: string): string[] =>
  rows
    .trim()
    .split("\n")
    .map((row) => `${id},${examDate},CT,${row}`);

function sheetsOf({ id, caseSheet, measurements, findings, centreline }: WorkedSheets): string[] {
  const [heading = "", row = ""] = caseSheet.trim().split("\n");
  const exam = (columns: string, rows: string | undefined): string[] =>
    rows === undefined
      ? []
      : [[`patient_id,exam_date,modality,${columns}`, ...examRows(id, rows)].join("\n")];
  return [
    `patient_id,${heading}\n${id},${row}\n`,
    ...exam("place,quantity,statistic,lumen,edge,value,unit", measurements),
    ...exam("place,finding,state", findings),
    ...exam(stationColumns, centreline),
  ];
}

/** An invented case as the readers understand it, with everything that is computed for it. */
export interface WorkedCase {
  patientCase: PatientCase;
  planning: Planning;
}

/**
 * Reads the sheets and plans on a fixed basis: every diameter with an SD of 1 mm, the settings of a site that states none.
 * Throws where anything is said of the sheets: a worked case is read whole or not at all.
 */
export function workedCase(sheets: WorkedSheets): WorkedCase {
  const read = sheetsOf(sheets).map((text, index) => readFile(bytesOf(text), `${index}.csv`));
  for (const { setAside, messages } of read) {
    const faults = [...(setAside ? [setAside] : []), ...messages];
    if (faults.length > 0) throw new Error(faults.map(({ text }) => text).join("\n"));
  }
  const { cases, failed } = buildCases(
    read.flatMap(({ documents }) => documents),
    read.flatMap(({ caseRows }) => caseRows.map((row) => ({ row, night: 1 }))),
    {
      asOf,
      issuer: null,
      identities: [],
      dictionary: buildDictionary({ codes: {}, words: {} }),
      neighbourStepMm: noSiteConfig.neighbourStepMm,
      scanPosition: null,
      reportMessages: new Map(),
    },
  );
  const [patientCase] = cases;
  if (!patientCase) throw new Error(failed.map(({ failure }) => failure.text).join("\n"));
  if (patientCase.messages.length > 0) {
    throw new Error(patientCase.messages.map(({ text }) => text).join("\n"));
  }
  const planning = planningOf(patientCase, {
    asOf,
    dissection: dissectionOf(patientCase, asOf),
    archConventions: [],
    planning: noSiteConfig.planning,
    inventory: inventoryRows(),
    readingSdMmOf: () => 1,
    stationSdMmOf: () => 1,
  });
  return { patientCase, planning };
}

const found = <T>(one: T | undefined, what: string): T => {
  if (one === undefined) throw new Error(`no ${what}`);
  return one;
};

/** The candidate proximal landing of a zone. */
export const optionOf = ({ planning }: WorkedCase, zone: string) =>
  found(
    planning.options.find((one) => one.zone === zone),
    `option of zone ${zone}`,
  );

/** The stretch of a candidate zone. */
export const segmentOf = (
  { planning }: WorkedCase,
  end: LandingSegment["end"],
  zone: string,
  conditions: LandingSegment["conditions"] = "strictest published",
): LandingSegment => {
  const landings = end === "proximal" ? planning.options : planning.distalLandings;
  const segments = landings.find((one) => one.zone === zone)?.segments ?? [];
  return found(
    segments.find((one) => one.conditions === conditions),
    `${conditions} ${end} segment of zone ${zone}`,
  );
};

/** The stretch in numbers: where it begins and ends, and its length with the least and the greatest. */
export const stretchOf = (segment: LandingSegment) => ({
  startMm: segment.startMm,
  endMm: segment.endMm,
  lengthMm: segment.lengthMm,
});

/** Outcomes by id. */
export const outcomesOf = (checks: readonly { id: string; outcome: string }[]) =>
  Object.fromEntries(checks.map(({ id, outcome }) => [id, outcome]));

/** Sizing from one zone to another. */
export const sizingOf = ({ planning }: WorkedCase, fromZone: string, toZone: string | null) =>
  found(
    planning.sizings.find((one) => one.fromZone === fromZone && one.toZone === toZone),
    `sizing from zone ${fromZone} to ${toZone}`,
  ).sizing;

/** The coverage from one zone to another. */
export const coverageOf = ({ planning }: WorkedCase, fromZone: string, toZone: string) =>
  found(
    planning.coverages.find((one) => one.fromZone === fromZone && one.toZone === toZone),
    `coverage from zone ${fromZone} to ${toZone}`,
  );

/** The requirements of one way of dealing with the arch. */
export const requirementsOf = ({ planning }: WorkedCase, id: string) =>
  found(
    planning.archPlans.find((one) => one.id === id),
    `plan ${id}`,
  ).requirements;

/** The cord under a landing in one zone. */
export const cordOf = ({ planning }: WorkedCase, zone: string) =>
  found(
    planning.perfusion.cord.zones.find((one) => one.zone === zone),
    `cord of zone ${zone}`,
  );
