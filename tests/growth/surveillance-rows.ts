import type { CaseFacts, PatientCase, PriorRepair } from "../../src/cases/patient-case.ts";
import type { RepairKind } from "../../src/cases/vocabulary.ts";
import { inventedCase } from "../guidelines/invented-case.ts";
import { columnsOf, oneOf } from "../guidelines/text-table.ts";

/** An invented repair of 31 January 2024, a day that most months do not have. */
export const repair = (kind: RepairKind, ...zones: string[]): PriorRepair => ({
  words: `invented ${kind}`,
  date: "2024-01-31",
  zones,
  kinds: [kind],
});

interface Person {
  facts: Partial<CaseFacts>;
  patient?: Partial<PatientCase["patient"]>;
}

const onsetDate = "2024-01-31";
const cause = (aetiology: string): Person => ({ facts: { aetiology, diagnoses: [] } });
const acute = (diagnosis: string, ...priorRepairs: PriorRepair[]): Person => ({
  facts: { diagnoses: [diagnosis], onsetDate, priorRepairs },
});
const aneurysm = (diagnosis: string, ...priorRepairs: PriorRepair[]): Person => ({
  facts: { diagnoses: [diagnosis], priorRepairs },
});
const thoracicStentGraft = repair("stent graft", "3", "4", "5");
const rootGraft = repair("graft", "root", "0");

/** Invented populations; each differs from a man of 66 with a degenerative aneurysm as shown. */
export const people = {
  thoracicStentGraft: aneurysm("descending thoracic aneurysm", thoracicStentGraft),
  ascendingGraft: aneurysm("ascending aneurysm", repair("graft", "0")),
  ascending: aneurysm("ascending aneurysm"),
  ascendingWoman: { ...aneurysm("ascending aneurysm"), patient: { sex: "F" } },
  descending: aneurysm("descending thoracic aneurysm"),
  dissectionStentGraft: acute("type B dissection", thoracicStentGraft),
  dissectionGraft: acute("type A dissection", repair("graft", "0", "1")),
  medicalB: acute("type B dissection"),
  ulcer: acute("penetrating ulcer"),
  abdominal: aneurysm("abdominal aneurysm"),
  abdominalWoman: { ...aneurysm("abdominal aneurysm"), patient: { sex: "F" } },
  abdominalStentGraft: aneurysm("abdominal aneurysm", repair("stent graft", "8", "9")),
  abdominalGraft: aneurysm("abdominal aneurysm", repair("graft", "9")),
  bicuspid: cause("bicuspid valve"),
  marfan: cause("Marfan"),
  marfanRootGraft: { facts: { aetiology: "Marfan", diagnoses: [], priorRepairs: [rootGraft] } },
  loeysDietz: cause("Loeys-Dietz TGFB2"),
  acta2: cause("ACTA2"),
  turner: { ...cause("Turner"), patient: { sex: "F" } },
  turnerChild: { ...cause("Turner"), patient: { sex: "F", birthDate: "2008-06-02" } },
} satisfies Record<string, Person>;
export type PersonName = keyof typeof people;

/** A needed fact, and the same patient without it. */
const withoutFact = {
  diagnosis: { facts: { diagnoses: null } },
  aetiology: { facts: { aetiology: null } },
  "prior repair (or none)": { facts: { priorRepairs: null } },
  "onset date": { facts: { onsetDate: null } },
  sex: { facts: {}, patient: { sex: "O" } },
  "birth date": { facts: {}, patient: { birthDate: null } },
  weight: { facts: { weightKg: null } },
} satisfies Record<string, Person>;
export type FactName = keyof typeof withoutFact;

/** "CT mid-ascending+zone-9 42 2025-01-20": one exam with the same diameter in mm at each place; several by a comma. */
export function caseOf(name: PersonName, exams: string, without?: FactName): PatientCase {
  const person: Person = people[name];
  const blank: Person = without === undefined ? { facts: {} } : withoutFact[without];
  const specs = exams
    .split(", ")
    .filter((spec) => spec !== "")
    .map((spec) => {
      const [modality = "", places = "", mm, date = ""] = spec.split(" ");
      return { modality, places: places.split("+"), mm: Number(mm), date };
    });
  const built = inventedCase(
    specs.flatMap(({ places, mm, date }) => places.map((place) => ({ place, mm, exam: date }))),
    { ...person.facts, ...blank.facts },
    { ...person.patient, ...blank.patient },
  );
  const exam = (date: string) => specs.find((spec) => spec.date === date);
  return {
    ...built,
    exams: built.exams
      .filter(({ key }) => exam(key) !== undefined)
      .map((one) => {
        const modality = exam(one.key)?.modality ?? "";
        return { ...one, modality: modality === "?" ? null : modality };
      }),
  };
}

