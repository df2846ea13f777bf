import type { Measurement, PatientCase } from "../../cases/patient-case.ts";
import { formatLength } from "../../quantities/format-length.ts";
import { holds } from "../../quantities/limit.ts";

/** Recalled from instructions for use; tortuosity of the descending aorta is graded high over 60 degrees (PLoS ONE 14:e0215549). */
const sharpAngleDeg = 60;
/** Mean of inner curvature times diameter with a gap under the graft; 1.0 without (Frohlich 2020, J Vasc Surg, cohort). */
export const sharpBend = 1.4;
export const sharpBendSource =
  "mean 1.4 with a gap under the graft, 1.0 without (Frohlich 2020, cohort)";
/** A series of 101 patients; no guideline text seen. */
const sealMm = 20;

const isProximal = ({ place }: Measurement): boolean =>
  place.kind !== "branch" && place.zones.some((zone) => Number(zone) <= 4);

/** Readings of the latest exam by `asOf` that has any of the kind. */
function latestOf(
  { exams, measurements }: PatientCase,
  asOf: string,
  isMeant: (one: Measurement) => boolean,
): { readings: Measurement[]; date: string } {
  const meant = measurements.filter(isMeant);
  const exam = exams.findLast(
    ({ key, imagingDate }) => imagingDate <= asOf && meant.some((one) => one.exam === key),
  );
  return {
    readings: meant.filter((one) => one.exam === exam?.key),
    date: exam?.imagingDate ?? "",
  };
}

/** Sharp turns measured in zones 0 to 4: an angle over 60 degrees, or a bend that is tight for its diameter. */
export function turnFacts(patientCase: PatientCase, asOf: string): string[] {
  const angles = latestOf(patientCase, asOf, (one) => one.quantity === "angle" && isProximal(one));
  const sharp = angles.readings
    .filter(({ value }) => holds(value, ">", sharpAngleDeg))
    .map(({ place, asWritten }) => `angle ${asWritten}, ${place.label}, ${angles.date} (over 60)`);
  const radii = latestOf(patientCase, asOf, (one) => one.quantity === "radius" && isProximal(one));
  const tight = radii.readings.flatMap((radius) => {
    const diametersMm = patientCase.measurements
      .filter(
        ({ exam, quantity, place, lumen }) =>
          exam === radius.exam &&
          quantity === "diameter" &&
          place.id === radius.place.id &&
          lumen !== "true" &&
          lumen !== "false",
      )
      .map(({ value }) => value);
    if (diametersMm.length === 0) return [];
    const diameterMm = Math.max(...diametersMm);
    const innerMm = radius.path === "inner-curve" ? radius.value : radius.value - diameterMm / 2;
    if (innerMm <= 0 || !holds(diameterMm / innerMm, ">=", sharpBend)) return [];
    const ratio = (diameterMm / innerMm).toFixed(2);
    return [
      `inner radius ${formatLength(innerMm)} at ${formatLength(diameterMm)}, ${radius.place.label}, ${radii.date}: inner curvature times diameter ${ratio}; ${sharpBendSource}`,
    ];
  });
  return [...sharp, ...tight];
}

/** Facts by which the distal end may reach the coeliac artery. */
export function coeliacFacts(patientCase: PatientCase, asOf: string): string[] {
  const { readings, date } = latestOf(
    patientCase,
    asOf,
    ({ quantity, place }) => quantity === "sound-length" && place.zones.includes("5"),
  );
  const proposed =
    "ESC 2024, section 9.2.5.3.3: proposed where collaterals suffice, results controversial";
  const short = readings.filter(({ value }) => holds(value, "<", sealMm));
  const isLow = patientCase.facts.diagnoses?.includes("thoraco-abdominal aneurysm") ?? false;
  const facts = [
    ...short.map(({ asWritten }) => `sound length above it ${asWritten}, ${date} (under 20 mm)`),
    ...(isLow ? ["thoraco-abdominal aneurysm"] : []),
  ];
  return facts.length > 0 ? [...facts, proposed] : [];
}
