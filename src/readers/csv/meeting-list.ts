import type { Message } from "../../message.ts";
import { type MeetingRow, packetDepths } from "../reading.ts";
import type { Sheet } from "./sheet.ts";

const depths = Object.fromEntries(packetDepths.map((depth) => [depth, depth]));

/** Reads a meeting list, in the order of its `order` column. Rows without a number or a patient are reported. */
export function readMeetingList(sheet: Sheet): { meetingRows: MeetingRow[]; messages: Message[] } {
  const messages: Message[] = [];
  const meetingRows: MeetingRow[] = [];
  for (const row of sheet.rows) {
    const patientId = row.cell("patient_id");
    if (patientId === null || row.cell("order") === null) {
      messages.push(row.missing(patientId === null ? "patient_id" : "order", "row"));
      continue;
    }
    const order = row.number("order", messages, "row");
    if (order === null) continue;
    meetingRows.push({
      source: row.place(),
      order,
      patientId,
      presenterRole: row.cell("presenter_role"),
      depth: row.choice("depth", depths, messages),
      question: row.cell("question"),
    });
  }
  meetingRows.sort((a, b) => a.order - b.order);
  return { meetingRows, messages };
}
