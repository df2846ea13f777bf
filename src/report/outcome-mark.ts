import type { Outcome } from "../guidelines/rule.ts";
import { element } from "./charts/svg.ts";

/** A mark and its word. The shape tells the outcome without colour; the word is always printed. */
export interface OutcomeMark {
  word: string;
  svg: { markup: string };
}

const words: Record<Outcome, string> = {
  met: "met",
  "not-met": "not met",
  "not-assessable": "can't be judged",
  "not-applicable": "not applicable",
  "rule-failed": "failed",
};

const shapes: Record<Outcome, string> = {
  met: element("rect", { x: 0.5, y: 0.5, width: 7, height: 7, class: "mark-solid" }),
  "not-met": element("rect", { x: 1, y: 1, width: 6, height: 6, class: "mark-open" }),
  "not-assessable": element("path", { d: "M4 0.4L7.6 4L4 7.6L0.4 4Z", class: "mark-open" }),
  "not-applicable": element("path", { d: "M0.5 4H7.5", class: "mark-open" }),
  "rule-failed": element("path", { d: "M1 1L7 7M7 1L1 7", class: "mark-open" }),
};

/** The word of an outcome as pages print it. */
export function outcomeWord(outcome: Outcome): string {
  return words[outcome];
}

/** Filled square, open square, open diamond, dash or cross, with its word. */
export function outcomeMark(outcome: Outcome): OutcomeMark {
  const svg = element(
    "svg",
    { class: "mark", width: "8pt", height: "8pt", viewBox: "0 0 8 8", "aria-hidden": "true" },
    shapes[outcome],
  );
  return { word: words[outcome], svg: { markup: svg } };
}
