import type { Outcome } from "../../guidelines/rule.ts";
import { formatLength } from "../../quantities/format-length.ts";
import { holds } from "../../quantities/limit.ts";
import type { InventoryRow } from "../../readers/csv/inventory.ts";
import { type GraftInterval, graftInWindow, oversizingPercent } from "./graft-interval.ts";
import type { Coverage } from "./graft-pieces.ts";
import { type GraftEnd, oversizingData, type SizingWindow } from "./oversizing-windows.ts";

/** What the inventory is laid against at one end: null reference or no windows where they could not be made. */
export interface EndToFit {
  end: GraftEnd;
  reference: { diameterMm: number; errorMm: number } | null;
  windows: readonly { window: SizingWindow; interval: GraftInterval | null }[];
}

/** Ids of the windows of both ends that are read together; null where an end has none. */
export interface WindowPair {
  proximal: string | null;
  distal: string | null;
}

/** One end of one row against one window. */
export interface RowInWindow {
  window: string;
  outcome: "met" | "not-met";
  /** In mm, below 0 too small, above 0 too large; 0 inside, and where it lies at a limit that does not belong to the window. */
  missMm: number;
  /** True where some vessel diameter within its error would give the other outcome. */
  spansLimit: boolean;
}

/** One end of one row. */
export interface RowAtEnd {
  graftMm: number;
  /** Against the reference, in per cent, over its reading error; null without a reference. */
  oversizing: { value: number; low: number; high: number | null } | null;
  /** Ids of the warnings in `oversizing-windows.yaml` that it is above. */
  alarms: string[];
  windows: RowInWindow[];
}

/** One row of the inventory against both ends. */
export interface RowFit {
  id: string;
  coveredLengthMm: number;
  proximal: RowAtEnd;
  distal: RowAtEnd;
  both: (WindowPair & { outcome: Outcome; spansLimit: boolean })[];
  /** Whether one of it covers the length: for the most coverage met, for less than the least not met, else open. */
  onePiece: Outcome;
}

/** What one pair of windows leaves of the inventory. */
export interface InventoryAnswer extends WindowPair {
  /** Rows with both diameters inside, in the order of the inventory. */
  fits: string[];
  /** For each end: the rows inside, or those nearest to it with how far they miss. */
  ends: {
    end: GraftEnd;
    inside: string[];
    nearest: { id: string; missMm: number }[];
  }[];
  sentence: string;
}

/** The inventory against both ends of one graft, in its own order: nothing is ranked. */
export interface InventoryFit {
  rows: RowFit[];
  answers: InventoryAnswer[];
}

/** Windows of the same id are read together; where the distal end has not the same one, each of its windows. */
export function windowPairs(
  proximal: readonly SizingWindow[],
  distal: readonly SizingWindow[],
): WindowPair[] {
  const ids = (windows: readonly SizingWindow[]): (string | null)[] =>
    windows.length === 0 ? [null] : windows.map(({ id }) => id);
  return ids(proximal).flatMap((one) => {
    const same = ids(distal).filter((other) => other === one && one !== null);
    const partners = same.length > 0 ? same : ids(distal);
    return partners.map((other) => ({ proximal: one, distal: other }));
  });
}

/** Lays every row's proximal and distal diameter against the intervals of its end, and its length against the coverage. */
export function inventoryFit(
  inventory: readonly InventoryRow[],
  ends: { proximal: EndToFit; distal: EndToFit },
  coverage: Coverage | null,
): InventoryFit {
  const pairs = windowPairs(
    ends.proximal.windows.map(({ window }) => window),
    ends.distal.windows.map(({ window }) => window),
  );
  const rows = inventory.map((row): RowFit => {
    const proximal = rowAtEnd(row.proximalMm, ends.proximal);
    const distal = rowAtEnd(row.distalMm, ends.distal);
    return {
      id: row.id,
      coveredLengthMm: row.coveredLengthMm,
      proximal,
      distal,
      both: pairs.map((pair) => ({ ...pair, ...inBoth(pair, proximal, distal) })),
      onePiece: onePiece(row.coveredLengthMm, coverage),
    };
  });
  return { rows, answers: pairs.map((pair) => answerOf(pair, rows)) };
}

function rowAtEnd(graftMm: number, { reference, windows }: EndToFit): RowAtEnd {
  const oversizing = reference && percentRange(graftMm, reference);
  return {
    graftMm,
    oversizing,
    alarms: oversizingData.alarms
      .filter(({ abovePercent }) => oversizing && holds(oversizing.value, ">", abovePercent))
      .map(({ id }) => id),
    windows: windows.flatMap(({ window, interval }) => {
      if (interval === null) return [];
      const { isInside, missMm, spansLimit } = graftInWindow(
        graftMm,
        interval,
        window.highOperator,
      );
      const outcome = isInside ? "met" : "not-met";
      return [{ window: window.id, outcome, missMm, spansLimit }];
    }),
  };
}

