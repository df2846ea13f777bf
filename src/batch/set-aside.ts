import { extname } from "node:path";
import { formatPlace, type Message } from "../message.ts";
import type { FiledFile } from "./intake.ts";
import { writeOutput } from "./write-output.ts";

/**
 * Copies a refused file beside its reason: `set-aside/DIGEST.ext` and `set-aside/DIGEST.reason.txt`. The
 * names carry no patient data; the original stays where it is.
 */
export async function writeSetAside(
  out: string,
  { row, details, bytes }: FiledFile,
): Promise<void> {
  if (row.outcome !== "set-aside" || row.sha256 === null) return;
  const stem = `set-aside/${row.sha256.slice(0, 16)}`;
  const reasons = [row.reason, ...details].filter((message) => message !== null);
  const text = [`File: ${row.file}`, `SHA-256: ${row.sha256}`, "", ...reasons.flatMap(lines)];
  await writeOutput(out, `${stem}${extname(row.file)}`, bytes);
  await writeOutput(out, `${stem}.reason.txt`, `${text.join("\n")}\n`);
}

const lines = (message: Message): string[] => [
  `${message.severity}: ${message.text}`,
  `  code: ${message.code}`,
  ...(message.place ? [`  at: ${formatPlace(message.place)}`] : []),
  `  what to do: ${message.remedy}`,
];
