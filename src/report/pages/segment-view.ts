import type {
  LandingSegment,
  LengthRange,
  SegmentEnd,
} from "../../planning/landing/landing-segment.ts";
import { formatLength } from "../../quantities/format-length.ts";
import { sentenceCase } from "../../quantities/sentence-case.ts";
import { formatError, formatList, formatNumber } from "../format.ts";
import { numberedNotes } from "./numbered-notes.ts";
import { bendOf, notKnown, segmentRemarks, spacingSentence } from "./segment-remarks.ts";

/** One row of the table of landing stretches; plain words, all lengths in mm. */
export interface SegmentView {
  /** "Zone 2, proximal"; several zones where nothing is measured of all of them. */
  heading: string;
  /** Null where nothing is measured. */
  numbers: {
    span: string;
    centreline: string;
    inner: string;
    outer: string;
    bend: string;
    gap: string;
  } | null;
  /** Where it begins and ends and by what, and the numbers of the notes. */
  words: string;
}

/** The number of a note in brackets; empty for what all stretches share. */
type MarkOf = (sentence: string) => string;

/** A length as stated has no error on file. */
function lengthWords(range: LengthRange | null, basis: LandingSegment["basis"]): string {
  if (range === null) return "not known";
  const error = basis === "sound length as stated" ? "" : formatError(range);
  return `${formatNumber(range.value)} ${error}`.trim();
}

function numbersOf(segment: LandingSegment, markOf: MarkOf): SegmentView["numbers"] {
  const { basis, startMm, endMm, spacing } = segment;
  const unknown = basis === "centreline" && startMm === null ? "none" : "not known";
  const bend = bendOf(segment);
  const bendMark = bend === null || bend.sentence === null ? "" : markOf(bend.sentence);
  const gap = spacing.largestMm === null ? "not known" : formatNumber(spacing.largestMm);
  return {
    span:
      startMm === null || endMm === null
        ? unknown
        : `${formatNumber(startMm)} to ${formatNumber(endMm)}`,
    centreline: lengthWords(segment.lengthMm, basis),
    inner: lengthWords(segment.innerMm, basis),
    outer: lengthWords(segment.outerMm, basis),
    bend: `${bend?.ratio ?? unknown} ${bendMark}`.trim(),
    gap: `${gap} ${markOf(spacingSentence(segment))}`.trim(),
  };
}

const foundAt = /^(?:Last|First) sound section at -?[\d.]+ mm(?:; at|, next to) /;
const articles = / the (?=(?:distal|proximal) edge|left|right|innominate|coeliac|sinotubular)/g;

/** "before 92.0 mm: the diameter changes by 12.0 % …, limit <= 10 % [1]": the distance of the border itself stands in the row. */
function endWords(
  { what, atMm, source }: SegmentEnd,
  beyond: "after" | "before",
  markOf: MarkOf,
): string {
  const at = atMm === null ? null : formatLength(atMm);
  const sentence = what.replace(/\.$/, "").replace(foundAt, `${beyond} `);
  const short =
    at === null ? sentence : sentence.replace(`At ${at}, where`, "where").replace(`, ${at}`, "");
  const words = (short.slice(0, 1).toLowerCase() + short.slice(1))
    .replaceAll(" artery", "")
    .replaceAll(articles, " ");
  if (source === null) return words;
  // The source is that of the first condition that fails.
  const [first = "", ...rest] = words.split("; ");
  return [`${first} ${markOf(`${sentenceCase(source)}.`)}`, ...rest].join("; ");
}

function endsWords({ begunBy, endedBy, conditions }: LandingSegment, markOf: MarkOf): string {
  const begins = endWords(begunBy, "after", markOf);
  const ends = endWords(endedBy, "before", markOf);
  const both = begunBy.what === endedBy.what ? ends : `begins ${begins}; ends ${ends}`;
  return `${conditions === "widest published" ? `Widest: ${both}` : sentenceCase(both)}.`;
}

const basisWords = ({ basis, date }: LandingSegment): string =>
  `${basis === "centreline" ? "Along the centreline" : sentenceCase(basis)}, ${date}.`;
const wallWords = ({ surface }: LandingSegment): string => `Wall: ${surface ?? "not stated"}.`;

