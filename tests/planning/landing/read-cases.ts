import type { ArchConvention } from "../../../src/anatomy/arch-variants.ts";
import { buildCases } from "../../../src/cases/build-cases.ts";
import { dissectionOf } from "../../../src/cases/dissection.ts";
import type { PatientCase } from "../../../src/cases/patient-case.ts";
import {
  type LandingOption,
  landingOptions,
} from "../../../src/planning/landing/landing-options.ts";
import { landingSegments } from "../../../src/planning/landing/landing-segments.ts";
import type { SegmentBasis } from "../../../src/planning/landing/segment-basis.ts";
import type { CaseRow, Reading, StatedFinding } from "../../../src/readers/reading.ts";
import {
  sampleCaseRow,
  sampleDocument,
  sampleOptions,
  sampleReading,
} from "../../cases/sample-documents.ts";
import { basisOf } from "./sample-segments.ts";

/** Day of the only exam of the cases built here, and the day after it on which they are planned. */
const imagingDate = "2026-01-12";
export const asOf = "2026-01-15";

/** What the case sheet and the findings of an invented case state. */
type Stated = Partial<CaseRow> & { findings?: StatedFinding[] };

/** An invented case with these readings, an aneurysm of the descending aorta unless said otherwise. */
export function readCase(
  readings: Reading[],
  diagnosis: string | null = "descending thoracic aneurysm",
  { findings = [], ...row }: Stated = {},
): PatientCase {
  const { cases } = buildCases(
    [sampleDocument(imagingDate, readings, { findings })],
    [{ row: sampleCaseRow({ diagnosis, onsetDate: "2020-01-01", ...row }), night: 1 }],
    sampleOptions,
  );
  const [patientCase] = cases;
  if (!patientCase) throw new Error("the invented case was not built");
  return patientCase;
}

/** What the calculators stand on for such a case; a reading has an SD of 1 mm. */
export const readBasis = (
  patientCase: PatientCase,
  rest: Partial<SegmentBasis> = {},
): SegmentBasis => basisOf({ asOf, dissection: dissectionOf(patientCase, asOf), ...rest });

/** The options of any case, on the segments of the same case. */
export const optionsIn = (patientCase: PatientCase, basis: SegmentBasis): LandingOption[] =>
  landingOptions(patientCase, landingSegments(patientCase, basis).proximal, basis);

/** The options of an invented case with these readings. */
export function optionsOf(
  readings: Reading[],
  diagnosis?: string | null,
  {
    archConventions = [],
    ...stated
  }: Stated & { archConventions?: readonly ArchConvention[] } = {},
): LandingOption[] {
  const patientCase = readCase(readings, diagnosis, stated);
  return optionsIn(patientCase, readBasis(patientCase, { archConventions }));
}

/** A sound length in mm; `along` is "along the inner curve" and the like, or nothing. */
export const sound = (zone: string, value: string, along: string): Reading =>
  sampleReading(zone, value, {
    statistic: null,
    edge: null,
    quantity: { words: `sound length ${along}`.trim(), code: null },
  });

/** Largest and smallest diameter between inner edges, in mm. */
export const diameters = (zone: string, maximum: string, minimum: string): Reading[] => [
  sampleReading(zone, maximum, { edge: "inner" }, `${zone} maximum`),
  sampleReading(zone, minimum, { edge: "inner", statistic: "minimum" }, `${zone} minimum`),
];

/** The same readings, said to be of the whole lumen. */
export const ofWholeLumen = (readings: readonly Reading[]): Reading[] =>
  readings.map((reading) => ({ ...reading, terms: { ...reading.terms, lumen: "whole" } }));

/** 32 by 28 mm and 30 mm of sound inner curve in every candidate zone. */
export const everyZone: Reading[] = ["0", "1", "2", "3", "4"].flatMap((zone) => [
  ...diameters(`zone ${zone}`, "32", "28"),
  sound(`zone ${zone}`, "30", "along the inner curve"),
]);
