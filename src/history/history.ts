import { closeSync, existsSync, openSync, rmSync, statSync } from "node:fs";
import { basename } from "node:path";
import { DatabaseSync } from "node:sqlite";
import { type DatedCaseRow, type PatientFile, patientFiles } from "../cases/patient-files.ts";
import type { Message } from "../message.ts";
import type { CaseRow, FileKind, ReadDocument, ReadFile } from "../readers/reading.ts";
import { HistoryFault } from "./history-fault.ts";
import { historyMessage } from "./messages.ts";
import { migrations, schema, schemaVersion } from "./schema.ts";

/** What one night adds to the store and changes in it. */
export interface Night {
  /** Everything that was read from the files, also what was set aside. */
  files: ReadFile[];
  /** Digests of files that wait for a decision about whose they are or which is in force. */
  held: ReadonlySet<string>;
  /** Documents and rows of held files that were taken out of the folder. */
  withdrawn: PatientFile[];
}

/** When a file was first stored, and whether it was used: a file that is not settled is judged again when it comes again. */
export interface StoredFile {
  night: number;
  isSettled: boolean;
}

/** A file as the store keeps it, with the night in which its bytes came first. */
export interface HeldFile {
  name: string;
  sha256: string;
  kind: FileKind;
  night: number;
  /** The date of the first run that read it, YYYY-MM-DD. */
  asOf: string;
  /** False where it waits for a decision about whose it is or which report is in force. */
  isSettled: boolean;
  /** What was said when it was read. */
  messages: Message[];
}

/** A document or case row of the store, with its file. */
export interface HeldPart extends PatientFile {
  file: HeldFile;
}

/** A patient ID with the issuers under which files state it; null where they state none. */
export interface StatedId {
  id: string;
  issuers: readonly (string | null)[];
}

/** How much of the file is looked at on opening: `full` also compares the indexes with the tables. */
export type HistoryCheck = "quick" | "full";

const setVersion = `PRAGMA user_version = ${schemaVersion};`;

/** How long a statement waits for another process that is just writing, in milliseconds. */
const busyTimeoutMs = 5000;

/**
 * The store of everything read so far, as it was read: documents and case rows with their places.
 * Tonight's folder may then hold only what is new. One SQLite file; one writer at a time.
 */
export class History {
  readonly #db: DatabaseSync;
  readonly #path: string;

  /** What was done on opening: an older schema brought up to date. */
  readonly notes: Message[] = [];

  /**
   * Opens or makes the store; `:memory:` keeps nothing. `readOnly` changes nothing in the file, which then must be there
   * and of this version. A store of an older schema is first copied beside itself. Throws HistoryFault for a damaged,
   * empty or newer file, which stays as it is.
   */
  constructor(
    path: string,
    { readOnly = false, check = "quick" }: { readOnly?: boolean; check?: HistoryCheck } = {},
  ) {
    const isNew = !existsSync(path);
    if (!isNew && statSync(path).size === 0) throw damaged(path, "it is empty");
    this.#path = path;
    try {
      this.#db = new DatabaseSync(path, { readOnly, timeout: busyTimeoutMs });
    } catch (error) {
      throw faultOf(path, error);
    }
    try {
      this.#lookAt(isNew, check);
      if (!readOnly) this.#db.exec("PRAGMA secure_delete = ON");
      if (isNew) this.#db.exec(`BEGIN; ${schema} ${setVersion} COMMIT;`);
      else this.#bringUpToDate(readOnly);
    } catch (error) {
      this.#db.close();
      throw faultOf(path, error);
    }
  }

