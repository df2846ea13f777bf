import { z } from "zod";
import type { ArchConvention } from "../anatomy/arch-variants.ts";
import { meaningSchema } from "../anatomy/dictionary.ts";
import { parseDataFile } from "../data-file.ts";
import type { Message } from "../message.ts";
import { archConventionsSchema } from "./arch-conventions.ts";
import { type PlanningSettings, planningSchema } from "./planning-settings.ts";
import { type IdentityDecision, identityDecisionsSchema } from "./identity-decisions.ts";
import { siteMessage } from "./messages.ts";
import { readingErrorsSchema, type SiteReadingError } from "./reading-errors.ts";
import { placedDecisions, type RuleDecision, ruleDecisionsSchema } from "./rule-decisions.ts";
import {
  dateOrderSchema,
  decimalMarkSchema,
  placeIdSchema,
  type SheetConventions,
  sheetsSchema,
} from "./sheet-settings.ts";

const followUpSchema = z
  .strictObject({
    lostAfterMonths: z.number().int().positive().default(24),
    nearLimitMm: z.number().nonnegative().default(5),
  })
  .prefault({});

const siteSchema = z.strictObject({
  issuer: z.string().min(1).nullable().default(null),
  preferredGuideline: z.string().min(1).nullable().default(null),
  inventory: z.string().min(1).nullable().default(null),
  readingErrors: readingErrorsSchema.default([]),
  paper: z.enum(["A4", "Letter"]).default("A4"),
  codes: z
    .record(
      z.string().regex(/^\S+:\S+$/, "a code is written SCHEME:VALUE"),
      meaningSchema.extend({ place: placeIdSchema.optional() }),
    )
    .default({}),
  words: z.record(z.string(), placeIdSchema).default({}),
  decimal: decimalMarkSchema.default("point"),
  dates: dateOrderSchema.default("iso"),
  sheets: sheetsSchema.default([]),
  identities: identityDecisionsSchema,
  followUp: followUpSchema,
  archConventions: archConventionsSchema,
  rules: ruleDecisionsSchema,
  neighbourStepMm: z.number().positive().max(150).default(25),
  planning: planningSchema,
});

/** A file of comments only states nothing, which is no mistake. */
const siteFileSchema = z.preprocess((content) => content ?? {}, siteSchema);

/** What a site states about itself, from its `site.yaml`. */
export interface SiteConfig extends SheetConventions {
  /** Issuer of patient IDs in sheets and reports that name none. Null: such IDs stand for themselves. */
  issuer: string | null;
  /** Body whose criteria stand first among equals on the pages; the others stay. Null: none. */
  preferredGuideline: string | null;
  /** Path of the inventory of grafts (CSV), relative to the site file. Null: none. */
  inventory: string | null;
  /** Standard deviations of one diameter reading by method; where none applies, the published range is used. */
  readingErrors: readonly SiteReadingError[];
  paper: "A4" | "Letter";
  /** What the follow-up list calls lost (no exam for so many months) and near a limit; common practice, not from a source. */
  followUp: { lostAfterMonths: number; nearLimitMm: number };
  /** The site's private codes, keyed SCHEME:VALUE. */
  codes: z.infer<typeof siteSchema>["codes"];
  /** Decisions about patient IDs whose files disagree about who the patient is. */
  identities: readonly IdentityDecision[];
  /** How the site divides arches that are not the usual one; without an entry such an arch has no zones of its own. */
  archConventions: readonly ArchConvention[];
  /** Published criteria that the site confirmed, corrected or hid; whether they exist is checked where criteria are known. */
  rules: readonly RuleDecision[];
  /** Step in mm between the diameters of neighbouring places from which on it is doubted. The default is common practice, not from a source. */
  neighbourStepMm: number;
  /** What the planning of repairs stands on besides published conditions. */
  planning: PlanningSettings;
  /** The lab's own words for places, to place ids. */
  words: Record<string, string>;
}

/** Without a site file: no issuer, the published reading error, A4, no private codes, words or conventions. */
export const noSiteConfig: SiteConfig = { ...siteSchema.parse({}), rules: [] };

/** Parses the text of a site file. Every mistake is a message with its line. */
export function parseSiteConfig(
  text: string,
  file: string,
): { site: SiteConfig; messages: [] } | { site: null; messages: Message[] } {
  const parsed = parseDataFile(text, siteFileSchema);
  if (parsed.value !== null) {
    const { value, lineOf } = parsed;
    return { site: { ...value, rules: placedDecisions(value.rules, file, lineOf) }, messages: [] };
  }
  const messages = parsed.problems.map(({ line, path, what }) =>
    siteMessage(
      "site-file-mistake",
      { file, sha256: null, at: `line ${line}` },
      { path: path || "whole file", what },
    ),
  );
  return { site: null, messages };
}
