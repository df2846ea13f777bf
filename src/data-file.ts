import { type Document, isMap, isSeq, LineCounter, type Node, parseDocument } from "yaml";
import { z } from "zod";

/** A mistake in a YAML file: the line it stands on (1-based) and what is wrong there. */
export interface DataFileProblem {
  line: number;
  path: string;
  what: string;
}

/** What a file without a mistake holds. `lineOf` gives the line (1-based) on which the entry at a path stands. */
export interface ParsedDataFile<T> {
  value: T;
  problems: [];
  lineOf: (path: readonly PropertyKey[]) => number;
}

/**
 * Parses YAML text and checks it against a schema. Every mistake is returned with its line: syntax errors,
 * duplicate keys, unknown keys and values of the wrong kind. For a misspelt key or word the nearest one that is
 * allowed there is named.
 */
export function parseDataFile<T>(
  text: string,
  schema: z.ZodType<T>,
): ParsedDataFile<T> | { value: null; problems: DataFileProblem[] } {
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
  const content = contentOf(document);
  if ("fault" in content) {
    return { value: null, problems: [{ line: 1, path: "", what: content.fault }] };
  }
  const result = schema.safeParse(content.value);
  const lineOf = (path: readonly PropertyKey[]): number => lineOfOffset(offsetOf(document, path));
  if (result.success) return { value: result.data, problems: [], lineOf };
  const problems = result.error.issues
    .flatMap((issue) => mistakesOf(issue, [], content.value, schema))
    .map(({ path, what }) => ({
      line: lineOf(path),
      path: path.map(String).join("."),
      what,
    }));
  return { value: null, problems: problems.toSorted((a, b) => a.line - b.line) };
}

/** The same for a file that ships with the program: a mistake in it is a defect and throws. */
export function parseOwnDataFile<T>(text: string, schema: z.ZodType<T>, file: string): T {
  const { value, problems } = parseDataFile(text, schema);
  if (value !== null) return value;
  const list = problems.map(({ line, path, what }) => `  line ${line} ${path}: ${what}`);
  throw new Error(`${file} does not load:\n${list.join("\n")}`);
}

/**
 * The allowed word that is spelt most like the one met, without regard to case. Null where none is near: at most a third
 * of the letters may be wrong.
 */
export function nearestWord(met: string, words: Iterable<string>): string | null {
  let nearest: string | null = null;
  let least = met.length < 2 ? 0 : Math.max(1, Math.floor(met.length / 3)) + 1;
  for (const word of words) {
    if (Math.abs(word.length - met.length) >= least) continue;
    const distance = editDistance(met.toLowerCase(), word.toLowerCase());
    if (distance < least) [nearest, least] = [word, distance];
  }
  return nearest;
}

/** How many letters must be added, taken away, changed or swapped with their neighbour to make one word of the other. */
function editDistance(one: string, other: string): number {
  let before: number[] = [];
  let above = Array.from({ length: other.length + 1 }, (_, index) => index);
  for (let row = 0; row < one.length; row++) {
    const current = [row + 1];
    for (let column = 0; column < other.length; column++) {
      const isSame = one[row] === other[column];
      const isSwapped = one[row] === other[column - 1] && one[row - 1] === other[column];
      const costs = [
        (above[column] ?? 0) + (isSame ? 0 : 1),
        (current[column] ?? 0) + 1,
        (above[column + 1] ?? 0) + 1,
        ...(isSwapped ? [(before[column - 1] ?? 0) + 1] : []),
      ];
      current.push(Math.min(...costs));
    }
    before = above;
    above = current;
  }
  return above.at(-1) ?? 0;
}

/** The plain value of a document; an alias without its anchor, or one that unfolds without end, is a fault. */
function contentOf(document: Document): { value: unknown } | { fault: string } {
  try {
    return { value: document.toJS() };
  } catch (error) {
    if (error instanceof ReferenceError) return { fault: error.message };
    throw error;
  }
}

