import { buildDictionary } from "../../src/anatomy/dictionary.ts";
import { understandFinding } from "../../src/cases/findings.ts";
import { measure } from "../../src/cases/measure.ts";
import type { Message } from "../../src/message.ts";
import { readFile } from "../../src/readers/read-file.ts";

const dictionary = buildDictionary({ codes: {}, words: {} });

export type FuzzOutcome = "used" | "skipped" | "set aside";

/**
 * Reads any bytes as the program does and understands every number and finding. Throws where the program fails, and
 * where a file is neither used nor set aside with a reason, a number neither measured nor left out with a reason.
 */
export function judgeInput(bytes: Uint8Array): FuzzOutcome {
  const read = readFile(bytes, "fuzz.bin");
  read.messages.forEach(expectMessage);
  for (const reading of read.documents.flatMap(({ readings }) => readings)) {
    const { measurement, messages } = measure(reading, "exam", dictionary);
    messages.forEach(expectMessage);
    if (measurement === null && messages.length === 0) throw new Error("left out without a reason");
    if (measurement && !(measurement.value > 0 && Number.isFinite(measurement.value))) {
      throw new Error(`the value ${measurement.value} is none`);
    }
  }
  for (const stated of read.documents.flatMap(({ findings }) => findings)) {
    const { message } = understandFinding(stated, "exam", dictionary);
    if (message) expectMessage(message);
  }
  const parts = read.documents.length + read.caseRows.length + read.meetingRows.length;
  if (read.setAside) {
    expectMessage(read.setAside);
    if (parts > 0) throw new Error("set aside and used");
    return read.kind === "not for this program" ? "skipped" : "set aside";
  }
  if (parts === 0 && read.messages.length === 0) {
    throw new Error("neither used nor set aside");
  }
  return "used";
}

function expectMessage({ code, text, remedy }: Message): void {
  if (text === "" || remedy === "") throw new Error(`message ${code} says nothing`);
}
