import type { z } from "zod";
import type { accessSchema, planningCheckSchema } from "../access-schema.ts";
import { type CellRun, cellRuns } from "../cell-runs.ts";
import { formatValue } from "../format.ts";
import { outcomeMark, type OutcomeMark } from "../outcome-mark.ts";
import type { NumberedNotes } from "./numbered-notes.ts";

type Sheath = NonNullable<z.infer<typeof accessSchema>["sides"][number]["sheaths"]>[number];
type Check = z.infer<typeof planningCheckSchema>;

/** One limit beside one sheath: "<= 1.05" with its mark, " ±" where the interval holds the limit. */
interface LimitMark {
  limit: string;
  mark: OutcomeMark;
  /** " ±", then the number judged where it is none of those beside. */
  more: string;
}

/** A row for each size of sheath, a cell for each side; what holds for every size of a side stands in `every`. */
export interface SheathTable {
  /** In words, with the numbers of their sources. */
  limits: string;
  every: CellRun<{ marks: LimitMark[] }>[] | null;
  rows: { size: string; rows: string; cells: CellRun<{ ratio: string; marks: LimitMark[] }>[] }[];
}

/** The sign of an interval that holds the limit, beside an outcome that stands on the value. */
export const spansSign = ({ spansLimit, outcome }: Check): string =>
  spansLimit && (outcome === "met" || outcome === "not-met") ? " ±" : "";

/** The table of the sheaths by side; null where no sheath is judged. */
export function sheathTable(
  sides: readonly (readonly Sheath[])[],
  { mark }: NumberedNotes,
): SheathTable | null {
  const sheaths = sides[0] ?? [];
  const checks = sheaths[0]?.checks ?? [];
  if (sheaths.length === 0) return null;
  const shared = sides.map((side) => sharedLimits(side));
  return {
    limits: checks
      .map(
        ({ id, label, source }) =>
          `${id === teachingTable ? "lumen by a table" : shortLimit(label)} ${mark(source)}`,
      )
      .join("; "),
    every: shared.every(({ size }) => size === 0)
      ? null
      : cellRuns(
          sides.map(([first], side) => ({
            marks: marksOf(first?.checks ?? [], ({ id }) => shared[side]?.has(id) === true),
          })),
        ),
    rows: sheaths.map(({ outerMm, asWritten, rows }, index) => ({
      size: asWritten.endsWith("mm") ? asWritten : `${asWritten} (${formatValue(outerMm, "mm")})`,
      rows: rows.join(", "),
      cells: cellRuns(
        sides.map((side, place) => ({
          ratio: ratioWords(side[index]?.ratio ?? null),
          marks: marksOf(side[index]?.checks ?? [], ({ id }) => shared[place]?.has(id) === false),
        })),
      ),
    })),
  };
}

const teachingTable = "sheath-teaching-table";

const shortLimit = (label: string): string => label.replace("outer sheath over least lumen ", "");

/** Ids of the limits that have one outcome for all sizes of a side. */
function sharedLimits(sheaths: readonly Sheath[]): Set<string> {
  const ids = (sheaths[0]?.checks ?? []).map(({ id }) => id);
  const isShared = (id: string): boolean => {
    const marks = sheaths.map(({ checks }) => {
      const [mark] = marksOf(checks, (check) => check.id === id);
      return `${mark?.limit} ${mark?.mark.word} ${mark?.more}`;
    });
    return sheaths.length > 1 && new Set(marks).size === 1;
  };
  return new Set(ids.filter(isShared));
}

function marksOf(checks: readonly Check[], isShown: (check: Check) => boolean): LimitMark[] {
  return checks.filter(isShown).map((check) => ({
    limit: limitSign(check),
    mark: outcomeMark(check.outcome),
    more: `${spansSign(check)}${ownNumber(check)}`,
  }));
}

function limitSign({ id, limit }: Check): string {
  const sign = limit.replace(" (no unit)", "");
  if (id === teachingTable) return `table ${sign}`;
  return id.includes("area") ? `area ${sign}` : sign;
}

const decimals = 3;

/** The ratio of diameters stands before the marks, the lumen in the table of sizes. */
const ownNumber = ({ id, value }: Check): string =>
  id.includes("area") && value !== null ? ` ${value.value.toFixed(decimals)}` : "";

function ratioWords(ratio: Sheath["ratio"]): string {
  if (ratio === null) return "not known";
  const { value, low, high } = ratio;
  return high === null
    ? `at least ${value.toFixed(decimals)}`
    : `${value.toFixed(decimals)} (${low.toFixed(decimals)} to ${high.toFixed(decimals)})`;
}
