import { readdirSync, readFileSync } from "node:fs";
import { basename } from "node:path";
import type { z } from "zod";
import { parseOwnDataFile } from "../data-file.ts";

/**
 * All YAML files below a folder, sorted by id. A file that does not fit the schema, is not named like its id or repeats
 * an id throws, with file and line.
 */
export function loadCitedFiles<T extends { id: string }>(
  folder: string,
  schema: z.ZodType<T>,
): T[] {
  const files = readdirSync(folder, { recursive: true, encoding: "utf8" })
    .filter((file) => file.endsWith(".yaml"))
    .map((file) => file.replaceAll("\\", "/"));
  const fileOf = new Map<string, string>();
  const entries = files.map((file) => {
    const entry = parseOwnDataFile(readFileSync(`${folder}/${file}`, "utf8"), schema, file);
    if (entry.id !== basename(file, ".yaml")) {
      throw new Error(`${file}: the id ${entry.id} is not the name of the file`);
    }
    const other = fileOf.get(entry.id);
    if (other !== undefined) throw new Error(`${file}: ${other} has the same id`);
    fileOf.set(entry.id, file);
    return entry;
  });
  return entries.toSorted((a, b) => (a.id < b.id ? -1 : 1));
}
