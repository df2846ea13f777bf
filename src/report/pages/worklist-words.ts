import type { StationColumn } from "../../planning/worklists/worklist-data.ts";

/** What the columns of a centreline sheet hold. */
const columnWords: Record<StationColumn, string> = {
  max_diameter_mm: "largest diameter",
  min_diameter_mm: "smallest diameter",
  perimeter_mm: "perimeter",
  area_mm2: "area",
  wall: "wall",
  thrombus_arc_deg: "thrombus",
  thrombus_mm: "thrombus",
  calcium_arc_deg: "calcium",
  x_mm: "points in space",
  y_mm: "points in space",
  z_mm: "points in space",
  axes: "points in space",
  patient_position: "points in space",
};

const otherWords: Readonly<Record<string, string>> = {
  gated: "whether gated",
  supplies: "what it supplies",
};

const wordsOf = (column: string): string =>
  Object.hasOwn(columnWords, column)
    ? columnWords[column as StationColumn]
    : (otherWords[column] ?? column.replaceAll("_", " "));

const stations = /^stations (every \d+ mm) with (.+)$/;

/** An item in words, without the columns of a sheet: "largest diameter, area every 10 mm". */
function itemWords(item: string): string {
  const [, every, columns] = stations.exec(item) ?? [];
  if (every === undefined || columns === undefined) return wordsOf(item);
  return `${[...new Set(columns.split(", ").map(wordsOf))].join(", ")} ${every}`;
}

const edgePart = /^(.+), ((?:inner|outer) edge)$/;

/** Several items, with the edge once where all are to the same: "smallest diameter, area, inner edge". */
export function itemsWords(items: readonly string[]): string {
  const parts = items.map((item) => edgePart.exec(item));
  const edges = new Set(parts.map((part) => part?.[2]));
  const [edge] = edges;
  if (edges.size > 1 || edge === undefined) return items.map(itemWords).join(", ");
  return [...parts.map((part) => itemWords(part?.[1] ?? "")), edge].join(", ");
}

const emptyCells = /^no (\w+) (at \d+ of \d+ stations)$/;

/** Why what was found does not count: "no perimeter, area at 16 of 16 stations", "measured, but edge outer". */
function lacksWords(lacks: string): string {
  const cells = lacks.split("; ").map((reason) => {
    const [, column, where] = emptyCells.exec(reason) ?? [];
    if (column !== undefined && where !== undefined)
      return { begin: "no", what: wordsOf(column), where };
    const other = /^measured, (.+)$/.exec(reason)?.[1];
    if (other !== undefined) return { begin: "measured, but", what: other, where: "" };
    return { begin: "", what: reason, where: "" };
  });
  const groups = Map.groupBy(cells, ({ begin, where }) => `${begin} ${where}`);
  const parts = [...groups.values()].flatMap((own) => {
    const [first] = own;
    const what = [...new Set(own.map((one) => one.what))].join(", ");
    return first ? [`${first.begin} ${what} ${first.where}`.trim()] : [];
  });
  return parts.join("; ");
}

const examPart = / \(exam of (\d{4}-\d{2}-\d{2})\)$/;

/** The date of the exam that `lacks` is of; null where it names none. */
export const examOf = (lacks: string | null): string | null =>
  lacks === null ? null : (examPart.exec(lacks)?.[1] ?? null);

/** How far an item is. `saidOnce` is the date of an exam that need not be named again. */
export function stateWords(
  { state, date, lacks }: { state: string; date: string | null; lacks: string | null },
  saidOnce: string | null,
): string {
  const dated = date === null ? state : `${state}, ${date}`;
  if (lacks === null) return dated;
  const exam = examOf(lacks);
  const why = lacksWords(lacks.replace(examPart, "").replace(distalAorta, ""));
  const named = exam === null || exam === saidOnce ? why : `${why} (exam of ${exam})`;
  return why.startsWith("measured, but") ? named : `${dated}: ${named}`;
}

const distalAorta = /proximal descending aorta, (?=2 cm distal)/;

/** Places or stretches in words: "both edges of innominate; distal edge of left subclavian to mid-descending aorta". */
export function placesWords(places: readonly string[]): string {
  const words = [...new Set(places.map(whereWords))];
  const branches = words.flatMap((one) => /^proximal edge of (.+)$/.exec(one)?.[1] ?? []);
  const both = branches.filter((one) => words.includes(`distal edge of ${one}`));
  const edges = new Set(
    both.flatMap((one) => [`proximal edge of ${one}`, `distal edge of ${one}`]),
  );
  const others = words.filter((one) => !edges.has(one));
  return [...(both.length === 0 ? [] : [`both edges of ${both.join(", ")}`]), ...others].join("; ");
}

/** As short as it is still found by. */
const whereWords = (where: string): string =>
  where
    .replace(/^aorta, /, "")
    .replace(distalAorta, "")
    .replaceAll(" artery", "")
    .replaceAll("of the ", "of ")
    .replaceAll("to the left", "to left");
