import { LineCounter, parseDocument } from "yaml";
import type { z } from "zod";

/** A mistake in a YAML file: the line it stands on (1-based) and what is wrong there. */
export interface DataFileProblem {
  line: number;
  path: string;
  what: string;
}

/**
 * Parses YAML text and checks it against a schema. Every mistake is returned with its line:
 * syntax errors, duplicate keys, unknown keys and values of the wrong kind.
 */
export function parseDataFile<T>(
  text: string,
  schema: z.ZodType<T>,
): { value: T; problems: [] } | { value: null; problems: DataFileProblem[] } {
  const lines = new LineCounter();
  const document = parseDocument(text, { lineCounter: lines, uniqueKeys: true });
  const lineOfOffset = (offset: number): number => Math.max(1, lines.linePos(offset).line);
  if (document.errors.length > 0) {
    const problems = document.errors.map((error) => ({
      line: lineOfOffset(error.pos[0]),
      path: "",
      what: error.message.split("\n")[0] ?? "not YAML",
    }));
    return { value: null, problems };
  }
  const result = schema.safeParse(document.toJS());
  if (result.success) return { value: result.data, problems: [] };
  const lineOfPath = (path: readonly PropertyKey[]): number => {
    for (let depth = path.length; depth > 0; depth--) {
      const node: unknown = document.getIn(path.slice(0, depth), true);
      const range = (node as { range?: [number, number, number] } | undefined)?.range;
      if (range) return lineOfOffset(range[0]);
    }
    return 1;
  };
  const problems = result.error.issues.map((issue) => {
    const unknownKey = issue.code === "unrecognized_keys" ? issue.keys[0] : undefined;
    const path = unknownKey === undefined ? issue.path : [...issue.path, unknownKey];
    return { line: lineOfPath(path), path: path.map(String).join("."), what: issue.message };
  });
  return { value: null, problems };
}

/** The same for a file that ships with the program: a mistake in it is a defect and throws. */
export function parseOwnDataFile<T>(text: string, schema: z.ZodType<T>, file: string): T {
  const { value, problems } = parseDataFile(text, schema);
  if (value !== null) return value;
  const list = problems.map(({ line, path, what }) => `  line ${line} ${path}: ${what}`);
  throw new Error(`${file} does not load:\n${list.join("\n")}`);
}
