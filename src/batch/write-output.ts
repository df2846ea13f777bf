import { mkdirSync } from "node:fs";
import { dirname, join } from "node:path";
import writeFileAtomic from "write-file-atomic";

/** Writes one file of the output folder, whole or not at all. Folders are made; only the owner can read them. */
export async function writeOutput(
  out: string,
  name: string,
  content: string | Uint8Array,
): Promise<void> {
  const path = join(out, name);
  mkdirSync(dirname(path), { recursive: true, mode: 0o700 });
  const data = typeof content === "string" ? content : Buffer.from(content);
  await writeFileAtomic(path, data, { mode: 0o600, fsync: false });
}

/** JSON as it is written everywhere: two spaces, a last line end. */
export function jsonText(value: unknown): string {
  return `${JSON.stringify(value, null, 2)}\n`;
}
