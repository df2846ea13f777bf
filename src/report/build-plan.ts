import { archOf } from "../cases/arch.ts";
import { derivedQuantities } from "../cases/derived-quantities.ts";
import { dissectionOf } from "../cases/dissection.ts";
import { wallsAt } from "../cases/wall.ts";
import type { Exam, Measurement, PatientCase, Station } from "../cases/patient-case.ts";
import { stationPlaces } from "../cases/station-place.ts";
import { disagreements } from "../guidelines/disagreements.ts";
import { ageInYears } from "../quantities/age-in-years.ts";
import { evaluateRules } from "../guidelines/evaluate-rules.ts";
import type { HiddenRule } from "../guidelines/apply-rule-decisions.ts";
import type { Schedule } from "../guidelines/schedule.ts";
import { surveillance } from "../growth/surveillance.ts";
import type { Rule } from "../guidelines/rule.ts";
import { assessGrowth } from "../growth/growth.ts";
import type { ReadingErrorEstimate } from "../growth/estimated-reading-error.ts";
import { projections } from "../growth/projection.ts";
import { type ReadingErrors, readingErrorOfReading } from "../growth/reading-error.ts";
import { missingOf } from "../planning/worklists/completeness.ts";
import { computedFacts } from "../planning/prompts/computed-facts.ts";
import { planningOf } from "../planning/planning.ts";
import { promptsOf } from "../planning/prompts/prompts.ts";
import { quantities } from "../quantities/measured-quantity.ts";
import type { InventoryRow } from "../readers/csv/inventory.ts";
import type { SiteConfig } from "../site/site-config.ts";
import { archScheme, type ArchZone } from "../anatomy/arch-variants.ts";
import { cautions } from "./cautions.ts";
import { planPlace } from "./plan-place.ts";
import { planPlanning } from "./plan-planning.ts";
import type { Plan, PlanMeasurement } from "./plan.ts";

/** What a plan stands on besides the case. */
export interface PlanBasis {
  /** YYYY-MM-DD. */
  asOf: string;
  version: string;
  rules: readonly Rule[];
  /** Digest of `rules`, printed on every page. */
  rulesDigest: string;
  /** Rules that the site hides, with its decisions. */
  hiddenRules: readonly HiddenRule[];
  /** Published schedules of follow-up imaging. */
  schedules: readonly Schedule[];
  site: SiteConfig;
  /** From the double readings of all cases of the run. */
  readingErrorEstimates: readonly ReadingErrorEstimate[];
  /** Null where the site names no inventory. */
  inventory: readonly InventoryRow[] | null;
}

/** The reading errors in force: the site's own by method, else those estimated from double readings, else published ones. */
export function readingErrorOf({
  site,
  readingErrorEstimates,
}: Pick<PlanBasis, "site" | "readingErrorEstimates">): ReadingErrors {
  return { stated: site.readingErrors, estimated: readingErrorEstimates };
}

