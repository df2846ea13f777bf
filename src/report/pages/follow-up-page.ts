import { readFileSync } from "node:fs";
import { windowWords } from "../../growth/next-imaging.ts";
import { renderDocument } from "../document.ts";
import { imagingWords } from "../follow-up-due.ts";
import { sizeReason } from "../follow-up-sizes.ts";
import {
  type FollowUpList,
  type FollowUpRow,
  followUpTags,
  type FollowUpTag,
} from "../follow-up.ts";
import { formatCount, formatLimit, notConfirmed } from "../format.ts";
import { notConfirmedMark } from "../limits-in-force.ts";
import type { Paper } from "../paper.ts";
import type { Plan } from "../plan.ts";
import { notConfirmedTag } from "../printed-source.ts";

/** The script of the list of all patients: it sorts, searches and filters any table of that form. */
const script = readFileSync(new URL("../../../templates/index-page.js", import.meta.url), "utf8");

const filterWords: Record<FollowUpTag, string> = {
  overdue: "overdue",
  due: "due now",
  growing: "growth exceeds a limit",
  met: "a size criterion met",
  near: "at or near a size limit",
  projected: "a size limit projected",
  lost: "no exam for long",
  untold: "due date cannot be told",
};

/** Sorts behind every date. */
const noDate = "none";

const sinceWords = (months: number): string =>
  months === 0 ? "under 1 month ago" : `${formatCount(months, "month")} ago`;

/** The mark that the head of the page explains. */
const short = (words: string): string => words.replaceAll(notConfirmedTag, notConfirmedMark);

/** Every date that has passed or runs, else the next one. */
function dueView({ due, noDue, schedulesNotJudged }: FollowUpRow, asOf: string) {
  const open = due.filter(({ earliest }) => earliest <= asOf);
  const shown = open.length > 0 ? open : due.slice(0, 1);
  const further = due.length - shown.length;
  const asides = [];
  if (further > 0) asides.push(formatCount(further, "further date"));
  if (schedulesNotJudged > 0 && noDue?.kind !== "cannot be told") {
    asides.push(`${formatCount(schedulesNotJudged, "schedule")} not judged for want of facts`);
  }
  return {
    dates: shown.map((group) => ({ when: windowWords(group), what: short(imagingWords(group)) })),
    none: noDue?.words ?? "",
    more: asides.join("; "),
    sort: due[0]?.latest ?? noDate,
  };
}

function rowView(row: FollowUpRow, asOf: string) {
  const { key, id, issuer, name, lastExam, monthsSince, overdueDays, sizes } = row;
  const notTold = row.growthNotTold;
  const link = (file: string): string => `patients/${key}/${file}`;
  const words = (items: readonly { words: string }[]): string[] =>
    items.map((one) => short(one.words));
  const ofSize = sizes.filter(({ standing }) => standing === "met");
  const met = [...words(ofSize), ...row.metAtSmallSizes.map(short)];
  const near = sizes.filter(({ standing }) => standing !== "met");
  return {
    tags: followUpTags(row).join(" "),
    name: name ?? "name not stated",
    id: issuer === null ? id : `${id} (${issuer})`,
    lastExam: lastExam?.date ?? "none on file",
    lastExamSort: lastExam?.date ?? noDate,
    modality: lastExam ? (lastExam.modality ?? "modality not stated") : "",
    since: monthsSince === null ? "" : sinceWords(monthsSince),
    lost: row.lost ?? "",
    due: dueView(row, asOf),
    overdueDays: overdueDays === null || overdueDays === 0 ? "" : String(overdueDays),
    overdueSort: String(overdueDays ?? 0),
    growing: words(row.growing),
    growingSort: String(row.growing.length),
    growthNotTold: notTold === 0 ? "" : `cannot be told at ${formatCount(notTold, "place")}`,
    met,
    metSort: String(met.length),
    near: near.map(sizeReason).map(short),
    nearSort: String(near.length),
    projected: row.projected,
    projectedSort: String(row.projected.length),
    links: [
      { text: "summary", file: link("summary.html") },
      { text: "plan report", file: link("plan.html") },
    ],
  };
}

function listView(list: FollowUpList) {
  const { asOf, rows, notListed, lostAfterMonths, nearLimitMm } = list;
  const tags = rows.map((row) => new Set(followUpTags(row)));
  const count = (tag: FollowUpTag): number => tags.filter((own) => own.has(tag)).length;
  const counted = (Object.keys(filterWords) as FollowUpTag[]).map(
    (tag) => `${filterWords[tag]}: ${count(tag)}`,
  );
  return {
    asOf,
    counts: `${formatCount(rows.length, "patient")}. ${counted.join("; ")}`,
    lostAfterMonths: String(lostAfterMonths),
    nearLimitMm: formatLimit(nearLimitMm),
    mark: `${notConfirmedMark} ${notConfirmed}`,
    filters: Object.entries(filterWords).map(([tag, words]) => ({ tag, words })),
    rows: rows.map((row) => rowView(row, asOf)),
    notListed: notListed.map(({ id, issuer, name, reason }) => ({
      name: name ?? "name not stated",
      id: issuer === null ? id : `${id} (${issuer})`,
      reason,
    })),
  };
}

/** The follow-up list for a browser or for paper: a plain table that a small script makes sortable and searchable. */
export function followUpHtml(
  list: FollowUpList,
  { software, paper = "A4" }: { software: Plan["software"]; paper?: Paper },
): string {
  const title = `Follow-up list as of ${list.asOf}`;
  return renderDocument("follow-up-page", listView(list), {
    title,
    paper,
    orientation: "landscape",
    asOf: list.asOf,
    software,
    runningHead: title,
    namedPages: [],
    script,
  });
}
