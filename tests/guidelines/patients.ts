import type { CaseFacts, PatientCase } from "../../src/cases/patient-case.ts";

interface InventedPatient {
  facts: Partial<CaseFacts>;
  patient?: Partial<PatientCase["patient"]>;
}

const cause = (aetiology: string): InventedPatient => ({ facts: { aetiology } });
const woman = (aetiology: string): InventedPatient => ({
  facts: { aetiology },
  patient: { sex: "F" },
});
const planned = (considered: string, aetiology = "degenerative"): InventedPatient => ({
  facts: { aetiology, considered: [considered] },
});

const symptoms = (diagnosis: string, ...stated: string[]): InventedPatient => ({
  facts: { diagnoses: [diagnosis], symptoms: stated },
});

/** Invented populations, by a short name; each differs from a man of 66 with a degenerative aneurysm as shown. */
export const patients = {
  sporadic: { facts: {} },
  sporadicValve: planned("aortic valve surgery"),
  sporadicHeart: planned("other cardiac surgery"),
  sporadicAscending: planned("ascending repair"),
  bicuspid: cause("bicuspid valve"),
  bicuspidValve: planned("aortic valve surgery", "bicuspid valve"),
  marfan: cause("Marfan"),
  marfanWoman: woman("Marfan"),
  tgfbr2Woman: woman("Loeys-Dietz TGFBR2"),
  tgfb3Woman: woman("Loeys-Dietz TGFB3"),
  mylkWoman: woman("MYLK"),
  noGeneWoman: woman("heritable, no gene found"),
  bicuspidWoman: woman("bicuspid valve"),
  tgfbr1: cause("Loeys-Dietz TGFBR1"),
  tgfbr2: cause("Loeys-Dietz TGFBR2"),
  smad2: cause("Loeys-Dietz SMAD2"),
  smad3: cause("Loeys-Dietz SMAD3"),
  tgfb2: cause("Loeys-Dietz TGFB2"),
  tgfb3: cause("Loeys-Dietz TGFB3"),
  turner: woman("Turner"),
  turnerChild: { facts: { aetiology: "Turner" }, patient: { sex: "F", birthDate: "2011-06-02" } },
  noGene: cause("heritable, no gene found"),
  noGeneHeart: planned("other cardiac surgery", "heritable, no gene found"),
  acta2: cause("ACTA2"),
  prkg1: cause("PRKG1"),
  myh11: cause("MYH11"),
  man: { facts: { diagnoses: ["abdominal aneurysm"] } },
  woman: { facts: { diagnoses: ["abdominal aneurysm"] }, patient: { sex: "F" } },
  thoracoAbdominal: { facts: { diagnoses: ["thoraco-abdominal aneurysm"] } },
  typeA: { facts: { diagnoses: ["type A dissection"], onsetDate: "2025-06-01" } },
  marfanTypeA: { facts: { aetiology: "Marfan", diagnoses: ["type A dissection"] } },
  chronicB: { facts: { diagnoses: ["type B dissection"], onsetDate: "2026-03-02" } },
  rootSymptoms: symptoms("ascending aneurysm", "compression"),
  archAneurysm: { facts: { diagnoses: ["arch aneurysm"] } },
  archSymptoms: symptoms("arch aneurysm", "hoarseness"),
  archChestPain: symptoms("arch aneurysm", "recurrent chest pain without other cause"),
  archWithoutSymptoms: symptoms("arch aneurysm"),
  abdominalPain: symptoms("abdominal aneurysm", "pain attributable to the aorta"),
  abdominalEmbolism: symptoms("abdominal aneurysm", "embolism"),
  descendingWoman: {
    facts: { diagnoses: ["descending thoracic aneurysm"] },
    patient: { sex: "F" },
  },
  descendingMan: { facts: { diagnoses: ["descending thoracic aneurysm"] } },
  descendingMarfan: { facts: { diagnoses: ["descending thoracic aneurysm"], aetiology: "Marfan" } },
  thoracoAbdominalWoman: {
    facts: { diagnoses: ["thoraco-abdominal aneurysm"] },
    patient: { sex: "F" },
  },
  acuteB: { facts: { diagnoses: ["type B dissection"], onsetDate: "2026-03-03" } },
} satisfies Record<string, InventedPatient>;

export type PatientName = keyof typeof patients;

/** A needed fact, and the same patient without it. */
export const withoutFact = {
  diagnosis: { facts: { diagnoses: null } },
  aetiology: { facts: { aetiology: null } },
  symptoms: { facts: { symptoms: null } },
  "considered operation": { facts: { considered: null } },
  "onset date": { facts: { onsetDate: null } },
  sex: { facts: {}, patient: { sex: "O" } },
  "birth date": { facts: {}, patient: { birthDate: null } },
} satisfies Record<string, InventedPatient>;

export type FactName = keyof typeof withoutFact;
