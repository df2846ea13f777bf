import { DatabaseSync } from "node:sqlite";
import type { DatedCaseRow, PatientFile } from "../cases/patient-files.ts";
import type { Message } from "../message.ts";
import type { CaseRow, ReadDocument, ReadFile } from "../readers/reading.ts";

const schemaVersion = 2;
const schema = `
  CREATE TABLE night (night INTEGER PRIMARY KEY, as_of TEXT NOT NULL) STRICT;
  CREATE TABLE file (
    sha256 TEXT PRIMARY KEY, name TEXT NOT NULL, kind TEXT NOT NULL,
    night INTEGER NOT NULL REFERENCES night, is_settled INTEGER NOT NULL, messages TEXT NOT NULL
  ) STRICT;
  CREATE TABLE document (sha256 TEXT NOT NULL REFERENCES file, content TEXT NOT NULL) STRICT;
  CREATE TABLE case_row (sha256 TEXT NOT NULL REFERENCES file, content TEXT NOT NULL) STRICT;
`;

/** From version 1, whose files could lack parts and whose reports named no identical documents. */
const migration = `
  ALTER TABLE file RENAME COLUMN is_whole TO is_settled;
  UPDATE document SET content = json_set(content, '$.report.identicalUids', json('[]'))
    WHERE json_type(content, '$.report') = 'object';
`;

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

/** A history file that can't be used; it is never overwritten. */
export class HistoryFault extends Error {}

/**
 * The store of everything read so far, as it was read: documents and case rows with their places.
 * Tonight's folder may then hold only what is new. One SQLite file; one writer at a time.
 */
export class History {
  readonly #db: DatabaseSync;

  /**
   * Opens or makes the store; `:memory:` keeps nothing. `readOnly` changes nothing in the file, which then must be there
   * and of this version. Throws HistoryFault for a damaged or newer file.
   */
  constructor(path: string, { readOnly = false } = {}) {
    try {
      this.#db = new DatabaseSync(path, { readOnly });
      const fault = this.#db.prepare("PRAGMA quick_check(1)").get()?.["quick_check"];
      if (fault !== "ok") throw new HistoryFault(`${path}: ${String(fault)}`);
      const version = Number(this.#db.prepare("PRAGMA user_version").get()?.["user_version"]);
      const setVersion = `PRAGMA user_version = ${schemaVersion};`;
      if (version === schemaVersion) return;
      if (version === 0 && !readOnly) this.#db.exec(`BEGIN; ${schema} ${setVersion} COMMIT;`);
      else if (version === 1 && !readOnly)
        this.#db.exec(`BEGIN; ${migration} ${setVersion} COMMIT;`);
      else {
        throw new HistoryFault(`${path}: schema ${version}, this program writes ${schemaVersion}`);
      }
    } catch (error) {
      if (error instanceof HistoryFault) throw error;
      throw new HistoryFault(`${path}: ${(error as Error).message}`, { cause: error });
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

  /** What is stored of a file with these bytes. */
  contentOf(sha256: string): Pick<ReadFile, "documents" | "caseRows"> {
    const contentIn = (table: "document" | "case_row"): unknown[] =>
      this.#db
        .prepare(`SELECT content FROM ${table} WHERE sha256 = ? ORDER BY rowid`)
        .all(sha256)
        .map(({ content }) => JSON.parse(String(content)) as unknown);
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
