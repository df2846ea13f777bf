import { codeKey } from "../../anatomy/dictionary.ts";
import type { Term } from "../../anatomy/term.ts";
import { concepts, descriptiveModifiers } from "./concepts.ts";
import type { ContentItem } from "./content-tree.ts";
import { isStatisticCode, statisticIn } from "./statistic-words.ts";

/** A term with the slot that it fills: of the statements for one slot the nearest to the number counts. */
interface Modifier {
  slot: string;
  term: Term;
}

/** A finding site with what its own children say of it. */
export interface Site {
  term: Term;
  lateralities: Term[];
  positions: Term[];
}

type Statistic = ReturnType<typeof statisticIn>;

/** What one content item states about itself and the numbers below it. */
export interface Level {
  item: ContentItem;
  outer: Level | null;
  sites: Site[];
  /** Whether a finding site stands here as content and not, as the templates have it, as a modifier. */
  containsSite: boolean;
  lateralities: Term[];
  positions: Term[];
  findings: Term[];
  methods: Term[];
  modifiers: Modifier[];
  trackingIdentifier: string | null;
  /** The concept name in the writer's own words. */
  equivalentMeaning: string | null;
  /** Maximum, minimum or mean by its own modifiers. */
  ownStatistic: Statistic;
  /** Maximum, minimum or mean by the words of its equivalent meaning, else of its tracking identifier. */
  statedStatistic: Statistic;
  /** How many numbers are its children, and their statistics. */
  numbers: { count: number; statistics: Set<Statistic> };
  observer: string | null;
  comment: string | null;
  /** SOP Instance UIDs of the images that its statements rest on. */
  references: string[];
}

/**
 * How many different statements of one aspect are kept at one level. Two are a contradiction already; the limit keeps
 * a hostile file from making every number carry thousands.
 */
export const maxStatements = 16;

function addDistinct<T>(statements: T[], statement: T): void {
  if (statements.length >= maxStatements) return;
  const text = JSON.stringify(statement);
  if (!statements.some((earlier) => JSON.stringify(earlier) === text)) statements.push(statement);
}

/** The key of a term's code; "" without one. */
export const keyOf = (term: Term | null): string => (term?.code ? codeKey(term.code) : "");

/** The slot of derivations: whatever the modifier is called, maximum, minimum and mean exclude each other. */
const statisticSlot = "statistic";

/** Collects what an item's children state. `itemAt` finds the target of an item by reference. */
export function levelOf(
  item: ContentItem,
  outer: Level | null,
  itemAt: (position: string) => ContentItem | undefined,
): Level {
  const level: Level = {
    item,
    outer,
    sites: item.valueType === "CODE" && item.key === concepts.findingSite ? sitesOf(item) : [],
    containsSite: false,
    lateralities: [],
    positions: [],
    findings: [],
    methods: [],
    modifiers: [],
    trackingIdentifier: null,
    equivalentMeaning: null,
    ownStatistic: statisticOf(item),
    statedStatistic: null,
    numbers: { count: 0, statistics: new Set() },
    observer: null,
    comment: null,
    references: [],
  };
  for (const child of item.children) {
    if (child.valueType === "NUM") {
      level.numbers.count++;
      level.numbers.statistics.add(statisticOf(child));
    }
    if (child.code) addCode(level, child, child.code);
    else if (child.text !== null) addText(level, child, child.text);
    else for (const image of imagesOf(child, itemAt)) level.references.push(image);
  }
  level.statedStatistic =
    statisticIn(level.equivalentMeaning ?? "") ?? statisticIn(level.trackingIdentifier ?? "");
  return level;
}

/** The maximum, minimum or mean that an item's own modifiers make it; null without one. */
export function statisticOf(item: ContentItem): Statistic {
  const keys = item.children.map(({ code }) => keyOf(code));
  return keys.find((key) => isStatisticCode(key)) ?? null;
}

function addCode(level: Level, child: ContentItem, code: Term): void {
  const isModifier = child.relationship === "HAS CONCEPT MOD";
  switch (child.key) {
    case concepts.findingSite:
      for (const found of sitesOf(child)) addDistinct(level.sites, found);
      if (!isModifier) level.containsSite = true;
      return;
    case concepts.laterality:
      addDistinct(level.lateralities, code);
      return;
    case concepts.topographicalModifier:
      addDistinct(level.positions, code);
      return;
    case concepts.finding:
      addDistinct(level.findings, code);
      return;
    case concepts.measurementMethod:
      addDistinct(level.methods, code);
      return;
    default:
      if (
        child.key === concepts.derivation ||
        (isModifier && !descriptiveModifiers.has(child.key))
      ) {
        const isStatistic = child.key === concepts.derivation || isStatisticCode(keyOf(code));
        addDistinct(level.modifiers, { slot: isStatistic ? statisticSlot : child.key, term: code });
      }
  }
}

function addText(level: Level, child: ContentItem, text: string): void {
  if (child.key === concepts.trackingIdentifier) level.trackingIdentifier ??= text;
  if (child.key === concepts.personObserverName) level.observer ??= readableName(text);
  if (child.key === concepts.equivalentMeaning) level.equivalentMeaning ??= text;
  if (child.key === concepts.comment) level.comment ??= text;
}

function sitesOf(site: ContentItem): Site[] {
  if (!site.code) return [];
  const codesOf = (key: string): Term[] =>
    site.children.flatMap((child) => (child.key === key && child.code ? child.code : []));
  return [
    {
      term: site.code,
      lateralities: codesOf(concepts.laterality),
      positions: codesOf(concepts.topographicalModifier),
    },
  ];
}

/** The images that an item names, itself or through the region that was drawn on them. */
function imagesOf(
  item: ContentItem,
  itemAt: (position: string) => ContentItem | undefined,
): string[] {
  const target = item.referenceTo === null ? item : itemAt(item.referenceTo);
  if (!target) return [];
  if (target.references.length > 0) return target.references;
  const isRegion = target.valueType === "SCOORD" || target.valueType === "SCOORD3D";
  return isRegion ? target.children.flatMap(({ references }) => references) : [];
}

/** "Family, Given Middle" from the first filled component group of a person name; prefixes and suffixes are left out. */
export function readableName(personName: string): string {
  const group = personName.split("=").find((part) => /[^^ ]/.test(part)) ?? "";
  const [family = "", given = "", middle = ""] = group.split("^").map((part) => part.trim());
  const givenNames = [given, middle].filter((part) => part !== "").join(" ");
  return [family, givenNames].filter((part) => part !== "").join(", ");
}
