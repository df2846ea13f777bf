import type { AorticPlace } from "../anatomy/places.ts";
import type { Measurement, PatientCase } from "../cases/patient-case.ts";
import { equalAsWritten } from "../cases/written-precision.ts";

/** The same diameter of one exam, read twice. */
export interface DoubleReading {
  place: AorticPlace;
  /** Second reading less first; which is which says nothing. */
  differenceMm: number;
  /** Keys of the two measurements. */
  measurements: [string, string];
}

/**
 * The diameters that two readers or two files give for the same exam, place, statistic, lumen, edge, plane and cardiac
 * phase. Of more than two readings each stands in one pair only, so that pairs are independent. Two files that give alike
 * values, without two different readers being named, may hold one reading twice and are left out: that can make an error
 * estimated from the pairs too large, never too small.
 */
export function doubleReadings(cases: readonly PatientCase[]): DoubleReading[] {
  return cases.flatMap(({ measurements }) => {
    const readings = measurements.filter(
      ({ quantity, derivedFrom }) => quantity === "diameter" && derivedFrom.length === 0,
    );
    return [...Map.groupBy(readings, wayRead).values()].flatMap(pairsOf);
  });
}

const wayRead = ({ exam, place, statistic, lumen, edge, plane, phase }: Measurement): string =>
  JSON.stringify([exam, place.id, statistic, lumen, edge, plane, phase]);

function pairsOf(readings: readonly Measurement[]): DoubleReading[] {
  const open = readings.toSorted((a, b) => (a.key < b.key ? -1 : 1));
  const pairs: DoubleReading[] = [];
  for (let first = open.shift(); first; first = open.shift()) {
    const one = first;
    const partner = open.findIndex((other) => isReadAnew(one, other));
    const [other] = partner < 0 ? [] : open.splice(partner, 1);
    if (!other) continue;
    pairs.push({
      place: one.place,
      differenceMm: Number((other.value - one.value).toFixed(9)),
      measurements: [one.key, other.key],
    });
  }
  return pairs;
}

function isReadAnew(one: Measurement, other: Measurement): boolean {
  if (one.reader !== null && other.reader !== null && one.reader !== other.reader) return true;
  return one.source.sha256 !== other.source.sha256 && !equalAsWritten(one, other);
}
