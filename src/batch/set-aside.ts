import { createHash } from "node:crypto";
import { existsSync, readdirSync, rmSync } from "node:fs";
import { extname, join } from "node:path";
import { formatPlace, type Message } from "../message.ts";
import { sha256Of } from "../readers/read-file.ts";
import type { FiledFile, FileRow } from "./filed-file.ts";
import { inputBytes } from "./input-files.ts";
import type { Intake } from "./intake.ts";
import { writeOutput } from "./write-output.ts";

/** Endings that a copy keeps; any other could be part of a name. */
const plainEndings = new Set([".dcm", ".csv", ".tsv", ".txt", ".xml", ".json", ".pdf", ".xlsx"]);

/**
 * Copies each refused file beside its reason: `set-aside/DIGEST.ext` and `set-aside/DIGEST.reason.txt`. The names
 * carry no patient data; the original stays where it is. A file without readable bytes has a reason and no copy. What
 * was set aside on an earlier night and is in use now goes from `set-aside/`.
 */
export async function writeSetAside(
  out: string,
  folder: string,
  { files, inUse }: Pick<Intake, "files" | "inUse">,
): Promise<void> {
  removeUsed(out, inUse);
  const refused = files.filter(({ row }) => row.outcome === "set-aside");
  for (const [stem, copies] of Map.groupBy(refused, ({ row }) => stemOf(row))) {
    const { row, details } = copies[0] as FiledFile;
    const got = inputBytes(folder, row.file);
    const isSame = "bytes" in got && sha256Of(got.bytes) === row.sha256;
    const ending = extname(row.file).toLowerCase();
    const name = `${stem}${plainEndings.has(ending) ? ending : ".bin"}`;
    if (isSame) await writeOutput(out, `set-aside/${name}`, got.bytes);
    const text = [
      ...copies.map((one) => `File: ${one.row.file}`),
      ...(row.sha256 === null ? [] : [`SHA-256: ${row.sha256}`]),
      ...(isSame ? [] : ["There is no copy: the file could not be read, or not again."]),
      "",
      ...[row.reason, ...details].flatMap((message) => (message ? lines(message) : [])),
    ];
    await writeOutput(out, `set-aside/${stem}.reason.txt`, `${text.join("\n")}\n`);
  }
}

function removeUsed(out: string, inUse: ReadonlySet<string>): void {
  const folder = join(out, "set-aside");
  if (!existsSync(folder)) return;
  const stems = new Set([...inUse].map((digest) => digest.slice(0, stemLength)));
  for (const name of readdirSync(folder)) {
    if (stems.has(name.slice(0, stemLength))) rmSync(join(folder, name));
  }
}

const stemLength = 16;

/** Named by the bytes; a file that could not be read by its name. */
function stemOf({ file, sha256 }: FileRow): string {
  const digest = sha256 ?? createHash("sha256").update(file).digest("hex");
  return digest.slice(0, stemLength);
}

const lines = (message: Message): string[] => [
  `${message.severity}: ${message.text}`,
  `  code: ${message.code}`,
  ...(message.place ? [`  at: ${formatPlace(message.place)}`] : []),
  `  what to do: ${message.remedy}`,
];
