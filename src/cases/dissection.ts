import { wordKey } from "../anatomy/dictionary.ts";
import { type DissectionAge, dissectionAge } from "./dissection-bands.ts";
import {
  compareDiagnoses,
  compareNotation,
  type DiagnosisComparison,
  type NotationComparison,
} from "./dissection-comparison.ts";
import { type DissectionExtent, dissectionExtent } from "./dissection-extent.ts";
import {
  type DissectionNotation,
  formatDissectionNotation,
  parseDissectionNotation,
} from "./dissection-notation.ts";
import {
  type DissectionPicture,
  pictureOf,
  type Scheme,
  schemesOf,
  stanfordType,
} from "./dissection-schemes.ts";
import { type SeverityStatement, severityStatements } from "./dissection-severity.ts";
import {
  type Malperfusion,
  malperfusionOf,
  type Territory,
  territoryOf,
  type TerritoryMalperfusion,
} from "./malperfusion.ts";
import type { Exam, Finding, PatientCase } from "./patient-case.ts";
import { dissections } from "./vocabulary.ts";
import { wallsAt } from "./wall.ts";

/** Something seen at a place in one exam. */
interface Seen {
  place: string;
  zones: string[];
  exam: string;
  date: string;
  /** Keys of findings. */
  used: string[];
}

/** All that a case holds of a dissection; plain data. */
export interface Dissection {
  stated: {
    /** The case sheet's words; null where the cell is empty. */
    words: string | null;
    notation: DissectionNotation | null;
    /** "B_3,9". */
    formatted: string | null;
    problem: string | null;
    diagnoses: string[];
    onsetDate: string | null;
  };
  /** Exams that show something of the dissection. */
  exams: { key: string; date: string }[];
  /** Extent in the last of these exams; null without any. */
  derived: DissectionExtent | null;
  /** Null where there is no notation or no exam to compare. */
  comparison: NotationComparison | null;
  diagnoses: DiagnosisComparison[];
  /** By the case sheet and the exam together; where they contradict each other, by each alone. */
  schemes: (Scheme & { basis: string; used: string[] })[];
  /** At each exam, then at the as-of date, whose exam is null. */
  bands: (DissectionAge & { exam: string | null })[];
  falseLumen: (Seen & { state: string })[];
  branches: (Seen & { fedBy: string; territory: Territory | null })[];
  tears: (Seen & { kind: "entry tear" | "re-entry tear"; state: string })[];
  malperfusion: TerritoryMalperfusion[];
  statements: SeverityStatement[];
  /** What would have to be known, and what could not be read. */
  missing: string[];
}

const speaksOfDissection = ({ finding, state }: Finding): boolean =>
  finding === "false lumen" ||
  finding === "re-entry tear" ||
  ((finding === "dissection" || finding === "entry tear") && state === "present") ||
  (finding === "fed by" && (state === "false lumen" || state === "both lumens"));

/**
 * The dissection of a case at `asOf` (YYYY-MM-DD); null where neither diagnosis, notation, findings nor lumens speak
 * of one. Later exams are passed over.
 */
export function dissectionOf(patientCase: PatientCase, asOf: string): Dissection | null {
  const known = until(patientCase, asOf);
  const { facts, exams, measurements, findings } = known;
  const diagnoses = (facts.diagnoses ?? []).filter((diagnosis) => dissections.has(diagnosis));
  const words = facts.dissectionWords;
  const isStatedAbsent = words !== null && wordKey(words) === "none";
  const isSpokenOf =
    diagnoses.length > 0 ||
    (words !== null && !isStatedAbsent) ||
    findings.some(speaksOfDissection) ||
    measurements.some(({ lumen }) => lumen === "true" || lumen === "false");
  if (!isSpokenOf) return null;

  const parsed = words === null || isStatedAbsent ? null : parseDissectionNotation(words);
  const notation = parsed === null || "problem" in parsed ? null : parsed;
  const absentProblem = isStatedAbsent
    ? "the case sheet says that there is no dissection; other parts of the case speak of one"
    : null;
  const problem = parsed !== null && "problem" in parsed ? parsed.problem : absentProblem;
  const extents = exams.flatMap((exam) => dissectionExtent(exam, measurements, findings) ?? []);
  const derived = extents.at(-1) ?? null;
  const comparison =
    notation && derived
      ? compareNotation(notation, derived, repairedZones(facts, derived.date))
      : null;
  const pictures = picturesOf(notation, derived, comparison);
  const malperfusion = malperfusionOf(facts.malperfusionWords, exams, findings);
  const [{ picture }] = pictures;
  const isDissected = (zone: string): boolean =>
    pictures.some((one) => one.picture.zones.get(zone) === true);
  return {
    stated: {
      words,
      notation,
      formatted: notation && formatDissectionNotation(notation),
      problem,
      diagnoses,
      onsetDate: facts.onsetDate,
    },
    exams: extents.map(({ exam, date }) => ({ key: exam, date })),
    derived,
    comparison,
    diagnoses: compareDiagnoses(diagnoses, picture.type, stanfordType(picture)),
    schemes: pictures.flatMap((one) => schemesOn(one, malperfusion)),
    bands: [
      ...exams.map(({ key, imagingDate }) => ({
        exam: key,
        ...dissectionAge(facts.onsetDate, imagingDate),
      })),
      { exam: null, ...dissectionAge(facts.onsetDate, asOf) },
    ],
    ...seenIn(exams, findings),
    malperfusion: malperfusion.territories,
    statements: severityStatements(known, malperfusion, isDissected).filter(({ body }) =>
      speaksOf(body, pictures, diagnoses),
    ),
    missing: missingOf(known, { words, problem, derived, malperfusion }),
  };
}