function percentRange(
  graftMm: number,
  { diameterMm, errorMm }: { diameterMm: number; errorMm: number },
) {
  return {
    value: oversizingPercent(graftMm, diameterMm),
    low: oversizingPercent(graftMm, diameterMm + errorMm),
    high: errorMm < diameterMm ? oversizingPercent(graftMm, diameterMm - errorMm) : null,
  };
}

const inWindow = ({ windows }: RowAtEnd, id: string | null): RowInWindow | null =>
  windows.find(({ window }) => window === id) ?? null;

/** Outside at one end is outside; inside needs both ends known. */
function inBoth(
  pair: WindowPair,
  proximal: RowAtEnd,
  distal: RowAtEnd,
): { outcome: Outcome; spansLimit: boolean } {
  const ends = [inWindow(proximal, pair.proximal), inWindow(distal, pair.distal)];
  const known = ends.filter((end) => end !== null);
  const out = known.filter(({ outcome }) => outcome === "not-met");
  if (out.length > 0) {
    return { outcome: "not-met", spansLimit: out.every(({ spansLimit }) => spansLimit) };
  }
  if (known.length < ends.length) return { outcome: "not-assessable", spansLimit: false };
  return { outcome: "met", spansLimit: known.some(({ spansLimit }) => spansLimit) };
}

function onePiece(lengthMm: number, coverage: Coverage | null): Outcome {
  if (coverage === null) return "not-assessable";
  if (holds(lengthMm, ">=", coverage.mostMm)) return "met";
  return holds(lengthMm, "<", coverage.leastMm) ? "not-met" : "not-assessable";
}

function answerOf(pair: WindowPair, rows: readonly RowFit[]): InventoryAnswer {
  const outcomeOf = ({ both }: RowFit): Outcome | undefined =>
    both.find(({ proximal, distal }) => proximal === pair.proximal && distal === pair.distal)
      ?.outcome;
  const fits = rows.filter((row) => outcomeOf(row) === "met").map(({ id }) => id);
  const ends = (["proximal", "distal"] as const).map((end) => endAnswer(end, pair[end], rows));
  return { ...pair, fits, ends, sentence: sentenceOf(pair, fits, ends, rows) };
}

function endAnswer(
  end: GraftEnd,
  window: string | null,
  rows: readonly RowFit[],
): InventoryAnswer["ends"][number] {
  const known = rows.flatMap((row) => {
    const here = inWindow(row[end], window);
    return here ? [{ id: row.id, ...here }] : [];
  });
  const inside = known.filter(({ outcome }) => outcome === "met").map(({ id }) => id);
  const leastMm = Math.min(...known.map(({ missMm }) => Math.abs(missMm)));
  const nearest =
    inside.length > 0
      ? []
      : known
          .filter(({ missMm }) => holds(Math.abs(missMm), "<=", leastMm))
          .map(({ id, missMm }) => ({ id, missMm }));
  return { end, inside, nearest };
}

function sentenceOf(
  pair: WindowPair,
  fits: readonly string[],
  ends: InventoryAnswer["ends"],
  rows: readonly RowFit[],
): string {
  if (rows.length === 0) return "The inventory has no row.";
  if (fits.length > 0) return `Both diameters inside: ${fits.join(", ")}.`;
  const open = (["proximal", "distal"] as const).filter(
    (end) => !rows.some((row) => inWindow(row[end], pair[end]) !== null),
  );
  const lead =
    open.length > 0
      ? `Not to be judged at the ${open.join(" and the ")} end.`
      : "No row has both diameters inside.";
  const said = ends
    .filter(({ end }) => !open.includes(end))
    .map(({ end, inside, nearest }) =>
      inside.length > 0
        ? `${end} inside: ${inside.join(", ")}`
        : `${end} none inside, nearest ${nearest.map(missWords).join(", ")}`,
    );
  return said.length === 0 ? lead : `${lead} By end: ${said.join("; ")}.`;
}

const missWords = ({ id, missMm }: { id: string; missMm: number }): string => {
  if (missMm === 0) return `${id} at a limit that does not belong to the window`;
  return `${id} ${formatLength(Math.abs(missMm))} too ${missMm < 0 ? "small" : "large"}`;
};
