import type { ArchVariantId } from "../../anatomy/arch-variants.ts";
import { type AorticPlace, placeById, placeDistalToLeftSubclavian } from "../../anatomy/places.ts";
import type { FindingId } from "../../cases/vocabulary.ts";
import type {
  EdgeId,
  LumenId,
  PathId,
  QuantityId,
  StatisticId,
} from "../../quantities/measured-quantity.ts";
import {
  type caseFields,
  type examFields,
  type MarkEntry,
  type StationColumn,
  worklistData,
  type WorklistEntry,
  type WorklistGroup,
} from "./worklist-data.ts";

/** What all items of a worklist have. */
interface ItemBase {
  /** The same for the same thing in every worklist. */
  id: string;
  /** What is asked for, without the place: "largest diameter, inner edge". */
  asked: string;
  /** Where, in words: "zone 2"; for a cell of a sheet, which sheet. */
  where: string;
  /** Ids of the calculators that can't do without it. */
  decides: readonly string[];
  /** Asked only of a patient with a dissection. */
  onlyInDissection: boolean;
  /** Arch variants with which alone it is asked; empty where it is asked in any arch. */
  onlyWith: readonly ArchVariantId[];
  /** Arch variants with which it is not asked. */
  notWith: readonly ArchVariantId[];
  /** Ids of items that make it superfluous where all of them are measured. */
  unless: readonly string[];
  note: string | null;
}

/** A row of a measurement sheet. */
export interface MeasurementItem extends ItemBase {
  form: "measurements";
  place: AorticPlace;
  quantity: QuantityId;
  /** Null where the quantity has none. */
  statistic: StatisticId | null;
  /** Null where the quantity is of no lumen. */
  lumen: LumenId | null;
  /** Null where any edge will do. */
  edge: EdgeId | null;
  /** Null where the quantity runs along no path. */
  path: PathId | null;
}

/** A row of a finding sheet; without a place it may be anywhere. */
export interface FindingItem extends ItemBase {
  form: "findings";
  place: AorticPlace | null;
  finding: FindingId;
  /** No word of the sheet says that there is none: written where it is so, and never missing. */
  onlyIfSeen: boolean;
}

/** A landmark of a centreline, with the edge where it is a branch. */
export interface Mark {
  place: AorticPlace;
  edge: "proximal edge" | "distal edge" | null;
}

/** A row of a centreline sheet that names a landmark on the aorta. */
export interface MarkItem extends ItemBase {
  form: "mark";
  mark: Mark;
}

/** Columns to fill at stations between two marks. */
export interface StretchItem extends ItemBase {
  form: "stretch";
  vessel: "aorta" | "right access path" | "left access path";
  lumen: LumenId;
  from: Mark;
  to: Mark;
  /** Largest distance from one station to the next. */
  everyMm: number;
  columns: readonly StationColumn[];
}

/** A cell of the case sheet. */
export interface CaseItem extends ItemBase {
  form: "case";
  field: (typeof caseFields)[number];
}

/** Something to be stated of the exam. */
export interface ExamItem extends ItemBase {
  form: "exam";
  field: (typeof examFields)[number];
}

export type WorkItem = MeasurementItem | FindingItem | MarkItem | StretchItem | CaseItem | ExamItem;

/** Everything that one procedure needs measured, found or stated. */
export interface Procedure {
  id: string;
  label: string;
  /** In the order of the worklist, each once. */
  items: readonly WorkItem[];
  /** Why it asks for this, with the source, by group. */
  basis: readonly { group: string; what: string; source: string; confirmed: boolean }[];
}

const distancePattern = /^left-subclavian-artery\+(\d+)mm$/;

function placeOf(id: string): AorticPlace {
  const distance = distancePattern.exec(id)?.[1];
  return distance === undefined ? placeById(id) : placeDistalToLeftSubclavian(Number(distance));
}

const lumenWords = (lumen: LumenId): string =>
  lumen === "whole" || lumen === "unstated" ? "" : `${lumen} lumen`;
const listed = (...parts: string[]): string => parts.filter((part) => part !== "").join(", ");

function known<T>(table: Readonly<Record<string, T>>, name: string): T {
  const value = Object.hasOwn(table, name) ? table[name] : undefined;
  if (value === undefined) throw new Error(`worklists.yaml knows no ${name}`);
  return value;
}

const markOf = ({ place, edge }: MarkEntry): Mark => ({
  place: placeOf(place),
  edge: edge ?? null,
});

/** "distal edge of the left subclavian artery", "sinotubular junction". */
export const markWords = ({ place, edge }: Mark): string =>
  edge === null ? place.label : `${edge} of the ${place.label}`;

/** Quantities of a section: they are of one lumen, and to one edge. */
const sectionQuantities: ReadonlySet<QuantityId> = new Set(["diameter", "perimeter", "area"]);

type Shared = Omit<ItemBase, "id" | "asked" | "where">;
type Own<Item extends WorkItem> = Item extends WorkItem ? Omit<Item, keyof Shared> : never;