/**
 * Every schedule, typed by hand and not made from the schedule files: schedule, patient, exam, days on which the next
 * exam is due ("done" where none is printed, "only if" where a person must affirm something first), a patient it is
 * not for, a fact it needs. Repair and onset are on 2024-01-31.
 */
const table = `
acc-aha-2022-after-thoracic-stent-graft                   thoracicStentGraft    CT zone-4 40 2025-01-20             2026-01-20               ascendingGraft        prior repair (or none)
acc-aha-2022-after-open-thoracic-repair                   ascendingGraft        CT zone-0 40 2025-01-20             2030-01-20               thoracicStentGraft    prior repair (or none)
acc-aha-2022-after-open-thoracic-repair-residual-disease  ascendingGraft        CT zone-0 40 2025-01-20             only if                  ascending             prior repair (or none)
acc-aha-2022-acute-syndrome-medical                       medicalB              CT zone-4 40 2025-01-20             2026-01-20               dissectionStentGraft  onset date
acc-aha-2022-acute-syndrome-repaired-residual-disease     dissectionGraft       CT zone-4 40 2025-01-20             only if                  medicalB              diagnosis
acc-aha-2022-sporadic-thoracic-dilation                   ascending             CT zone-0 42 2025-01-20             2025-07-20 2026-01-20    abdominal             aetiology
acc-aha-2022-turner-child                                 turnerChild           MR zone-0 30 2025-01-20             2030-01-20               turner                birth date
acc-aha-2022-turner-adult                                 turner                MR zone-0 30 2025-01-20             2035-01-20               turnerChild           birth date
acc-aha-2022-turner-size-index-above-2-3                  turner                MR zone-0 45 2025-01-20             2026-01-20               marfan                weight
acc-aha-2022-marfan-tte                                   marfan                US zone-0 40 2025-01-20             2025-07-20               marfanRootGraft       aetiology
acc-aha-2022-marfan-after-root-replacement                marfanRootGraft       CT zone-4 30 2025-01-20             2026-01-31               marfan                aetiology
acc-aha-2022-marfan-abdominal-after-root-replacement      marfanRootGraft       CT zone-9 20 2025-01-20             2028-01-20 2030-01-20    ascendingGraft        prior repair (or none)
acc-aha-2022-after-abdominal-stent-graft-ct               abdominalStentGraft   CT zone-9 50 2025-01-20             2030-01-20               thoracicStentGraft    prior repair (or none)
acc-aha-2022-after-abdominal-stent-graft-ultrasound       abdominalStentGraft   US zone-9 50 2025-01-20             2026-01-20               abdominalGraft        prior repair (or none)
acc-aha-2022-after-open-abdominal-repair                  abdominalGraft        CT zone-9 20 2025-01-20             2030-01-20               abdominalStentGraft   prior repair (or none)
acc-aha-2022-abdominal-30-to-39-mm                        abdominal             CT zone-9 35 2025-01-20             2028-01-20               abdominalGraft        diagnosis
acc-aha-2022-abdominal-men-40-to-49-mm                    abdominal             US zone-9 45 2025-01-20             2026-01-20               abdominalWoman        sex
acc-aha-2022-abdominal-women-40-to-44-mm                  abdominalWoman        US zone-9 42 2025-01-20             2026-01-20               abdominal             sex
acc-aha-2022-abdominal-men-50-mm                          abdominal             CT zone-9 52 2025-01-20             2025-07-20               abdominalWoman        prior repair (or none)
acc-aha-2022-abdominal-women-45-mm                        abdominalWoman        CT zone-9 47 2025-01-20             2025-07-20               abdominal             sex
esc-2024-after-open-thoracic-repair                       ascendingGraft        CT zone-0 40 2025-01-20             2026-01-31               dissectionGraft       diagnosis
esc-2024-after-thoracic-stent-graft-aneurysm              thoracicStentGraft    CT zone-4 40 2025-01-20             2026-01-31               dissectionStentGraft  diagnosis
esc-2024-sac-growth-after-stent-graft                     thoracicStentGraft    CT zone-4 40 2025-01-20             only if                  ascendingGraft        prior repair (or none)
esc-2024-after-thoracic-stent-graft-acute-syndrome        dissectionStentGraft  CT zone-4 40 2025-01-20             2026-01-31               thoracicStentGraft    diagnosis
esc-2024-medical-type-b-or-haematoma                      medicalB              CT zone-4 40 2025-01-20             2026-01-20               dissectionStentGraft  onset date
esc-2024-medical-ulcer                                    ulcer                 CT zone-4 40 2025-01-20             2025-07-20               medicalB              onset date
esc-2024-after-open-surgery-acute-syndrome                dissectionGraft       CT zone-4 40 2025-01-20             2026-01-20               ascendingGraft        diagnosis
esc-2024-no-patent-false-lumen-3-years                    medicalB              CT zone-4 40 2025-01-20             only if                  ulcer                 diagnosis
esc-2024-abnormality-after-stent-graft-acute-syndrome     dissectionStentGraft  CT zone-4 40 2025-01-20             only if                  medicalB              prior repair (or none)
esc-2024-ascending-men-40-to-44-mm                        ascending             CT zone-0 42 2025-01-20             2026-01-20               ascendingWoman        sex
esc-2024-ascending-women-36-to-44-mm                      ascendingWoman        CT zone-0 38 2025-01-20             2026-01-20               ascending             sex
esc-2024-ascending-45-to-49-mm                            ascending             US zone-0 47 2025-01-20             2026-01-20               marfan                aetiology
esc-2024-ascending-50-to-54-mm                            bicuspid              CT zone-0 52 2025-01-20             2025-07-20               ascendingGraft        aetiology
esc-2024-thoracic-aneurysm-stable                         descending            CT zone-4 52 2025-01-20             2026-01-20               thoracicStentGraft    diagnosis
esc-2024-arch-or-descending-50-to-55-mm                   descending            CT zone-4 52 2025-01-20             2025-07-20               medicalB              prior repair (or none)
esc-2024-bicuspid-above-40-mm                             bicuspid              CT zone-0 42 2025-01-20             2026-01-20               ascending             aetiology
esc-2024-abdominal-men-50-to-55-mm                        abdominal             CT zone-9 52 2025-01-20             2025-07-20               abdominalWoman        sex
esc-2024-abdominal-women-45-to-50-mm                      abdominalWoman        CT zone-9 47 2025-01-20             2025-07-20               abdominal             sex
esc-2024-abdominal-30-to-40-mm                            abdominal             CT zone-9 35 2025-01-20             2028-01-20               abdominalStentGraft   diagnosis
esc-2024-abdominal-women-40-to-45-mm                      abdominalWoman        CT zone-9 42 2025-01-20             2026-01-20               abdominal             sex
esc-2024-abdominal-men-40-to-50-mm                        abdominal             CT zone-9 45 2025-01-20             2026-01-20               abdominalWoman        sex
esc-2024-abdominal-25-to-30-mm                            abdominal             CT zone-9 27 2025-01-20             2029-01-20               medicalB              diagnosis
esc-2024-after-open-abdominal-repair                      abdominalGraft        US zone-9 20 2025-01-20             2030-01-20               abdominal             prior repair (or none)
esc-2024-after-abdominal-stent-graft-ct                   abdominalStentGraft   CT zone-9 50 2025-01-20             2030-01-20               abdominalGraft        prior repair (or none)
esc-2024-after-abdominal-stent-graft-ultrasound           abdominalStentGraft   US zone-9 50 2025-01-20             2026-01-20               thoracicStentGraft    prior repair (or none)
esc-2024-after-abdominal-stent-graft-low-risk             abdominalStentGraft   US zone-9 50 2025-01-20             only if                  abdominal             prior repair (or none)
esc-2024-marfan-root-below-45-mm                          marfan                US aortic-root 40 2025-01-20        2026-01-20               marfanRootGraft       aetiology
esc-2024-marfan-root-below-45-mm-with-risk-factor         marfan                US aortic-root 40 2025-01-20        only if                  bicuspid              aetiology
esc-2024-marfan-root-45-mm                                marfan                US aortic-root 46 2025-01-20        2025-07-20 2026-01-20    loeysDietz            prior repair (or none)
esc-2024-marfan-whole-aorta                               marfan                CT zone-0+zone-9 30 2025-01-20      2028-01-20 2030-01-20    acta2                 aetiology
esc-2024-marfan-after-root-replacement                    marfanRootGraft       CT zone-4 30 2025-01-20             2028-01-20               marfan                prior repair (or none)
esc-2024-loeys-dietz-tte                                  loeysDietz            US aortic-root 40 2025-01-20        2025-07-20 2026-01-20    marfan                aetiology
esc-2024-loeys-dietz-head-to-pelvis                       loeysDietz            MR zone-0+zone-9 30 2025-01-20      2026-01-20 2028-01-20    acta2                 aetiology
esc-2024-acta2-tte                                        acta2                 US aortic-root 40 2025-01-20        2026-01-20               marfan                aetiology
esc-2024-acta2-ct                                         acta2                 MR zone-0 40 2025-01-20             2028-01-20 2030-01-20    loeysDietz            aetiology
esc-eacts-2025-regurgitation-above-45-mm                  ascending             US zone-0 46 2025-01-20             only if                  ascendingGraft        diagnosis
svs-2018-abdominal-25-to-30-mm                            abdominal             US zone-9 27 2025-01-20             2035-01-20               abdominalGraft        diagnosis
svs-2018-abdominal-30-to-39-mm                            abdominal             US zone-9 35 2025-01-20             2028-01-20               abdominalGraft        diagnosis
svs-2018-abdominal-40-to-49-mm                            abdominalWoman        US zone-9 45 2025-01-20             2026-01-20               abdominalGraft        diagnosis
svs-2018-abdominal-50-to-54-mm                            abdominal             US zone-9 52 2025-01-20             2025-07-20               abdominalStentGraft   prior repair (or none)
svs-2018-after-abdominal-stent-graft-ct                   abdominalStentGraft   CT zone-9 50 2025-01-20             done                     abdominalGraft        prior repair (or none)
svs-2018-after-abdominal-stent-graft-ultrasound           abdominalStentGraft   US zone-9 50 2025-01-20             2026-01-20               thoracicStentGraft    prior repair (or none)
svs-2018-after-abdominal-stent-graft-whole-aorta          abdominalStentGraft   CT zone-4+zone-9 50 2025-01-20      2030-01-20               abdominal             prior repair (or none)
aats-2018-bicuspid-normal-size                            bicuspid              US zone-0 35 2025-01-20             2028-01-20 2030-01-20    ascending             aetiology
aats-2018-bicuspid-40-to-49-mm                            bicuspid              US zone-0 45 2025-01-20             2026-01-20               ascending             aetiology
aats-2018-bicuspid-50-to-54-mm                            bicuspid              US zone-0 52 2025-01-20             2026-01-20               ascending             prior repair (or none)
aha-2022-dissection-after-surgery                         dissectionGraft       CT zone-4 40 2025-01-20             2026-01-20               medicalB              diagnosis
aha-2022-dissection-after-surgery-stable                  dissectionGraft       CT zone-4 40 2025-01-20             only if                  dissectionStentGraft  diagnosis
aha-2022-medical-type-b                                   medicalB              CT zone-4 40 2025-01-20             2026-01-20               dissectionStentGraft  onset date
eacts-sts-2024-acute-syndrome-medical                     medicalB              CT zone-4 40 2025-01-20             2026-01-31               ulcer                 onset date
eacts-sts-2024-acute-syndrome-open-repair                 dissectionGraft       CT zone-4 40 2025-01-20             2026-01-31               dissectionStentGraft  diagnosis
eacts-sts-2024-after-thoracic-stent-graft                 thoracicStentGraft    CT zone-4 40 2025-01-20             2026-01-31               ascendingGraft        prior repair (or none)
eacts-sts-2024-after-abdominal-stent-graft                abdominalStentGraft   CT zone-9 50 2025-01-20             2026-01-31               thoracicStentGraft    prior repair (or none)
`;

