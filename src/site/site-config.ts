import { z } from "zod";
import { meaningSchema } from "../anatomy/dictionary.ts";
import { placeTable } from "../anatomy/places.ts";
import { parseDataFile } from "../data-file.ts";
import { type Message, messageMaker } from "../message.ts";

const placeIds = placeTable.map(({ place }) => place.id) as [string, ...string[]];
const placeId = z.enum(placeIds);

const siteSchema = z
  .strictObject({
    issuer: z.string().min(1).nullable().default(null),
    readingErrorSdMm: z.number().positive().max(10).nullable().default(null),
    readingErrorSource: z.string().nullable().default(null),
    paper: z.enum(["A4", "Letter"]).default("A4"),
    codes: z
      .record(
        z.string().regex(/^\S+:\S+$/, "a code is written SCHEME:VALUE"),
        meaningSchema.extend({ place: placeId.optional() }),
      )
      .default({}),
    words: z.record(z.string(), placeId).default({}),
  })
  .refine((site) => site.readingErrorSdMm === null || site.readingErrorSource !== null, {
    path: ["readingErrorSource"],
    message: "readingErrorSdMm needs readingErrorSource: where the number comes from",
  });

/** What a site states about itself, from its `site.yaml`. */
export interface SiteConfig {
  /** Issuer of patient IDs in sheets and reports that name none. Null: such IDs stand for themselves. */
  issuer: string | null;
  /** Standard deviation of one diameter reading in mm; null: the published range is used. */
  readingErrorSdMm: number | null;
  readingErrorSource: string | null;
  paper: "A4" | "Letter";
  /** The site's private codes, keyed SCHEME:VALUE. */
  codes: z.infer<typeof siteSchema>["codes"];
  /** The lab's own words for places, to place ids. */
  words: Record<string, string>;
}

const siteMessage = messageMaker({
  "site-file-mistake": {
    severity: "error",
    text: "site file, {path}: {what}",
    remedy: "Correct the line; the run does not start with a site file that can't be read.",
  },
});

/** Without a site file: no issuer, the published reading error, A4, no private codes or words. */
export const noSiteConfig: SiteConfig = siteSchema.parse({});

/** Parses the text of a site file. Every mistake is a message with its line. */
export function parseSiteConfig(
  text: string,
  file: string,
): { site: SiteConfig; messages: [] } | { site: null; messages: Message[] } {
  const { value, problems } = parseDataFile(text, siteSchema);
  if (value !== null) return { site: value, messages: [] };
  const messages = problems.map(({ line, path, what }) =>
    siteMessage(
      "site-file-mistake",
      { file, sha256: null, at: `line ${line}` },
      { path: path || "whole file", what },
    ),
  );
  return { site: null, messages };
}
