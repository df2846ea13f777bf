import { concepts, populationConcepts } from "./concepts.ts";
import type { ContentItem } from "./content-tree.ts";
import { type Level, levelOf, maxStatements, statisticOf } from "./levels.ts";

/** Why a number of the report is not a measurement of the patient. */
type Exclusion =
  | "numbers-of-images"
  | "numbers-of-reference-group"
  | "numbers-of-context"
  | "numbers-of-another-number";

/** A number of the report that counts as a measurement, with its own level. */
export interface FoundNumber {
  item: ContentItem;
  level: Level;
}

/** The numbers of a content tree, in document order. */
export interface NumberWalk {
  numbers: FoundNumber[];
  /** How many numbers were passed over, by reason. */
  excluded: Map<Exclusion, number>;
  /** Value types that no general report class defines, such as TABLE. */
  unknownValueTypes: Set<string>;
}

const knownValueTypes = new Set(
  "CONTAINER NUM CODE TEXT PNAME UIDREF DATE TIME DATETIME IMAGE COMPOSITE WAVEFORM SCOORD SCOORD3D TCOORD".split(
    " ",
  ),
);

interface Visit {
  item: ContentItem;
  parent: ContentItem | null;
  outer: Level | null;
  /** Nearest number above. */
  number: ContentItem | null;
  excluded: Exclusion | null;
}

/** Finds the numbers by content, whatever template the report names, and whatever its class allows. */
export function walkNumbers(root: ContentItem): NumberWalk {
  const itemAt = itemFinder(root);
  const walk: NumberWalk = { numbers: [], excluded: new Map(), unknownValueTypes: new Set() };
  const open: Visit[] = [{ item: root, parent: null, outer: null, number: null, excluded: null }];
  for (let visit = open.pop(); visit; visit = open.pop()) {
    const { item, outer } = visit;
    noteValueType(walk.unknownValueTypes, item.valueType);
    const isNumber = item.valueType === "NUM";
    const excluded = visit.excluded ?? exclusionOf(visit);
    if (isNumber && excluded) walk.excluded.set(excluded, (walk.excluded.get(excluded) ?? 0) + 1);
    if (!isNumber && item.children.length === 0) continue;
    const level = excluded ? outer : levelOf(item, outer, itemAt);
    if (isNumber && !excluded && level) walk.numbers.push({ item, level });
    const number = isNumber ? item : visit.number;
    for (const child of item.children.toReversed()) {
      open.push({ item: child, parent: item, outer: level, number, excluded });
    }
  }
  return walk;
}

function noteValueType(unknown: Set<string>, valueType: string | null): void {
  if (valueType === null || knownValueTypes.has(valueType)) return;
  if (unknown.size < maxStatements) unknown.add(valueType.slice(0, 16));
}

/** Why this item, and all below it, are not measurements; null where they are. */
function exclusionOf({ item, parent, number }: Visit): Exclusion | null {
  if (item.key === concepts.imageLibrary || item.key === concepts.imageLibraryGroup) {
    return "numbers-of-images";
  }
  if (item.key === concepts.referenceMeasurementGroup) return "numbers-of-reference-group";
  if (item.valueType !== "NUM") return null;
  if (item.relationship === "HAS ACQ CONTEXT") return "numbers-of-images";
  if (item.relationship === "HAS OBS CONTEXT" || item.key === concepts.timePointOrder) {
    return "numbers-of-context";
  }
  if (number === null) return null;
  return number === parent && isStatisticOf(item, parent) ? null : "numbers-of-another-number";
}

/**
 * Whether a number below a number is its maximum, minimum or mean: the same concept with a derivation of its own
 * that the upper number does not have. Beside a population or a normal range it is a reference value.
 */
function isStatisticOf(item: ContentItem, upper: ContentItem): boolean {
  const own = statisticOf(item);
  const describesPopulation = [...item.children, ...upper.children].some(({ key }) =>
    populationConcepts.has(key),
  );
  return item.key !== "" && item.key === upper.key && own !== null
    ? own !== statisticOf(upper) && !describesPopulation
    : false;
}

/** Finds an item by its position; the table is made when the first reference asks for it. */
function itemFinder(root: ContentItem): (position: string) => ContentItem | undefined {
  let byPosition: Map<string, ContentItem> | null = null;
  return (position) => {
    if (!byPosition) {
      byPosition = new Map();
      const open = [root];
      for (let item = open.pop(); item; item = open.pop()) {
        byPosition.set(item.position, item);
        for (const child of item.children) open.push(child);
      }
    }
    return byPosition.get(position);
  };
}
