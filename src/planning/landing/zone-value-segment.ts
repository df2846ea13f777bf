import type { Measurement } from "../../cases/patient-case.ts";
import { formatLength } from "../../quantities/format-length.ts";
import type { ConditionSet } from "./landing-conditions.ts";
import type { LandingSection } from "./landing-samples.ts";
import {
  type LandingSegment,
  type LengthRange,
  sectionsEnd,
  type SegmentEnd,
} from "./landing-segment.ts";
import { sectionJudge, type SectionVerdict } from "./section-verdict.ts";
import { segmentCurves } from "./segment-curves.ts";
import { segmentSpacing } from "./segment-spacing.ts";

/** What one exam gives of a whole zone. */
export interface ZoneValues {
  zone: string;
  /** Judged as one section: its largest diameter, its wall, findings on the whole of it. `atMm` means nothing. */
  section: LandingSection;
  /** Along the centreline; null where not measured. */
  lengthMm: number | null;
  sideMm: { inner: number | null; outer: number | null };
  radii: readonly Measurement[];
  /** Keys of the lengths. */
  used: string[];
}

interface JudgedZone extends ZoneValues {
  verdict: SectionVerdict;
}

/**
 * The segment from largest diameters and lengths of whole zones, `zones` in the direction in which it runs. A zone whose
 * largest diameter holds counts in full. In one that fails it may end anywhere, so that its length widens `high` alone.
 */
export function zoneValueSegment(
  base: LandingSegment,
  exam: { key: string; date: string },
  zones: readonly ZoneValues[],
  set: ConditionSet,
): LandingSegment {
  const judged = zones.map((one) => ({ ...one, verdict: sectionJudge(one.section)(set) }));
  const { sound, stop, lengthMm, missing } = countedZones(judged);
  const inside = sound.length > 0 ? sound : judged.slice(0, 1);
  const diameters = inside.flatMap(({ section: { diameter } }) =>
    diameter === null ? [] : { atMm: 0, mm: diameter.mm },
  );
  const stretch = (mm: number) => ({ startMm: 0, endMm: mm });
  const stated = statedSides(inside, lengthMm);
  const curves =
    stated ??
    segmentCurves(
      { value: stretch(lengthMm.value), low: stretch(lengthMm.low), high: stretch(lengthMm.high) },
      lengthMm,
      {
        bends: [],
        diameters,
        largestMm: Math.max(0, ...diameters.map(({ mm }) => mm)),
        diameterErrorMm: Math.max(
          0,
          ...inside.map(({ section }) => section.diameter?.errorMm ?? 0),
        ),
        radii: inside.flatMap(({ radii }) => radii),
      },
    );
  const used = [...new Set(inside.flatMap((one) => [...one.section.keys, ...one.used]))];
  const near: SegmentEnd = {
    what:
      sound.length > 0
        ? `At the border of zone ${base.zone}: the largest diameter of the zone holds.`
        : `Zone ${base.zone} does not hold as a whole: ${(judged[0]?.verdict.faults ?? []).map(({ what }) => what).join("; ")}.`,
    condition: sound.length > 0 ? null : (judged[0]?.verdict.faults[0]?.condition ?? sectionsEnd),
    atMm: null,
    used,
    source: sound.length > 0 ? null : (judged[0]?.verdict.faults[0]?.source ?? null),
  };
  const far = sound.length > 0 ? farEnd(sound, stop) : near;
  return {
    ...base,
    basis: "zone values",
    exam: exam.key,
    date: exam.date,
    surface: inside[0]?.section.surface ?? null,
    lengthMm,
    innerMm: curves.innerMm,
    outerMm: curves.outerMm,
    curveMethod: curves.curveMethod,
    begunBy: base.end === "proximal" ? near : far,
    endedBy: base.end === "proximal" ? far : near,
    notAssessed: openConditions(inside, set),
    spacing: spacingOf(lengthMm, inside),
    used: [...new Set([...used, ...curves.used])],
    missing: [...base.missing, ...missing, ...curves.missing],
  };
}

