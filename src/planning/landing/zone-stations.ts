import type { ArchConvention } from "../../anatomy/arch-variants.ts";
import type { Dissection } from "../../cases/dissection.ts";
import type { Exam, Measurement, PatientCase, Station } from "../../cases/patient-case.ts";
import { formatLength } from "../../quantities/format-length.ts";
import { isWholeLumen, mayBeDissected } from "../whole-lumen.ts";
import { zoneBorders } from "./zone-borders.ts";

/** The largest diameter of one station of the whole vessel. */
export interface StationDiameter {
  valueMm: number;
  /** Half the width of its 95 % interval, in mm. */
  errorMm: number;
  key: string;
  edge: Station["edge"];
  /** "124.0 mm along the centreline". */
  where: string;
}

/** The stations of one exam by the zone that their distance surely lies in. */
export interface ZoneStations {
  exam: Exam;
  inZone: (zone: string) => StationDiameter[];
  /** Stations of the true lumen with a perimeter or an area. */
  trueLumenInZone: (zone: string) => Station[];
}

export interface ZoneStationsBasis {
  /** YYYY-MM-DD. */
  asOf: string;
  dissection: Dissection | null;
  archConventions: readonly ArchConvention[];
  readingSdMmOf: (reading: Measurement) => number;
  stationSdMmOf: (station: Station) => number;
}

/** Of the latest exam by the as-of date with a centreline of the aorta; null without one. */
export function zoneStations(
  patientCase: PatientCase,
  { asOf, dissection, archConventions, readingSdMmOf, stationSdMmOf }: ZoneStationsBasis,
): ZoneStations | null {
  const { exams, centrelines, measurements } = patientCase;
  const lineOf = (exam: Exam) =>
    centrelines.find((line) => line.exam === exam.key && line.vessel === "aorta");
  const exam = exams.findLast((one) => one.imagingDate <= asOf && lineOf(one) !== undefined);
  const stations = exam && lineOf(exam)?.stations;
  if (exam === undefined || stations === undefined) return null;
  const branchDiameters = measurements.filter(
    (one) => one.exam === exam.key && one.place.kind === "branch",
  );
  const errorMmOf = (reading: Measurement): number => 1.96 * readingSdMmOf(reading);
  const borders = zoneBorders(stations, branchDiameters, {
    patientCase,
    archConventions,
    errorMmOf,
  });
  const isWhole = ({ lumen }: Station): boolean =>
    isWholeLumen(lumen, mayBeDissected(patientCase, dissection));
  return {
    exam,
    inZone: (zone) =>
      stations.flatMap((station) => {
        const { distanceMm, maximumMm, key, edge } = station;
        if (maximumMm === null || !isWhole(station) || borders.zoneAt(distanceMm) !== zone) {
          return [];
        }
        const where = `${formatLength(distanceMm)} along the centreline`;
        return [{ valueMm: maximumMm, errorMm: 1.96 * stationSdMmOf(station), key, edge, where }];
      }),
    trueLumenInZone: (zone) =>
      stations.filter(
        ({ distanceMm, lumen, perimeterMm, areaMm2 }) =>
          lumen === "true" &&
          (perimeterMm !== null || areaMm2 !== null) &&
          borders.zoneAt(distanceMm) === zone,
      ),
  };
}
