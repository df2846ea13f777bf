import { z } from "zod";

const day = z.iso.date("a date is written YYYY-MM-DD");
const sex = z.enum(["F", "M", "O"]);
const text = z.string().min(1);
const aspects = { name: text, birthDate: day, sex };

const sha256 = z
  .string()
  .regex(/^[0-9a-f]{16,64}$/, "a SHA-256 is written with its first 16 hexadecimal digits or more");

/**
 * What a file says of the patient, by which a decision knows it. `sha256` is the begin of the digest of its bytes, which
 * is also the name of its copy in `set-aside/`: a file of the same name with other content is not decided about.
 */
const saysSchema = z.strictObject({ ...aspects, sha256 }).partial();
const saysSomething = (says: object): boolean =>
  ["name", "birthDate", "sex", "sha256"].some((key) => key in says);
const nothingSaid = "say at least one of name, birthDate, sex, sha256";

const standing = <T extends z.ZodType>(value: T) =>
  z.strictObject({ stands: value, also: z.array(value).min(1) });

const decisionSchema = z
  .strictObject({
    patientId: text,
    issuer: text.nullable().default(null),
    by: text,
    date: day,
    same: z
      .strictObject({
        name: standing(aspects.name),
        birthDate: standing(aspects.birthDate),
        sex: standing(aspects.sex),
      })
      .partial()
      .refine((same) => Object.keys(same).length > 0, "say which of name, birthDate, sex stands")
      .nullable()
      .default(null),
    apart: z
      .array(saysSchema.extend({ as: text }).refine(saysSomething, nothingSaid))
      .refine((parts) => new Set(parts.map((part) => part.as)).size > 1, "name two persons or more")
      .nullable()
      .default(null),
    leaveOut: z.array(saysSchema.refine(saysSomething, nothingSaid)).default([]),
  })
  .refine(
    ({ same, apart, leaveOut }) =>
      (same === null) !== (apart === null) ||
      (same === null && apart === null && leaveOut.length > 0),
    "decide one of same, apart or leaveOut; leaveOut may stand beside one of the other two",
  );

/**
 * The site's decisions about patient IDs whose files disagree about who the patient is. One for a patient ID and issuer:
 * - `same`: one person. For each aspect the value that stands, and the other values (`also`) that mean the same person.
 * - `apart`: several persons under one ID. What a file says decides to which of them (`as`) it belongs.
 * - `leaveOut`: files that say this are not of this patient, and not used.
 * `by` is the role of who decided (no name), `date` the day of the decision.
 */
export const identityDecisionsSchema = z
  .array(decisionSchema)
  .superRefine((decisions, context) => {
    const seen = new Set<string>();
    for (const [index, { patientId, issuer }] of decisions.entries()) {
      const key = JSON.stringify([patientId, issuer]);
      if (seen.has(key)) {
        const message = "decided twice; write one decision for a patient ID";
        context.addIssue({ code: "custom", path: [index, "patientId"], message });
      }
      seen.add(key);
    }
  })
  .default([]);

export type IdentityDecision = z.infer<typeof identityDecisionsSchema>[number];
/** What a decision asks a file to say. */
export type Says = z.infer<typeof saysSchema>;
