import type { Message } from "../message.ts";

/** A history that can't be used, and why. Its file is never overwritten. */
export class HistoryFault extends Error {
  readonly reason: Message;

  constructor(reason: Message, cause?: unknown) {
    super(`${reason.text}. ${reason.remedy} (${reason.code})`, { cause });
    this.reason = reason;
  }
}
