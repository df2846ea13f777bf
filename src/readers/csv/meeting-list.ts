import type { Message } from "../../message.ts";
import type { MeetingRow } from "../reading.ts";
import { readerMessage, type Sheet } from "./sheet.ts";

export const meetingHeadings = {
  required: ["order", "patient_id"],
  optional: ["presenter_role", "question"],
} as const;

/** Reads a meeting list, in the order of its `order` column. Rows without a number or a patient are reported. */
export function readMeetingList(sheet: Sheet): { meetingRows: MeetingRow[]; messages: Message[] } {
  const messages: Message[] = [];
  const meetingRows: MeetingRow[] = [];
  for (const row of sheet.rows) {
    const empty = meetingHeadings.required.find((heading) => row.cell(heading) === null);
    if (empty !== undefined) {
      messages.push(readerMessage("csv-cell-missing", row.place(empty), { heading: empty }));
      continue;
    }
    const order = row.number("order", messages, "row");
    if (order === null) continue;
    meetingRows.push({
      source: row.place(),
      order,
      patientId: row.cell("patient_id") ?? "",
      presenterRole: row.cell("presenter_role"),
      question: row.cell("question"),
    });
  }
  meetingRows.sort((a, b) => a.order - b.order);
  return { meetingRows, messages };
}