  #lookAt(isNew: boolean, check: HistoryCheck): void {
    if (isNew) return;
    const pragma = check === "full" ? "integrity_check" : "quick_check";
    const fault = this.#db.prepare(`PRAGMA ${pragma}(1)`).get()?.[pragma];
    if (fault !== "ok") throw damaged(this.#path, String(fault));
    if (statSync(this.#path).size % this.#number("page_size") !== 0) {
      throw damaged(this.#path, "its last page is cut off");
    }
  }

  #bringUpToDate(readOnly: boolean): void {
    const version = this.#number("user_version");
    if (version === schemaVersion) return;
    if (version === 0) throw damaged(this.#path, "it has no tables of a history");
    const data = { file: this.#path, version, own: schemaVersion };
    if (version < 1 || version > schemaVersion) {
      throw new HistoryFault(historyMessage("history-version-unknown", null, data));
    }
    if (readOnly) throw new HistoryFault(historyMessage("history-version-old", null, data));
    const copy = unusedName(`${this.#path}.version-${version}`);
    this.copyTo(copy);
    this.#db.exec(`BEGIN; ${migrations.slice(version - 1).join("\n")} ${setVersion} COMMIT;`);
    this.notes.push(historyMessage("history-migrated", null, { ...data, copy: basename(copy) }));
  }

  #number(pragma: "user_version" | "page_size"): number {
    return Number(this.#db.prepare(`PRAGMA ${pragma}`).get()?.[pragma]);
  }

  /** JSON of the store; text that is none is damage that SQLite can't see. */
  #parse(text: unknown): unknown {
    try {
      return JSON.parse(String(text));
    } catch {
      throw damaged(this.#path, "a stored text can't be read");
    }
  }

  /** What the store knows of a file with these bytes; null where it was never stored. */
  stored(sha256: string): StoredFile | null {
    const query = "SELECT night, is_settled FROM file WHERE sha256 = ?";
    const row = this.#db.prepare(query).get(sha256);
    return row ? { night: Number(row["night"]), isSettled: row["is_settled"] === 1 } : null;
  }

  /** The number of the latest night; 0 for a new store. */
  latestNight(): number {
    return Number(this.#db.prepare("SELECT max(night) AS night FROM night").get()?.["night"] ?? 0);
  }

  /** Stores one night, all or nothing. A held file that comes again keeps its first night. */
  addNight({ files, held, withdrawn }: Night, asOf: string): void {
    this.#db.exec("BEGIN IMMEDIATE");
    try {
      if (files.length > 0) this.#addFiles(files, held, asOf);
      for (const file of withdrawn) this.#remove(file);
      const open = this.#db.prepare("SELECT sha256 FROM file WHERE is_settled = 0").all();
      const settle = this.#db.prepare("UPDATE file SET is_settled = 1 WHERE sha256 = ?");
      for (const { sha256 } of open) if (!held.has(String(sha256))) settle.run(String(sha256));
      this.#db.exec("COMMIT");
    } catch (error) {
      this.#db.exec("ROLLBACK");
      throw error;
    }
  }

  #addFiles(files: ReadFile[], held: ReadonlySet<string>, asOf: string): void {
    const night = this.latestNight() + 1;
    this.#db.prepare("INSERT INTO night VALUES (?, ?)").run(night, asOf);
    const addFile = this.#db.prepare("INSERT INTO file VALUES (?, ?, ?, ?, ?, ?)");
    const addDocument = this.#db.prepare("INSERT INTO document VALUES (?, ?)");
    const addRow = this.#db.prepare("INSERT INTO case_row VALUES (?, ?)");
    for (const { sha256, file, kind, messages, documents, caseRows } of files) {
      const since = this.stored(sha256)?.night ?? night;
      for (const table of ["document", "case_row", "file"]) {
        this.#db.prepare(`DELETE FROM ${table} WHERE sha256 = ?`).run(sha256);
      }
      const isSettled = held.has(sha256) ? 0 : 1;
      addFile.run(sha256, file, kind, since, isSettled, JSON.stringify(messages));
      for (const document of documents) addDocument.run(sha256, JSON.stringify(document));
      for (const row of caseRows) addRow.run(sha256, JSON.stringify(row));
    }
  }

  /** Removes a document or row, and its file with the last of them. */
  #remove({ document, stated: { source } }: PatientFile): void {
    const table = document ? "document" : "case_row";
    const { sha256, at } = source;
    this.#db
      .prepare(
        `DELETE FROM ${table} WHERE sha256 = ? AND json_extract(content, '$.source.at') IS ?`,
      )
      .run(sha256, at);
    this.#removeEmptyFile(sha256 ?? "");
  }

  #removeEmptyFile(sha256: string): void {
    this.#db
      .prepare(
        `DELETE FROM file WHERE sha256 = ? AND sha256 NOT IN (SELECT sha256 FROM document)
          AND sha256 NOT IN (SELECT sha256 FROM case_row)`,
      )
      .run(sha256);
  }

  /** All documents ever stored. */
  documents(): ReadDocument[] {
    const rows = this.#db.prepare("SELECT content FROM document ORDER BY sha256, rowid").all();
    return rows.map(({ content }) => this.#parse(content) as ReadDocument);
  }

  /** All case sheet rows ever stored, each with its night. */
  caseRows(): DatedCaseRow[] {
    const rows = this.#db
      .prepare(
        "SELECT content, night FROM case_row JOIN file USING (sha256) ORDER BY sha256, case_row.rowid",
      )
      .all();
    return rows.map(({ content, night }) => ({
      row: this.#parse(content) as CaseRow,
      night: Number(night),
    }));
  }

  /** What is stored of a file with these bytes. */
  contentOf(sha256: string): Pick<ReadFile, "documents" | "caseRows"> {
    const contentIn = (table: "document" | "case_row"): unknown[] =>
      this.#db
        .prepare(`SELECT content FROM ${table} WHERE sha256 = ? ORDER BY rowid`)
        .all(sha256)
        .map(({ content }) => this.#parse(content) as unknown);
    return {
      documents: contentIn("document") as ReadDocument[],
      caseRows: contentIn("case_row") as CaseRow[],
    };
  }

  /** What was said when each structured report was read, by the digest of its bytes. */
  reportMessages(): Map<string, Message[]> {
    const rows = this.#db
      .prepare("SELECT sha256, messages FROM file WHERE kind = 'structured report'")
      .all();
    return new Map(
      rows.map(({ sha256, messages }) => [String(sha256), this.#parse(messages) as Message[]]),
    );
  }

  /** Every document and case row with its file, in the order of the nights. */
  holdings(): HeldPart[] {
    const query = (table: "document" | "case_row"): string =>
      `SELECT '${table}' AS "table", ${table}.rowid AS part, content, sha256, name, kind, night, as_of, is_settled, messages
        FROM ${table} JOIN file USING (sha256) JOIN night USING (night)`;
    const rows = this.#db
      .prepare(
        `${query("document")} UNION ALL ${query("case_row")} ORDER BY night, name, sha256, part`,
      )
      .all();
    return rows.flatMap((row): HeldPart[] => {
      const file: HeldFile = {
        name: String(row["name"]),
        sha256: String(row["sha256"]),
        kind: String(row["kind"]) as FileKind,
        night: Number(row["night"]),
        asOf: String(row["as_of"]),
        isSettled: row["is_settled"] === 1,
        messages: this.#parse(row["messages"]) as Message[],
      };
      const content = this.#parse(row["content"]);
      const parts =
        row["table"] === "document"
          ? patientFiles([content as ReadDocument], [])
          : patientFiles([], [{ row: content as CaseRow, night: file.night }]);
      return parts.map((part) => ({ ...part, file }));
    });
  }

  /**
   * Removes every document and case row of a patient, and the files that hold nothing else. What was said when a shared
   * sheet was read goes too, for it can quote the patient's row. The freed bytes are overwritten and given back.
   */
  forget({ id, issuers }: StatedId): void {
    this.#db.exec("BEGIN IMMEDIATE");
    try {
      const touched = new Set<string>();
      for (const issuer of issuers) {
        for (const [table, idPath, issuerPath] of identityPaths) {
          const removed = this.#db
            .prepare(
              `DELETE FROM ${table} WHERE json_extract(content, '${idPath}') = ?
                AND json_extract(content, '${issuerPath}') IS ? RETURNING sha256`,
            )
            .all(id, issuer);
          for (const { sha256 } of removed) touched.add(String(sha256));
        }
      }
      for (const sha256 of touched) {
        this.#removeEmptyFile(sha256);
        this.#db.prepare("UPDATE file SET messages = '[]' WHERE sha256 = ?").run(sha256);
      }
      this.#db.exec("COMMIT");
    } catch (error) {
      this.#db.exec("ROLLBACK");
      throw error;
    }
    this.#db.exec("VACUUM");
  }

  /** Writes a copy of the whole store into a new file. Throws where the file is there already. */
  copyTo(path: string): void {
    closeSync(openSync(path, "wx", 0o600));
    try {
      this.#db.prepare("VACUUM INTO ?").run(path);
    } catch (error) {
      rmSync(path);
      throw error;
    }
  }

  close(): void {
    this.#db.close();
  }
}

/** Where documents and case rows state patient ID and issuer. */
const identityPaths = [
  ["document", "$.patient.id", "$.patient.issuer"],
  ["case_row", "$.patientId", "$.issuer"],
] as const;

/** "PATH.bak", or with the first number that is free. */
function unusedName(stem: string): string {
  const first = `${stem}.bak`;
  if (!existsSync(first)) return first;
  let number = 2;
  while (existsSync(`${stem}-${number}.bak`)) number += 1;
  return `${stem}-${number}.bak`;
}

const damaged = (file: string, what: string): HistoryFault =>
  new HistoryFault(historyMessage("history-damaged", null, { file, what }));

/** SQLite's result codes for a file that is damaged (SQLITE_CORRUPT) and for one that is no database (SQLITE_NOTADB). */
const damageCodes = new Set([11, 26]);

/** The fault behind an error of SQLite; the low byte of its extended code is the result code. */
function faultOf(file: string, error: unknown): HistoryFault {
  if (error instanceof HistoryFault) return error;
  const { message: what, errcode = 0 } = error as Error & { errcode?: number };
  if (damageCodes.has(errcode % 256)) return damaged(file, what);
  return new HistoryFault(historyMessage("history-unusable", null, { file, what }), error);
}