function measurementItems(
  entry: Extract<WorklistEntry, { form: "measurements" }>,
): Own<MeasurementItem>[] {
  const { at, write, lumen, edge } = entry;
  return at.map(placeOf).flatMap((place) =>
    write.map((words): Own<MeasurementItem> => {
      const { quantity, statistic = null, path = null } = known(worklistData.quantities, words);
      const isSection = sectionQuantities.has(quantity);
      const wall = isSection ? (edge ?? null) : null;
      return {
        form: "measurements",
        id: listed(place.id, words, lumenWords(lumen), wall ?? ""),
        asked: listed(words, lumenWords(lumen), wall === null ? "" : `${wall} edge`),
        where: place.label,
        place,
        quantity,
        statistic,
        lumen: isSection ? lumen : null,
        edge: wall,
        path,
      };
    }),
  );
}

function findingItems(entry: Extract<WorklistEntry, { form: "findings" }>): Own<FindingItem>[] {
  const { at, find, onlyIfSeen = false } = entry;
  const places = at === undefined ? [null] : at.map(placeOf);
  return places.flatMap((place) =>
    find.map((finding): Own<FindingItem> => ({
      form: "findings",
      id: [place?.id ?? "anywhere", finding].join(", "),
      asked: finding,
      where: place?.label ?? "where it is seen",
      place,
      finding,
      onlyIfSeen,
    })),
  );
}

function stretchItem({
  stretch,
  columns,
}: Extract<WorklistEntry, { form: "stretch" }>): Own<StretchItem> {
  const { vessel, lumen, from, to, everyMm } = known(worklistData.stretches, stretch);
  const ends = { from: markOf(from), to: markOf(to) };
  const names = known(worklistData.columnSets, columns);
  return {
    form: "stretch",
    id: `${stretch}, ${columns}`,
    asked: listed(`stations every ${everyMm} mm with ${names.join(", ")}`, lumenWords(lumen)),
    where: `${vessel}, ${markWords(ends.from)} to ${markWords(ends.to)}`,
    vessel,
    lumen,
    ...ends,
    everyMm,
    columns: names,
  };
}

function ownItems(entry: WorklistEntry): Own<WorkItem>[] {
  switch (entry.form) {
    case "measurements":
      return measurementItems(entry);
    case "findings":
      return findingItems(entry);
    case "mark":
      return entry.marks.map(markOf).map((mark): Own<MarkItem> => ({
        form: "mark",
        id: listed("mark", mark.place.id, mark.edge ?? ""),
        asked: "distance on the centreline",
        where: markWords(mark),
        mark,
      }));
    case "stretch":
      return [stretchItem(entry)];
    case "case":
      return [
        {
          form: "case",
          id: entry.field,
          asked: entry.field,
          where: "case sheet",
          field: entry.field,
        },
      ];
    case "exam":
      return [
        { form: "exam", id: entry.field, asked: entry.field, where: "exam", field: entry.field },
      ];
  }
}

function itemsOf(entry: WorklistEntry): WorkItem[] {
  const { decides, onlyIn, onlyWith, notWith, unless, note = null } = entry;
  for (const id of decides) known(worklistData.calculators, id);
  const onlyInDissection = onlyIn === "dissection";
  const shared: Shared = { decides, onlyInDissection, onlyWith, notWith, unless, note };
  return ownItems(entry).map((own): WorkItem => ({ ...own, ...shared }));
}

/** Groups of which there is one for each zone are written out. */
function groupsOf(group: WorklistGroup): WorklistGroup[] {
  if (group.zones.length === 0) return [group];
  return group.zones.map((zone) => {
    const text = JSON.stringify(group).replaceAll("<zone>", zone);
    const own = JSON.parse(text) as WorklistGroup;
    const extra = group.notWithInZone[zone] ?? [];
    const items = own.items.map((item) => ({ ...item, notWith: [...item.notWith, ...extra] }));
    return { ...own, items };
  });
}

const groups = new Map(
  worklistData.groups.flatMap(groupsOf).map((group) => [group.id, group] as const),
);

/** One item for what several groups ask: it decides what any of them needs, and stands under the loosest condition. */
function merged(one: WorkItem, other: WorkItem): WorkItem {
  return {
    ...one,
    decides: [...new Set([...one.decides, ...other.decides])],
    onlyInDissection: one.onlyInDissection && other.onlyInDissection,
    onlyWith: one.onlyWith.length === 0 ? [] : other.onlyWith,
    notWith: one.notWith.filter((variant) => other.notWith.includes(variant)),
    unless: one.unless.filter((id) => other.unless.includes(id)),
    note: one.note ?? other.note,
  };
}

function procedureOf({
  id,
  label,
  groups: names,
}: (typeof worklistData.procedures)[number]): Procedure {
  const own = names.map((name) => {
    const group = groups.get(name);
    if (!group) throw new Error(`worklists.yaml has no group ${name}`);
    return group;
  });
  const items = new Map<string, WorkItem>();
  for (const next of own.flatMap((group) => group.items.flatMap(itemsOf))) {
    const met = items.get(next.id);
    items.set(next.id, met ? merged(met, next) : next);
  }
  return {
    id,
    label,
    items: [...items.values()],
    basis: own.flatMap((group) => group.basis.map((row) => ({ group: group.label, ...row }))),
  };
}

/** The worklists of all procedures, in the order of the file. */
export const procedures: readonly Procedure[] = worklistData.procedures.map(procedureOf);

/** What a calculator is called in print; throws for an id that is not in the file. */
export const calculatorLabel = (id: string): string => known(worklistData.calculators, id);
