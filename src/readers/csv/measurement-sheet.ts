import type { Message } from "../../message.ts";
import type { ReadDocument } from "../reading.ts";
import { readerMessage } from "../messages.ts";
import { sexWords } from "./case-sheet.ts";
import { readingsOf } from "./row-readings.ts";
import type { Sheet } from "./sheet.ts";
import type { SheetRow } from "./sheet-row.ts";

interface Group {
  document: ReadDocument;
  gated: Set<boolean>;
}

/**
 * Turns a measurement sheet, long or wide, into one document per patient and exam date. A row without a patient or
 * with an unreadable date is left out with a message; a cell that can't be used is a reading that says why.
 */
export function readMeasurementSheet(sheet: Sheet): {
  documents: ReadDocument[];
  messages: Message[];
} {
  const messages: Message[] = [];
  const groups = new Map<string, Group>();
  for (const row of sheet.rows) {
    const empty = (["patient_id", "exam_date"] as const).find((field) => row.cell(field) === null);
    if (empty !== undefined) {
      messages.push(row.missing(empty, "row"));
      continue;
    }
    const imagingDate = row.date("exam_date", messages, "row");
    if (imagingDate === null) continue;
    const readings = readingsOf(row, sheet.layout);
    const gated = row.choice("gated", { yes: true, no: false }, messages);
    if (readings.length === 0) continue;
    const group = groupOf(row, imagingDate, groups, messages);
    group.document.readings.push(...readings);
    if (gated !== null) group.gated.add(gated);
  }
  const documents = [...groups.values()].map(({ document, gated }) => {
    const [agreed, other] = gated;
    if (other !== undefined) {
      const date = document.exam.imagingDate;
      messages.push(readerMessage("csv-gated-differs", document.source, { date }));
    }
    const exam = { ...document.exam, gated: other === undefined ? (agreed ?? null) : null };
    return { ...document, exam };
  });
  return { documents, messages };
}

/** The group of rows that state the same patient, in the same words, and the same exam. */
function groupOf(
  row: SheetRow,
  imagingDate: string,
  groups: Map<string, Group>,
  messages: Message[],
): Group {
  const patient = {
    id: row.cell("patient_id") ?? "",
    issuer: row.cell("issuer"),
    name: row.cell("name"),
    birthDate: row.date("birth_date", messages, "cell"),
    sex: row.choice("sex", sexWords, messages),
  };
  const modality = row.cell("modality");
  const key = JSON.stringify([patient, imagingDate, modality]);
  const known = groups.get(key);
  if (known) return known;
  const group: Group = {
    document: {
      source: row.place(),
      patient,
      exam: {
        studyUid: null,
        imagingDate,
        imagingDateOrigin: "sheet column",
        modality,
        gated: null,
      },
      report: null,
      readings: [],
    },
    gated: new Set(),
  };
  groups.set(key, group);
  return group;
}
