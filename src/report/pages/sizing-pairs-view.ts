import { formatCount, formatList, formatNumber, formatValue } from "../format.ts";
import { outcomeMark, type OutcomeMark } from "../outcome-mark.ts";
import type { Plan } from "../plan.ts";
import type { PlanSizing } from "../sizing-schema.ts";
import { openSign } from "./sizing-inventory-view.ts";
import { nearestWords, rangeWords } from "./sizing-windows-view.ts";

type Numbers = ReadonlyMap<string, { number: string }>;
type Answer = NonNullable<PlanSizing["inventory"]>["answers"][number];
type Taper = PlanSizing["tapers"][number];
interface WindowPair {
  proximal: string | null;
  distal: string | null;
}

/** One proximal zone with one distal zone. */
export interface SizingPairView {
  heading: string;
  covered: string;
  pieces: string;
  twoPieces: string | null;
  /** One for each pair of windows that is read together; those that come to the same share a line. */
  lines: {
    windows: string;
    rows: string;
    taper: string;
    straight: { mark: OutcomeMark; text: string } | null;
  }[];
}

/** The pairs of zones in the order of the plan. */
export function pairViews(sizings: Plan["sizings"], numbers: Numbers): SizingPairView[] {
  return sizings.flatMap(({ fromZone, toZone, sizing }): SizingPairView[] => {
    if (toZone === null) return [];
    return [
      {
        heading: `Zone ${fromZone} to zone ${toZone}`,
        covered: coveredWords(sizing),
        pieces: piecesLine(sizing),
        twoPieces: twoPiecesLine(sizing),
        lines: pairLines(sizing, numbers),
      },
    ];
  });
}

/** "W1" where both ends have the same window, else "W1/W3", the proximal one first. */
function pairWords({ proximal, distal }: WindowPair, numbers: Numbers): string {
  const one = (id: string | null): string =>
    (id === null ? undefined : numbers.get(id)?.number) ?? "no window";
  return proximal === distal ? one(proximal) : `${one(proximal)}/${one(distal)}`;
}

const windowsOf = ({ proximalWindow, distalWindow }: Taper): WindowPair => ({
  proximal: proximalWindow,
  distal: distalWindow,
});

/** The ratios of vessel diameters that let one straight graft lie in both windows: they are the same for all zones. */
export function straightLimits(sizings: Plan["sizings"], numbers: Numbers): string[] {
  const said = sizings.flatMap(({ sizing }) =>
    sizing.tapers.map((taper) => `${pairWords(windowsOf(taper), numbers)} ${taper.straight.limit}`),
  );
  return [...new Set(said)];
}

function coveredWords({ coverage, tapers }: PlanSizing): string {
  const length =
    coverage === null
      ? "length to be covered not known"
      : `covers ${rangeWords(coverage.leastMm, coverage.mostMm)} mm`;
  const ratio = tapers[0]?.straight.value;
  if (!ratio) return length;
  const { value, low, high } = ratio;
  const error =
    low === null || high === null
      ? "error not known"
      : `${low.toFixed(ratioDecimals)} to ${high.toFixed(ratioDecimals)}`;
  return `${length}; vessel ratio ${value.toFixed(ratioDecimals)} (${error})`;
}

const ratioDecimals = 4;

function pairLines(sizing: PlanSizing, numbers: Numbers): SizingPairView["lines"] {
  const { inventory, tapers } = sizing;
  const pairs: WindowPair[] = inventory?.answers ?? tapers.map(windowsOf);
  const lines = pairs.map((pair) => {
    const taper = tapers.find(
      ({ proximalWindow, distalWindow }) =>
        proximalWindow === pair.proximal && distalWindow === pair.distal,
    );
    return {
      windows: pairWords(pair, numbers),
      rows: rowsWords(pair, inventory),
      taper: taper ? rangeWords(taper.neededMm.lowMm, taper.neededMm.highMm) : "not computed",
      straight: taper ? straightWords(taper) : null,
    };
  });
  const alike = Map.groupBy(lines, ({ rows, taper, straight }) =>
    [rows, taper, straight?.mark.word, straight?.text].join("\n"),
  );
  return [...alike.values()].flatMap((same) => {
    const [first] = same;
    return first ? [{ ...first, windows: same.map(({ windows }) => windows).join(", ") }] : [];
  });
}

