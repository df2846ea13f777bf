import { z } from "zod";
import { aetiologies, diagnoses, repairKinds } from "../cases/vocabulary.ts";
import { citation, recommendation } from "./citation.ts";
import { partIds } from "./schedule-parts.ts";

const text = z.string().min(1);
const part = z.enum(partIds);

/** The patients a schedule speaks of, in the words of the case sheet. What is absent is not asked. */
const population = z.strictObject({
  /** Any of these. */
  diagnosis: z.array(z.enum(diagnoses)).optional(),
  /** None of these. */
  diagnosisNot: z.array(z.enum(diagnoses)).optional(),
  /** What a repair was for: an acute syndrome where a dissection, haematoma or ulcer is stated, an aneurysm where only that is. */
  indication: z.enum(["aneurysm", "acute syndrome"]).optional(),
  aetiology: z.array(z.enum(aetiologies)).optional(),
  sex: z.array(z.enum(["F", "M"])).optional(),
  ageYears: z
    .strictObject({ atLeast: z.number().optional(), below: z.number().optional() })
    .optional(),
  /** After a repair of this part that is of any of these kinds. */
  repaired: z.strictObject({ part, kinds: z.array(z.enum(repairKinds)).min(1) }).optional(),
  /** The part has no repair. */
  unrepaired: part.optional(),
  /** Special circumstances that no sheet states; the schedule is not used until a person affirms them. */
  onlyIf: z.array(text).optional(),
  /** The usual course that no sheet states: the schedule is used, and holds while these are true. */
  statements: z.array(text).optional(),
});

/** Largest size of the part in its latest exam. Bounds as printed: `above` and `below` leave their end out. */
const size = z
  .strictObject({
    part,
    kind: z.enum(["diameter", "aortic-size-index"]),
    above: z.number().optional(),
    atLeast: z.number().optional(),
    below: z.number().optional(),
    atMost: z.number().optional(),
    unit: z.enum(["mm", "cm/m2"]),
    printed: text,
  })
  .refine(({ kind, unit }) => (unit === "mm") === (kind === "diameter"), {
    path: ["unit"],
    message: "not the unit of this kind of size",
  })
  .refine(({ above, atLeast }) => above === undefined || atLeast === undefined, {
    path: ["above"],
    message: "two lower bounds",
  })
  .refine(({ below, atMost }) => below === undefined || atMost === undefined, {
    path: ["atMost"],
    message: "two upper bounds",
  });

const months = z.number().int().positive();
/** So many months, or any time from one to the other; "within 6 months" is from 0 to 6. */
const span = z.union([
  months,
  z
    .strictObject({ from: z.number().int().nonnegative(), to: months })
    .refine(({ from, to }) => from < to, "ends before it begins"),
]);

/** Kinds of imaging, as DICOM modalities. */
export const modalities = ["CT", "MR", "US"] as const;
const counts = z.array(z.enum(modalities)).min(1);

const phase = z.strictObject({
  every: span,
  /** Months after the start with which the phase ends; absent in a phase without end. */
  until: months.optional(),
  statements: z.array(text).optional(),
  /** Where the source grades this phase otherwise than the rest. */
  recommendation: recommendation.optional(),
});

export const scheduleSchema = z
  .strictObject({
    id: text,
    title: text,
    source: citation.required({ doi: true }),
    recommendation: recommendation.nullable(),
    population,
    size: size.optional(),
    imaging: z.strictObject({
      /** The kind of imaging in the words of the source. */
      words: text,
      /** DICOM modalities of the exams that count. Our rule: CT and MR stand for each other, ultrasound for neither. */
      counts,
      /** Parts of which the exam must hold a number, each of them. Our reading where the source names no extent. */
      covers: z.array(part).min(1),
    }),
    start: z.strictObject({
      from: z.enum(["repair", "onset", "first exam", "last exam"]),
      /** Modalities of the first exam where they differ from those of the exams that follow. */
      counts: counts.optional(),
    }),
    due: z
      .strictObject({ at: z.array(span), phases: z.array(phase) })
      .refine(({ at, phases }) => at.length + phases.length > 0, "names no date")
      .refine(
        ({ phases }) => phases.slice(0, -1).every(({ until }) => until !== undefined),
        "a phase without end that is not the last",
      )
      .refine(
        ({ phases }) =>
          phases.every(({ every, until }) => until === undefined || typeof every === "number"),
        "a phase with an end needs one number of months",
      ),
    /** What the source says, in our words; never an instruction. */
    says: text,
    checked: z.discriminatedUnion("how", [
      z.strictObject({ how: z.literal("seen"), against: text }),
      /** Seen, but something that the schedule rests on was not: `open` says what. Counts as not confirmed. */
      z.strictObject({ how: z.literal("in-part"), against: text, open: text }),
      z.strictObject({ how: z.literal("from-memory") }),
    ]),
  })
  .refine(
    ({ start, due }) =>
      start.from !== "last exam" ||
      (due.at.length === 0 && due.phases.every(({ until }) => until === undefined)),
    { path: ["due"], message: "from the last exam only an interval can be counted" },
  )
  .refine(({ start, population }) => start.from !== "repair" || population.repaired !== undefined, {
    path: ["start"],
    message: "counts from a repair that the population does not ask for",
  });

/** One published schedule of imaging. Source of every value: the file's own `source` and `checked`. */
export type Schedule = z.infer<typeof scheduleSchema>;
export type ScheduleSize = NonNullable<Schedule["size"]>;
/** So many months, or from some to some. */
export type MonthSpan = z.infer<typeof span>;
