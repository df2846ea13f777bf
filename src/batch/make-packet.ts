import type { MeetingRow } from "../readers/reading.ts";
import type { BatchSummary } from "../report/batch-summary.ts";
import type { Packet } from "../report/pages/packet-page.ts";
import { openPrinter } from "../report/pdf-printer.ts";
import { printPacket } from "../report/print-packet.ts";
import { findPlan } from "./reports.ts";
import { writeOutput } from "./write-output.ts";

/** Puts the reports of a meeting list together and writes `packets/DATE/packet.html` and `packet.pdf`. */
export async function makePacket(
  meeting: readonly MeetingRow[],
  batch: BatchSummary,
  options: { out: string; meetingDate: string; paper: "A4" | "Letter" },
): Promise<{ packet: Packet; htmlFile: string; pdfFile: string }> {
  const { out, meetingDate, paper } = options;
  const packet: Packet = {
    asOf: batch.asOf,
    meetingDate,
    software: batch.software,
    cases: meeting.map(({ order, patientId, presenterRole, question, depth }) => {
      const found = findPlan(out, patientId);
      return {
        order,
        patientId,
        presenterRole,
        question,
        depth: depth ?? "plan report",
        plan: "plan" in found ? found.plan : null,
        failure: "failure" in found ? found.failure : null,
      };
    }),
    files: batch.files,
    messages: batch.messages,
  };
  const folder = `packets/${meetingDate}`;
  const printer = await openPrinter({ pages: 1 });
  try {
    const { html, pdf } = await printPacket(printer, packet, { paper });
    await writeOutput(out, `${folder}/packet.html`, html);
    await writeOutput(out, `${folder}/packet.pdf`, pdf);
  } finally {
    await printer.close();
  }
  return { packet, htmlFile: `${folder}/packet.html`, pdfFile: `${folder}/packet.pdf` };
}
