import { graftInterval, type GraftInterval } from "./graft-interval.ts";
import { type GraftEnd, oversizingSituation, type SizingWindow } from "./oversizing-windows.ts";
import {
  type ConventionDiameter,
  largestSection,
  type SectionReferences,
  sectionReferences,
  spreadPoints,
} from "./sizing-references.ts";
import type { SizingSection } from "./sizing-section.ts";
import type { EndSituation } from "./sizing-situation.ts";

/** A window at one end, with the graft diameters that it allows; null where the end has no reference. */
export interface WindowAtEnd {
  window: SizingWindow;
  interval: GraftInterval | null;
}

/** Everything that one end of a graft is sized by. */
export interface SizingEnd {
  end: GraftEnd;
  situations: { id: string; label: string }[];
  /** Which lumen the reference is of. */
  lumen: "whole" | "true";
  sections: SectionReferences[];
  /** The section of the largest reference; null where there is none. */
  reference: (SectionReferences & { reference: ConventionDiameter }) | null;
  /** By how much the conventions of that section differ, for one graft of `graftMm`. */
  spread: { mm: number; graftMm: number; points: number } | null;
  windows: WindowAtEnd[];
  missing: string[];
}

/**
 * One end: its references, and each window of its situations with the graft diameters. The lumen of a section must be the
 * one asked for; where no dissection is spoken of, one that is not stated is the whole one (`allowsUnstated`).
 */
export function sizingEnd(
  end: GraftEnd,
  sections: readonly SizingSection[],
  situation: EndSituation,
  allowsUnstated: boolean,
): SizingEnd {
  const all = sections.map(sectionReferences);
  const asked = all.filter(
    ({ lumen }) =>
      lumen === situation.lumen ||
      (lumen === "unstated" && situation.lumen === "whole" && allowsUnstated),
  );
  const reference = largestSection(asked);
  const rows = situation.ids.map(oversizingSituation);
  const windows = rows
    .flatMap((row) => row.windows)
    .filter(({ ends }) => ends.includes(end))
    .map((window) => ({
      window,
      interval:
        reference && graftInterval(reference.reference.diameterMm, reference.errorMm, window),
    }));
  return {
    end,
    situations: rows.map(({ id, label }) => ({ id, label })),
    lumen: situation.lumen,
    sections: all,
    reference,
    spread: spreadOf(reference, windows),
    windows,
    missing: [...situation.missing, ...missingReferences(end, asked, situation.lumen)],
  };
}

/** Every place without a reference, with why: its vessel could be the largest. */
function missingReferences(
  end: GraftEnd,
  asked: readonly SectionReferences[],
  lumen: SizingEnd["lumen"],
): string[] {
  if (asked.length === 0) {
    return [
      `a section of the ${lumen === "true" ? "true lumen" : "whole lumen"} at the ${end} end`,
    ];
  }
  const places = Map.groupBy(asked, ({ place, distanceMm }) => `${place}\n${distanceMm}`);
  return [...places.values()].flatMap((here) => {
    const [first] = here;
    if (!first || here.some(({ reference }) => reference !== null)) return [];
    return [`reference diameter at the ${end} end, ${first.place}: ${first.why}`];
  });
}

/** For a graft in the middle of the first window; without a window, for one of the size of the vessel. */
function spreadOf(
  section: SizingEnd["reference"],
  [first]: readonly WindowAtEnd[],
): SizingEnd["spread"] {
  if (section === null || section.spreadMm === null) return null;
  const interval = first?.interval;
  const graftMm = interval
    ? (interval.graftLowMm + interval.graftHighMm) / 2
    : section.reference.diameterMm;
  const points = spreadPoints(graftMm, section.diameters);
  return points === null ? null : { mm: section.spreadMm, graftMm, points };
}
