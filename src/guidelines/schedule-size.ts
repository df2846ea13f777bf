import type { PatientCase } from "../cases/patient-case.ts";
import { dissections } from "../cases/vocabulary.ts";
import { holds } from "../quantities/limit.ts";
import type { ScheduleSize } from "./schedule.ts";
import { aortaParts, isSizeOfPart } from "./schedule-parts.ts";
import type { FactAnswer } from "./fact-answer.ts";
import { sizeMeasure } from "./size-measure.ts";
import { ofLatestExam, usableDiameters } from "./usable-diameters.ts";

/**
 * Whether the largest size of the part, in the latest exam that measured it, lies in the band of a schedule. Sizes that
 * are said to be of the whole lumen go before those whose lumen is not stated; the latter are not enough in a dissection.
 */
export function sizeAnswer(size: ScheduleSize, patientCase: PatientCase, asOf: string): FactAnswer {
  const { facts } = patientCase;
  const { label } = aortaParts[size.part];
  const inPart = usableDiameters(patientCase, asOf).filter(({ measurement }) =>
    isSizeOfPart(measurement.place, size.part),
  );
  const latest = ofLatestExam(inPart, patientCase);
  const [first] = latest;
  if (!first) return { missing: [`largest diameter: ${label}`] };
  const measure = sizeMeasure(size.kind, facts);
  if ("missing" in measure) return { missing: measure.missing };

  const byPlace = Map.groupBy(latest, ({ measurement }) => measurement.place.id);
  const ofPlaces = [...byPlace.values()].map((readings) => {
    const whole = readings.filter(({ measurement }) => measurement.lumen === "whole");
    const used = whole.length > 0 ? whole : readings;
    const valuesMm = used.map(({ measurement }) => measurement.value);
    return { isWhole: whole.length > 0, low: Math.min(...valuesMm), high: Math.max(...valuesMm) };
  });
  const lumenMatters =
    facts.diagnoses === null || facts.diagnoses.some((word) => dissections.has(word));
  if (lumenMatters && ofPlaces.some(({ isWhole }) => !isWhole)) {
    return { missing: [`which lumen was measured (${label}, ${first.exam.imagingDate})`] };
  }
  const lowMm = Math.max(...ofPlaces.map(({ low }) => low));
  const highMm = Math.max(...ofPlaces.map(({ high }) => high));
  const [isLowIn, isHighIn] = [lowMm, highMm].map((mm) => isIn(measure.fromDiameterMm(mm), size));
  const on = `on ${first.exam.imagingDate}`;
  if (isLowIn !== isHighIn) {
    return { missing: [`which reading is right (${label}, ${on}): ${lowMm} or ${highMm} mm`] };
  }
  if (isHighIn) return null;
  const index =
    size.kind === "diameter"
      ? ""
      : `, ${measure.label} ${measure.fromDiameterMm(highMm).toFixed(2)} ${size.unit}`;
  const met = `the largest diameter of the ${label} is ${highMm} mm ${on}${index}`;
  return { excludes: `it is for ${size.printed}, ${met}` };
}

function isIn(value: number, { above, atLeast, below, atMost }: ScheduleSize): boolean {
  return (
    (above === undefined || holds(value, ">", above)) &&
    (atLeast === undefined || holds(value, ">=", atLeast)) &&
    (below === undefined || holds(value, "<", below)) &&
    (atMost === undefined || holds(value, "<=", atMost))
  );
}
