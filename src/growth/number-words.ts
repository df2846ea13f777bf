const decimals = 1;

const signed = (text: string): string =>
  Number(text) === 0 ? text.replace("-", "") : text.replace("-", "\u2212");

/** A number for sentences, with one decimal: "44.0", "−0.3". Never for comparing. */
export function fixed(value: number): string {
  return signed(value.toFixed(decimals));
}

/** The same with as many more decimals as it takes that a value beside the limit does not print as the limit. */
export function fixedBeside(value: number, limit: number): string {
  const tells = (places: number): boolean => Number(value.toFixed(places)) !== limit;
  const places = value === limit ? decimals : ([1, 2, 3, 4, 5, 6, 7, 8].find(tells) ?? 9);
  return signed(value.toFixed(places));
}
