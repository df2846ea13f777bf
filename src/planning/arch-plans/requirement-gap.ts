import { formatLength } from "../../quantities/format-length.ts";
import { holds } from "../../quantities/limit.ts";
import { limitOf, type RequirementId } from "./arch-plan-data.ts";
import { type Found, notAssessable, type PlanContext } from "./plan-context.ts";

interface Gap {
  valueMm: number;
  used: string[];
  words: string;
}

const edges =
  "distal edge of the innominate artery and proximal edge of the left common carotid artery";

/**
 * The stretch between the innominate and the left common carotid artery against a seal limit, both edges as marked on
 * the centreline; a zone 1 as measured takes in the carotid's origin, so it can only fail the limit. The
 * inner curve must be known for the limit to hold. It says nothing of how far the seal runs on beyond the carotid.
 */
export function zoneOneGap(context: PlanContext, id: RequirementId): Found {
  const { operator, valueMm: limitMm } = limitOf(id);
  const stopped = context.arch.zone("1").stopped;
  if (stopped !== null) return notAssessable(stopped, context.arch.zone("1").missing);
  const gap = gapByMarks(context);
  const zones = zoneLengths(context);
  const inner = zones.find(({ isInner }) => isInner);
  const short = [...(gap ? [gap] : []), ...zones].find(
    (one) => !holds(one.valueMm, operator, limitMm),
  );
  if (short) return found("not-met", short);
  if (gap === null) {
    const missing = [`${edges}, on the centreline`];
    return zones[0]
      ? { ...found("not-assessable", zones[0]), missing }
      : notAssessable(`Not marked: ${edges}.`, missing);
  }
  const missing = "length of zone 1 along the inner curve";
  return inner ? found("met", gap) : { ...found("not-assessable", gap), missing: [missing] };
}

const found = (outcome: Found["outcome"], { valueMm, used, words }: Gap): Found => ({
  outcome,
  reason: `${formatLength(valueMm)}, ${words}.`,
  value: { value: valueMm, low: null, high: null, unit: "mm" },
  used,
});

function gapByMarks({ patientCase, asOf }: PlanContext): Gap | null {
  for (const { key, imagingDate } of patientCase.exams.toReversed()) {
    if (imagingDate > asOf) continue;
    const stations = patientCase.centrelines
      .filter(({ exam, vessel }) => exam === key && vessel === "aorta")
      .flatMap((line) => line.stations);
    const at = (id: string, edge: string) =>
      stations.find(({ mark }) => mark?.place.id === id && mark.edge === edge);
    const from = at("innominate-artery", "distal edge");
    const to = at("left-common-carotid-artery", "proximal edge");
    if (from === undefined || to === undefined || to.distanceMm <= from.distanceMm) continue;
    return {
      valueMm: to.distanceMm - from.distanceMm,
      used: [from.key, to.key],
      words: `from edge to edge along the centreline, ${imagingDate}`,
    };
  }
  return null;
}

/** Lengths of zone 1 of the latest exam that has any. */
function zoneLengths({ patientCase, asOf }: PlanContext): (Gap & { isInner: boolean })[] {
  const lengths = patientCase.measurements.filter(
    ({ place, quantity }) =>
      place.id === "zone-1" && (quantity === "length" || quantity === "sound-length"),
  );
  const exam = patientCase.exams.findLast(
    ({ key, imagingDate }) => imagingDate <= asOf && lengths.some((one) => one.exam === key),
  );
  return lengths
    .filter((one) => one.exam === exam?.key)
    .map(({ value, key, path }) => ({
      valueMm: value,
      used: [key],
      words: `zone 1${path === "unstated" ? ", path not stated" : ` along the ${path.replace("-", " ")}`}, ${exam?.imagingDate}`,
      isInner: path === "inner-curve",
    }));
}
