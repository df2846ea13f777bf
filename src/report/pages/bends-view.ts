import { sentenceCase } from "../../quantities/sentence-case.ts";
import { formatError, formatLimit, formatNumber } from "../format.ts";
import type { PlanRingView } from "../views-schema.ts";
import { ringNames, sayOnce } from "./ring-names.ts";

/** One ring in the table of bends; a cell is a list of lines. Lengths in mm, as the headings say. */
export interface BendRow {
  ring: string;
  /** "100.0 to 138.0" on the centreline. */
  reach: string;
  turn: string;
  radius: string[];
  length: string[];
  sides: string[];
  /** Radius with its interval; points and their scatter. */
  edge: string[];
  curvature: string[];
  gaps: string[];
}

/** The bends of all rings in one table, and what is said of their points. */
export interface BendsView {
  bendRows: BendRow[];
  bendNotes: string[];
}

type Stretch = NonNullable<PlanRingView["stretch"]>;
type Edge = NonNullable<PlanRingView["edge"]>;

interface Range {
  value: number;
  low: number;
  high: number;
}

const withError = (range: Range): string =>
  [formatNumber(range.value), formatError(range)].filter(Boolean).join(" ");

const hundredths = (value: number): string => value.toFixed(2);

/** The radius of a wider bend is not printed: over 20 mm it turns by about 1 degree, which is the noise of the points. */
const widestRadiusMm = 1000;
const radiusWords = (radiusMm: number | null): string =>
  radiusMm === null || radiusMm > widestRadiusMm
    ? `over ${widestRadiusMm}`
    : formatNumber(radiusMm);

/** What is missing stands in the table of what can't be told. */
const notTold = "–";

/** The bends: a row for each ring that has a stretch or an edge. */
export function bendsView(rings: readonly PlanRingView[]): BendsView {
  const names = ringNames(rings);
  const named = rings.map((ring, index) => ({ ...ring, name: names[index] ?? ring.label }));
  return {
    bendRows: named
      .filter(({ stretch, edge }) => stretch !== null || edge !== null)
      .map(({ name, stretch, edge }) => ({
        ring: sentenceCase(name),
        ...stretchCells(stretch),
        ...edgeCells(edge),
      })),
    bendNotes: [scatterWords, spacingWords].flatMap((wordsOf) =>
      sayOnce(
        rings.length,
        named.flatMap(({ name, stretch }) => {
          const words = stretch === null ? null : wordsOf(stretch);
          return words === null ? [] : [{ ring: name, words }];
        }),
      ),
    ),
  };
}

const scatterWords = ({ scatterMm }: Stretch): string =>
  scatterMm === null ? "not smoothed" : `smoothed, scatter ${hundredths(scatterMm)} mm`;

/** Null where the points lie as near as they need to. */
const spacingWords = ({ spacing: { largestMm, neededMm } }: Stretch): string | null =>
  neededMm !== null && largestMm > neededMm
    ? `points up to ${formatNumber(largestMm)} mm apart, a tenth of the least radius is ${formatNumber(neededMm)} mm`
    : null;

function stretchCells(
  stretch: Stretch | null,
): Pick<BendRow, "reach" | "turn" | "radius" | "length" | "sides"> {
  if (stretch === null)
    return { reach: "", turn: notTold, radius: [notTold], length: [notTold], sides: [notTold] };
  const { fromMm, toMm, turnDeg, meanRadiusMm, leastRadiusMm } = stretch;
  const { lengthMm, chordMm, tortuosity, sides } = stretch;
  return {
    reach: `${formatNumber(fromMm)} to ${formatNumber(toMm)}`,
    turn: formatNumber(turnDeg),
    radius: [radiusWords(meanRadiusMm), `least ${radiusWords(leastRadiusMm)}`],
    length: [
      withError(lengthMm),
      `straight ${formatNumber(chordMm)}`,
      tortuosity === null ? "no tortuosity" : `tortuosity ${hundredths(tortuosity)}`,
    ],
    sides:
      sides === null
        ? [notTold]
        : [
            `inner ${withError(sides.innerMm)}`,
            `outer ${withError(sides.outerMm)}`,
            `apart ${withError(sides.differenceMm)}`,
          ],
  };
}

function edgeCells(edge: Edge | null): Pick<BendRow, "edge" | "curvature" | "gaps"> {
  if (edge === null) return { edge: [notTold], curvature: [notTold], gaps: [notTold] };
  const { radiusMm, points, scatterMm, straightEnds } = edge;
  const { value, low, high } = edge.innerCurvatureTimesDiameter;
  return {
    edge: [
      radiusWords(radiusMm.value),
      `(${radiusWords(radiusMm.low)} to ${radiusWords(radiusMm.high)})`,
      `${points}; ${hundredths(scatterMm)}`,
    ],
    curvature: [hundredths(value), `(${hundredths(low)} to ${hundredths(high)})`],
    gaps: straightEnds.map(({ straightMm, gapMm, isCounted, spansCounted }) => {
      const mark = spansCounted ? " ±" : isCounted ? ", counted" : "";
      return `${formatLimit(straightMm)}: ${formatNumber(gapMm.value)} (${formatNumber(gapMm.low)} to ${formatNumber(gapMm.high)})${mark}`;
    }),
  };
}
