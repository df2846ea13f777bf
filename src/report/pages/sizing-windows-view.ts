import { formatNumber, formatValue, notConfirmed } from "../format.ts";
import type { PlanSizing } from "../sizing-schema.ts";
import type { SizedEnd } from "./sizing-ends-view.ts";

type Windowed = PlanSizing["proximal"]["windows"][number];
type Nearest = NonNullable<
  PlanSizing["inventory"]
>["answers"][number]["ends"][number]["nearest"][number];

/** What one window comes to at one end: `sure` is empty where no diameter is inside despite the reading error. */
interface WindowCell {
  allowed: string;
  sure: string;
  rows: string;
}

/** Windows against ends; whichever are fewer stand as rows, where the others still fit as columns. */
export interface WindowTable {
  corner: string;
  heads: string[];
  rows: { head: string; cells: WindowCell[] }[];
}

/** The windows of all ends. */
export interface WindowsView {
  sizingWindows: WindowTable | null;
  sizingWindowSources: { number: string; text: string }[];
}

/** Stands where there is no number. */
const noNumber = "\u2013";
const mostColumns = 6;

/** Every window of these ends once, by id, with its number: "W1". */
export function numberedWindows(
  ends: readonly SizedEnd[],
): Map<string, Windowed["window"] & { number: string }> {
  const windows = ends.flatMap(({ at }) => at.windows.map(({ window }) => window));
  const distinct = [...new Map(windows.map((window) => [window.id, window])).values()];
  return new Map(
    distinct.map((window, index) => [window.id, { ...window, number: `W${index + 1}` }]),
  );
}

/** The windows with what they allow at each end that has a reference, as printed, each with its own source. */
export function windowsView(ends: readonly SizedEnd[]): WindowsView {
  const windows = [...numberedWindows(ends).values()];
  const sized = ends.filter(({ at }) => at.reference !== null && at.windows.length > 0);
  return {
    sizingWindows: sized.length === 0 ? null : windowTable(sized, windows),
    sizingWindowSources: windows.map((window) => ({
      number: window.number,
      text: `${window.printed}${window.lowPercent === null ? "; no lower end printed, 0 taken" : ""} (${window.source}${window.confirmed ? "" : `; ${notConfirmed}`})`,
    })),
  };
}

function windowTable(
  ends: readonly SizedEnd[],
  windows: readonly { id: string; number: string }[],
): WindowTable {
  const labels = ends.map(({ label }) => label);
  const numbers = windows.map(({ number }) => number);
  const areEndsRows = ends.length > mostColumns || ends.length < windows.length;
  if (areEndsRows && windows.length <= Math.max(mostColumns, ends.length)) {
    const rows = ends.map((end) => ({
      head: end.label,
      cells: windows.map(({ id }) => cellOf(end, id)),
    }));
    return { corner: "End", heads: numbers, rows };
  }
  const rows = windows.map(({ id, number }) => ({
    head: number,
    cells: ends.map((end) => cellOf(end, id)),
  }));
  return { corner: "Window", heads: labels, rows };
}

function cellOf({ end, at, sizing }: SizedEnd, id: string): WindowCell {
  const found = at.windows.find(({ window }) => window.id === id);
  if (!found?.interval) return { allowed: noNumber, sure: "", rows: "" };
  const { graftLowMm, graftHighMm } = found.interval;
  const { highOperator } = found.window;
  return {
    allowed: rangeWords(graftLowMm, graftHighMm, highOperator),
    sure: sureWords(found.interval, highOperator),
    rows: rowsInside(end, id, sizing),
  };
}

function sureWords(
  { surelyInsideLowMm: low, surelyInsideHighMm: high }: NonNullable<Windowed["interval"]>,
  highOperator: "<=" | "<",
): string {
  return low > high ? "" : `sure ${rangeWords(low, high, highOperator)}`;
}

function rowsInside(end: SizedEnd["end"], id: string, { inventory }: PlanSizing): string {
  const answer = inventory?.answers.find((one) => one[end] === id);
  const here = answer?.ends.find((one) => one.end === end);
  if (!here) return "";
  if (here.inside.length > 0) return here.inside.join(", ");
  return here.nearest.length > 0 ? `no row; ${nearestWords(here.nearest)}` : "no row";
}

/** "G01, G02 0.4 mm too large": the rows that miss by least, and on which side. */
export function nearestWords(nearest: readonly Nearest[]): string {
  const byMiss = Map.groupBy(nearest, missWords);
  return [...byMiss]
    .map(([miss, rows]) => `${rows.map(({ id }) => id).join(", ")} ${miss}`)
    .join(", ");
}

function missWords({ missMm }: Nearest): string {
  if (missMm === 0) return "at a limit that is not included";
  return `${formatValue(Math.abs(missMm), "mm")} too ${missMm < 0 ? "small" : "large"}`;
}

/** "32.0 to < 38.4"; one number where both are alike. */
export function rangeWords(low: number, high: number, highOperator: "<=" | "<" = "<="): string {
  const top = `${highOperator === "<" ? "<\u00a0" : ""}${formatNumber(high)}`;
  return low === high && highOperator === "<="
    ? formatNumber(low)
    : `${formatNumber(low)} to ${top}`;
}