const isEmpty = ({ basis }: LandingSegment): boolean => basis === "none";

/** The sentences that are said of every one of several stretches. */
function sharedSentences(computed: readonly LandingSegment[]): string[] {
  if (computed.length < 2) return [];
  const remarks = segmentRemarks(computed);
  const said = computed.map((segment, index) => [
    basisWords(segment),
    wallWords(segment),
    ...(remarks[index] ?? []).flatMap(({ sentence, detail }) => (detail === "" ? [sentence] : [])),
    bendOf(segment)?.sentence ?? "",
    spacingSentence(segment),
  ]);
  const [first = [], ...others] = said;
  const shared = first.filter((one) => one !== "" && others.every((own) => own.includes(one)));
  return [...new Set(shared)];
}

/** Stretches of zones of which nothing is measured, alike in what they lack. */
function emptyRow(alike: readonly LandingSegment[], markOf: MarkOf): SegmentView[] {
  const [first] = alike;
  if (!first) return [];
  const { zone, end, begunBy, missing } = first;
  const zones = alike.map((one) => one.zone);
  const isOne = zones.length === 1;
  const isPlain = begunBy.what === `Nothing is measured of zone ${zone}.`;
  const what = isPlain ? "Nothing measured." : begunBy.what;
  const words = isOne ? missing : missing.map((one) => one.replace(`zone ${zone}`, "each zone"));
  return [
    {
      heading: `${isOne ? "Zone" : "Zones"} ${formatList(zones)}, ${end}`,
      numbers: null,
      words: [what, ...words.map((one) => markOf(notKnown(one)))].join(" "),
    },
  ];
}

const likenessOf = ({ end, zone, begunBy, missing }: LandingSegment): string =>
  JSON.stringify([end, begunBy.what, missing]).replaceAll(`zone ${zone}`, "each zone");

/** One row for each stretch, the proximal ones first, in the order of the zones; those of which nothing is measured together. */
export function segmentViews({
  proximal,
  distal,
}: {
  proximal: readonly LandingSegment[];
  distal: readonly LandingSegment[];
}): {
  segments: SegmentView[];
  /** What the site leaves out, and what holds of all stretches. */
  segmentNotes: string[];
  /** Notes and sources in the order of their numbers; empty where there are none. */
  segmentSources: string;
} {
  const all = [...proximal, ...distal];
  const computed = all.filter((one) => !isEmpty(one));
  const remarks = segmentRemarks(computed);
  const shared = sharedSentences(computed);
  const notes = numberedNotes();
  const unlessShared = (sentence: string): string => (shared.includes(sentence) ? "" : sentence);
  const markOf = (sentence: string): string =>
    unlessShared(sentence) === "" ? "" : notes.mark(sentence);

  const rowOf = (segment: LandingSegment): SegmentView => {
    const numbers = numbersOf(segment, markOf);
    const ends = endsWords(segment, markOf);
    const open = remarks[computed.indexOf(segment)] ?? [];
    const marks = open.flatMap(({ sentence, detail }) => {
      const mark = markOf(sentence);
      return mark === "" ? [] : [`${mark} ${detail}`.trim().replaceAll(" ", "\u00a0")];
    });
    const parts = [
      unlessShared(basisWords(segment)),
      unlessShared(wallWords(segment)),
      ends,
      marks.join(", "),
    ];
    return {
      heading: `Zone ${segment.zone}, ${segment.end}`,
      numbers,
      words: parts.filter((part) => part !== "").join(" "),
    };
  };

  const groups = Map.groupBy(all.filter(isEmpty), likenessOf);
  const segments = all.flatMap((segment) => {
    if (!isEmpty(segment)) return [rowOf(segment)];
    const alike = groups.get(likenessOf(segment)) ?? [];
    return alike[0] === segment ? emptyRow(alike, markOf) : [];
  });
  return {
    segments,
    segmentNotes: [
      ...new Set(all.flatMap(({ leftOut }) => leftOut)),
      ...(shared.length === 0 ? [] : [`All stretches. ${shared.join(" ")}`]),
    ],
    segmentSources: notes
      .all()
      .map((sentence, index) => `[${index + 1}] ${sentence}`)
      .join(" "),
  };
}
