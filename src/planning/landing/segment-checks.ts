import { formatLength } from "../../quantities/format-length.ts";
import { holds, spans } from "../../quantities/limit.ts";
import { findingWords, type LatestFinding } from "../latest-finding.ts";
import { checkedSource } from "../checked-source.ts";
import { landingConditions, type SealLength } from "./landing-conditions.ts";
import { type LandingSegment, type LengthRange, sectionsEnd } from "./landing-segment.ts";
import type { PlanningCheck } from "../planning-check.ts";

/** Zones in a bend, where the inner side is shorter than the centreline. */
const curvedZones: ReadonlySet<string> = new Set(["0", "1", "2", "3"]);

type Judged = Pick<PlanningCheck, "outcome" | "value" | "spansLimit" | "missing" | "reason">;

/**
 * The published lengths laid beside one segment, on the shortest path that is known. In a bend the centreline alone can
 * fall short of a length but not show that it is reached; nor can a stretch in which a condition was not judged. A length
 * that is of some types of arch is open where the type is not stated.
 */
export function segmentChecks(
  segment: LandingSegment,
  archType: LatestFinding<"arch type"> | null = null,
): PlanningCheck[] {
  return landingConditions.seals
    .filter(
      ({ ends, zones }) =>
        ends.includes(segment.end) && (!zones || zones.some((zone) => zone === segment.zone)),
    )
    .map((seal) => ({
      id: seal.id,
      label: seal.label,
      limit: `${seal.operator} ${seal.limit} mm`,
      source: checkedSource(seal),
      used: segment.used,
      ...((segment.basis === "none" ? null : ofArchType(seal, archType)) ?? judged(seal, segment)),
    }));
}

/** The answer where the arch is not of the type that a length is of, or its type is not known; else null. */
function ofArchType(
  { archTypes }: SealLength,
  archType: LatestFinding<"arch type"> | null,
): Judged | null {
  if (archTypes === undefined) return null;
  const state = archType?.state ?? null;
  if (state === null) {
    const words = archType === null ? "not stated" : findingWords(archType);
    return open(`The type of the arch: ${words}.`, ["type of the arch (I, II or III)"]);
  }
  if (archTypes.includes(state)) return null;
  const reason = `The arch is of type ${state}.`;
  return { outcome: "not-applicable", value: null, spansLimit: false, missing: [], reason };
}

const open = (reason: string, missing: string[], value: PlanningCheck["value"] = null): Judged => ({
  outcome: "not-assessable",
  value,
  spansLimit: false,
  missing,
  reason,
});

function judged(seal: SealLength, segment: LandingSegment): Judged {
  const { surface, basis } = segment;
  if (seal.surface !== undefined && surface !== null && surface !== seal.surface) {
    const reason = `The wall is not a surgical ${seal.surface}: ${surface}.`;
    return { outcome: "not-applicable", value: null, spansLimit: false, missing: [], reason };
  }
  const shortest = shortestPath(segment);
  if (shortest === null) return open(`Not known: ${segment.begunBy.what}`, unknownOf(segment));
  const { range, words } = shortest;
  const hasError = basis !== "sound length as stated";
  const value = {
    value: range.value,
    low: hasError ? range.low : null,
    high: hasError ? range.high : null,
    unit: "mm",
  };
  const said = `${formatLength(range.value)} ${words}, ${segment.date}, ${segment.conditions} conditions`;
  if (seal.surface !== undefined && surface === null) {
    return open(
      `${said}; what the wall is made of is not stated.`,
      ["what the wall is made of"],
      value,
    );
  }
  const spansLimit = hasError && spans(range.low, range.high, seal.limit);
  if (!holds(range.value, seal.operator, seal.limit)) {
    const isOpenEnded =
      hasError &&
      [segment.begunBy, segment.endedBy].some(({ condition }) => condition === sectionsEnd);
    if (isOpenEnded) {
      return {
        ...open(`${said}; it may go on where nothing is measured.`, unknownOf(segment), value),
        spansLimit,
      };
    }
    return { outcome: "not-met", value, spansLimit, missing: [], reason: `${said}.` };
  }
  const missing = [
    ...new Set(segment.notAssessed.map((one) => one.missing)),
    ...(needsInnerSide(segment)
      ? [`length along the inner curve from zone ${segment.zone} on`]
      : []),
  ];
  if (missing.length > 0) {
    const why = needsInnerSide(segment)
      ? "the inner curve is shorter and is not known"
      : "not every condition was judged";
    return { ...open(`${said}; ${why}.`, missing, value), spansLimit };
  }
  return { outcome: "met", value, spansLimit, missing: [], reason: `${said}.` };
}

const unknownOf = ({ missing, zone }: LandingSegment): string[] =>
  missing.length > 0 ? missing : [`sections along zone ${zone}`];

const needsInnerSide = ({ zone, innerMm }: LandingSegment): boolean =>
  innerMm === null && curvedZones.has(zone);

function shortestPath({
  lengthMm,
  innerMm,
  outerMm,
  curveMethod,
}: LandingSegment): { range: LengthRange; words: string } | null {
  const isUnstated = curveMethod?.includes("not stated") === true;
  const paths = [
    { range: innerMm, words: "along the inner curve" },
    {
      range: lengthMm,
      words: isUnstated ? "along a path that is not stated" : "along the centreline",
    },
    { range: outerMm, words: "along the outer curve" },
  ].flatMap(({ range, words }) => (range === null ? [] : { range, words }));
  return paths.reduce<{ range: LengthRange; words: string } | null>(
    (least, next) => (least !== null && least.range.value <= next.range.value ? least : next),
    null,
  );
}