/** Zones counted from the border on, with their length as written, over the reading error, and with what can't be seen. */
function countedZones(judged: readonly JudgedZone[]): {
  sound: JudgedZone[];
  stop: JudgedZone | null;
  lengthMm: LengthRange;
  missing: string[];
} {
  const isCounted = ({ section, lengthMm }: JudgedZone): boolean =>
    section.diameter !== null && lengthMm !== null;
  const surface = judged[0]?.section.surface ?? null;
  const goesOn = (one: JudgedZone): boolean =>
    isCounted(one) &&
    !one.verdict.state.endsWith("unsound") &&
    (one.section.surface === null || surface === null || one.section.surface === surface);
  const sumMm = (zones: readonly JudgedZone[]): number =>
    zones.reduce((sum, { lengthMm }) => sum + (lengthMm ?? 0), 0);
  const firstNot = judged.findIndex((one) => !goesOn(one));
  const sound = firstNot < 0 ? [...judged] : judged.slice(0, firstNot);
  const stop = firstNot < 0 ? null : (judged[firstNot] ?? null);
  const notSure = sound.findIndex(({ verdict }) => verdict.state !== "surely sound");
  // The zone that fails first may hold in part; where it is the first zone, the stretch may lie behind its failure.
  const beyond = judged.slice(1).findIndex((one) => !goesOn(one));
  const possible = beyond < 0 ? judged : judged.slice(0, beyond + 2);
  return {
    sound,
    stop,
    lengthMm: {
      value: sumMm(sound),
      low: sumMm(notSure < 0 ? sound : sound.slice(0, notSure)),
      high: sumMm(possible),
    },
    missing: possible.flatMap((one) => [
      ...(one.section.diameter === null ? [`largest diameter of zone ${one.zone}`] : []),
      ...(one.lengthMm === null ? [`length of zone ${one.zone} along the centreline`] : []),
    ]),
  };
}

function farEnd(sound: readonly JudgedZone[], stop: JudgedZone | null): SegmentEnd {
  const last = sound.at(-1)?.zone ?? "";
  if (stop === null) {
    const what = `At the far border of zone ${last}, the last that is considered.`;
    return { what, condition: null, atMm: null, used: [], source: null };
  }
  const { section, lengthMm, verdict } = stop;
  const [fault] = verdict.faults;
  const isUnmeasured = fault === undefined && (section.diameter === null || lengthMm === null);
  if (isUnmeasured) {
    const what = `At the border of zone ${stop.zone}, which is not measured.`;
    return { what, condition: sectionsEnd, atMm: null, used: [], source: null };
  }
  const why =
    fault === undefined ? "it has another wall" : verdict.faults.map(({ what }) => what).join("; ");
  return {
    what: `At the latest in zone ${stop.zone}: ${why}.`,
    condition: lengthMm === null ? sectionsEnd : (fault?.condition ?? "one-wall"),
    atMm: null,
    used: section.keys,
    source: fault?.source ?? null,
  };
}

function openConditions(
  inside: readonly JudgedZone[],
  set: ConditionSet,
): LandingSegment["notAssessed"] {
  const open = inside.flatMap(({ zone, verdict }) =>
    verdict.open.map(({ condition, missing }) => ({
      condition,
      missing: `${missing} in zone ${zone}`,
    })),
  );
  const zones = inside.map(({ zone }) => zone).join(", ");
  const tapers = set.conditions
    .filter(({ kind }) => kind === "taper")
    .map(({ id }) => ({ condition: id, missing: `sections along zone ${zones}` }));
  return [...Map.groupBy([...open, ...tapers], ({ condition }) => condition)].map(
    ([condition, all]) => ({
      condition,
      missing: [...new Set(all.map(({ missing }) => missing))].join("; "),
    }),
  );
}

/** Lengths of the sides as measured for each zone of the stretch; null unless all zones have both. */
function statedSides(inside: readonly JudgedZone[], lengthMm: LengthRange) {
  const sum = (side: "inner" | "outer"): number | null =>
    inside.reduce<number | null>((all, { sideMm }) => {
      const mm = sideMm[side];
      return all === null || mm === null ? null : all + mm;
    }, 0);
  const [inner, outer] = [sum("inner"), sum("outer")];
  if (inner === null || outer === null || lengthMm.value === 0) return null;
  const scaled = (mm: number): LengthRange => ({
    value: mm,
    low: (mm * lengthMm.low) / lengthMm.value,
    high: (mm * lengthMm.high) / lengthMm.value,
  });
  return {
    innerMm: scaled(inner),
    outerMm: scaled(outer),
    curveMethod: "as measured along both curves, zone by zone",
    used: [],
    missing: [],
  };
}

function spacingOf(
  lengthMm: LengthRange,
  inside: readonly JudgedZone[],
): LandingSegment["spacing"] {
  const largestMm = Math.max(...inside.map(({ lengthMm: own }) => own ?? 0));
  const { neededMm, words } = segmentSpacing(lengthMm, null);
  return {
    largestMm: null,
    neededMm,
    words: `One set of values for each zone, up to ${formatLength(largestMm)} long. ${words}`,
  };
}
