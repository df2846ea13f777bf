/** Units as they stand on a page; a unit that is not listed is printed as it is. */
const printedUnits: Readonly<Record<string, string>> = {
  mm2: "mm²",
  cm2: "cm²",
  deg: "°",
  "cm/m2": "cm/m²",
  "cm2/m": "cm²/m",
  "mm/a": "mm per year",
  "mm/year": "mm per year",
};

/** "mm2" as "mm²", "mm/a" as "mm per year". */
export function formatUnit(unit: string): string {
  return printedUnits[unit] ?? unit;
}

const signed = (text: string): string =>
  Number(text) === 0 ? text.replace("-", "") : text.replace("-", "\u2212");

/** Lengths, areas and angles carry one decimal, indices and ratios two. */
const decimalsOf = (unit: string): number =>
  unit === "1" || (unit.startsWith("cm") && unit.includes("/")) ? 2 : 1;

/** A number for a page: one decimal (indices two). Never for comparing. */
export function formatNumber(value: number, unit = "mm"): string {
  return signed(value.toFixed(decimalsOf(unit)));
}

/** A published limit as it is: "55", "3.08". */
export function formatLimit(value: number): string {
  return signed(String(value));
}

/** "55.0 mm"; a ratio has no unit: "1.05". */
export function formatValue(value: number, unit: string): string {
  if (unit === "1") return formatNumber(value, unit);
  const gap = unit === "deg" ? "" : " ";
  return `${formatNumber(value, unit)}${gap}${formatUnit(unit)}`;
}

/**
 * The value with as many decimals as it takes to stand on the same side of the limit as the unrounded one:
 * 54.96 beside a limit of 55 is "54.96", not "55.0".
 */
export function formatAgainstLimit(value: number, limit: number, unit: string): string {
  const side = Math.sign(value - limit);
  for (let decimals = decimalsOf(unit); decimals < 6; decimals++) {
    if (Math.sign(Number(value.toFixed(decimals)) - limit) === side)
      return signed(value.toFixed(decimals));
  }
  return signed(String(value));
}

interface Interval {
  value: number;
  low: number | null;
  high: number | null;
}

const symmetryToleranceMm = 0.05;

/** The error in brackets, "(± 2.0)", not to be broken, or "(53.0 to 58.0)"; empty where no error is known. */
export function formatError({ value, low, high }: Interval, unit = "mm"): string {
  if (low === null || high === null) return "";
  const below = value - low;
  const above = high - value;
  if (Math.abs(above - below) < symmetryToleranceMm)
    return `(±\u00a0${formatNumber((high - low) / 2, unit)})`;
  return `(${formatNumber(low, unit)} to ${formatNumber(high, unit)})`;
}

/** "55.0 mm (± 2.0)"; without a known error "55.0 mm". */
export function formatInterval(interval: Interval & { unit: string }): string {
  const error = formatError(interval, interval.unit);
  const value = formatValue(interval.value, interval.unit);
  return error === "" ? value : `${value} ${error}`;
}

/** A number cut at its decimal point, so that a column lines up on it. */
export interface DecimalCell {
  whole: string;
  fraction: string;
}

/** "57.4" as "57" and ".4". */
export function decimalCell(number: string): DecimalCell {
  const point = number.indexOf(".");
  if (point < 0) return { whole: number, fraction: "" };
  return { whole: number.slice(0, point), fraction: number.slice(point) };
}

/** "1 exam", "3 exams". */
export function formatCount(count: number, one: string, many = `${one}s`): string {
  return `${count} ${count === 1 ? one : many}`;
}

/** "a, b and c". */
export function formatList(items: readonly string[]): string {
  if (items.length < 2) return items.join("");
  return `${items.slice(0, -1).join(", ")} and ${items.at(-1)}`;
}

/** The name of a place without the words that only say where it is taken: "proximal descending aorta", "mid-arch". */
export function shortPlace({ kind, label }: { kind: string; label: string }): string {
  return kind === "level" ? (label.split(/, | between /)[0] ?? label) : label;
}

/** Printed wherever a rule's value, class or level is recalled. */
export const notConfirmed = "not confirmed against the source";
