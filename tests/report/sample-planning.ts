import { planningOf } from "../../src/planning/planning.ts";
import { planPlanning } from "../../src/report/plan-planning.ts";
import { planningSchema } from "../../src/site/planning-settings.ts";
import { asOf } from "../guidelines/invented-case.ts";
import { everyFive, lineCase, marks } from "../planning/landing/sample-segments.ts";

const arch = { radiusMm: 40, startMm: 50 };

/** On a straight line up, half a circle, and a straight line down, in DICOM patient coordinates. */
function pointAt(atMm: number): [number, number, number] {
  const angle = Math.min(Math.max((atMm - arch.startMm) / arch.radiusMm, 0), Math.PI);
  const down = Math.max(atMm - arch.startMm - Math.PI * arch.radiusMm, 0);
  const along = arch.radiusMm * (1 - Math.cos(angle));
  const up = Math.min(atMm, arch.startMm) + arch.radiusMm * Math.sin(angle) - down;
  return [0.6 * along, 0.8 * along, up];
}

const inDisease = (mm: number): boolean => mm > 110 && mm < 260;
const line = lineCase(
  [
    ...marks,
    ...everyFive((mm) => ({
      point: pointAt(mm),
      maximumMm: inDisease(mm) ? 58 : 31.5,
      minimumMm: inDisease(mm) ? 55 : 29.5,
    })),
  ],
  { considered: ["descending repair"], diagnoses: ["descending thoracic aneurysm"] },
);
const patientCase = {
  ...line,
  centrelines: line.centrelines.map((one) => ({ ...one, patientPosition: "HFS" })),
};

/** The planning of an invented descending aneurysm with a centreline, by the calculators themselves. */
export const samplePlanning = planPlanning(
  patientCase,
  planningOf(patientCase, {
    asOf,
    dissection: null,
    archConventions: [],
    planning: planningSchema.parse({}),
    inventory: [
      {
        id: "G04",
        proximalMm: 34,
        distalMm: 34,
        coveredLengthMm: 200,
        sheathOuterMm: 8,
        sheathAsWritten: "8.0 mm",
      },
      {
        id: "G05",
        proximalMm: 36,
        distalMm: 32,
        coveredLengthMm: 150,
        sheathOuterMm: 8.3,
        sheathAsWritten: "8.3 mm",
      },
    ],
    readingSdMmOf: () => 1,
    stationSdMmOf: () => 1,
  }),
);
