import { formatLimit, formatNumber, notConfirmed } from "../format.ts";
import { outcomeMark, type OutcomeMark } from "../outcome-mark.ts";
import type { PlanSizing } from "../sizing-schema.ts";
import type { SizedEnd } from "./sizing-ends-view.ts";

type RowAtEnd = NonNullable<PlanSizing["inventory"]>["rows"][number]["proximal"];

/** Says that a vessel diameter within the reading error would give the other answer. */
export const openSign = " \u00b1";

/** The inventory against some of the ends. */
export interface InventoryTable {
  ends: { label: string; window: string }[];
  rows: {
    id: string;
    diameters: string;
    length: string;
    cells: { oversizing: string; mark: OutcomeMark | null }[];
  }[];
}

const mostEnds = 6;

/**
 * Every row, in the order of the inventory, against every end that has a reference; several tables where the ends are too
 * many for one. A mark says "in" or "out", which is shorter in a narrow column.
 */
export function inventoryTables(
  ends: readonly SizedEnd[],
  windows: ReadonlyMap<string, { number: string }>,
): InventoryTable[] {
  const rows = ends[0]?.sizing.inventory?.rows ?? [];
  if (rows.length === 0) return [];
  const sized = ends.filter(({ at }) => at.reference !== null);
  return chunks(sized, mostEnds).map((part) => ({
    ends: part.map(({ label, at }) => {
      const first = at.windows[0]?.window.id;
      const number = first === undefined ? undefined : windows.get(first)?.number;
      return { label, window: number === undefined ? "no window" : `in ${number}` };
    }),
    rows: rows.map(({ id, coveredLengthMm, proximal, distal }, index) => ({
      id,
      diameters: `${formatNumber(proximal.graftMm)}, ${formatNumber(distal.graftMm)}`,
      length: formatNumber(coveredLengthMm),
      cells: part.map(({ end, sizing }) => cellOf(sizing.inventory?.rows[index]?.[end])),
    })),
  }));
}

function cellOf(row: RowAtEnd | undefined): InventoryTable["rows"][number]["cells"][number] {
  const oversizing = row?.oversizing ? formatNumber(row.oversizing.value, "%") : "not computed";
  const first = row?.windows[0];
  if (!first) return { oversizing, mark: null };
  const word = `${first.outcome === "met" ? "in" : "out"}${first.spansLimit ? openSign : ""}`;
  return { oversizing, mark: { ...outcomeMark(first.outcome), word } };
}

function chunks<Item>(items: readonly Item[], size: number): Item[][] {
  const count = Math.ceil(items.length / size);
  return Array.from({ length: count }, (_, part) => items.slice(part * size, (part + 1) * size));
}

/** Each warning once, with the rows above it at each end. */
export function alarmLines(ends: readonly SizedEnd[]): string[] {
  return (ends[0]?.sizing.alarms ?? []).flatMap((alarm) => {
    const above = ends.flatMap(({ end, label, sizing }) => {
      const rows = (sizing.inventory?.rows ?? []).filter((row) =>
        row[end].alarms.includes(alarm.id),
      );
      return rows.length === 0 ? [] : [`${label}: ${rows.map(({ id }) => id).join(", ")}`];
    });
    const mark = alarm.confirmed ? "" : `; ${notConfirmed}`;
    const lead = `Over ${formatLimit(alarm.abovePercent)} %, ${alarm.says} (${alarm.source}${mark})`;
    return above.length === 0 ? [] : [`${lead}: ${above.join("; ")}.`];
  });
}