/** Computes everything that is printed about one patient. Pure: the same case and basis give the same plan. */
export function buildPlan(patientCase: PatientCase, basis: PlanBasis): Plan {
  const { asOf, version, rules, site } = basis;
  const { patient, facts } = patientCase;
  const readingError = readingErrorOf(basis);
  const exams = new Map(patientCase.exams.map((exam) => [exam.key, exam]));
  const methodOf = (key: string): Method => exams.get(key) ?? { modality: null, gated: null };
  const readingSdMmOf = (reading: Measurement): number => {
    const exam = methodOf(reading.exam);
    const { place, edge } = reading;
    return readingErrorOfReading(place, { exam, edge }, readingError).highSdMm;
  };
  const growth = assessGrowth(patientCase, rules, { asOf, readingError });
  const assessments = evaluateRules(patientCase, rules, { asOf, readingSdMmOf });
  const dissection = dissectionOf(patientCase, asOf);
  const planning = planningOf(patientCase, {
    asOf,
    dissection,
    archConventions: site.archConventions,
    planning: site.planning,
    inventory: basis.inventory,
    readingSdMmOf,
    stationSdMmOf: stationErrors(patientCase, methodOf, readingError),
  });
  const missing = missingOf([
    ...assessments.map((entry) => ({
      name: entry.title,
      missing: entry.missing,
      isNear: entry.value !== null,
    })),
    ...planning.options.map((option) => ({
      name: `landing in zone ${option.zone}`,
      missing: option.missing,
      isNear: option.segments.some(({ basis: how }) => how !== "none"),
    })),
  ]);
  return {
    schema: "aortic-packet/plan/1",
    asOf,
    software: { name: "aortic-packet", version, rulesDigest: basis.rulesDigest },
    preferredGuideline: site.preferredGuideline,
    patient: {
      key: patientCase.key,
      ...patient,
      ageYears: patient.birthDate === null ? null : ageInYears(patient.birthDate, asOf),
      heightCm: facts.heightCm,
      weightKg: facts.weightKg,
      diagnosis: facts.diagnosisWords,
      onsetDate: facts.onsetDate,
      symptoms: facts.symptomsWords,
      aetiology: facts.aetiologyWords,
      familyHistory: facts.familyHistory,
      priorRepair: facts.priorRepairWords,
      repairs: facts.priorRepairs,
      considered: facts.consideredWords,
      question: facts.question,
    },
    exams: patientCase.exams,
    measurements: patientCase.measurements.map(planMeasurement),
    derived: derivedQuantities(patientCase).map((entry) => ({
      ...entry,
      place: planPlace(entry.place),
    })),
    findings: patientCase.findings.map((entry) => ({ ...entry, place: planPlace(entry.place) })),
    arch: planArch(patientCase, site),
    walls: wallsAt(facts.priorRepairs, asOf, "present").map(({ zone, label, wall }) => ({
      zone,
      label,
      ...("unclear" in wall
        ? { kind: null, since: null, words: null, unclear: wall.unclear }
        : { ...wall, unclear: null }),
    })),
    dissection,
    growth: growth.map((entry) => ({
      ...entry,
      place: planPlace(entry.place),
      projections: projections(entry, assessments, asOf),
    })),
    assessments: assessments.map((entry) => ({
      ...entry,
      about: entry.about && planPlace(entry.about),
    })),
    disagreements: disagreements(assessments, rules).map((entry) => ({
      ...entry,
      about: planPlace(entry.about),
      statements: entry.statements.toSorted(
        (a, b) =>
          Number(b.body === site.preferredGuideline) - Number(a.body === site.preferredGuideline),
      ),
    })),
    hiddenRules: basis.hiddenRules.map(({ rule, decision }) => ({
      rule: rule.id,
      title: rule.title,
      body: rule.source.body,
      year: rule.source.year,
      by: decision.by,
      date: decision.date,
      reason: decision.reason,
    })),
    surveillance: planSurveillance(patientCase, basis),
    ...planPlanning(patientCase, planning),
    missing,
    prompts: promptsOf(patientCase, asOf, {
      limitsReached: assessments
        .filter(({ outcome }) => outcome === "met")
        .map(({ title, reason }) => `${title}: ${reason}`),
      ...computedFacts(planning, site.planning),
    }),
    messages: patientCase.messages,
    cautions: [...cautions],
  };
}

type Method = Pick<Exam, "modality" | "gated">;

/** SD in mm of the diameter of a station: that of a reading by the same method in the same part of the aorta. */
function stationErrors(
  { centrelines }: PatientCase,
  methodOf: (exam: string) => Method,
  readingError: ReadingErrors,
): (station: Station) => number {
  const known = new Map(
    centrelines.flatMap((line) =>
      [...stationPlaces(line)].map(([key, place]) => [key, { exam: line.exam, place }] as const),
    ),
  );
  return ({ key, edge }) => {
    const at = known.get(key);
    if (!at) throw new Error(`station ${key} is on no centreline of the case`);
    const exam = methodOf(at.exam);
    return readingErrorOfReading(at.place, { exam, edge }, readingError).highSdMm;
  };
}

/** The schedules that speak, or may speak, of the patient; of the others only the number. */
function planSurveillance(
  patientCase: PatientCase,
  { schedules, asOf }: PlanBasis,
): Plan["surveillance"] {
  const all = surveillance(patientCase, schedules, { asOf });
  const speaking = all.schedules.flatMap(({ outcome, source, ...rest }) =>
    outcome === "does-not-apply"
      ? []
      : [{ ...rest, outcome, source: { ...source, doi: source.doi ?? null } }],
  );
  return {
    schedules: speaking,
    notApplicable: all.schedules.length - speaking.length,
    next: all.next,
  };
}

/** The arch with the zones that it has; where none is stated, those of the usual arch. */
function planArch(patientCase: PatientCase, { archConventions }: SiteConfig): Plan["arch"] {
  const arch = archOf(patientCase);
  const { zones, undefinedBecause, source } = archScheme(arch.variants ?? [], archConventions);
  const zone = (id: ArchZone) => {
    const known = zones[id];
    return known && { ...known, branches: [...known.branches] };
  };
  return {
    ...arch,
    zones: { "0": zone("0"), "1": zone("1"), "2": zone("2"), "3": zone("3"), "4": zone("4") },
    undefinedBecause,
    source,
  };
}

function planMeasurement(one: Measurement): PlanMeasurement {
  return {
    ...one,
    place: planPlace(one.place),
    quantityLabel: quantities[one.quantity].label,
  };
}
