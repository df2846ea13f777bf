import type { Message } from "../../message.ts";
import type { ReadDocument, Reading } from "../reading.ts";
import { readerMessage, type Sheet, type SheetRow } from "./sheet.ts";

export const measurementHeadings = {
  required: ["patient_id", "exam_date", "place", "quantity", "value", "unit"],
  optional: ["issuer", "statistic", "lumen", "edge", "gated", "modality", "reader", "comment"],
} as const;

/**
 * Turns a long measurement sheet (one row a measurement) into one document per patient and exam date.
 * A row with an empty required cell or an unreadable date is left out with a message; the rest is used.
 */
export function readMeasurementSheet(sheet: Sheet): {
  documents: ReadDocument[];
  messages: Message[];
} {
  const messages: Message[] = [];
  const groups = new Map<string, { document: ReadDocument; gated: Set<boolean | null> }>();
  for (const row of sheet.rows) {
    const empty = measurementHeadings.required.find((heading) => row.cell(heading) === null);
    if (empty !== undefined) {
      messages.push(readerMessage("csv-cell-missing", row.place(empty), { heading: empty }));
      continue;
    }
    const imagingDate = row.date("exam_date", messages, "row");
    if (imagingDate === null) continue;
    const patientId = row.cell("patient_id") ?? "";
    const issuer = row.cell("issuer");
    const modality = row.cell("modality");
    const groupKey = JSON.stringify([issuer, patientId, imagingDate, modality]);
    let group = groups.get(groupKey);
    if (!group) {
      group = {
        document: {
          source: row.place(),
          patient: { id: patientId, issuer, name: null, birthDate: null, sex: null },
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
      groups.set(groupKey, group);
    }
    group.gated.add(row.choice("gated", { yes: true, no: false }, messages));
    group.document.readings.push(readingOf(row));
  }
  const documents = [...groups.values()].map(({ document, gated }) => {
    const stated = [...gated].filter((value) => value !== null);
    if (stated.length > 1) {
      const date = document.exam.imagingDate;
      messages.push(readerMessage("csv-gated-differs", document.source, { date }));
    }
    const agreed = stated.length === 1 ? (stated[0] ?? null) : null;
    return { ...document, exam: { ...document.exam, gated: agreed } };
  });
  return { documents, messages };
}

function readingOf(row: SheetRow): Reading {
  const words = (heading: string) => ({ words: row.cell(heading) ?? "", code: null });
  return {
    source: row.place("value"),
    valueText: row.cell("value"),
    qualifier: null,
    unit: words("unit"),
    terms: {
      places: [{ origin: "sheet column", terms: [words("place")] }],
      laterality: null,
      modifiers: [],
      quantity: words("quantity"),
      statistic: row.cell("statistic"),
      lumen: row.cell("lumen"),
      edge: row.cell("edge"),
    },
    trackingIdentifier: null,
    reader: row.cell("reader"),
    comment: row.cell("comment"),
  };
}
