import type { Measurement } from "../../cases/patient-case.ts";
import { formatLength } from "../../quantities/format-length.ts";
import type { BendAt } from "../../geometry/line-bends.ts";
import type { CentrelineMeasured } from "./measured-centreline.ts";
import type { ConditionSet } from "./landing-conditions.ts";
import type { DiameterAt } from "./diameter-line.ts";
import type { LandingSection } from "./landing-samples.ts";
import {
  type LandingSegment,
  type LengthRange,
  sectionsEnd,
  type SegmentEnd,
} from "./landing-segment.ts";
import type { Fault, SectionVerdict } from "./section-verdict.ts";
import { segmentCurves } from "./segment-curves.ts";
import { segmentSpacing } from "./segment-spacing.ts";
import { soundStretches, type Spread, type Stretch } from "./sound-stretch.ts";
import { stretchFaults } from "./stretch-fault.ts";
import type { Border, ZoneBorder } from "./zone-borders.ts";

/** All sections in the direction in which the stretches of one end run: forward from a proximal border, backward from a distal one. */
export interface Run {
  end: LandingSegment["end"];
  set: ConditionSet;
  sections: readonly LandingSection[];
  verdicts: readonly SectionVerdict[];
  /** Why the sections `first` to `index` can't be one stretch although those to `index` - 1 can. */
  faultAt: (first: number, index: number) => Fault | null;
  /** For each section as the first the index at which that comes; the number of sections where it does not. */
  breaks: readonly number[];
  /** From run to centreline: the sign of the distances. */
  sign: 1 | -1;
}

export function landingRun(
  end: LandingSegment["end"],
  { sections, mirrored, judges }: Pick<CentrelineMeasured, "sections" | "mirrored" | "judges">,
  set: ConditionSet,
): Run {
  const ordered = end === "proximal" ? sections : mirrored;
  const verdicts = judges.map((judge) => judge(set));
  const faultAt = stretchFaults(ordered, set);
  return {
    end,
    set,
    sections: ordered,
    verdicts: end === "proximal" ? verdicts : verdicts.toReversed(),
    faultAt,
    breaks: breaksOf(ordered.length, faultAt),
    sign: end === "proximal" ? 1 : -1,
  };
}

/** Of a stretch that is whole every part is: the place of the first fault never goes back. */
function breaksOf(count: number, faultAt: Run["faultAt"]): number[] {
  const breaks: number[] = [];
  for (let first = 0; first < count; first++) {
    let next = Math.max(first + 1, breaks[first - 1] ?? 0);
    while (next < count && faultAt(first, next) === null) next++;
    breaks.push(next);
  }
  return breaks;
}

/** Everything along one centreline that the segments of one end are computed from. */
export interface CentrelineBasis {
  exam: { key: string; date: string };
  /** By distance on the centreline. */
  sections: readonly LandingSection[];
  bends: readonly BendAt[];
  /** Along the whole line. */
  diameters: readonly DiameterAt[];
  radiiIn: (zones: readonly string[]) => readonly Measurement[];
  run: Run;
  /** Beyond which no stretch goes: the sinotubular junction upwards, the coeliac artery downwards. */
  bound: Border;
}

