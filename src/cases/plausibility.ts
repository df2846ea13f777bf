import type { AorticPlace } from "../anatomy/places.ts";
import type { Message } from "../message.ts";
import { holds } from "../quantities/limit.ts";
import { believedRange } from "./doubtful-size.ts";
import { isLonger } from "./length-consistency.ts";
import { caseMessage } from "./messages.ts";
import type { Measurement } from "./patient-case.ts";
import { largestOrUnstated, sectionWords, writtenNumber } from "./sections.ts";
import { writtenInterval } from "./written-precision.ts";

/**
 * Numbers of one exam that are possible and still hard to believe beside the others or beside the anatomy. Every one
 * stays in use. `neighbourStepMm` is the site's: how far in mm a largest diameter may stand out from both neighbours.
 */
export function plausibilityDoubts(
  measurements: Measurement[],
  date: string,
  { neighbourStepMm }: { neighbourStepMm: number },
): Message[] {
  return [
    ...outstandingDiameters(measurements, date, neighbourStepMm),
    ...longZoneThree(measurements, date),
    ...longParts(measurements, date),
    ...farPlaces(measurements, date),
    ...beyondBelief(measurements, date),
  ];
}

/** Diameters of the aorta larger than those on both sides by more than the step, like compared with like. */
function outstandingDiameters(
  measurements: Measurement[],
  date: string,
  stepMm: number,
): Message[] {
  const onTheAorta = measurements.filter(
    ({ quantity, statistic, place }) =>
      quantity === "diameter" &&
      (statistic === "maximum" || statistic === "unstated") &&
      place.kind !== "branch" &&
      place.kind !== "range" &&
      place.region !== "iliac",
  );
  const alike = Map.groupBy(onTheAorta, ({ statistic, lumen, edge, plane, phase }) =>
    [statistic, lumen, edge, plane, phase].join("\n"),
  );
  return [...alike.values()].flatMap((group) =>
    group.flatMap((one) => {
      const { position } = one.place;
      const before = nearest(
        group.filter(({ place }) => place.position < position),
        position,
      );
      const after = nearest(
        group.filter(({ place }) => place.position > position),
        position,
      );
      if (before.length === 0 || after.length === 0) return [];
      const neighbours = [...before, ...after];
      if (!neighbours.every(({ value }) => holds(one.value - value, ">", stepMm))) return [];
      return caseMessage("diameter-stands-out", one.source, {
        date,
        at: sectionWords(one),
        number: writtenNumber(one),
        step: stepMm,
        neighbours: neighbours
          .map(({ asWritten, place }) => `${asWritten} at ${place.label}`)
          .join(", "),
      });
    }),
  );
}

/** The measurements at the place nearest to the position. */
function nearest(group: Measurement[], position: number): Measurement[] {
  const distanceTo = ({ place }: Measurement) => Math.abs(place.position - position);
  const least = Math.min(...group.map(distanceTo));
  return group.filter((one) => distanceTo(one) === least);
}

const isLength = ({ quantity }: Measurement): boolean =>
  quantity === "length" || quantity === "sound-length";

/** Length in mm of zone 3. Source: ACC/AHA 2022 (doi 10.1161/CIR.0000000000001106), zone figure. */
const zoneThreeLengthMm = 20;

/** Lengths of zone 3 over its own, along every line but the outer curve; a line that is not stated may be the centreline. */
function longZoneThree(measurements: Measurement[], date: string): Message[] {
  return measurements
    .filter((one) => one.place.id === "zone-3" && isLength(one) && one.path !== "outer-curve")
    .filter((one) => holds(writtenInterval(one).low, ">", zoneThreeLengthMm))
    .map((one) =>
      caseMessage("length-beyond-zone", one.source, {
        date,
        at: one.place.label,
        number: writtenNumber(one),
      }),
    );
}

/** Lengths of a zone or range over that of a range which holds it, along the same line. */
function longParts(measurements: Measurement[], date: string): Message[] {
  const lengths = measurements.filter(
    (one) => isLength(one) && largestOrUnstated.some((statistic) => statistic === one.statistic),
  );
  const wholes = lengths.filter(
    ({ place, quantity }) => place.kind === "range" && quantity === "length",
  );
  return lengths.flatMap((part) =>
    wholes
      .filter(
        (whole) =>
          whole.path === part.path && holdsPlace(whole.place, part.place) && isLonger(part, whole),
      )
      .map((whole) =>
        caseMessage("part-longer-than-whole", part.source, {
          date,
          at: part.place.label,
          number: writtenNumber(part),
          whole: whole.place.label,
          other: writtenNumber(whole),
        }),
      ),
  );
}

/** Whether a range holds another zone or range from end to end. */
function holdsPlace({ id, span }: AorticPlace, part: AorticPlace): boolean {
  // A zone's own position is the middle of its band, which is 1 long.
  const extent =
    part.kind === "zone" ? [part.position - 0.5, part.position + 0.5] : (part.span ?? []);
  const [start, end] = extent;
  if (span === null || start === undefined || end === undefined || id === part.id) return false;
  return span[0] <= start && end <= span[1];
}

/** Distance in mm from the left subclavian artery at which the aorta is over. Common practice, not from a source. */
const furthestMm = 300;

/** Places further beyond the left subclavian artery than the thoracic aorta goes. */
function farPlaces(measurements: Measurement[], date: string): Message[] {
  const places = new Map(measurements.map((one) => [one.place.id, one]));
  return [...places.values()].flatMap(({ place, source }) => {
    const distanceMm = /\+([\d.]+)mm$/.exec(place.id)?.[1];
    return place.kind === "distance" && Number(distanceMm) > furthestMm
      ? caseMessage("place-beyond-aorta", source, { date, at: place.label, furthest: furthestMm })
      : [];
  });
}

/** Numbers outside of what is believed of their quantity and vessel. */
function beyondBelief(measurements: Measurement[], date: string): Message[] {
  return measurements.flatMap((one) => {
    const range = believedRange(one);
    return range === null
      ? []
      : caseMessage("number-hard-to-believe", one.source, {
          date,
          at: sectionWords(one),
          number: writtenNumber(one),
          range,
        });
  });
}
