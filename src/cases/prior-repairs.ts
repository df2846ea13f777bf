import { wordKey } from "../anatomy/dictionary.ts";
import { isCalendarDate } from "../readers/csv/sheet-date.ts";
import type { PriorRepair } from "./patient-case.ts";
import type { RepairKind } from "./vocabulary.ts";

/**
 * Repairs are separated by semicolons. Each may name its kind, zones ("zones 3 to 5", "zones 0–2", "zone 10 left"), the
 * root ("root", "Bentall": then `zones` holds "root"), and one date (YYYY, YYYY-MM or YYYY-MM-DD). "none" says that
 * there was no repair; null where nothing is said. Only zone numbers and the root say where a repair is: "ascending"
 * or "hemiarch" alone leave `zones` null. A bypass or a valve alone replaces no aorta, so its `zones` are empty, unless
 * its words also speak of the aorta: then what was replaced is not known, and they are null.
 */
export function priorRepairsOf(cell: string | null): PriorRepair[] | null {
  if (cell === null) return null;
  if (wordKey(cell) === "none") return [];
  const parts = cell.split(";").map((part) => part.trim());
  const repairs = parts.filter((words) => words !== "").map(repairOf);
  return repairs.length > 0 ? repairs : null;
}

function repairOf(words: string): PriorRepair {
  const kinds = kindsOf(words);
  return { words, date: dateOf(words), zones: zonesOf(words, kinds), kinds };
}

/** Words of the trade for each kind, as `wordKey` writes them. */
const kindWords: Record<RepairKind, readonly string[]> = {
  "frozen elephant trunk": ["frozen elephant trunk", "stented elephant trunk", "fet"],
  "elephant trunk": ["elephant trunk"],
  "stent graft": [
    "stent graft",
    "endograft",
    "endoprosthesis",
    "tevar",
    "evar",
    "fevar",
    "bevar",
    "endovascular repair",
    "endovascular aortic repair",
    "endovascular aneurysm repair",
  ],
  graft: [
    "graft",
    "interposition graft",
    "tube graft",
    "tube",
    "conduit",
    "replacement",
    "replaced",
    "open repair",
    "open surgical repair",
    "hemiarch",
    "hemi arch",
    "bentall",
    "valve sparing root replacement",
    "valve sparing root repair",
    "valve sparing",
  ],
  bypass: [
    "bypass",
    "bypass graft",
    "transposition",
    "debranching",
    "arch debranching",
    "arch vessel debranching",
    "supra aortic debranching",
    "debranching of the arch",
    "debranching of the arch vessels",
    "debranching of the supra aortic vessels",
  ],
  valve: [
    "valve replacement",
    "aortic valve replacement",
    "replacement of the aortic valve",
    "valve replaced",
    "aortic valve replaced",
    "aortic valve repair",
    "valve repair",
    "avr",
    "tavi",
    "tavr",
  ],
};

const kindOfWords = new Map(
  Object.entries(kindWords).flatMap(([kind, spellings]) =>
    spellings.map((words) => [words, kind as RepairKind] as const),
  ),
);
const longestFirst = [...kindOfWords.keys()].toSorted((a, b) => b.length - a.length);
const anyKind = new RegExp(`\\b(${longestFirst.join("|")})(?:s|es|ing|ed)?\\b`, "g");

/** Kinds in the order met; of overlapping words the longer ones count. */
function kindsOf(words: string): RepairKind[] {
  const met = [...wordKey(words).matchAll(anyKind)];
  return [...new Set(met.flatMap(([, spelling = ""]) => kindOfWords.get(spelling) ?? []))];
}

const isoDate = /(?<![\w./–-])(?:19|20)\d{2}(?:-\d{2}(?:-\d{2})?)?(?![\w/–-]|\.\d)/g;

/** The one date that is stated; null where none is, more than one, or one that is no ISO date. */
function dateOf(words: string): string | null {
  const dates = new Set(words.match(isoDate));
  const [date] = dates;
  if (date === undefined || dates.size > 1) return null;
  return isCalendarDate(`${date}-01-01`.slice(0, 10)) ? date : null;
}

/** Words that say that a bypass or valve came with more, on the aorta itself. */
const aortaWords =
  /\b(?:aort\w*|root|ascending|(?:hemi)?arch|great|descending|thora\w*|abdom\w*|infrarenal|iliac|aneurysm|dissection|stent(?:s|ed|ing)?|endo\w*|zones?)\b/;

/** Parts beyond zone 0 that are named without their zone numbers. */
const beyondZoneZero = /\b(?:(?:hemi)?arch|descending|thora\w*|abdom\w*|infrarenal|iliac)\b/;

const namesRoot = (words: string): boolean =>
  /\b(?:root|bentall)\b/.test(words) &&
  !/\b(?:no|without|native|spared|preserved) root\b|\broot (?:spar|preserv|not|was not|is not)/.test(
    words,
  );

/** Zones and root that a repair's words name; empty for a bypass or valve alone; null where the extent is not known. */
function zonesOf(words: string, kinds: readonly RepairKind[]): string[] | null {
  const key = wordKey(words);
  const numbers = zoneNumbersOf(words);
  if (numbers === null) return null;
  const replacesNoAorta = kinds.length > 0 && kinds.every((k) => k === "bypass" || k === "valve");
  if (replacesNoAorta) return aortaWords.test(key.replaceAll(anyKind, "")) ? null : [];
  const root = namesRoot(key) ? ["root"] : [];
  if (numbers.length > 0) return [...root, ...numbers];
  return root.length > 0 && !beyondZoneZero.test(key) ? root : null;
}

const number = String.raw`\d{1,2}(?!\d|[./]\d)(?!\s*(?:mm|cm|jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec))`;
const sign = String.raw`\s*(?:-|–|to|,|and|&)\s*(?:zones?\s+)?`;
const mention = new RegExp(
  String.raw`\bzones?\s+(${number}(?:${sign}${number}|\s*(?:left|right)\b(?:\s+and\s+(?:left|right)\b)?)*)`,
  "gi",
);

/** All zones that are named by number; empty where none is, null where one is not understood or does not exist. */
function zoneNumbersOf(words: string): string[] | null {
  const dateless = words.replaceAll(isoDate, "");
  if (/\bzones?\b/i.test(dateless.replaceAll(mention, ""))) return null;
  const zones: string[] = [];
  for (const [, list = ""] of dateless.matchAll(mention)) {
    const found = zonesOfList(list.toLowerCase());
    if (found === null) return null;
    zones.push(...found);
  }
  return [...new Set(zones)];
}

/** The zones of "3 to 5", "0, 1 and 2", "9-10", "10 left". */
function zonesOfList(list: string): string[] | null {
  const numbers = new Set<number>();
  for (const part of list.split(/,|and|&/)) {
    const [first, last = first, ...more] = (part.match(/\d+/g) ?? []).map(Number);
    if (first === undefined || last === undefined) continue;
    if (!(first <= last && last <= 11) || more.length > 0) return null;
    for (let zone = first; zone <= last; zone++) numbers.add(zone);
  }
  const stated = new Set(list.match(/left|right/g));
  const sides = stated.size === 0 ? ["left", "right"] : [...stated];
  const paired = [...numbers].filter((zone) => zone > 9);
  if (stated.size > 1 && paired.length > 1) return null;
  return [...numbers].flatMap((zone) =>
    zone < 10 ? [`${zone}`] : sides.map((own) => `${zone}-${own}`),
  );
}
