import { sentenceCase } from "../../quantities/sentence-case.ts";
import { formatCount, formatList, formatNumber, shortPlace } from "../format.ts";
import { limitLabel } from "../limits-in-force.ts";
import { wrapText } from "../text-width.ts";
import { edgeWord, lumenWord, statisticWord } from "../words.ts";
import type { Profile, ProfileBranch, ProfileRow } from "./profile-data.ts";
import { labelLinePt, labelSizePt } from "./svg.ts";
import { repairedLabel } from "./profile-repairs.ts";

/** One printed line of a label. */
export interface LabelLine {
  text: string;
  kind: "name" | "value" | "limit";
}

/** How much a label says: with limits; without; name and value alone. */
export const labelDetails = ["full", "short", "least"] as const;
export type LabelDetail = (typeof labelDetails)[number];

/** "maximum, outer edge": what holds for most rows is said once, in the caption. */
export function commonMethod({ bars, ranges }: Profile): string {
  const counts = new Map<string, number>();
  for (const row of [...bars, ...ranges]) {
    const method = methodOf(row);
    counts.set(method, (counts.get(method) ?? 0) + 1);
  }
  const [most = ["", 0]] = [...counts].toSorted((a, b) => b[1] - a[1] || (a[0] < b[0] ? -1 : 1));
  return most[0];
}

function methodParts({ statistic, edge, lumen }: ProfileRow): string[] {
  const parts = [statisticWord(statistic), edgeWord(edge)];
  return lumen === "whole" ? parts : [...parts, lumenWord(lumen)];
}

/** "maximum, outer edge, lumen not stated" of one row. */
function methodOf(row: ProfileRow): string {
  return methodParts(row).join(", ");
}

/** What of a row's method differs from the method that the caption names. */
function ownMethod(row: ProfileRow, profile: Profile): string[] {
  const common = commonMethod(profile).split(", ");
  const own = methodParts(row).filter((part) => !common.includes(part));
  const isWholeBesideOthers = row.lumen === "whole" && common.length > 2;
  return isWholeBesideOthers ? [...own, lumenWord(row.lumen)] : own;
}

/** "57.4 mm (± 4.2)"; every reading where several of one exam differ. */
export function valueText({ valueMm, readingsMm, error }: ProfileRow): string {
  const numbers = readingsMm.length > 1 ? readingsMm : [valueMm];
  const value = `${formatList(numbers.map((number) => formatNumber(number)))} mm`;
  return error === "" ? value : `${value} ${error}`;
}

function beforeText({ before }: ProfileRow, profile: Profile): string | null {
  if (before === null) return null;
  const date = before.date === profile.dateBefore ? "" : ` (${before.date})`;
  return `before${date} ${formatNumber(before.valueMm)}`;
}

const commaPt = 3;

/** Keeps a number with its unit and error on one line, where the line is long enough. */
function unbroken(text: string, widthPt: number): string {
  const fits = wrapText(text, widthPt, labelSizePt).length === 1;
  return fits ? text.replaceAll(" ", "\u00a0") : text;
}

/** The lines of a row's label, broken to a width. */
export function labelLines(
  row: ProfileRow,
  profile: Profile,
  detail: LabelDetail,
  widthPt: number,
): LabelLine[] {
  const broken = (text: string, kind: LabelLine["kind"]): LabelLine[] => {
    const weight = kind === "name" ? 600 : 400;
    return wrapText(text, widthPt, labelSizePt, weight).map((line) => ({ text: line, kind }));
  };
  const numbers = [valueText(row), beforeText(row, profile)].filter((text) => text !== null);
  const parts = numbers.map((text) => unbroken(text, widthPt - commaPt));
  if (row.trueLumenMm !== null) parts.push(`true lumen ${formatNumber(row.trueLumenMm)} mm`);
  parts.push(...ownMethod(row, profile));
  const value = parts.join(", ");
  if (detail === "least") {
    const least = [valueText(row), ...ownMethod(row, profile)].join(", ");
    return broken(`${shortPlace(row.place)}: ${least}`, "value");
  }
  const lines = [...broken(shortPlace(row.place), "name"), ...broken(value, "value")];
  if (detail === "short" || row.limits.length === 0) return lines;
  const limits = row.limits.map(limitLabel).join("; ");
  return [
    ...lines,
    ...broken(`${row.limits.length === 1 ? "limit" : "limits"} ${limits}`, "limit"),
  ];
}

/** The lines of a branch's label; "artery" goes without saying. */
export function branchLines(branch: ProfileBranch, widthPt: number): LabelLine[] {
  const name = branch.label.replace(/ artery$/, "");
  const text = branch.measured === "" ? name : `${name} ${branch.measured}`;
  return wrapText(text, widthPt, labelSizePt).map((line) => ({ text: line, kind: "value" }));
}

/** Height of a label with a little air below it. */
export function labelHeightPt(lines: readonly LabelLine[]): number {
  return lines.length * labelLinePt + 2;
}

/** The facts of the drawing in sentences, for its alternative text. */
export function profileSentences(profile: Profile, gaps: readonly string[]): string {
  const sentences = [...profile.bars, ...profile.ranges].map((row) => {
    const facts = [valueText(row), methodOf(row)];
    if (row.trueLumenMm !== null) facts.push(`true lumen ${formatNumber(row.trueLumenMm)} mm`);
    if (row.before) facts.push(`${formatNumber(row.before.valueMm)} mm on ${row.before.date}`);
    if (row.limits.length > 0) {
      const count = formatCount(row.limits.length, "limit");
      facts.push(`${count} in force: ${formatList(row.limits.map(limitLabel))}`);
    }
    return `${sentenceCase(row.place.label)}: ${facts.join(", ")}.`;
  });
  for (const { label, measured } of profile.branches) {
    if (measured !== "") sentences.push(`${sentenceCase(label)}: ${measured}.`);
  }
  if (profile.repaired.length > 0) {
    sentences.push(`Repaired: ${formatList(profile.repaired.map(repairedLabel))}.`);
  }
  if (gaps.length > 0) sentences.push(`Not measured: ${formatList(gaps)}.`);
  return sentences.join(" ");
}