function straightWords({
  straight,
  straightMm,
}: Taper): NonNullable<SizingPairView["lines"][number]["straight"]> {
  const diameters = straightMm ? `, ${rangeWords(straightMm.lowMm, straightMm.highMm)} mm` : "";
  return {
    mark: outcomeMark(straight.outcome),
    text: `${straight.spansLimit ? openSign : ""}${diameters}`,
  };
}

function rowsWords(pair: WindowPair, inventory: PlanSizing["inventory"]): string {
  if (inventory === null) return "no inventory";
  if (inventory.rows.length === 0) return "the inventory has no row";
  const isPair = (one: WindowPair): boolean =>
    one.proximal === pair.proximal && one.distal === pair.distal;
  const answer = inventory.answers.find(isPair);
  const open = inventory.rows.filter(({ both }) => both.find(isPair)?.spansLimit);
  const isOpen = (id: string): boolean => open.some((row) => row.id === id);
  const fits = answer?.fits ?? [];
  const couldBe = open.map(({ id }) => id).filter((id) => !fits.includes(id));
  const ends = answer?.ends ?? [];
  const unjudged = ends.filter(({ inside, nearest }) => inside.length + nearest.length === 0);
  if (unjudged.length > 0) return unjudged.map(({ end }) => `${end} end not judged`).join("; ");
  const said =
    fits.length > 0
      ? fits.map((id) => (isOpen(id) ? `${id}${openSign}` : id)).join(", ")
      : noneWords(ends);
  return couldBe.length === 0 ? said : `${said}; out${openSign}: ${couldBe.join(", ")}`;
}

function noneWords(ends: Answer["ends"]): string {
  const missed = ends
    .filter(({ nearest }) => nearest.length > 0)
    .map(({ end, nearest }) => `${end} nearest ${nearestWords(nearest)}`);
  return ["none", ...missed].join("; ");
}

function piecesLine({ pieces, coverage, inventory }: PlanSizing): string {
  if (coverage === null) return "Pieces not computed.";
  if (inventory === null) return "Pieces not computed: the site names no inventory.";
  if (pieces.length === 0) return "Pieces: the inventory has no row.";
  const lengths = [...new Set(pieces.map(({ coveredLengthMm }) => formatNumber(coveredLengthMm)))];
  const said = [...Map.groupBy(pieces, ({ overlapMm }) => overlapMm)].map(([overlapMm, rows]) => ({
    overlap: formatNumber(overlapMm),
    counts: rows.map(countWords).join(", "),
  }));
  const parts = [...Map.groupBy(said, ({ counts }) => counts)].map(
    ([counts, rows]) => `${counts} (overlap ${rows.map(({ overlap }) => overlap).join(" or ")} mm)`,
  );
  return `Pieces of ${formatList(lengths)} mm: ${parts.join("; ")}.`;
}

function countWords({ least, most, why }: PlanSizing["pieces"][number]): string {
  if (least === null && most === null) return `none, as ${why ?? "not computed"}`;
  if (least === null || most === null) {
    const [known, length] = least === null ? [most, "most"] : [least, "least"];
    return `${known?.pieces} for the ${length}, else none, as ${why ?? "not computed"}`;
  }
  return least.pieces === most.pieces ? `${least.pieces}` : `${least.pieces} to ${most.pieces}`;
}

const shownPairs = 3;

function twoPiecesLine({ piecePairs }: PlanSizing): string | null {
  if (piecePairs === null) return null;
  if (piecePairs.length === 0) return "Two rows: none.";
  const named = piecePairs
    .slice(0, shownPairs)
    .map(
      ({ proximalRow, distalRow, jointPercent, mostCoverMm }) =>
        `${proximalRow} inside ${distalRow} (joint ${formatNumber(jointPercent, "%")} %, up to ${formatValue(mostCoverMm, "mm")})`,
    );
  const more = piecePairs.length - named.length;
  const rest = more > 0 ? `; ${formatCount(more, "more pair")} in the plan file` : "";
  return `Two rows: ${named.join("; ")}${rest}.`;
}

/** Each overlap that pieces are counted with, and where it comes from. */
export function overlapLines(sizings: Plan["sizings"]): string[] {
  const said = sizings.flatMap(({ sizing }) =>
    sizing.pieces.map(
      ({ overlapMm, overlapSource }) => `${formatValue(overlapMm, "mm")} (${overlapSource})`,
    ),
  );
  return [...new Set(said)];
}
