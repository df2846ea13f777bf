import type { Message } from "../../message.ts";
import type { CaseRow } from "../reading.ts";
import type { Sheet } from "./sheet.ts";

/** What a sex cell may say. */
export const sexWords = { f: "F", female: "F", m: "M", male: "M", o: "O", other: "O" } as const;

/** Reads a case sheet: one row a patient. A cell that can't be understood is reported and left empty. */
export function readCaseSheet(sheet: Sheet): { caseRows: CaseRow[]; messages: Message[] } {
  const messages: Message[] = [];
  const caseRows: CaseRow[] = [];
  for (const row of sheet.rows) {
    const patientId = row.cell("patient_id");
    if (patientId === null) {
      messages.push(row.missing("patient_id", "row"));
      continue;
    }
    caseRows.push({
      source: row.place(),
      patientId,
      issuer: row.cell("issuer"),
      name: row.cell("name"),
      birthDate: row.date("birth_date", messages, "cell"),
      sex: row.choice("sex", sexWords, messages),
      heightCm: row.number("height_cm", messages, "cell"),
      weightKg: row.number("weight_kg", messages, "cell"),
      diagnosis: row.cell("diagnosis"),
      onsetDate: row.date("onset_date", messages, "cell"),
      symptoms: row.cell("symptoms"),
      dissection: row.cell("dissection"),
      malperfusion: row.cell("malperfusion"),
      archVariant: row.cell("arch_variant"),
      aetiology: row.cell("aetiology"),
      familyHistory: row.cell("family_history"),
      priorRepair: row.cell("prior_repair"),
      considered: row.cell("considered"),
      question: row.cell("question"),
    });
  }
  return { caseRows, messages };
}