export const scheduleRows = columnsOf(table).map(
  ([schedule = "", person, exam = "", due = "", notFor, fact]) => ({
    schedule,
    person: oneOf(people, person),
    exam,
    due,
    notFor: oneOf(people, notFor),
    fact: oneOf(withoutFact, fact),
  }),
);

/**
 * Every schedule by size, typed by hand: schedule, patient, place and modality, diameters in mm inside its band and
 * outside it, on each limit and one mm to either side.
 */
const bands = `
acc-aha-2022-abdominal-30-to-39-mm                 abdominal       CT zone-9       30 31 39        29 40 41
acc-aha-2022-abdominal-men-40-to-49-mm             abdominal       CT zone-9       40 41 49        39 50 51
acc-aha-2022-abdominal-women-40-to-44-mm           abdominalWoman  CT zone-9       40 41 44        39 45 46
acc-aha-2022-abdominal-men-50-mm                   abdominal       CT zone-9       50 51 70        49
acc-aha-2022-abdominal-women-45-mm                 abdominalWoman  CT zone-9       45 46 70        44
esc-2024-abdominal-men-50-to-55-mm                 abdominal       CT zone-9       50 51 54 55     49 56
esc-2024-abdominal-women-45-to-50-mm               abdominalWoman  CT zone-9       45 46 49 50     44 51
esc-2024-abdominal-30-to-40-mm                     abdominalWoman  CT zone-9       30 31 39 39.9   29 40 41
esc-2024-abdominal-women-40-to-45-mm               abdominalWoman  CT zone-9       40 41 44 44.9   39 45 46
esc-2024-abdominal-men-40-to-50-mm                 abdominal       CT zone-9       40 41 49 49.9   39 50 51
esc-2024-abdominal-25-to-30-mm                     abdominal       CT zone-9       25 26 29        24 30 31
esc-2024-ascending-men-40-to-44-mm                 ascending       CT zone-0       40 41 44 44.9   39 45 46
esc-2024-ascending-women-36-to-44-mm               ascendingWoman  CT zone-0       36 37 44        35 45 46
esc-2024-ascending-45-to-49-mm                     ascending       US aortic-root  45 46 49        44 50 51
esc-2024-ascending-50-to-54-mm                     ascending       CT zone-0       50 51 54        49 55 56
esc-2024-arch-or-descending-50-to-55-mm            descending      CT zone-4       50 51 54 55     49 56
esc-2024-bicuspid-above-40-mm                      bicuspid        CT zone-0       40.1 41 60      39 40
esc-2024-marfan-root-below-45-mm                   marfan          US aortic-root  30 44           45 46
esc-2024-marfan-root-45-mm                         marfan          US aortic-root  45 46 70        44
svs-2018-abdominal-25-to-30-mm                     abdominal       CT zone-9       25.1 26 29      24 25 30 31
svs-2018-abdominal-30-to-39-mm                     abdominal       CT zone-9       30 31 39        29 40 41
svs-2018-abdominal-40-to-49-mm                     abdominal       CT zone-9       40 41 49        39 50 51
svs-2018-abdominal-50-to-54-mm                     abdominal       CT zone-9       50 51 54        49 55 56
aats-2018-bicuspid-normal-size                     bicuspid        CT zone-0       30 39           40 41
aats-2018-bicuspid-40-to-49-mm                     bicuspid        CT zone-0       40 41 49        39 50 51
aats-2018-bicuspid-50-to-54-mm                     bicuspid        CT zone-0       50 51 54        49 55 56
`;

export const bandRows = columnsOf(bands).flatMap(
  ([schedule = "", person, modalityAndPlace = "", inside = "", outside = ""]) => {
    const row = { schedule, person: oneOf(people, person), modalityAndPlace };
    return [
      ...inside.split(" ").map((mm) => ({ ...row, mm, outcome: "applies" })),
      ...outside.split(" ").map((mm) => ({ ...row, mm, outcome: "does-not-apply" })),
    ];
  },
);
