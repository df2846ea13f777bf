import { isDeepStrictEqual } from "node:util";
import type { History } from "../history/history.ts";
import type { ReadFile } from "../readers/reading.ts";

/**
 * True where the store holds what a file says now. After a change of the site file the same bytes of a sheet can say
 * more, or something else; the name of the file does not matter.
 */
export function isReadAsBefore(read: ReadFile, history: History): boolean {
  const { documents, caseRows, sha256 } = read;
  const comparable = (content: object): unknown =>
    JSON.parse(
      JSON.stringify(content, (key, value: unknown) => (key === "file" ? undefined : value)),
    );
  return isDeepStrictEqual(
    comparable({ documents, caseRows }),
    comparable(history.contentOf(sha256)),
  );
}
