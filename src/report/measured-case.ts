import type { ArchVariantId } from "../anatomy/arch-variants.ts";
import type { RepairKind } from "../cases/vocabulary.ts";
import type { MeasuredCase, WorklistBasis } from "../planning/worklists/what-is-measured.ts";
import type { Plan } from "./plan.ts";

/** What a plan report holds of a patient for a worklist. */
export function measuredCaseOf(plan: Plan): MeasuredCase {
  const { patient, exams, measurements, findings, centrelines } = plan;
  return {
    patient: { birthDate: patient.birthDate },
    facts: {
      diagnosisWords: patient.diagnosis,
      onsetDate: patient.onsetDate,
      aetiologyWords: patient.aetiology,
      priorRepairs:
        patient.repairs?.map((repair) => ({ ...repair, kinds: repair.kinds as RepairKind[] })) ??
        null,
    },
    exams,
    measurements,
    findings,
    centrelines: centrelines.map((line) => ({
      ...line,
      stations: line.stations.map(({ mark, ...station }) => ({
        ...station,
        mark: mark && { ...mark, place: { ...mark.place, region: null, variant: null } },
      })),
    })),
  };
}

/** What else a worklist stands on, as far as the report says it. */
export function worklistBasisOf({ asOf, patient, dissection, arch }: Plan): WorklistBasis {
  return {
    asOf,
    isDissected: dissection !== null ? true : patient.diagnosis === null ? null : false,
    archVariants: arch.variants as ArchVariantId[] | null,
  };
}
