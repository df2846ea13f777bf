import { formatLength } from "../../quantities/format-length.ts";
import { holds } from "../../quantities/limit.ts";
import { checkedSource } from "../checked-source.ts";
import { type ConditionSet, type StretchCondition } from "./landing-conditions.ts";
import { remembered } from "../remembered.ts";
import { type DiameterAt, wideningMm } from "./diameter-line.ts";
import { diameterLine, type LandingSection } from "./landing-samples.ts";
import { type Fault, limitWords } from "./section-verdict.ts";

/**
 * Why sections `first` to `index` can't be one stretch although those to `index` - 1 can: the wall changes, the vessel
 * widens along the run or changes its diameter. The sections run towards the disease. Between two sections the diameter is
 * taken as changing evenly.
 */
export function stretchFaults(
  sections: readonly LandingSection[],
  { conditions, judgesWall }: ConditionSet,
): (first: number, index: number) => Fault | null {
  const line = diameterLine(sections);
  const tapers = conditions
    .filter(({ kind }) => kind === "taper")
    .map((condition) => ({ condition, measure: measureOf(condition, line) }));
  const places = new Map(line.map(({ atMm }, place) => [atMm, place]));
  const extremes = extremesFrom(sections);
  return (first, index) => {
    const section = sections[index];
    if (!section) return null;
    if (judgesWall && section.surface !== null) {
      const other = otherSurface(sections, first, index);
      if (other !== null) {
        const what = `the wall changes from ${other} to ${section.surface}`;
        const source = "a seal is counted on one kind of wall: common practice without a source";
        return { condition: "one-wall", what, source, used: section.keys };
      }
    }
    if (section.diameter === null || tapers.length === 0) return null;
    const end = places.get(section.atMm) ?? 0;
    const fromMm = sections[first]?.atMm ?? 0;
    for (const { condition, measure } of tapers) {
      const found = measure({ end, fromMm, extremes: () => extremes(first, index) });
      if (found === null || holds(found.value, condition.operator, condition.limit)) continue;
      const what = `${found.words()}, limit ${limitWords(condition)}`;
      const used = section.keys;
      return { condition: condition.id, what, source: checkedSource(condition), used };
    }
    return null;
  };
}

function otherSurface(
  sections: readonly LandingSection[],
  first: number,
  index: number,
): string | null {
  for (let before = index - 1; before >= first; before--) {
    const surface = sections[before]?.surface ?? null;
    if (surface !== null) return surface === sections[index]?.surface ? null : surface;
  }
  return null;
}

/** The least and the greatest diameter of sections `first` to `index`; asked for growing `index`. */
function extremesFrom(
  sections: readonly LandingSection[],
): (first: number, index: number) => { least: number; most: number } {
  let known = { first: 0, next: 0, least: Infinity, most: 0 };
  return (first, index) => {
    const isLater = first === known.first && index >= known.next - 1;
    if (!isLater) known = { first, next: first, least: Infinity, most: 0 };
    for (; known.next <= index; known.next++) {
      const mm = sections[known.next]?.diameter?.mm;
      if (mm === undefined) continue;
      known.least = Math.min(known.least, mm);
      known.most = Math.max(known.most, mm);
    }
    return known;
  };
}

type Measure = (stretch: {
  /** Index of the last diameter on the line. */
  end: number;
  fromMm: number;
  /** Of the diameters of the stretch. */
  extremes: () => { least: number; most: number };
}) => { value: number; words: () => string } | null;

/** What a condition asks of a stretch; null for one that is of single sections. */
function measureOf(
  { measure, withinMm = 0 }: StretchCondition,
  line: readonly DiameterAt[],
): Measure {
  if (measure === "widening") {
    // Most stretches are longer than the window, so that the same windows come again for each beginning.
    const ofWindow = remembered((place: number) => {
      const [begin, end] = [Math.floor(place / line.length), place % line.length];
      return wideningMm(line.slice(begin, end + 1), withinMm);
    });
    return ({ end, fromMm }) => {
      const value = ofWindow(windowBegin(line, { end, fromMm, withinMm }) * line.length + end);
      return { value, words: () => `widens by ${formatLength(value)} within ${withinMm} mm` };
    };
  }
  if (measure === "change") {
    return ({ extremes }) => {
      const { least, most } = extremes();
      const value = (most / least - 1) * 100;
      const words = () => `the diameter changes by ${value.toFixed(1)} % over the stretch`;
      return { value, words };
    };
  }
  return () => null;
}

/** The first of the places up to `end` that a gain between the last two of them can begin at. */
function windowBegin(
  line: readonly DiameterAt[],
  { end, fromMm, withinMm }: { end: number; fromMm: number; withinMm: number },
): number {
  let begin = end;
  const farMm = (line[end - 1]?.atMm ?? fromMm) - withinMm;
  while (begin > 0 && (line[begin]?.atMm ?? 0) > farMm && (line[begin - 1]?.atMm ?? 0) >= fromMm) {
    begin--;
  }
  return begin;
}