/** The zones whose native wall an exam no longer shows, with words for what is there. */
function repairedZones({ priorRepairs }: PatientCase["facts"], date: string): Map<string, string> {
  return new Map(
    wallsAt(priorRepairs ?? [], date).flatMap(({ zone, label, wall }) =>
      "unclear" in wall || wall.kind === "native" || wall.kind === "elephant trunk"
        ? []
        : [[zone, `${label}: ${wall.kind}${wall.since === null ? "" : ` since ${wall.since}`}`]],
    ),
  );
}

/** The case as it stood at the as-of date. */
function until(patientCase: PatientCase, asOf: string): PatientCase {
  const exams = patientCase.exams.filter(({ imagingDate }) => imagingDate <= asOf);
  const keys = new Set(exams.map(({ key }) => key));
  return {
    ...patientCase,
    exams,
    measurements: patientCase.measurements.filter(({ exam }) => keys.has(exam)),
    findings: patientCase.findings.filter(({ exam }) => keys.has(exam)),
  };
}

/**
 * Severity is graded for type B: by entry tear in SVS/STS 2020, by involvement in the others. A type that is not known
 * is taken from the diagnosis.
 */
function speaksOf(
  body: string,
  pictures: readonly BasedPicture[],
  diagnoses: readonly string[],
): boolean {
  return pictures.some(({ picture }) => {
    const byInvolvement = stanfordType(picture);
    const type = body === "SVS/STS 2020" ? picture.type : byInvolvement;
    if (type === null) return diagnoses.includes("type B dissection");
    return type === "B" || type === "non-A-non-B";
  });
}

interface BasedPicture {
  basis: string;
  picture: DissectionPicture;
  used: string[];
}

function picturesOf(
  notation: DissectionNotation | null,
  derived: DissectionExtent | null,
  comparison: NotationComparison | null,
): [BasedPicture, ...BasedPicture[]] {
  const ofSheet = (): BasedPicture => {
    return { basis: "case sheet", picture: pictureOf(notation, null), used: [] };
  };
  if (derived === null) return [ofSheet()];
  const exam = `exam of ${derived.date}`;
  const ofExam = { basis: exam, picture: pictureOf(null, derived), used: derived.used };
  if (notation === null) return [ofExam];
  if (comparison?.verdict === "contradicts") return [ofSheet(), ofExam];
  const basis = `case sheet and ${exam}`;
  return [{ basis, picture: pictureOf(notation, derived), used: derived.used }];
}

function schemesOn(
  { basis, picture, used }: BasedPicture,
  malperfusion: Malperfusion,
): Dissection["schemes"] {
  const flowUsed = malperfusion.territories.flatMap(({ sources }) =>
    sources.flatMap((source) => source.used),
  );
  return schemesOf(picture, malperfusion).map((scheme) => ({
    ...scheme,
    basis,
    used: scheme.scheme === "TEM" ? [...new Set([...used, ...flowUsed])] : used,
  }));
}

function seenIn(
  exams: readonly Exam[],
  findings: readonly Finding[],
): Pick<Dissection, "falseLumen" | "branches" | "tears"> {
  const seen = exams.flatMap(({ key, imagingDate }) =>
    findings
      .filter(({ exam }) => exam === key)
      .map((finding) => ({
        finding,
        seen: {
          place: finding.place.label,
          zones: [...finding.place.zones],
          exam: key,
          date: imagingDate,
          used: [finding.key],
        },
      })),
  );
  return {
    falseLumen: seen.flatMap(({ finding: { finding, state }, seen: where }) =>
      finding === "false lumen" ? [{ ...where, state }] : [],
    ),
    branches: seen.flatMap(({ finding: { finding, state, place }, seen: where }) =>
      finding === "fed by" ? [{ ...where, fedBy: state, territory: territoryOf(place) }] : [],
    ),
    tears: seen.flatMap(({ finding: { finding, state }, seen: where }) =>
      finding === "entry tear" || finding === "re-entry tear"
        ? [{ ...where, kind: finding, state }]
        : [],
    ),
  };
}

function missingOf(
  { facts }: PatientCase,
  {
    words,
    problem,
    derived,
    malperfusion,
  }: Pick<Dissection["stated"], "words" | "problem"> &
    Pick<Dissection, "derived"> & { malperfusion: Malperfusion },
): string[] {
  const isRecorded = malperfusion.statedNone || malperfusion.territories.length > 0;
  const ofExam =
    derived === null
      ? ["no exam shows where the aorta is dissected"]
      : derived.type === null
        ? [`type by the exam of ${derived.date}: ${derived.typeBecause}`]
        : [];
  return [
    ...(facts.onsetDate === null ? ["onset date of the dissection"] : []),
    ...(words === null ? ["type and extent of the dissection in the case sheet"] : []),
    ...(problem === null ? [] : [`dissection notation: ${problem}`]),
    ...ofExam,
    ...(isRecorded || malperfusion.problems.length > 0
      ? []
      : ["malperfusion, or that there is none"]),
    ...malperfusion.problems.map((text) => `malperfusion: ${text}`),
  ];
}
