import type { Message } from "../message.ts";
import { History, type HistoryCheck } from "./history.ts";
import { takeLock } from "./history-lock.ts";

/** A history that this process alone may write, until it is closed. */
export interface OpenedHistory {
  history: History;
  /** What happened on the way: a lock taken over, an older schema brought up to date. */
  notes: Message[];
  close: () => void;
}

/**
 * Opens or makes the history of an output folder to write in it. Throws HistoryFault where another process is writing,
 * and for a file that can't be used; both leave it as it is.
 */
export function openToWrite(path: string, check: HistoryCheck = "quick"): OpenedHistory {
  const lock = takeLock(path);
  try {
    const history = new History(path, { check });
    const close = () => {
      history.close();
      lock.release();
    };
    return { history, notes: [...lock.notes, ...history.notes], close };
  } catch (error) {
    lock.release();
    throw error;
  }
}
