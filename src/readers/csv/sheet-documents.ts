import type { Message } from "../../message.ts";
import { readerMessage } from "../messages.ts";
import type { ReadDocument } from "../reading.ts";
import { sexWords } from "./case-sheet.ts";
import type { Sheet } from "./sheet.ts";
import type { SheetRow } from "./sheet-row.ts";

/** What a row states of its exam. */
type RowContent = Partial<Pick<ReadDocument, "readings" | "findings" | "stations">>;

interface StatedRow {
  row: SheetRow;
  gated: boolean | null;
  content: RowContent;
}

interface Group {
  document: Pick<ReadDocument, "patient" | "exam">;
  rows: StatedRow[];
}

/**
 * Puts the rows of a sheet into one document per patient and exam date. A row without a patient or with an unreadable
 * date is left out with a message. Rows that disagree on gating become documents of their own.
 */
export function sheetDocuments(
  sheet: Sheet,
  contentOf: (row: SheetRow) => RowContent,
): { documents: ReadDocument[]; messages: Message[] } {
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
    const content = contentOf(row);
    const gated = row.choice("gated", { yes: true, no: false }, messages);
    if (Object.values(content).every(({ length }) => length === 0)) continue;
    groupOf(row, imagingDate, groups, messages).rows.push({ row, gated, content });
  }
  const documents = [...groups.values()].flatMap((group) => documentsOf(group, messages));
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
  const exam: ReadDocument["exam"] = {
    studyUid: null,
    imagingDate,
    imagingDateOrigin: "sheet column",
    modality,
    gated: null,
  };
  const group: Group = { document: { patient, exam }, rows: [] };
  groups.set(key, group);
  return group;
}

function documentsOf({ document, rows }: Group, messages: Message[]): ReadDocument[] {
  const stated = new Set(rows.flatMap(({ gated }) => gated ?? []));
  const parts = stated.size > 1 ? [...Map.groupBy(rows, ({ gated }) => gated).values()] : [rows];
  const documents = parts.map((part): ReadDocument => ({
    source: part[0]?.row.place() as ReadDocument["source"],
    patient: document.patient,
    exam: { ...document.exam, gated: part.find(({ gated }) => gated !== null)?.gated ?? null },
    report: null,
    readings: part.flatMap(({ content }) => content.readings ?? []),
    findings: part.flatMap(({ content }) => content.findings ?? []),
    stations: part.flatMap(({ content }) => content.stations ?? []),
  }));
  const [first] = documents;
  if (first && parts.length > 1) {
    const date = document.exam.imagingDate;
    messages.push(readerMessage("csv-gated-differs", first.source, { date }));
  }
  return documents;
}
