import { type ArchVariantId, archVariantIds, archVariantOf } from "../anatomy/arch-variants.ts";
import { wordKey } from "../anatomy/dictionary.ts";
import type { Message } from "../message.ts";
import type { CaseRow } from "../readers/reading.ts";
import { caseMessage } from "./messages.ts";
import type { CaseFacts } from "./patient-case.ts";
import { familyEventsIn } from "./family-history.ts";
import { parseDissectionNotation } from "./dissection-notation.ts";
import { parseMalperfusion } from "./malperfusion.ts";
import { priorRepairsOf } from "./prior-repairs.ts";
import { aetiologies, consideredOperations, diagnoses, symptomWords } from "./vocabulary.ts";

/** Facts of a patient without a case sheet row: everything is unknown. */
export const unknownFacts: CaseFacts = {
  heightCm: null,
  weightKg: null,
  diagnoses: null,
  diagnosisWords: null,
  onsetDate: null,
  symptoms: null,
  symptomsWords: null,
  dissectionWords: null,
  malperfusionWords: null,
  archVariants: null,
  archVariantWords: null,
  aetiology: null,
  aetiologyWords: null,
  familyHistory: null,
  familyEvents: null,
  priorRepairs: null,
  priorRepairWords: null,
  considered: null,
  consideredWords: null,
  question: null,
  source: null,
};

const partsOf = (cell: string): string[] => cell.split(";").map((words) => words.trim());

/** Understands the words of a case sheet row. A word outside the vocabulary leaves its fact unknown, with a message. */
export function understandCaseRow(row: CaseRow): { facts: CaseFacts; messages: Message[] } {
  const messages: Message[] = [];
  const notUnderstood = (heading: string, met: string, vocabulary: readonly string[]) => {
    const data = { heading, met: `"${met}"`, expected: vocabulary.join(", ") };
    messages.push(caseMessage("case-word-not-understood", row.source, data));
    return null;
  };
  const known = (heading: string, cell: string | null, vocabulary: readonly string[]) => {
    if (cell === null) return null;
    const found: string[] = [];
    for (const part of partsOf(cell)) {
      const word = vocabulary.find((entry) => wordKey(entry) === wordKey(part));
      if (word === undefined) return notUnderstood(heading, part, vocabulary);
      found.push(word);
    }
    return found;
  };
  const archVariantsIn = (cell: string | null): ArchVariantId[] | null => {
    if (cell === null) return null;
    const found = new Set<ArchVariantId>();
    for (const part of partsOf(cell)) {
      const variant = archVariantOf(part);
      if (variant === null) return notUnderstood("arch_variant", part, archVariantIds);
      found.add(variant);
    }
    if (!found.has("usual")) return [...found];
    return found.size === 1 ? [] : notUnderstood("arch_variant", cell, archVariantIds);
  };
  const symptomsIn = (cell: string | null): string[] | null => {
    const vocabulary = ["none", ...symptomWords];
    const found = known("symptoms", cell, vocabulary);
    if (cell === null || !found?.includes("none")) return found;
    return found.length === 1 ? [] : notUnderstood("symptoms", cell, vocabulary);
  };
  const extent = row.dissection === null ? null : parseDissectionNotation(row.dissection);
  if (extent !== null && "problem" in extent && wordKey(row.dissection ?? "") !== "none") {
    const data = { why: extent.problem };
    messages.push(caseMessage("dissection-not-understood", row.source, data));
  }
  for (const why of parseMalperfusion(row.malperfusion ?? "none").problems) {
    messages.push(caseMessage("malperfusion-not-understood", row.source, { why }));
  }
  const aetiology = known("aetiology", row.aetiology, aetiologies);
  const facts: CaseFacts = {
    heightCm: row.heightCm,
    weightKg: row.weightKg,
    diagnoses: known("diagnosis", row.diagnosis, diagnoses),
    diagnosisWords: row.diagnosis,
    onsetDate: row.onsetDate,
    symptoms: symptomsIn(row.symptoms),
    symptomsWords: row.symptoms,
    dissectionWords: row.dissection,
    malperfusionWords: row.malperfusion,
    archVariants: archVariantsIn(row.archVariant),
    archVariantWords: row.archVariant,
    aetiology: aetiology?.[0] ?? null,
    aetiologyWords: row.aetiology,
    familyHistory: row.familyHistory,
    familyEvents: familyEventsIn(row.familyHistory),
    priorRepairs: priorRepairsOf(row.priorRepair),
    priorRepairWords: row.priorRepair,
    considered: known("considered", row.considered, consideredOperations),
    consideredWords: row.considered,
    question: row.question,
    source: row.source,
  };
  return { facts, messages };
}
