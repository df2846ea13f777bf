import type { Measurement, PatientCase } from "../cases/patient-case.ts";
import { disagreements } from "../guidelines/disagreements.ts";
import { ageInYears } from "../guidelines/population.ts";
import { evaluateRules } from "../guidelines/evaluate-rules.ts";
import type { Rule } from "../guidelines/rule.ts";
import { assessGrowth } from "../growth/growth.ts";
import { publishedReadingError, type ReadingError } from "../growth/reading-error.ts";
import { missingOf } from "../planning/completeness.ts";
import { landingOptions } from "../planning/landing-options.ts";
import { promptsOf } from "../planning/prompts.ts";
import { quantities } from "../quantities/measured-quantity.ts";
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
}

/** The reading error in force: the site's own, else the published range. */
export function readingErrorOf(site: SiteConfig): ReadingError {
  const { readingErrorSdMm: sdMm, readingErrorSource: source } = site;
  return sdMm === null || source === null
    ? publishedReadingError
    : { lowSdMm: sdMm, highSdMm: sdMm, source };
}

/** Computes everything that is printed about one patient. Pure: the same case and basis give the same plan. */
export function buildPlan(patientCase: PatientCase, basis: PlanBasis): Plan {
  const { asOf, version, rules, site } = basis;
  const { patient, facts } = patientCase;
  const readingError = readingErrorOf(site);
  const readingSdMm = readingError.highSdMm;
  const growth = assessGrowth(patientCase, rules, { asOf, readingError });
  const assessments = evaluateRules(patientCase, rules, { asOf, readingSdMm });
  const options = landingOptions(patientCase, { asOf, readingSdMm });
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
