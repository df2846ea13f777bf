import { growthChart } from "../charts/growth-chart.ts";
import { profileOf } from "../charts/profile-data.ts";
import { widthProfile } from "../charts/width-profile.ts";
import { formatCount, notConfirmed } from "../format.ts";
import { notConfirmedMark } from "../limits-in-force.ts";
import type { Paper } from "../paper.ts";
import type { Plan, PlanGrowth } from "../plan.ts";
import { repairDatesAt } from "../repairs-at.ts";
import { shortenText, wrapText } from "../text-width.ts";
import { byOutcome, criterionRow, outcomeCounts, type CriterionRow } from "./criteria-view.ts";
import { byDecision } from "./decisive-growth.ts";
import type { KeyLine } from "./key-lines.ts";
import {
  largestUpperPt,
  leastUpperPt,
  summaryColumns,
  summaryLevels,
  upperHeightPt,
  type SummaryColumns,
  type SummaryLevel,
} from "./summary-layout.ts";
import { seriesHeading, seriesLimits, seriesSentence } from "./series-words.ts";
import { nextImagingItems } from "./surveillance-view.ts";
import { titleBlock } from "./title-block.ts";
import { shortenTitle, textLinePt, textSizePt } from "./title-height.ts";

const seriesMost = 3;
const seriesLinesMost = 3;
const limitLinesMost = 2;
const seriesGapPt = 6;
const chartLeastPt = 58;
const chartMostPt = 150;

/** The items joined until a number of lines is full; the rest is counted. */
function countedList(items: readonly string[], widthPt: number, lines: number): string {
  const fits = (text: string): boolean => wrapText(text, widthPt, textSizePt).length <= lines;
  for (let count = items.length; count > 0; count--) {
    const rest = items.length - count;
    const more = rest === 0 ? "" : `; and ${rest} more in the plan report`;
    const text = items.slice(0, count).join("; ") + more;
    if (fits(text)) return text;
  }
  const more =
    items.length === 1
      ? "… (in full in the plan report)"
      : `…; and ${items.length - 1} more in the plan report`;
  return shortenText(items[0] ?? "", widthPt, textSizePt, lines, more);
}

function footLines(plan: Plan, { linePt }: SummaryColumns, lines: number): KeyLine[] {
  const lists = [
    { label: "Next imaging", items: nextImagingItems(plan), none: plan.surveillance.next.sentence },
    {
      label: "Missing",
      items: plan.missing.map(({ what }) => what),
      none: "nothing that was asked for",
    },
    {
      label: "Sources differ",
      items: plan.disagreements.map(({ sentence }) => sentence),
      none: "nowhere",
    },
    {
      label: "Questions",
      items: plan.prompts.map(({ text, answeredBy }) => `${text} (${answeredBy})`),
      none: "none",
    },
  ];
  return lists.map(({ label, items, none }) => ({
    label,
    text: items.length === 0 ? none : countedList(items, linePt, lines),
  }));
}

function criterionLine(row: CriterionRow, missing: readonly string[], columns: SummaryColumns) {
  const cut = (text: string, widthPt: number): string => shortenText(text, widthPt, textSizePt, 1);
  const lacking = missing.length === 0 ? row.reason : `missing: ${missing.join("; ")}`;
  return {
    mark: row.mark,
    place: shortenText(
      row.place === "" ? row.title : row.place,
      columns.placePt,
      textSizePt,
      1,
      "…",
      600,
    ),
    hasValue: row.value !== "",
    value: row.value,
    unit: row.unit,
    error: row.error,
    lacking: cut(lacking, columns.missingPt),
    limit: cut(row.limit, columns.limitPt),
    source: cut(row.source, columns.sourcePt),
  };
}

function criteriaLines(plan: Plan, level: SummaryLevel, columns: SummaryColumns) {
  const applicable = byOutcome(plan).filter(({ outcome }) => outcome !== "not-applicable");
  const shown = applicable.slice(0, level.criteria);
  const rest = byOutcome(plan).filter((one) => !shown.includes(one));
  return {
    rows: shown.map((one) => {
      const row = criterionRow(one);
      const source = one.confirmed ? row.source : `${row.source}${notConfirmedMark}`;
      return criterionLine({ ...row, source }, one.missing, columns);
    }),
    rest:
      rest.length === 0
        ? null
        : `and ${formatCount(rest.length, "more criterion", "more criteria")} in the plan report: ${outcomeCounts(rest)}`,
  };
}

interface SeriesView {
  heading: string;
  sentence: string;
  /** Limits whose lines had no room for a name. */
  limits: string | null;
  drawing: { markup: string };
}

