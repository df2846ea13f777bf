import {
  type Interval,
  type SectionBound,
  sectionBounds,
  type SectionPart,
} from "../geometry/section-bounds.ts";
import type { Message } from "../message.ts";
import { holds } from "../quantities/limit.ts";
import { lengthConflicts } from "./length-consistency.ts";
import { lumenConflicts } from "./lumen-consistency.ts";
import { caseMessage } from "./messages.ts";
import type { Measurement } from "./patient-case.ts";
import {
  largestOrUnstated,
  sectionsOf,
  sectionWords,
  smallestOrUnstated,
  soleReading,
  writtenNumber,
} from "./sections.ts";
import { writtenInterval } from "./written-precision.ts";

/**
 * Numbers of one exam that contradict each other by mathematics alone, whatever values they were rounded from. All of
 * them stay in use. Readings of one thing that differ are left to their own message.
 */
export function sectionConflicts(measurements: Measurement[], date: string): Message[] {
  return [
    ...sectionsOf(measurements).flatMap((section) => conflictsWithin(section, date)),
    ...lumenConflicts(measurements, date),
    ...lengthConflicts(measurements, date),
  ];
}

/** A number of a section with the parts that it can stand for. */
interface Size {
  measurement: Measurement;
  parts: SectionPart[];
  range: Interval;
}

function sizesOf(section: Measurement[]): Size[] {
  const size = (measurement: Measurement | null, ...parts: SectionPart[]): Size[] =>
    measurement ? [{ measurement, parts, range: writtenInterval(measurement) }] : [];
  return [
    ...size(soleReading(section, "diameter", ["maximum"]), "largest", "across"),
    ...size(soleReading(section, "long-axis", largestOrUnstated), "largest", "across"),
    ...size(soleReading(section, "diameter", ["minimum"]), "smallest", "across"),
    ...size(soleReading(section, "short-axis", smallestOrUnstated), "perpendicular", "across"),
    ...size(soleReading(section, "diameter", ["mean"]), "mean", "across"),
    ...size(soleReading(section, "diameter", ["unstated"]), "across"),
    ...size(soleReading(section, "perimeter", largestOrUnstated), "perimeter"),
    ...size(soleReading(section, "area", largestOrUnstated), "area"),
  ];
}

/**
 * Sizes of one section that no plane figure has together. A smallest diameter is taken as the smallest width, a mean as
 * that of the widths in all directions or of the largest and smallest. A true or false lumen may have dents, a whole
 * lumen has none. Of a range, whose sizes may come from different sections, only extremes are compared.
 */
function conflictsWithin(section: Measurement[], date: string): Message[] {
  const [first] = section;
  if (!first) return [];
  const sizes = sizesOf(section);
  const isPart = first.lumen === "true" || first.lumen === "false";
  const found: Size[][] = [];
  const messages: Message[] = [];
  for (const bound of sectionBounds) {
    if (bound.convexOnly && isPart) continue;
    if (!bound.alongStretch && first.place.span !== null) continue;
    for (const [one, ...by] of choices([bound.of, ...bound.by], sizes)) {
      if (!one || found.some((set) => set.every((size) => size === one || by.includes(size)))) {
        continue;
      }
      const limit = brokenLimit(bound, one, by);
      if (limit === null) continue;
      found.push([one, ...by]);
      messages.push(
        caseMessage("section-conflict", one.measurement.source, {
          date,
          at: sectionWords(first),
          number: writtenNumber(one.measurement),
          others: by.map(({ measurement }) => writtenNumber(measurement)).join(" and "),
          limit: `${bound.side} ${limit.toFixed(1)} ${one.measurement.unit}`,
        }),
      );
    }
  }
  return messages;
}

/** Every way to fill the parts with different numbers. */
function choices(parts: readonly SectionPart[], sizes: readonly Size[]): Size[][] {
  const [part, ...rest] = parts;
  if (part === undefined) return [[]];
  return sizes
    .filter((size) => size.parts.includes(part))
    .flatMap((size) =>
      choices(
        rest,
        sizes.filter((other) => other !== size),
      ).map((others) => [size, ...others]),
    );
}

/** The limit where no values within the rounding keep it; null where some do. */
function brokenLimit({ side, value }: SectionBound, one: Size, by: Size[]): number | null {
  if (side === "at most") {
    const most = value(...by.map(({ range }) => range.high));
    return holds(one.range.low, ">", most) ? most : null;
  }
  const least = value(...by.map(({ range }) => range.low));
  return holds(one.range.high, "<", least) ? least : null;
}
