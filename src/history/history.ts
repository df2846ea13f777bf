import { DatabaseSync } from "node:sqlite";
import type { DatedCaseRow } from "../cases/build-cases.ts";
import type { Message } from "../message.ts";
import type { CaseRow, ReadDocument, ReadFile } from "../readers/reading.ts";

const schemaVersion = 1;
const schema = `
  CREATE TABLE night (night INTEGER PRIMARY KEY, as_of TEXT NOT NULL) STRICT;
  CREATE TABLE file (
    sha256 TEXT PRIMARY KEY, name TEXT NOT NULL, kind TEXT NOT NULL,
    night INTEGER NOT NULL REFERENCES night, is_whole INTEGER NOT NULL, messages TEXT NOT NULL
  ) STRICT;
  CREATE TABLE document (sha256 TEXT NOT NULL REFERENCES file, content TEXT NOT NULL) STRICT;
  CREATE TABLE case_row (sha256 TEXT NOT NULL REFERENCES file, content TEXT NOT NULL) STRICT;
`;

/** A file to store. One that is not whole lacks the parts that were set aside; it is read again when it comes again. */
export interface FileToStore {
  read: ReadFile;
  isWhole: boolean;
}

/** A history file that can't be used; it is never overwritten. */
export class HistoryFault extends Error {}

/**
 * The store of everything read so far, as it was read: documents and case rows with their places.
 * Tonight's folder may then hold only what is new. One SQLite file; one writer at a time.
 */
export class History {
  readonly #db: DatabaseSync;

  /** Opens or makes the store; `:memory:` keeps nothing. Throws HistoryFault for a damaged or newer file. */
  constructor(path: string) {
    try {
      this.#db = new DatabaseSync(path);
      const fault = this.#db.prepare("PRAGMA quick_check(1)").get()?.["quick_check"];
      if (fault !== "ok") throw new HistoryFault(`${path}: ${String(fault)}`);
      const version = Number(this.#db.prepare("PRAGMA user_version").get()?.["user_version"]);
      if (version === 0) this.#db.exec(`${schema} PRAGMA user_version = ${schemaVersion};`);
      else if (version !== schemaVersion) {
        throw new HistoryFault(`${path}: schema ${version}, this program writes ${schemaVersion}`);
      }
    } catch (error) {
      if (error instanceof HistoryFault) throw error;
      throw new HistoryFault(`${path}: ${(error as Error).message}`, { cause: error });
    }
  }

  /** True where a file with these bytes was stored whole before. */
  knows(sha256: string): boolean {
    const query = "SELECT 1 FROM file WHERE sha256 = ? AND is_whole = 1";
    return this.#db.prepare(query).get(sha256) !== undefined;
  }

  /** The number of the latest night; 0 for a new store. */
  latestNight(): number {
    return Number(this.#db.prepare("SELECT max(night) AS night FROM night").get()?.["night"] ?? 0);
  }

  /** Stores one night's files, all or none. A file that was stored in part before is replaced. */
  addNight(files: FileToStore[], asOf: string): void {
    if (files.length === 0) return;
    this.#db.exec("BEGIN IMMEDIATE");
    try {
      const night = this.latestNight() + 1;
      this.#db.prepare("INSERT INTO night VALUES (?, ?)").run(night, asOf);
      const addFile = this.#db.prepare("INSERT INTO file VALUES (?, ?, ?, ?, ?, ?)");
      const addDocument = this.#db.prepare("INSERT INTO document VALUES (?, ?)");
      const addRow = this.#db.prepare("INSERT INTO case_row VALUES (?, ?)");
      for (const { read, isWhole } of files) {
        const { sha256, file, kind, messages, documents, caseRows } = read;
        for (const table of ["document", "case_row", "file"]) {
          this.#db.prepare(`DELETE FROM ${table} WHERE sha256 = ?`).run(sha256);
        }
        addFile.run(sha256, file, kind, night, isWhole ? 1 : 0, JSON.stringify(messages));
        for (const document of documents) addDocument.run(sha256, JSON.stringify(document));
        for (const row of caseRows) addRow.run(sha256, JSON.stringify(row));
      }
      this.#db.exec("COMMIT");
    } catch (error) {
      this.#db.exec("ROLLBACK");
      throw error;
    }
  }

  /** All documents ever stored. */
  documents(): ReadDocument[] {
    const rows = this.#db.prepare("SELECT content FROM document ORDER BY sha256, rowid").all();
    return rows.map(({ content }) => JSON.parse(String(content)) as ReadDocument);
  }

  /** All case sheet rows ever stored, each with its night. */
  caseRows(): DatedCaseRow[] {
    const rows = this.#db
      .prepare(
        "SELECT content, night FROM case_row JOIN file USING (sha256) ORDER BY sha256, case_row.rowid",
      )
      .all();
    return rows.map(({ content, night }) => ({
      row: JSON.parse(String(content)) as CaseRow,
      night: Number(night),
    }));
  }

  /** What was said when each structured report was read, by the digest of its bytes. */
  reportMessages(): Map<string, Message[]> {
    const rows = this.#db
      .prepare("SELECT sha256, messages FROM file WHERE kind = 'structured report'")
      .all();
    return new Map(
      rows.map(({ sha256, messages }) => [
        String(sha256),
        JSON.parse(String(messages)) as Message[],
      ]),
    );
  }

  close(): void {
    this.#db.close();
  }
}
