import type { Measurement, PatientCase } from "../cases/patient-case.ts";
import { disagreements } from "../guidelines/disagreements.ts";
import { ageInYears } from "../guidelines/population.ts";
import { evaluateRules } from "../guidelines/evaluate-rules.ts";
import type { Rule } from "../guidelines/rule.ts";
import { assessGrowth } from "../growth/growth.ts";
import {
  publishedReadingError,
  type ReadingErrors,
  readingErrorOfReading,
  siteError,
} from "../growth/reading-error.ts";
import { missingOf } from "../planning/completeness.ts";
import { landingOptions } from "../planning/landing-options.ts";
import { promptsOf } from "../planning/prompts.ts";
import { quantities } from "../quantities/measured-quantity.ts";
import { generalReadingError } from "../site/reading-errors.ts";
import type { InventoryRow } from "../readers/csv/inventory.ts";
import type { SiteConfig } from "../site/site-config.ts";
import type { AorticPlace } from "../anatomy/places.ts";
import { cautions } from "./cautions.ts";
import type { Plan, PlanMeasurement, PlanPlace } from "./plan.ts";

/** What a plan stands on besides the case. */
export interface PlanBasis {
  /** YYYY-MM-DD. */
  asOf: string;
  version: string;
  rules: readonly Rule[];
  /** Digest of `rules`, printed on every page. */
  rulesDigest: string;
  site: SiteConfig;
  /** Null where the site names no inventory. */
  inventory: readonly InventoryRow[] | null;
}

/** The reading errors in force: the site's own by method, and its general one or the published range where none of them applies. */
export function readingErrorOf({ readingErrors }: SiteConfig): ReadingErrors {
  const general = generalReadingError(readingErrors);
  return {
    ...(general ? siteError(general) : publishedReadingError),
    byMethod: readingErrors.filter((error) => error !== general),
  };
}

/** Computes everything that is printed about one patient. Pure: the same case and basis give the same plan. */
export function buildPlan(patientCase: PatientCase, basis: PlanBasis): Plan {
  const { asOf, version, rules, site } = basis;
  const { patient, facts } = patientCase;
  const readingError = readingErrorOf(site);
  const exams = new Map(patientCase.exams.map((exam) => [exam.key, exam]));
  const readingSdMmOf = (reading: Measurement): number => {
    const exam = exams.get(reading.exam) ?? { modality: null, gated: null };
    const { place, edge } = reading;
    return readingErrorOfReading(place, { exam, edge }, readingError).highSdMm;
  };
  const growth = assessGrowth(patientCase, rules, { asOf, readingError });
  const assessments = evaluateRules(patientCase, rules, { asOf, readingSdMmOf });
  const options = landingOptions(patientCase, { asOf, readingSdMmOf, inventory: basis.inventory });
  const missing = missingOf([
    ...assessments.map((entry) => ({
      name: entry.title,
      missing: entry.missing,
      isNear: entry.value !== null,
    })),
    ...options.map((option) => ({
      name: `landing in zone ${option.zone}`,
      missing: option.missing,
      isNear: option.soundLengths.length > 0,
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
      aetiology: facts.aetiologyWords,
      familyHistory: facts.familyHistory,
      priorRepair: facts.priorRepairWords,
      repairs: facts.priorRepairs,
      considered: facts.consideredWords,
      question: facts.question,
    },
    exams: patientCase.exams,
    measurements: patientCase.measurements.map(planMeasurement),
    growth: growth.map((entry) => ({ ...entry, place: planPlace(entry.place) })),
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
    options,
    missing,
    prompts: promptsOf(patientCase),
    messages: patientCase.messages,
    cautions: [...cautions],
  };
}

function planPlace({ kind, id, label, zones, position, span }: AorticPlace): PlanPlace {
  return { kind, id, label, zones: [...zones], position, span: span && [span[0], span[1]] };
}

function planMeasurement(one: Measurement): PlanMeasurement {
  return {
    ...one,
    place: planPlace(one.place),
    quantityLabel: quantities[one.quantity].label,
  };
}
