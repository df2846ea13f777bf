import type { FileAside } from "../cases/persons.ts";
import { type FiledFile, type FileRow, placeKey } from "./filed-file.ts";
import { batchMessage } from "./messages.ts";

const reasons = {
  conflict: "file-identity-conflict",
  undecided: "file-identity-undecided",
  versions: "file-versions-contradict",
  decided: "file-left-out-by-site",
} as const;

/**
 * Says in each file's row what the files together made of it: a file of which every part is aside is set aside (or
 * skipped, where the site left it out); in one that is used in part, the parts that are not are counted and told.
 */
export function judgeAside(files: FiledFile[], aside: FileAside[]): FiledFile[] {
  const asideAt = new Map(aside.map((one) => [placeKey(one.file.stated.source), one]));
  return files.map((filed) => {
    const { parts, row, read } = filed;
    const out = parts.flatMap((part) => {
      const found = asideAt.get(placeKey(part.source));
      return found ? { part, found } : [];
    });
    if (out.length === 0) return filed;
    const lost = out.reduce((total, { part }) => total + part.placed, 0);
    const isUsed = row.outcome === "used";
    const messages = new Map(
      out.flatMap(({ found }) => found.reasons).map((one) => [JSON.stringify(one), one]),
    );
    const details = [...filed.details, ...messages.values()];
    const placed = isUsed ? row.placed - lost : row.placed;
    const leftOut = isUsed ? row.leftOut + lost : row.leftOut;
    if (out.length < parts.length) {
      return { ...filed, details, row: { ...row, placed, leftOut } };
    }
    const why = out.map(({ found }) => found.why);
    const first = why.find((one) => one !== "decided") ?? "decided";
    const place = { file: read.file, sha256: read.sha256, at: null };
    const reason = batchMessage(reasons[first], place);
    const outcome: FileRow["outcome"] = first === "decided" ? "skipped" : "set-aside";
    return { ...filed, details, row: { ...row, outcome, reason, placed, leftOut } };
  });
}
