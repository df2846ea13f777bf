import type { PatientCase } from "../../cases/patient-case.ts";
import { centrelineSegment, landingRun, type Run } from "./centreline-segment.ts";
import { landingArch } from "./landing-arch.ts";
import { type ConditionSet, conditionSet } from "./landing-conditions.ts";
import { landingZoneIds } from "./landing-data.ts";
import type { LandingSegment } from "./landing-segment.ts";
import { centrelineMeasured, type CentrelineMeasured } from "./measured-centreline.ts";
import type { SegmentBasis } from "./segment-basis.ts";
import { emptySegment, statedSegment } from "./stated-segment.ts";
import { zoneValueSegment } from "./zone-value-segment.ts";
import { statedLengths, zoneValuesOf } from "./zone-values.ts";

const candidates = {
  proximal: landingZoneIds,
  distal: ["2", "3", "4", "5"],
} as const satisfies Record<LandingSegment["end"], readonly string[]>;

/**
 * The stretch of sound wall for every candidate zone of each end: the proximal one begins in the zone and goes on
 * distally, the distal one ends in the zone and goes up proximally. Under the strictest published conditions, and
 * under the widest where these give another length or another end. Along the centreline of the latest exam that has one
 * with sections; else the sound length that a reader states; else from values of whole zones.
 */
export function landingSegments(
  patientCase: PatientCase,
  basis: SegmentBasis,
): { proximal: LandingSegment[]; distal: LandingSegment[] } {
  const arch = landingArch(patientCase, basis.archConventions);
  const measured = centrelineMeasured(patientCase, basis);
  const segmentsOf = (end: LandingSegment["end"]): LandingSegment[] => {
    const runOf = (which: LandingSegment["conditions"]) => {
      const set = conditionSet(which, end, basis.planning);
      return { set, run: measured && landingRun(end, measured, set) };
    };
    const runs = {
      "strictest published": runOf("strictest published"),
      "widest published": runOf("widest published"),
    };
    return candidates[end].flatMap((zone) => {
      const stop = landingZoneIds.find((id) => id === zone);
      const stopped = stop === undefined ? null : arch.zone(stop);
      const of = (which: LandingSegment["conditions"]): LandingSegment => {
        const { set, run } = runs[which];
        const head = { end, zone, conditions: which, leftOut: set.leftOut };
        return stopped !== null && stopped.stopped !== null
          ? emptySegment(head, stopped.missing, stopped.stopped)
          : segmentOf(head, { patientCase, basis, measured, run, set });
      };
      const [strictest, widest] = [of("strictest published"), of("widest published")];
      return isSameStretch(strictest, widest) ? [strictest] : [strictest, widest];
    });
  };
  return { proximal: segmentsOf("proximal"), distal: segmentsOf("distal") };
}

function segmentOf(
  head: Pick<LandingSegment, "end" | "zone" | "conditions" | "leftOut">,
  {
    patientCase,
    basis,
    measured,
    run,
    set,
  }: {
    patientCase: PatientCase;
    basis: SegmentBasis;
    measured: CentrelineMeasured | null;
    run: Run | null;
    set: ConditionSet;
  },
): LandingSegment {
  const { end, zone } = head;
  const reach = measured?.reachOf(zone, end) ?? {
    missing: ["centreline of the aorta with sections"],
  };
  if (measured && run && !("missing" in reach)) {
    const { boundOf, reachOf: _, judges: __, ...onLine } = measured;
    const bound = boundOf(end);
    return centrelineSegment(zone, reach, { ...onLine, run, bound });
  }
  const missing = "missing" in reach ? reach.missing : [];
  const lengths = statedLengths(zone, patientCase, basis);
  const none = emptySegment(head, [...missing, ...lengths.missing]);
  if (lengths.readings.length > 0) return statedSegment(none, lengths.exam, lengths.readings);
  const values = zoneValuesOf(zone, end, patientCase, basis);
  if ("missing" in values)
    return { ...none, missing: [...new Set([...none.missing, ...values.missing])] };
  return zoneValueSegment(none, values.exam, values.zones, set);
}

function isSameStretch(one: LandingSegment, other: LandingSegment): boolean {
  const shape = ({
    lengthMm,
    innerMm,
    outerMm,
    startMm,
    endMm,
    begunBy,
    endedBy,
  }: LandingSegment) =>
    JSON.stringify([lengthMm, innerMm, outerMm, startMm, endMm, begunBy.atMm, endedBy.atMm]);
  return shape(one) === shape(other);
}