/** The segment of one zone along the centreline, between borders `from` and `to` of it in the direction of the run. */
export function centrelineSegment(
  zone: string,
  { from, to }: { from: ZoneBorder; to: Border },
  basis: CentrelineBasis,
): LandingSegment {
  const { run, bound, exam } = basis;
  const { end, set, sign } = run;
  const known = (border: Border): Spread | null =>
    "missing" in border ? null : spreadOf(border, sign);
  const stretches = soundStretches(
    {
      atMm: run.sections.map(({ atMm }) => atMm),
      states: run.verdicts.map(({ state }) => state),
      isBrokenAt: (first, index) => run.breaks[first] === index,
    },
    { from: spreadOf(from, sign), to: known(to), bound: known(bound) },
  );
  const { value, low, high } = stretches;
  const lengthMm: LengthRange = {
    value: lengthOf(value),
    low: lengthOf(low),
    high: lengthOf(high),
  };
  const part = partOf(value, run, sign * from.at);
  const own = run.sections.slice(part.begin, part.end);
  const zones = [...new Set(own.flatMap((section) => section.zone ?? []))];
  const onLine = basis.sections;
  const inside = own.flatMap(({ diameter }) => diameter ?? []);
  const curves = segmentCurves(
    {
      value: onCentreline(value, sign),
      low: onCentreline(low, sign),
      high: onCentreline(high, sign),
    },
    lengthMm,
    {
      bends: basis.bends,
      diameters: basis.diameters,
      largestMm: Math.max(0, ...inside.map(({ mm }) => mm)),
      diameterErrorMm: Math.max(0, ...inside.map(({ errorMm }) => errorMm)),
      radii: basis.radiiIn(zones.length > 0 ? zones : [zone]),
    },
  );
  const near = nearEnd(value, run, from);
  const far = farEnd(value, run, { bound, from });
  const span = lengthMm.value > 0 ? onCentreline(value, sign) : null;
  return {
    end,
    zone,
    basis: "centreline",
    exam: exam.key,
    date: exam.date,
    conditions: set.which,
    surface: own.find(({ surface }) => surface !== null)?.surface ?? null,
    startMm: span?.startMm ?? null,
    endMm: span?.endMm ?? null,
    zoneStartMm: from.at,
    zoneEndMm: "missing" in to ? null : to.at,
    lengthMm,
    innerMm: curves.innerMm,
    outerMm: curves.outerMm,
    curveMethod: curves.curveMethod,
    begunBy: sign === 1 ? near : far,
    endedBy: sign === 1 ? far : near,
    leftOut: set.leftOut,
    notAssessed: notAssessed(run.verdicts.slice(part.begin, part.end)),
    spacing: segmentSpacing(lengthMm, gapMm(value, run, sign * from.at)),
    stations: own.flatMap(({ keys }) => keys),
    used: [
      ...new Set([
        ...from.used,
        ...own.flatMap(({ keys }) => keys),
        ...near.used,
        ...far.used,
        ...curves.used,
      ]),
    ],
    missing: [
      ...("missing" in to ? [to.missing] : []),
      ...(far.condition === sectionsEnd || near.condition === sectionsEnd
        ? [`sections beyond the measured part of the centreline, ${rangeWords(onLine)}`]
        : []),
      ...curves.missing,
    ],
  };
}

const spreadOf = ({ at, low, high }: Spread, sign: 1 | -1): Spread =>
  sign === 1 ? { at, low, high } : { at: -at, low: -high, high: -low };

const lengthOf = (stretch: Stretch | null): number =>
  stretch === null ? 0 : stretch.endMm - stretch.startMm;

function onCentreline(
  stretch: Stretch | null,
  sign: 1 | -1,
): { startMm: number; endMm: number } | null {
  if (stretch === null) return null;
  const { startMm, endMm } = stretch;
  return sign === 1 ? { startMm, endMm } : { startMm: -endMm, endMm: -startMm };
}

/** The indices of the sections of the stretch; of none, of the first at or after the border. */
function partOf(
  value: Stretch | null,
  { sections }: Run,
  fromMm: number,
): { begin: number; end: number } {
  if (value !== null && value.last >= value.first) {
    return { begin: value.first, end: value.last + 1 };
  }
  const begin = sections.findIndex(({ atMm }) => atMm >= fromMm);
  return begin < 0 ? { begin: 0, end: 0 } : { begin, end: begin + 1 };
}

const rangeWords = (sections: readonly LandingSection[]): string =>
  `${formatLength(sections[0]?.atMm ?? 0)} to ${formatLength(sections.at(-1)?.atMm ?? 0)}`;

const noCondition = { condition: null, source: null };

const faultWords = (faults: readonly Fault[]): string => faults.map(({ what }) => what).join("; ");

function faultEnd(lead: string, faults: readonly Fault[], atMm: number): SegmentEnd {
  const [first] = faults;
  return {
    what: `${lead}: ${faultWords(faults)}.`,
    condition: first?.condition ?? null,
    atMm,
    used: [...new Set(faults.flatMap(({ used }) => used))],
    source: first?.source ?? null,
  };
}

