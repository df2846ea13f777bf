import { landingConditions } from "../../planning/landing/landing-conditions.ts";
import type { LandingSegment } from "../../planning/landing/landing-segment.ts";
import { formatLength } from "../../quantities/format-length.ts";
import { sentenceCase } from "../../quantities/sentence-case.ts";
import { formatList } from "../format.ts";

/** What is said of a stretch beside its numbers. `detail` is its own: "at 5 of 12". */
export interface SegmentRemark {
  sentence: string;
  detail: string;
}

const ownPart = /^(.+?) (at \d+ of \d+|in zone \d+|along zone [\d, ]+)( sections)?$/;
const sectionsPart = ", at as many of the sections as the row says";
const bendPart = /^diameter over radius up to ([\d.]+)(?:, (.+))?$/;

const labels = new Map(
  [...landingConditions.conditions, landingConditions.walls].map(({ id, label }) => [id, label]),
);

function splitOff(words: string): SegmentRemark {
  const [, sentence = words, detail = "", sections] = ownPart.exec(words) ?? [];
  return { sentence: sections === undefined ? sentence : sentence + sectionsPart, detail };
}

const curveParts = ({ curveMethod }: LandingSegment): string[] => curveMethod?.split("; ") ?? [];

/** The largest ratio of diameter to radius along the stretch, as written, and what is said of it; null where there is none. */
export function bendOf(segment: LandingSegment): { ratio: string; sentence: string | null } | null {
  const [, ...parts] = curveParts(segment);
  const ratio = parts.flatMap((part) => bendPart.exec(part)?.[1] ?? [])[0];
  if (ratio === undefined) return null;
  const said = parts.flatMap((part) => {
    const bend = bendPart.exec(part);
    if (!bend) return [part];
    return bend[2] === undefined ? [] : [`bend ${bend[2]}`];
  });
  return { ratio, sentence: said.length === 0 ? null : `${sentenceCase(said.join("; "))}.` };
}

function curveSentences(segment: LandingSegment): string[] {
  const [method, ...rest] = curveParts(segment);
  if (method === undefined) return [];
  const unsaid = bendOf(segment) === null ? rest : [];
  return [`Curves ${method}.`, ...unsaid.map((part) => `${sentenceCase(part)}.`)];
}

/** Whether sections lie near enough together. */
export function spacingSentence({ spacing: { largestMm, words } }: LandingSegment): string {
  const gap =
    largestMm === null ? "" : `Sections up to ${formatLength(largestMm)} apart at the stretch. `;
  return words.startsWith(gap) ? words.slice(gap.length) : words;
}

/** By what is missing: the conditions that wait for it at any of the stretches. */
function conditionsWaiting(segments: readonly LandingSegment[]): Map<string, Set<string>> {
  const waiting = new Map<string, Set<string>>();
  for (const { condition, missing } of segments.flatMap(({ notAssessed }) => notAssessed)) {
    for (const part of missing.split("; ")) {
      const { sentence } = splitOff(part);
      const own = waiting.get(sentence) ?? new Set<string>();
      waiting.set(sentence, own.add(labels.get(condition) ?? condition));
    }
  }
  return waiting;
}

function notJudged(
  { notAssessed }: LandingSegment,
  waiting: ReadonlyMap<string, ReadonlySet<string>>,
): SegmentRemark[] {
  const parts = notAssessed.flatMap(({ missing }) => missing.split("; ")).map(splitOff);
  return [...Map.groupBy(parts, ({ sentence }) => sentence)].map(([missing, own]) => {
    const conditions = formatList([...(waiting.get(missing) ?? [])]);
    const details = [...new Set(own.map(({ detail }) => detail))].filter((one) => one !== "");
    return {
      sentence: `Not judged: ${conditions}. Missing: ${missing}.`,
      detail: details.join(", "),
    };
  });
}

const plain = (sentence: string): SegmentRemark => ({ sentence, detail: "" });

/** What is said of each stretch that has numbers, in the order given: what is not judged or not known, and how the curves were made. */
export function segmentRemarks(segments: readonly LandingSegment[]): SegmentRemark[][] {
  const waiting = conditionsWaiting(segments);
  return segments.map((segment) => [
    ...(segment.basis === "sound length as stated"
      ? [plain("The error of a length as stated is not known.")]
      : []),
    ...notJudged(segment, waiting),
    ...segment.missing.map((one) => plain(notKnown(one))),
    ...curveSentences(segment).map(plain),
  ]);
}

/** "Not known: centreline of the aorta with sections." */
export const notKnown = (missing: string): string => `Not known: ${missing}.`;
