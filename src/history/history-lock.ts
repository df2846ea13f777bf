import { readFileSync, rmSync, writeFileSync } from "node:fs";
import { hostname } from "node:os";
import { z } from "zod";
import type { Message } from "../message.ts";
import { HistoryFault } from "./history-fault.ts";
import { historyMessage } from "./messages.ts";

const ownerSchema = z.object({ pid: z.number().int(), host: z.string(), since: z.string() });
type Owner = z.infer<typeof ownerSchema>;

/** The right to write a history, until it is released. */
export interface HistoryLock {
  /** A note where the lock of a process that is gone was taken over. */
  notes: Message[];
  release: () => void;
}

/**
 * Takes the right to write a history: a file `PATH.lock` that names process, host and start. A lock is left behind where
 * its process no longer lives on this host, and is then taken over. Throws HistoryFault where another process holds it.
 */
export function takeLock(storePath: string): HistoryLock {
  const path = `${storePath}.lock`;
  const own: Owner = { pid: process.pid, host: hostname(), since: new Date().toISOString() };
  const held = (notes: Message[]): HistoryLock => ({ notes, release: () => release(path, own) });
  if (create(path, own, storePath)) return held([]);
  const before = readOwner(path);
  if (before === "gone") return takeLock(storePath);
  if (!isLeftBehind(before)) throw inUse(storePath, path, before);
  const guard = `${path}.takeover`;
  if (!create(guard, own, storePath)) throw inUse(storePath, guard, readOwner(guard));
  try {
    const owner = readOwner(path);
    if (!isLeftBehind(owner)) throw inUse(storePath, path, owner);
    rmSync(path);
    if (!create(path, own, storePath)) throw inUse(storePath, path, readOwner(path));
    return held([historyMessage("history-lock-left-behind", null, owner)]);
  } finally {
    rmSync(guard);
  }
}

/** Writes the owner into a new file; false where the file is there already. */
function create(path: string, owner: Owner, storePath: string): boolean {
  try {
    writeFileSync(path, `${JSON.stringify(owner)}\n`, { flag: "wx", mode: 0o600 });
    return true;
  } catch (error) {
    if (codeOf(error) === "EEXIST") return false;
    const data = { file: storePath, what: (error as Error).message };
    throw new HistoryFault(historyMessage("history-unusable", null, data), error);
  }
}

/** "unknown" where the file says nothing that can be read, "gone" where there is none any more. */
function readOwner(path: string): Owner | "unknown" | "gone" {
  try {
    return ownerSchema.parse(JSON.parse(readFileSync(path, "utf8")));
  } catch (error) {
    return codeOf(error) === "ENOENT" ? "gone" : "unknown";
  }
}

const codeOf = (error: unknown): string | undefined => (error as NodeJS.ErrnoException).code;

/** A lock of this very process number that is older than this process was left by an earlier one with the same number. */
function isLeftBehind(owner: Owner | "unknown" | "gone"): owner is Owner {
  if (owner === "unknown" || owner === "gone" || owner.host !== hostname()) return false;
  if (owner.pid === process.pid) return Date.parse(owner.since) < performance.timeOrigin;
  try {
    process.kill(owner.pid, 0);
    return false;
  } catch (error) {
    return codeOf(error) === "ESRCH";
  }
}

function inUse(file: string, lock: string, owner: Owner | "unknown" | "gone"): HistoryFault {
  const unknown = { pid: "(unknown)", host: "(unknown)", since: "(unknown)" };
  const data = { file, lock, ...(typeof owner === "string" ? unknown : owner) };
  return new HistoryFault(historyMessage("history-in-use", null, data));
}

/** Gives the lock back, unless someone has deleted it and another run holds it now. */
function release(path: string, own: Owner): void {
  const owner = readOwner(path);
  if (JSON.stringify(owner) === JSON.stringify(own)) rmSync(path);
}
