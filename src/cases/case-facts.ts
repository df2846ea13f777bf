import { wordKey } from "../anatomy/dictionary.ts";
import type { Message } from "../message.ts";
import type { CaseRow } from "../readers/reading.ts";
import { caseMessage } from "./messages.ts";
import type { CaseFacts, PriorRepair } from "./patient-case.ts";
import { aetiologies, consideredOperations, diagnoses } from "./vocabulary.ts";

/** Facts of a patient without a case sheet row: everything is unknown. */
export const unknownFacts: CaseFacts = {
  heightCm: null,
  weightKg: null,
  diagnoses: null,
  diagnosisWords: null,
  onsetDate: null,
  aetiology: null,
  aetiologyWords: null,
  familyHistory: null,
  priorRepairs: null,
  priorRepairWords: null,
  considered: null,
  consideredWords: null,
  question: null,
  source: null,
};

/** Understands the words of a case sheet row. A word outside the vocabulary leaves its fact unknown, with a message. */
export function understandCaseRow(row: CaseRow): { facts: CaseFacts; messages: Message[] } {
  const messages: Message[] = [];
  const known = (heading: string, cell: string | null, vocabulary: readonly string[]) => {
    if (cell === null) return null;
    const found: string[] = [];
    for (const part of cell.split(";").map((words) => words.trim())) {
      const word = vocabulary.find((entry) => wordKey(entry) === wordKey(part));
      if (word === undefined) {
        const expected = vocabulary.join(", ");
        const data = { heading, met: `"${part}"`, expected };
        messages.push(caseMessage("case-word-not-understood", row.source, data));
        return null;
      }
      found.push(word);
    }
    return found;
  };
  const aetiology = known("aetiology", row.aetiology, aetiologies);
  const facts: CaseFacts = {
    heightCm: row.heightCm,
    weightKg: row.weightKg,
    diagnoses: known("diagnosis", row.diagnosis, diagnoses),
    diagnosisWords: row.diagnosis,
    onsetDate: row.onsetDate,
    aetiology: aetiology?.[0] ?? null,
    aetiologyWords: row.aetiology,
    familyHistory: row.familyHistory,
    priorRepairs: priorRepairsOf(row.priorRepair),
    priorRepairWords: row.priorRepair,
    considered: known("considered", row.considered, consideredOperations),
    consideredWords: row.considered,
    question: row.question,
    source: row.source,
  };
  return { facts, messages };
}

/**
 * Repairs are separated by semicolons; each may name zones ("zones 3 to 5", "zones 0, 1 and 2", "zone 10 left") and a
 * date (YYYY, YYYY-MM or YYYY-MM-DD). "none" says that there was no repair.
 */
function priorRepairsOf(cell: string | null): PriorRepair[] | null {
  if (cell === null) return null;
  if (wordKey(cell) === "none") return [];
  return cell.split(";").map((part) => {
    const words = part.trim();
    return {
      words,
      date: /\b\d{4}(?:-\d{2}(?:-\d{2})?)?\b/.exec(words)?.[0] ?? null,
      zones: zonesOf(words),
    };
  });
}

const zoneList =
  /\bzones? (\d{1,2}(?!\d)(?:\s*(?:-|to|,|and)\s*\d{1,2}(?![\d-]))*)( left| right)?/i;

/** The zones that a repair's words name; null where they name none, or one that does not exist. */
function zonesOf(words: string): string[] | null {
  const match = zoneList.exec(words);
  if (!match) return null;
  const [, list = "", side] = match;
  const numbers = new Set<number>();
  for (const part of list.split(/,|and/)) {
    const [first = Number.NaN, last = first] = part.split(/-|to/).map(Number);
    if (!(first <= last && last <= 11)) return null;
    for (let zone = first; zone <= last; zone++) numbers.add(zone);
  }
  const sides = side === undefined ? ["left", "right"] : [side.trim().toLowerCase()];
  return [...numbers].flatMap((zone) =>
    zone < 10 ? [`${zone}`] : sides.map((own) => `${zone}-${own}`),
  );
}
