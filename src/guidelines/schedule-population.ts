import type { PatientCase, PriorRepair } from "../cases/patient-case.ts";
import { aneurysms, type Diagnosis } from "../cases/vocabulary.ts";
import { ageInYears } from "../quantities/age-in-years.ts";
import { anyDiagnosisOf, anyOf, type FactAnswer, listed } from "./fact-answer.ts";
import type { Schedule } from "./schedule.ts";
import { aortaParts, isRepairOfPart } from "./schedule-parts.ts";

type Population = Schedule["population"];

const acuteSyndromes: ReadonlySet<string> = new Set<Diagnosis>([
  "type A dissection",
  "type B dissection",
  "intramural haematoma",
  "penetrating ulcer",
]);

/** What the facts of a case say of a schedule's population, its repair left out. `asOf` is YYYY-MM-DD. */
export function populationAnswers(
  { population }: Schedule,
  { facts, patient }: PatientCase,
  asOf: string,
): FactAnswer[] {
  const sex = patient.sex === "F" || patient.sex === "M" ? [patient.sex] : null;
  const aetiology = facts.aetiology === null ? null : [facts.aetiology];
  return [
    diagnosisAnswer(population, facts.diagnoses),
    indicationAnswer(population.indication, facts.diagnoses),
    anyOf("aetiology", population.aetiology, aetiology),
    anyOf("sex", population.sex, sex),
    ageAnswer(population.ageYears, patient.birthDate, asOf),
    unrepairedAnswer(population.unrepaired, facts.priorRepairs, asOf),
  ];
}

function diagnosisAnswer(
  { diagnosis, diagnosisNot = [] }: Population,
  stated: readonly string[] | null,
): FactAnswer {
  if (diagnosis === undefined && diagnosisNot.length === 0) return null;
  if (stated === null) return { missing: ["diagnosis"] };
  const unwanted = diagnosisNot.filter((word) => stated.includes(word));
  if (unwanted.length > 0) {
    return { excludes: `it does not speak of diagnosis ${unwanted.join(", ")}` };
  }
  return anyDiagnosisOf(diagnosis, stated);
}

function indicationAnswer(
  wanted: Population["indication"],
  stated: readonly string[] | null,
): FactAnswer {
  if (wanted === undefined) return null;
  if (stated === null) return { missing: ["diagnosis"] };
  const isAcute = stated.some((word) => acuteSyndromes.has(word));
  const isAneurysm = !isAcute && stated.some((word) => aneurysms.has(word));
  if (wanted === "aneurysm" ? isAneurysm : isAcute) return null;
  return { excludes: `it is for an ${wanted}, stated is ${listed(stated)}` };
}

function ageAnswer(
  wanted: Population["ageYears"],
  birthDate: string | null,
  asOf: string,
): FactAnswer {
  if (wanted === undefined) return null;
  if (birthDate === null) return { missing: ["birth date"] };
  const age = ageInYears(birthDate, asOf);
  const { atLeast = 0, below = Infinity } = wanted;
  if (age >= atLeast && age < below) return null;
  const asked = wanted.below === undefined ? `of ${atLeast} years or more` : `below ${below} years`;
  return { excludes: `it asks for an age ${asked}, the patient is ${age}` };
}

const repairMissing = "prior repair (or none)";
const zonesMissing = ({ words }: PriorRepair): string => `zones of the repair "${words}"`;

/** False for a repair with a date after `asOf`; one whose date may lie on either side counts as done. */
const isDoneBy =
  (asOf: string) =>
  ({ date }: PriorRepair): boolean =>
    date === null || date <= asOf.slice(0, date.length);

function unrepairedAnswer(
  part: Population["unrepaired"],
  repairs: readonly PriorRepair[] | null,
  asOf: string,
): FactAnswer {
  if (part === undefined) return null;
  if (repairs === null) return { missing: [repairMissing] };
  const done = repairs.filter(isDoneBy(asOf));
  const there = done.find(({ zones }) => zones !== null && isRepairOfPart(zones, part));
  if (there) {
    return {
      excludes: `it is for an unrepaired ${aortaParts[part].label}, stated is "${there.words}"`,
    };
  }
  const unclear = done.filter(({ zones }) => zones === null);
  return unclear.length === 0 ? null : { missing: unclear.map(zonesMissing) };
}

/**
 * The date (YYYY-MM-DD) of the latest repair that the schedule asks for, or why there is none. A repair whose kind,
 * zones or day is not stated and that may be the latest makes it unknown.
 */
export function repairDate(
  { part, kinds }: NonNullable<Population["repaired"]>,
  repairs: readonly PriorRepair[] | null,
  asOf: string,
): { date: string } | Exclude<FactAnswer, null> {
  if (repairs === null) return { missing: [repairMissing] };
  const candidates = repairs.filter(isDoneBy(asOf)).flatMap((repair) => {
    const { zones, kinds: stated } = repair;
    if (zones !== null && !isRepairOfPart(zones, part)) return [];
    if (stated.length > 0 && !kinds.some((kind) => stated.includes(kind))) return [];
    const gaps = [
      ...(stated.length === 0 ? [`kind of the repair "${repair.words}"`] : []),
      ...(zones === null ? [zonesMissing(repair)] : []),
      ...(repair.date?.length === 10 ? [] : [`date of the repair "${repair.words}" to the day`]),
    ];
    return [{ date: repair.date, gaps }];
  });
  if (candidates.length === 0) {
    const asked = `${kinds.join(" or ")} of the ${aortaParts[part].label}`;
    return { excludes: `it is for the time after a ${asked}, which is not stated` };
  }
  const latest = candidates
    .flatMap(({ date, gaps }) => (date !== null && gaps.length === 0 ? [date] : []))
    .toSorted()
    .at(-1);
  const missing = candidates.flatMap(({ date, gaps }) => {
    const isEarlier = date !== null && latest !== undefined && date < latest.slice(0, date.length);
    return isEarlier ? [] : gaps;
  });
  if (latest === undefined || missing.length > 0) return { missing };
  return { date: latest };
}
