import { sentenceCase } from "../../quantities/sentence-case.ts";
import { formatUnit, shortPlace } from "../format.ts";
import type { Plan } from "../plan.ts";
import { edgeWord, lumenWord } from "../words.ts";

type Derived = Plan["derived"][number];

/** What was computed from the readings of one section. */
export interface DerivedRow {
  place: string;
  /** "inner edge", "inner edge, true lumen". */
  of: string;
  values: { what: string; how: string }[];
}

/** "mean diameter 29.2 mm (29.1 to 29.3)": the range is that of the rounding of the numbers it stands on. */
function valueWords({ kind, value, unit, low, high }: Derived): string {
  const decimals = unit === "mm" ? 1 : 2;
  const [middle, from, to] = [value, low, high].map((number) => number.toFixed(decimals));
  const unitWords = unit === "1" ? "" : ` ${formatUnit(unit)}`;
  const range = from === to ? "" : ` (${from} to ${to})`;
  return `${sentenceCase(kind)} ${middle}${unitWords}${range}`;
}

function sectionWords({ edge, lumen }: Derived): string {
  const isPart = lumen === "true" || lumen === "false";
  return [edgeWord(edge), ...(isPart ? [lumenWord(lumen)] : [])].join(", ");
}

/** What was computed from the readings of the last exam, a row for each section along the vessel. */
export function derivedRows({ derived, exams }: Plan): { date: string; rows: DerivedRow[] } {
  const last = exams.findLast(({ key }) => derived.some(({ exam }) => exam === key));
  const ofLast = derived.filter(({ exam }) => exam === last?.key);
  const sections = Map.groupBy(ofLast, (one) => `${shortPlace(one.place)}\n${sectionWords(one)}`);
  const rows = [...sections].map(([key, here]) => {
    const [place = "", of = ""] = key.split("\n");
    const values = here.map((one, index) => ({
      what: valueWords(one),
      how: `${one.how}, ${one.key}${index < here.length - 1 ? ";" : ""}`,
    }));
    return { place: sentenceCase(place), of, values };
  });
  return { date: last?.imagingDate ?? "", rows };
}
