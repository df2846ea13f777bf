import { sentenceCase } from "../../quantities/sentence-case.ts";
import { errorOfMeasurement } from "../charts/profile-data.ts";
import { formatCount, formatList, formatValue, notConfirmed } from "../format.ts";
import { largestDiameter } from "../largest-diameter.ts";
import type { Plan } from "../plan.ts";
import { edgeWord, statisticWord } from "../words.ts";
import { notConfirmedMark } from "../limits-in-force.ts";
import { nextImagingItems } from "./surveillance-view.ts";
import { byOutcome, outcomeCounts } from "./criteria-view.ts";
import { byDecision } from "./decisive-growth.ts";
import { seriesHeading, seriesSentence } from "./series-words.ts";

/** A named line of findings. */
export interface KeyLine {
  label: string;
  text: string;
}

const seriesShown = 3;
const missingShown = 6;

function largestLine(plan: Plan): string {
  const largest = largestDiameter(plan)?.measurement;
  if (!largest) return "No aortic diameter was measured at the last exam.";
  const date = plan.exams.find(({ key }) => key === largest.exam)?.imagingDate ?? largest.exam;
  const error = errorOfMeasurement(plan, largest.key);
  const parts = [
    [formatValue(largest.value, "mm"), error].filter((part) => part !== "").join(" "),
    statisticWord(largest.statistic),
    edgeWord(largest.edge),
    date,
  ];
  return `${sentenceCase(largest.place.label)}: ${parts.join(", ")}.`;
}

function growthLine({ growth }: Plan): string {
  if (growth.length === 0) return "No place was measured at two exams.";
  const shown = byDecision(growth).slice(0, seriesShown);
  const rest = growth.length - shown.length;
  const more =
    rest === 0 ? "" : ` ${formatCount(rest, "more series", "more series")} under Growth.`;
  return (
    shown.map((series) => `${seriesHeading(series)}; ${seriesSentence(series)}.`).join(" ") + more
  );
}

function criteriaLine(plan: Plan): string {
  const { assessments } = plan;
  if (assessments.length === 0) return "No criterion was in force.";
  const met = byOutcome(plan).filter(({ outcome }) => outcome === "met");
  const titles = met.map(({ title, source, confirmed }) => {
    const mark = confirmed ? "" : `, ${notConfirmed}`;
    return `${title} (${source.body} ${source.year}${mark})`;
  });
  const named = titles.length === 0 ? "" : ` Met: ${titles.join("; ")}.`;
  return `${sentenceCase(outcomeCounts(assessments))}.${named}`;
}

function missingLine({ missing }: Plan): string {
  if (missing.length === 0) return "Nothing that a criterion or an option asks for is missing.";
  const shown = missing.slice(0, missingShown).map(({ what }) => what);
  const rest = missing.length - shown.length;
  const more = rest === 0 ? "" : `; and ${rest} more`;
  return `Most decisive first: ${rest === 0 ? formatList(shown) : shown.join(", ")}${more}.`;
}

const dueShown = 3;

function nextImagingLine(plan: Plan): string {
  const items = nextImagingItems(plan);
  if (items.length === 0) return plan.surveillance.next.sentence;
  const rest = items.length - dueShown;
  const more = rest > 0 ? `; and ${rest} more` : "";
  const marked = items.some((item) => item.includes(notConfirmedMark));
  const legend = marked ? ` ${notConfirmedMark} ${notConfirmed}.` : "";
  return `${items.slice(0, dueShown).join("; ")}${more}.${legend}`;
}

/** What is large, what grows, what criteria say, where sources differ, what is missing: one line each. */
export function keyLines(plan: Plan): KeyLine[] {
  const lines = [
    { label: "Largest", text: largestLine(plan) },
    { label: "Growth", text: growthLine(plan) },
    { label: "Criteria", text: criteriaLine(plan) },
  ];
  const differ = plan.disagreements.map(({ sentence }) => sentence).join(" ");
  if (differ !== "") lines.push({ label: "Sources differ", text: differ });
  lines.push({ label: "Next imaging", text: nextImagingLine(plan) });
  lines.push({ label: "Missing", text: missingLine(plan) });
  return lines;
}
