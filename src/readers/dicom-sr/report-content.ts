import { type Message, messageMaker, type SourcePlace } from "../../message.ts";
import type { DrawnFigure, Reading, StatedExam } from "../reading.ts";
import type { ContentItem } from "./content-tree.ts";
import type { DataSet } from "./data-set.ts";
import { type ExamProblem, examFinder } from "./exam-dates.ts";
import { structuredReportMessages } from "./messages.ts";
import { type FoundNumber, walkNumbers } from "./number-walk.ts";
import { nearest, readingTermsOf, siteLevelOf } from "./reading-terms.ts";

/** The readings of one examination in a report. */
interface ExamReadings {
  exam: StatedExam;
  readings: Reading[];
}

/** What the content tree of a report gives. */
export interface ReportContent {
  /** How many numbers count as measurements, used or not. */
  numberCount: number;
  exams: ExamReadings[];
  messages: Message[];
}

const noReferences: string[] = [];
const message = messageMaker(structuredReportMessages);

/** Reads the numbers of a content tree and sorts them by the examination that their images are of. */
export function readContent(
  report: DataSet,
  root: ContentItem,
  source: SourcePlace,
): ReportContent {
  const walk = walkNumbers(root);
  const examOf = examFinder(report, root);
  const exams = new Map<string, ExamReadings>();
  const withoutExam = new Map<ExamProblem, number>();
  const messages: Message[] = [];
  let containedSites = 0;
  for (const found of walk.numbers) {
    const read = readingOf(found, source);
    if ("severity" in read) {
      messages.push(read);
      continue;
    }
    const { reading, messages: ofFigures } = read;
    messages.push(...ofFigures);
    const references = nearest(found.level, (level) =>
      level.references.length > 0 ? level.references : null,
    );
    const exam = examOf(references ?? noReferences);
    if (typeof exam === "string") {
      withoutExam.set(exam, (withoutExam.get(exam) ?? 0) + 1);
      continue;
    }
    const key = JSON.stringify(exam);
    const sameExam = exams.get(key) ?? { exam, readings: [] };
    sameExam.readings.push(reading);
    exams.set(key, sameExam);
    if (siteLevelOf(found.level)?.containsSite) containedSites++;
  }
  for (const { exam } of exams.values()) {
    if (exam.imagingDateOrigin !== "study date") continue;
    messages.push(message("imaging-date-from-study", source, { date: exam.imagingDate }));
  }
  if (containedSites > 0) {
    messages.push(message("finding-site-contained", source, { count: containedSites }));
  }
  for (const [problem, count] of withoutExam) messages.push(message(problem, source, { count }));
  for (const [reason, count] of walk.excluded) messages.push(message(reason, source, { count }));
  for (const type of walk.unknownValueTypes) {
    messages.push(message("content-not-known", source, { type }));
  }
  for (const what of report.file.characterSets.doubts) {
    messages.push(message("text-doubtful", source, { what }));
  }
  return { numberCount: walk.numbers.length, exams: [...exams.values()], messages };
}

/** Hands out one number as it stands, or the reason why it can't be. */
function readingOf(
  { item, level }: FoundNumber,
  source: SourcePlace,
): { reading: Reading; messages: Message[] } | Message {
  const place: SourcePlace = { ...source, at: `item ${item.position}` };
  const { concept, number } = item;
  if (!concept || !number) return message("number-without-name", place);
  const { problem, valueText, qualifier, unit } = number;
  if (problem) {
    const shown = problem === "value-too-long" ? null : valueText;
    return message(problem, place, { number: [concept.words, shown].join(" ").trim() });
  }
  const { graphic, messages } = figureUnder(item, concept.words, source);
  const reading: Reading = {
    source: place,
    valueText,
    qualifier,
    unit,
    terms: readingTermsOf(level, concept),
    trackingIdentifier: nearest(level, ({ trackingIdentifier }) => trackingIdentifier),
    reader: nearest(level, ({ observer }) => observer),
    comment: nearest(level, ({ comment, equivalentMeaning }) => comment ?? equivalentMeaning),
    graphic,
  };
  return { reading, messages };
}

/** The one figure that stands right below a number, whatever its relationship; of several none is taken. */
function figureUnder(
  { children }: ContentItem,
  number: string,
  source: SourcePlace,
): { graphic: DrawnFigure | null; messages: Message[] } {
  const [item, ...others] = children.filter(({ figure }) => figure !== null);
  if (!item?.figure) return { graphic: null, messages: [] };
  const place: SourcePlace = { ...source, at: `item ${item.position}` };
  const refused = (why: string) => ({
    graphic: null,
    messages: [message("figure-not-usable", place, { number, why })],
  });
  if (others.length > 0) return refused("several figures stand below the number");
  const { figure } = item;
  return "why" in figure
    ? refused(figure.why)
    : { graphic: { source: place, ...figure }, messages: [] };
}