/** Where the deepest part of the path stands that the file holds; of a key with its value, the key. */
function offsetOf(document: Document, path: readonly PropertyKey[]): number {
  let node: unknown = document.contents;
  let offset = (document.contents as Node | null)?.range?.[0] ?? 0;
  for (const step of path) {
    if (isMap(node)) {
      const pair = node.items.find(({ key }) => String(key) === String(step));
      if (!pair) break;
      offset = (pair.key as Node).range?.[0] ?? offset;
      node = pair.value;
    } else if (isSeq(node)) {
      node = node.items[Number(step)];
      offset = (node as Node | undefined)?.range?.[0] ?? offset;
    }
  }
  return offset;
}

interface Mistake {
  path: PropertyKey[];
  what: string;
}

function mistakesOf(
  issue: z.core.$ZodIssue,
  above: PropertyKey[],
  content: unknown,
  schema: z.ZodType,
): Mistake[] {
  const path = [...above, ...issue.path];
  const met = valueAt(content, path);
  switch (issue.code) {
    case "unrecognized_keys": {
      const allowed = keysAt(schema, path);
      return issue.keys.map((key) => ({
        path: [...path, key],
        what: `${key} is not a key here${hint(key, allowed, "the keys are")}`,
      }));
    }
    case "invalid_union": {
      const branch =
        issue.errors.find((issues) => !issues.some((inner) => isOtherKind(inner, met))) ??
        issue.errors[0];
      if (branch === undefined) {
        return [{ path, what: "what stands here is none of the forms that are known" }];
      }
      return branch.flatMap((inner) => mistakesOf(inner, path, content, schema));
    }
    case "invalid_key":
      return issue.issues.map(({ message }) => ({ path, what: message }));
    case "invalid_value": {
      const words = issue.values.map(String);
      if (met === undefined || met === null) {
        return [{ path, what: `is missing${hint("", words, "it is one of")}` }];
      }
      const text = typeof met === "object" ? "what stands here" : String(met);
      return [{ path, what: `${text} is none of its values${hint(text, words, "they are")}` }];
    }
    default:
      return [{ path, what: met === undefined ? "is missing" : issue.message }];
  }
}

/** True where a branch of a choice expects another kind of thing, such as a word where a map stands. */
function isOtherKind(issue: z.core.$ZodIssue, met: unknown): boolean {
  if (issue.path.length > 0) return false;
  const isMapMet = typeof met === "object" && met !== null;
  return issue.code === "invalid_type" || (issue.code === "invalid_value" && isMapMet);
}

const longestList = 16;

function hint(met: string, allowed: readonly string[], lead: string): string {
  const nearest = nearestWord(met, allowed);
  if (nearest !== null) return `; did you mean ${nearest}?`;
  const isShort = allowed.length > 0 && allowed.length <= longestList;
  return isShort ? `; ${lead} ${allowed.join(", ")}` : "";
}

function valueAt(content: unknown, path: readonly PropertyKey[]): unknown {
  return path.reduce<unknown>(
    (value, step) =>
      typeof value === "object" && value !== null
        ? (value as Record<PropertyKey, unknown>)[step]
        : undefined,
    content,
  );
}

type JsonSchema = z.core.JSONSchema.JSONSchema;

/** The keys that the schema allows at a path, over all its branches. */
function keysAt(schema: z.ZodType, path: readonly PropertyKey[]): string[] {
  const branchesOf = (node: JsonSchema): JsonSchema[] => {
    const choices = (node.anyOf ?? node.oneOf) as JsonSchema[] | undefined;
    return choices ? choices.flatMap(branchesOf) : [node];
  };
  const below = (node: JsonSchema, step: PropertyKey): JsonSchema[] => {
    const next = node.properties?.[String(step)] ?? node.items ?? node.additionalProperties;
    return typeof next === "object" && !Array.isArray(next) ? branchesOf(next as JsonSchema) : [];
  };
  const root = z.toJSONSchema(schema, { unrepresentable: "any" }) as JsonSchema;
  const nodes = path.reduce<JsonSchema[]>(
    (level, step) => level.flatMap((node) => below(node, step)),
    branchesOf(root),
  );
  return nodes.flatMap((node) => Object.keys(node.properties ?? {}));
}
