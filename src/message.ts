/** Where something stands in an input file. */
export interface SourcePlace {
  /** File name relative to the input folder, with forward slashes. */
  file: string;
  /** SHA-256 of the file's bytes, lower-case hex; null where the file could not be read. */
  sha256: string | null;
  /** Position inside the file: "item 1.4.2.3" (content item path) or "record 3, line 4, column value"; null for the whole file. */
  at: string | null;
}

/** error: the file or case is not used; warning: used, but someone should look; note: for the record. */
export type Severity = "error" | "warning" | "note";

/** A statement about an input or the run, never about the patient's anatomy. */
export interface Message {
  code: string;
  severity: Severity;
  place: SourcePlace | null;
  /** The values that fill the text. */
  data: Record<string, string | number>;
  text: string;
  /** What a person can do about it. */
  remedy: string;
}

/** One row of a folder's message table. `text` holds `{placeholders}` filled from `data`. */
export interface MessageDefinition {
  severity: Severity;
  text: string;
  remedy: string;
}

/**
 * Makes the function by which a folder raises the messages of its table.
 * A placeholder without a value is a defect of the program and throws.
 */
export function messageMaker<Code extends string>(table: Record<Code, MessageDefinition>) {
  return (
    code: Code,
    place: SourcePlace | null,
    data: Record<string, string | number> = {},
  ): Message => {
    const { severity, text, remedy } = table[code];
    const fill = (template: string): string =>
      template.replaceAll(/\{(\w+)\}/g, (_, name: string) => {
        const value = data[name];
        if (value === undefined) throw new Error(`message ${code}: no value for {${name}}`);
        return String(value);
      });
    return { code, severity, place, data, text: fill(text), remedy: fill(remedy) };
  };
}

/** "folder/file.csv, record 3, line 4, column value". */
export function formatPlace(place: SourcePlace): string {
  return place.at === null ? place.file : `${place.file}, ${place.at}`;
}