/** The end at which the fabric's edge lies. */
function nearEnd(value: Stretch | null, run: Run, from: ZoneBorder): SegmentEnd {
  const { sections, verdicts, sign } = run;
  if (value === null) return noStretch(run, from);
  if (value.startMm === sign * from.at) {
    const what = `At ${from.what}, ${formatLength(from.at)}.`;
    return { ...noCondition, what, atMm: from.at, used: from.used };
  }
  const start = sections[value.first];
  const before = sections[value.first - 1];
  const startMm = sign * value.startMm;
  if (before) {
    const own = verdicts[value.first - 1]?.faults ?? [];
    const broken = run.faultAt(value.first - 1, value.first);
    const faults = own.length > 0 ? own : broken ? [broken] : [];
    if (faults.length > 0) {
      const beforeMm = sign * before.atMm;
      const lead = `First sound section at ${formatLength(startMm)}, next to ${formatLength(beforeMm)}`;
      return faultEnd(lead, faults, startMm);
    }
    const what = `At ${formatLength(startMm)}: the stretch that begins nearer to the border is shorter.`;
    return { ...noCondition, what, atMm: startMm, used: start?.keys ?? [] };
  }
  const what = `At the first section measured, ${formatLength(startMm)}.`;
  return { what, condition: sectionsEnd, atMm: startMm, used: start?.keys ?? [], source: null };
}

/** Why no two sections from the border on hold. */
function noStretch({ sections, verdicts, sign }: Run, from: ZoneBorder): SegmentEnd {
  const index = sections.findIndex(({ atMm }) => atMm >= sign * from.at);
  const section = sections[index];
  const faults = verdicts[index]?.faults ?? [];
  if (section && faults.length > 0) {
    const atMm = sign * section.atMm;
    return faultEnd(`No sound section at ${formatLength(atMm)}`, faults, atMm);
  }
  const what = section
    ? `No stretch begins between sections of the zone; the next section is at ${formatLength(sign * section.atMm)}.`
    : `No section is measured beyond ${from.what}.`;
  const atMm = section ? sign * section.atMm : null;
  return { what, condition: sectionsEnd, atMm, used: section?.keys ?? [], source: null };
}

/** The end towards the disease. */
function farEnd(
  value: Stretch | null,
  run: Run,
  { bound, from }: { bound: Border; from: ZoneBorder },
): SegmentEnd {
  const { sections, verdicts, sign } = run;
  if (value === null) return noStretch(run, from);
  const isAtBound = !("missing" in bound) && value.endMm === sign * bound.at;
  if (isAtBound) {
    return {
      ...noCondition,
      what: `At ${bound.what}, ${formatLength(bound.at)}.`,
      atMm: bound.at,
      used: bound.used,
    };
  }
  const next = value.last + 1;
  const stop = sections[next];
  const endMm = sign * value.endMm;
  if (!stop) {
    const used = sections.at(-1)?.keys ?? [];
    const what = `At ${formatLength(endMm)}, where the sections of the centreline end.`;
    return { what, condition: sectionsEnd, atMm: endMm, used, source: null };
  }
  const own = verdicts[next]?.faults ?? [];
  const broken = run.faultAt(value.first, next);
  const faults = own.length > 0 ? own : broken ? [broken] : [];
  const lead = `Last sound section at ${formatLength(endMm)}; at ${formatLength(sign * stop.atMm)}`;
  return faultEnd(lead, faults, sign * stop.atMm);
}

/** Conditions that can't be judged at sections of the stretch: "calcium of the circumference at 4 of 6 sections". */
function notAssessed(own: readonly SectionVerdict[]): LandingSegment["notAssessed"] {
  const open = own.flatMap((verdict) => verdict.open);
  return [...Map.groupBy(open, ({ condition }) => condition)].map(([condition, all]) => {
    const words = [...new Set(all.map(({ missing }) => missing))].join("; ");
    return { condition, missing: `${words} at ${all.length} of ${own.length} sections` };
  });
}

/** The largest gap between sections in the stretch and from it to its neighbours; null without two sections. */
function gapMm(value: Stretch | null, { sections }: Run, fromMm: number): number | null {
  const first = value?.first ?? sections.findIndex(({ atMm }) => atMm >= fromMm);
  if (first < 0) return null;
  const near = sections.slice(Math.max(0, first - 1), (value?.last ?? first) + 2);
  const gaps = near.slice(1).map(({ atMm }, index) => atMm - (near[index]?.atMm ?? atMm));
  return gaps.length === 0 ? null : Math.max(...gaps);
}
