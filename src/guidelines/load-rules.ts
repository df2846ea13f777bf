import { createHash } from "node:crypto";
import { readdirSync, readFileSync } from "node:fs";
import { basename } from "node:path";
import { fileURLToPath } from "node:url";
import { parseOwnDataFile } from "../data-file.ts";
import { type Rule, ruleSchema } from "./rule.ts";

const shipped = fileURLToPath(new URL("rules/", import.meta.url));

/**
 * All rules below a folder, sorted by id; without an argument those that ship with the program. A file that does
 * not fit the schema, is not named like its id or repeats an id throws, with file and line.
 */
export function loadRules(folder: string = shipped): Rule[] {
  const files = readdirSync(folder, { recursive: true, encoding: "utf8" })
    .filter((file) => file.endsWith(".yaml"))
    .map((file) => file.replaceAll("\\", "/"));
  const fileOf = new Map<string, string>();
  const rules = files.map((file) => {
    const rule = parseOwnDataFile(readFileSync(`${folder}/${file}`, "utf8"), ruleSchema, file);
    if (rule.id !== basename(file, ".yaml")) {
      throw new Error(`${file}: the id ${rule.id} is not the name of the file`);
    }
    const other = fileOf.get(rule.id);
    if (other !== undefined) throw new Error(`${file}: ${other} has the same id`);
    fileOf.set(rule.id, file);
    return rule;
  });
  return rules.toSorted((a, b) => (a.id < b.id ? -1 : 1));
}

/** Twelve hex digits that change with any content of any rule, and not with order, layout or comments. */
export function rulesDigest(rules: readonly Rule[]): string {
  const sorted = rules.toSorted((a, b) => (a.id < b.id ? -1 : 1));
  return createHash("sha256").update(canonicalJson(sorted)).digest("hex").slice(0, 12);
}

/** JSON with the keys of every object in order. */
function canonicalJson(value: unknown): string {
  return JSON.stringify(value, (_, inner: unknown) =>
    typeof inner === "object" && inner !== null && !Array.isArray(inner)
      ? Object.fromEntries(Object.entries(inner).toSorted(([a], [b]) => (a < b ? -1 : 1)))
      : inner,
  );
}
