import { findingStates } from "../cases/vocabulary.ts";
import {
  calculatorLabel,
  type Mark,
  markWords,
  type StretchItem,
  type WorkItem,
} from "../planning/worklists/worklists.ts";
import { quantities } from "../quantities/measured-quantity.ts";
import { storedUnit } from "../quantities/unit.ts";
import { sectionFields } from "../site/sheet-fields.ts";
import { quantityWords } from "../site/sheet-settings.ts";
import { csvText } from "./csv-text.ts";

/** Kinds of blank sheets, and the forms of items that each takes. */
export const blankSheetKinds = {
  measurements: ["measurements"],
  findings: ["findings"],
  centreline: ["mark", "stretch"],
} as const satisfies Record<string, readonly WorkItem["form"][]>;
export type BlankSheetKind = keyof typeof blankSheetKinds;

const columns: Record<BlankSheetKind, readonly string[]> = {
  measurements: [
    "patient_id",
    "exam_date",
    "place",
    "quantity",
    "statistic",
    "lumen",
    "edge",
    "value",
    "unit",
    "gated",
    "modality",
    "reader",
    "comment",
  ],
  findings: ["patient_id", "exam_date", "place", "finding", "state", "reader", "comment"],
  centreline: [
    "patient_id",
    "exam_date",
    "vessel",
    "distance_mm",
    "mark",
    "mark_edge",
    "wall",
    "lumen",
    "edge",
    ...sectionFields,
    "reader",
    "comment",
  ],
};

type Row = Readonly<Record<string, string>>;

/**
 * A sheet to fill in, as CSV: one row for each item of its kind, with all cells but the exam and what was measured. A
 * centreline sheet has a row for every landmark and one between the two of a stretch, to be copied for each station.
 */
export function blankSheet(
  kind: BlankSheetKind,
  items: readonly WorkItem[],
  patientId: string | null,
): string {
  const headings = columns[kind];
  const rows = rowsOf(kind, items);
  return csvText(
    headings,
    rows.map((row) =>
      headings.map((heading) => (heading === "patient_id" ? patientId : (row[heading] ?? ""))),
    ),
  );
}

function rowsOf(kind: BlankSheetKind, items: readonly WorkItem[]): Row[] {
  if (kind === "centreline") return centrelineRows(items);
  return items.flatMap((item): Row[] => {
    if (item.form !== kind) return [];
    if (item.form === "measurements") {
      const { place, quantity, statistic, lumen, edge, path } = item;
      const along = path === null ? {} : { path };
      return [
        {
          place: place.label,
          quantity: quantityWords({ quantity, ...along }) ?? "",
          statistic: statistic ?? "",
          lumen: lumen ?? "",
          edge: edge ?? "",
          unit: storedUnit[quantities[quantity].dimension],
          comment: commentOf(item),
        },
      ];
    }
    const { place, finding } = item;
    const states = findingStates[finding].join(" / ");
    const comment = `one of: ${states}; ${commentOf(item)}`;
    return [{ place: place?.label ?? "", finding, comment }];
  });
}

/** "from its origin to …; for what is re-fed, and from where; in dissection only". */
function commentOf({ note, decides, onlyInDissection, onlyWith, notWith, unless }: WorkItem) {
  return [
    note ?? "",
    `for: ${decides.map(calculatorLabel).join(", ")}`,
    onlyInDissection ? "in dissection only" : "",
    onlyWith.length > 0 ? `only with ${onlyWith.join(" or ")}` : "",
    notWith.length > 0 ? `not with ${notWith.join(" or ")}` : "",
    unless.length > 0 ? "not needed where the centreline has stations here" : "",
  ]
    .filter((part) => part !== "")
    .join("; ");
}

const cellsOfMark = ({ place, edge }: Mark): Row => ({
  mark: place.label,
  mark_edge: edge ?? "",
});

/** Landmarks first, then each stretch with its two ends; what is to be said of one landmark stands in one row. */
function centrelineRows(items: readonly WorkItem[]): Row[] {
  const rows = new Map<string, Row>();
  const add = (row: Row, comment: string): void => {
    const key = JSON.stringify(row);
    const said = rows.get(key)?.["comment"];
    rows.set(key, { edge: "inner", ...row, comment: said ? `${said}; ${comment}` : comment });
  };
  for (const item of items) {
    if (item.form !== "mark") continue;
    add({ vessel: "aorta", lumen: "whole", ...cellsOfMark(item.mark) }, commentOf(item));
  }
  const stretches = items.filter((item) => item.form === "stretch");
  for (const same of Map.groupBy(stretches, spanOf).values()) {
    const [first] = same;
    if (!first) continue;
    const { vessel, lumen, from, to, everyMm } = first;
    const fill = `fill ${same.flatMap(({ columns: own }) => own).join(", ")}`;
    const decides = [...new Set(same.flatMap((item) => item.decides))];
    const way = `${markWords(from)} to ${markWords(to)}`;
    add({ vessel, lumen, ...cellsOfMark(from) }, `first station, ${way}: ${fill}`);
    rows.set(`between, ${spanOf(first)}`, {
      edge: "inner",
      vessel,
      lumen,
      comment: `a row every ${everyMm} mm, ${way}: ${fill}; ${commentOf({ ...first, decides })}`,
    });
    add({ vessel, lumen, ...cellsOfMark(to) }, `last station, ${way}: ${fill}`);
  }
  return [...rows.values()];
}

const spanOf = ({ vessel, lumen, from, to }: StretchItem): string =>
  JSON.stringify([vessel, lumen, from.place.id, from.edge, to.place.id, to.edge]);
