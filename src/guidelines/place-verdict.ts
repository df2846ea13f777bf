import type { AorticPlace } from "../anatomy/places.ts";
import type { CaseFacts } from "../cases/patient-case.ts";
import { dissections } from "../cases/vocabulary.ts";
import type { LimitCheck } from "./rule.ts";
import { type SizeAnswer, sizeAnswer } from "./size-limit.ts";
import type { SizeMeasure } from "./size-measure.ts";
import { valuesOf } from "./size-words.ts";
import type { UsableDiameter } from "./usable-diameters.ts";

/** What the readings of one place in one exam say about a limit. */
export interface PlaceVerdict {
  place: AorticPlace;
  /** Largest first; at least one. */
  readings: [UsableDiameter, ...UsableDiameter[]];
  /** Of the largest reading. */
  answer: SizeAnswer;
  /** Why `answer` can't be relied on: what is missing, and the sentence part; null where it can. */
  doubt: { missing: string; because: string } | null;
}

/**
 * Judges the readings of one place, all of one exam. Where some are said to be of the whole lumen, only those count.
 * A lumen that is not stated is accepted only where the diagnosis is known and is no dissection. An unclear repair
 * matters only where the limit is reached; a limit "<" always, as without this place a smaller one would decide.
 */
export function verdictAt(
  diameters: readonly UsableDiameter[],
  unclearRepair: string | null,
  check: LimitCheck,
  measure: SizeMeasure,
  { diagnoses }: CaseFacts,
): PlaceVerdict {
  const ofWholeLumen = diameters.filter(({ measurement }) => measurement.lumen === "whole");
  const sorted = (ofWholeLumen.length > 0 ? ofWholeLumen : diameters).toSorted(
    (a, b) => b.measurement.value - a.measurement.value,
  );
  const [largest, ...others] = sorted;
  if (!largest) throw new Error("a place without a reading");
  const { place } = largest.measurement;
  const answerOf = ({ measurement }: UsableDiameter): SizeAnswer =>
    sizeAnswer(measure.fromDiameterMm(measurement.value), check);
  const answers = new Set(sorted.map(answerOf));
  const lumenMatters = diagnoses === null || diagnoses.some((word) => dissections.has(word));
  const doubt = (): PlaceVerdict["doubt"] => {
    if (ofWholeLumen.length === 0 && lumenMatters) {
      const missing = `which lumen was measured (${place.label})`;
      return { missing, because: "the lumen is not stated" };
    }
    if (answers.size > 1) {
      const values = valuesOf(sorted, "or");
      const missing = `which reading is right (${place.label}): ${values}`;
      return { missing, because: `readings of the same exam differ: ${valuesOf(sorted, "and")}` };
    }
    if (unclearRepair !== null && (answers.has("met") || check.operator === "<")) {
      return { missing: unclearRepair, because: "part of the aorta was repaired" };
    }
    return null;
  };
  return { place, readings: [largest, ...others], answer: answerOf(largest), doubt: doubt() };
}
