import { createHash } from "node:crypto";
import { fileURLToPath } from "node:url";
import { loadCitedFiles } from "./cited-files.ts";
import { type Rule, ruleSchema } from "./rule.ts";
import type { Schedule } from "./schedule.ts";

const shipped = fileURLToPath(new URL("rules/", import.meta.url));

/** All rules below a folder, sorted by id; without an argument those that ship with the program. A mistake throws, with file and line. */
export function loadRules(folder: string = shipped): Rule[] {
  return loadCitedFiles(folder, ruleSchema);
}

/** Twelve hex digits that change with any content of any rule, and not with order, layout or comments. */
export function rulesDigest(rules: readonly (Rule | Schedule)[]): string {
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
