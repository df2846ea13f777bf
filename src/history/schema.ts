/** The version of the schema that this program writes (`PRAGMA user_version`). */
export const schemaVersion = 5;

/** The tables of a new history. */
export const schema = `
  CREATE TABLE night (night INTEGER PRIMARY KEY, as_of TEXT NOT NULL) STRICT;
  CREATE TABLE file (
    sha256 TEXT PRIMARY KEY, name TEXT NOT NULL, kind TEXT NOT NULL,
    night INTEGER NOT NULL REFERENCES night, is_settled INTEGER NOT NULL, messages TEXT NOT NULL
  ) STRICT;
  CREATE TABLE document (sha256 TEXT NOT NULL REFERENCES file, content TEXT NOT NULL) STRICT;
  CREATE TABLE case_row (sha256 TEXT NOT NULL REFERENCES file, content TEXT NOT NULL) STRICT;
`;

/**
 * The step from each earlier version to the next:
 * - 1, whose files could lack parts and whose reports named no identical documents;
 * - 2, whose documents had no findings, and whose case rows no dissection, malperfusion and arch variant;
 * - 3, whose case rows had no symptoms;
 * - 4, whose documents had no sections of centrelines, and whose readings no figures drawn in space.
 */
export const migrations = [
  `ALTER TABLE file RENAME COLUMN is_whole TO is_settled;
  UPDATE document SET content = json_set(content, '$.report.identicalUids', json('[]'))
    WHERE json_type(content, '$.report') = 'object';`,
  `UPDATE document SET content = json_set(content, '$.findings', json('[]'));
  UPDATE case_row SET content =
    json_set(content, '$.dissection', NULL, '$.malperfusion', NULL, '$.archVariant', NULL);`,
  `UPDATE case_row SET content = json_set(content, '$.symptoms', NULL);`,
  `UPDATE document SET content = json_set(content, '$.stations', json('[]'), '$.readings',
    (SELECT json_group_array(json(
      CASE json_type(value, '$.graphic') WHEN 'object' THEN value ELSE json_set(value, '$.graphic', NULL) END
    ) ORDER BY key) FROM json_each(content, '$.readings')));`,
] as const;