/** One series in a height of `eachPt`; null where too little is left for the chart. */
function seriesView(
  growth: PlanGrowth,
  plan: Plan,
  { id, widthPt, eachPt }: { id: string; widthPt: number; eachPt: number },
): SeriesView | null {
  const sentence = shortenText(seriesSentence(growth), widthPt, textSizePt, seriesLinesMost);
  const heading = shortenText(seriesHeading(growth), widthPt, textSizePt, 2, "…", 600);
  const lines =
    wrapText(sentence, widthPt, textSizePt).length +
    wrapText(heading, widthPt, textSizePt, 600).length;
  const freePt = eachPt - lines * textLinePt - seriesGapPt;
  const draw = (heightPt: number) =>
    growthChart(growth, seriesLimits(plan, growth), repairDatesAt(plan, growth.place), {
      id,
      widthPt,
      heightPt: Math.min(chartMostPt, heightPt),
    });
  if (freePt < chartLeastPt) return null;
  const whole = draw(freePt);
  if (whole.unnamed.length === 0)
    return { heading, sentence, limits: null, drawing: { markup: whole.svg } };
  const limits = shortenText(whole.unnamed.join("; "), widthPt, textSizePt, limitLinesMost);
  const lowerPt = freePt - wrapText(limits, widthPt, textSizePt).length * textLinePt;
  if (lowerPt < chartLeastPt) return null;
  return { heading, sentence, limits, drawing: { markup: draw(lowerPt).svg } };
}

/** The series that decide, as many as leave every chart large enough to be read. */
function seriesViews(plan: Plan, columns: SummaryColumns, heightPt: number, idPrefix: string) {
  const candidates = byDecision(plan.growth).slice(0, seriesMost);
  for (let count = candidates.length; count > 0; count--) {
    const views = candidates.slice(0, count).map((growth, index) =>
      seriesView(growth, plan, {
        id: `${idPrefix}summary-growth-${index + 1}`,
        widthPt: columns.growthPt,
        eachPt: heightPt / count,
      }),
    );
    if (views.every((view) => view !== null)) return views;
  }
  return [];
}

function captionOf(plan: Plan, profileCaption: string | null): string {
  const sentences = profileCaption === null ? [] : [profileCaption];
  if (plan.growth.length > 0)
    sentences.push(
      "Growth: mm, axes not from zero; bars: 95 % of one reading; hollow: not comparable.",
    );
  const legend = `${notConfirmedMark} ${notConfirmed}.`;
  const isRecalled = [
    ...plan.assessments,
    ...plan.surveillance.next.due,
    ...plan.growth.flatMap(({ answers }) => answers),
  ].some(({ confirmed }) => !confirmed);
  if (isRecalled && !profileCaption?.includes(legend)) sentences.push(legend);
  return sentences.join(" ");
}

/** Where a summary stands: alone, or in a packet under a case. */
export interface SummarySetting {
  paper: Paper;
  idPrefix: string;
  titleTag: "h1" | "h3";
}

/** Everything on the one-page summary, cut to one sheet: what does not fit is counted and named as being in the plan report. */
export function summaryView(plan: Plan, { paper, idPrefix, titleTag }: SummarySetting) {
  const columns = summaryColumns(paper);
  const profile = profileOf(plan);
  const drawProfile = (heightPt: number) =>
    profile &&
    widthProfile(profile, {
      id: `${idPrefix}summary-profile`,
      widthPt: columns.profilePt,
      heightPt,
      branchesPt: 60,
      barsPt: 112,
    });
  const captionLines = Math.max(
    ...[leastUpperPt, largestUpperPt].map((heightPt) => {
      const caption = captionOf(plan, drawProfile(heightPt)?.caption ?? null);
      return wrapText(caption, columns.widthPt, textSizePt).length;
    }),
  );
  const layoutAt = (level: SummaryLevel) => {
    const title = shortenTitle(titleBlock(plan, "Summary"), columns.widthPt, level.lines);
    const criteria = criteriaLines(plan, level, columns);
    const keyLines = footLines(plan, columns, level.lines);
    const upperPt = upperHeightPt(
      {
        title,
        captionLines,
        criteria: criteria.rows.length,
        hasRest: criteria.rest !== null,
        keyLines: keyLines.map(({ text }) => wrapText(text, columns.linePt, textSizePt).length),
      },
      paper,
    );
    return { title, criteria, keyLines, upperPt };
  };
  const layouts = summaryLevels.map(layoutAt);
  const chosen = layouts.find(({ upperPt }) => upperPt >= leastUpperPt) ?? layouts.at(-1);
  if (!chosen) throw new Error("no summary layout");
  const drawn = drawProfile(chosen.upperPt);
  return {
    id: idPrefix,
    titleTag,
    titleBlock: chosen.title,
    profile: drawn && { markup: drawn.svg },
    series: seriesViews(plan, columns, chosen.upperPt, idPrefix),
    caption: captionOf(plan, drawn?.caption ?? null),
    criteria: chosen.criteria.rows,
    criteriaRest: chosen.criteria.rest,
    keyLines: chosen.keyLines,
  };
}
