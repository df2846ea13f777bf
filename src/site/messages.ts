import { type MessageDefinition, messageMaker } from "../message.ts";

/** What can be wrong with a site file. */
export const siteMessages = {
  "site-file-mistake": {
    severity: "error",
    text: "site file, {path}: {what}",
    remedy: "Correct the line; the run does not start with a site file that can't be read.",
  },
} as const satisfies Record<string, MessageDefinition>;

export const siteMessage = messageMaker(siteMessages);
