import type { Exam, Measurement, PatientCase } from "../../cases/patient-case.ts";
import { calciumArcOf } from "./landing-samples.ts";
import type { LandingSegment } from "./landing-segment.ts";
import type { SegmentBasis } from "./segment-basis.ts";
import { foundIn } from "./measured-centreline.ts";
import type { ZoneValues } from "./zone-value-segment.ts";
import { zoneWall } from "./zone-wall.ts";

const zoneOrder = ["0", "1", "2", "3", "4", "5"];
/** Zone 3 is the first 2 cm beyond the left subclavian artery: ACC/AHA 2022, zone figure. */
const zoneThreeMm = 20;

interface OfExam {
  key: string;
  date: string;
}

/** Sound lengths stated for a zone, of the latest exam that has any; none from before a repair of the zone. */
export function statedLengths(
  zone: string,
  patientCase: PatientCase,
  basis: SegmentBasis,
): { exam: OfExam; readings: Measurement[]; missing: string[] } {
  const readings = patientCase.measurements.filter(
    ({ quantity, place, lumen }) =>
      quantity === "sound-length" &&
      place.zones.includes(zone) &&
      place.kind !== "branch" &&
      (lumen === "whole" || lumen === "unstated"),
  );
  const exam = latestWith(readings, patientCase, basis);
  const nothing = { exam: { key: "", date: "" }, readings: [] };
  if (exam === null) return { ...nothing, missing: [`sound length in zone ${zone}`] };
  const { outdated } = wallIn(zone, exam, patientCase, basis);
  if (outdated !== null) return { ...nothing, missing: [outdated] };
  const own = readings.filter((one) => one.exam === exam.key);
  return { exam: { key: exam.key, date: exam.imagingDate }, readings: own, missing: [] };
}

/** Values of whole zones from one zone on, in the direction of the end, in the latest exam that has a largest diameter of it. */
export function zoneValuesOf(
  zone: string,
  end: LandingSegment["end"],
  patientCase: PatientCase,
  basis: SegmentBasis,
): { exam: OfExam; zones: ZoneValues[] } | { missing: string[] } {
  const index = zoneOrder.indexOf(zone);
  const ordered =
    end === "proximal" ? zoneOrder.slice(index) : zoneOrder.slice(0, index + 1).toReversed();
  const largest = patientCase.measurements.filter((one) =>
    isLargest(one, zone, patientCase, basis),
  );
  const exam = latestWith(largest, patientCase, basis);
  if (exam === null) return { missing: [`largest diameter of zone ${zone}`] };
  const { outdated } = wallIn(zone, exam, patientCase, basis);
  if (outdated !== null) return { missing: [outdated] };
  const zones = ordered.map((id) => valuesIn(id, exam, patientCase, basis));
  const [first] = zones;
  if (first?.lengthMm === null) return { missing: [`length of zone ${zone} along the centreline`] };
  return { exam: { key: exam.key, date: exam.imagingDate }, zones };
}

const latestWith = (
  readings: readonly Measurement[],
  { exams }: PatientCase,
  { asOf }: SegmentBasis,
): Exam | null =>
  exams.findLast(
    ({ key, imagingDate }) => imagingDate <= asOf && readings.some(({ exam }) => exam === key),
  ) ?? null;

const wallIn = (zone: string, exam: Exam, patientCase: PatientCase, basis: SegmentBasis) =>
  zoneWall(zone, { patientCase, dissection: basis.dissection, exam, asOf: basis.asOf });

function isLargest(
  { place, quantity, statistic, lumen }: Measurement,
  zone: string,
  { facts }: PatientCase,
  { dissection }: SegmentBasis,
): boolean {
  const isWhole =
    lumen === "whole" || (lumen === "unstated" && dissection === null && facts.diagnoses !== null);
  return (
    place.id === `zone-${zone}` && quantity === "diameter" && statistic === "maximum" && isWhole
  );
}

function valuesIn(
  zone: string,
  exam: Exam,
  patientCase: PatientCase,
  basis: SegmentBasis,
): ZoneValues {
  const own = patientCase.measurements.filter((one) => one.exam === exam.key);
  const [largest] = own
    .filter((one) => isLargest(one, zone, patientCase, basis))
    .toSorted((one, other) => other.value - one.value);
  const inZone = own.filter(({ place }) => place.kind !== "branch" && place.zones.includes(zone));
  const angles = inZone.filter(({ quantity }) => quantity === "angle");
  const along = (path: Measurement["path"]): Measurement | null =>
    own
      .filter(
        (one) => one.quantity === "length" && one.path === path && one.place.id === `zone-${zone}`,
      )
      .toSorted((one, other) => one.value - other.value)[0] ?? null;
  const lengths = [along("centreline"), along("inner-curve"), along("outer-curve")] as const;
  const { surface, disease, outdated, missing, used } = wallIn(zone, exam, patientCase, basis);
  const found = foundIn(zone, patientCase, exam);
  const what = outdated === null ? disease : "the wall was repaired after the exam";
  return {
    zone,
    section: {
      atMm: 0,
      zone,
      keys: largest ? [largest.key] : [],
      diameter: largest
        ? { mm: largest.value, errorMm: 1.96 * basis.readingSdMmOf(largest), isLargest: true }
        : null,
      surface,
      disease: what === null ? null : { what, isSure: outdated !== null, used },
      wallMissing: outdated ?? missing[0] ?? null,
      thrombusArcDeg: found.noThrombus ? 0 : null,
      thrombusThicknessMm: found.noThrombus ? 0 : null,
      calciumArcDeg: calciumArcOf(found.calcium),
      isCalciumPartial: found.calcium === "partial",
      turnOver: () =>
        angles.length === 0
          ? { why: "angle of the centreline" }
          : Math.max(...angles.map(({ value }) => value)),
      bulgeOver: () => null,
    },
    lengthMm: lengths[0]?.value ?? (zone === "3" ? zoneThreeMm : null),
    sideMm: { inner: lengths[1]?.value ?? null, outer: lengths[2]?.value ?? null },
    radii: inZone.filter(({ quantity }) => quantity === "radius"),
    used: lengths.flatMap((one) => one?.key ?? []),
  };
}
