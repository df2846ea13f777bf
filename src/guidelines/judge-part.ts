import type { CaseFacts, Measurement, PatientCase, PriorRepair } from "../cases/patient-case.ts";
import { mayTouch } from "../cases/wall.ts";
import { spans } from "../quantities/limit.ts";
import { type AssessedValue, type Finding, findingWithoutSize } from "./assessment.ts";
import { type PlaceVerdict, verdictAt } from "./place-verdict.ts";
import { repairState } from "./repair-state.ts";
import type { LimitCheck, LimitRule } from "./rule.ts";
import type { RulePart } from "./rule-places.ts";
import { limitText } from "./size-limit.ts";
import { type SizeMeasure, sizeMeasure } from "./size-measure.ts";
import { sizeWords } from "./size-words.ts";
import { openStatements, trueFactors } from "./statements.ts";
import { ofLatestExam, type UsableDiameter } from "./usable-diameters.ts";

/** What all rules of one patient share. */
export interface RuleContext {
  patientCase: PatientCase;
  /** Usable diameters of the case. */
  diameters: readonly UsableDiameter[];
  /** YYYY-MM-DD. */
  asOf: string;
  /** Standard deviation of a reading in mm; null where none is known. */
  readingSdMmOf: (reading: Measurement) => number | null;
}

/** Half-width of a 95 % interval in standard deviations. */
const z95 = 1.96;

/** Applies a size criterion to one part of the aorta; the population is known to fit. */
export function judgePart(rule: LimitRule, part: RulePart, context: RuleContext): Finding {
  const { patientCase } = context;
  const { facts } = patientCase;
  const inPart = context.diameters.filter(({ measurement }) => part.holds(measurement.place));
  if (inPart.length === 0) {
    const missing = [`largest diameter: ${part.label}`];
    return findingWithoutSize("not-assessable", `No usable diameter: ${part.label}.`, missing);
  }
  const measure = sizeMeasure(rule.check.kind, facts);
  if ("missing" in measure) {
    const reason = `The index needs ${measure.missing.join(" and ")}.`;
    return findingWithoutSize("not-assessable", reason, measure.missing);
  }
  const repairs = statedRepairs(facts);
  if ("outcome" in repairs) return repairs;
  const states = new Map(
    inPart.map(({ measurement: { place } }) => [place.id, repairState(place, repairs)]),
  );
  const unrepaired = inPart.filter(({ measurement }) => {
    return states.get(measurement.place.id) !== "repaired";
  });
  if (unrepaired.length === 0) {
    const here = repairs.filter((repair) =>
      inPart.some(({ measurement: { place } }) => mayTouch(repair, place)),
    );
    const words = here.map((repair) => `"${repair.words}"`).join(", ");
    return findingWithoutSize("not-applicable", `The place is repaired: ${part.label}, ${words}.`);
  }
  const latest = ofLatestExam(unrepaired, patientCase);
  const byPlace = Map.groupBy(latest, ({ measurement }) => measurement.place.id);
  const verdicts = [...byPlace].map(([id, readings]) => {
    const state = states.get(id);
    const unclear = typeof state === "object" ? state.unclear : null;
    return verdictAt(readings, unclear, rule.check, measure, facts);
  });
  return findingFrom(decisive(verdicts, rule.check), rule, measure, context);
}

/** The repairs that the sheet states with their zones, or what it leaves open. */
export function statedRepairs({ priorRepairs }: CaseFacts): readonly PriorRepair[] | Finding {
  if (priorRepairs === null) {
    const reason = "It is not stated whether the aorta was repaired.";
    return findingWithoutSize("not-assessable", reason, ["prior repair (or none)"]);
  }
  const unnamed = priorRepairs.find(({ zones }) => zones === null);
  if (!unnamed) return priorRepairs;
  const reason = `The repair "${unnamed.words}" may concern this place.`;
  return findingWithoutSize("not-assessable", reason, ["which zones were repaired"]);
}

/**
 * The verdict that decides for a part: the largest that surely reaches the limit (a limit "<": that surely is not below
 * it), else one in doubt, else the largest.
 */
function decisive(verdicts: readonly PlaceVerdict[], { operator }: LimitCheck): PlaceVerdict {
  const decides = ({ answer }: PlaceVerdict): boolean =>
    operator === "<" ? answer === "above-band" : answer !== "below";
  const bySize = verdicts.toSorted(
    (a, b) => b.readings[0].measurement.value - a.readings[0].measurement.value,
  );
  const verdict =
    bySize.find((verdict) => decides(verdict) && verdict.doubt === null) ??
    bySize.find(({ doubt }) => doubt !== null) ??
    bySize[0];
  if (!verdict) throw new Error("a part of the aorta without a reading");
  return verdict;
}

function findingFrom(
  { place, readings, answer, doubt }: PlaceVerdict,
  rule: LimitRule,
  measure: SizeMeasure,
  { patientCase, asOf, readingSdMmOf }: RuleContext,
): Finding {
  const { check } = rule;
  const { measurement } = readings[0];
  const value = assessedValue(measurement.value, check.unit, measure, readingSdMmOf(measurement));
  const shared = {
    about: place,
    used: readings.map(({ measurement }) => measurement.key),
    value,
    spansLimit: spansLimit(value, check),
  };
  const size = sizeWords(readings, measure, check);
  const limit = limitText(check);
  if (doubt !== null) {
    const reason = `${size}: ${doubt.because}; the limit is ${limit}.`;
    return { ...shared, outcome: "not-assessable", missing: [doubt.missing], reason };
  }
  if (answer !== "met") {
    const isAboveBand = answer === "above-band" && check.operator !== "<";
    const why = isAboveBand ? `above the band ${limit}` : `the limit ${limit} is not met`;
    return { ...shared, outcome: "not-met", missing: [], reason: `${size}: ${why}.` };
  }
  const open = openStatements(rule, patientCase, asOf);
  if (open.length > 0) {
    const reason = `${size}: the size part ${limit} is met; the other conditions are not stated.`;
    return { ...shared, outcome: "not-assessable", missing: open, reason };
  }
  const stated = trueFactors(rule, patientCase, asOf);
  const because = stated.length === 0 ? "" : `; the case sheet states: ${stated.join("; ")}`;
  const reason = `${size}: the limit ${limit} is met${because}.`;
  return { ...shared, outcome: "met", missing: [], reason };
}

function assessedValue(
  diameterMm: number,
  unit: string,
  { fromDiameterMm }: SizeMeasure,
  readingSdMm: number | null,
): AssessedValue {
  const value = fromDiameterMm(diameterMm);
  if (readingSdMm === null) return { value, low: null, high: null, unit };
  const low = fromDiameterMm(diameterMm - z95 * readingSdMm);
  const high = fromDiameterMm(diameterMm + z95 * readingSdMm);
  return { value, low, high, unit };
}

function spansLimit({ low, high }: AssessedValue, { value, below }: LimitCheck): boolean {
  if (low === null || high === null) return false;
  return [value, below].some((end) => end !== undefined && spans(low, high, end));
}
