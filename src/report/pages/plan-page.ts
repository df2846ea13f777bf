import { renderDocument } from "../document.ts";
import type { Paper } from "../paper.ts";
import type { Plan } from "../plan.ts";
import { planView } from "./plan-view.ts";
import { patientLine } from "./title-block.ts";

/** The plan report of one patient as a whole HTML document. */
export function planHtml(plan: Plan, { paper = "A4" }: { paper?: Paper } = {}): string {
  const view = planView(plan, {
    paper,
    idPrefix: "",
    titleTag: "h1",
    sectionTag: "h2",
    itemTag: "h3",
  });
  return renderDocument("plan-page", view, {
    title: `Plan report · ${patientLine(plan)}`,
    paper,
    orientation: "portrait",
    asOf: plan.asOf,
    software: plan.software,
    runningHead: `Plan report · ${patientLine(plan)}`,
    namedPages: [],
    script: null,
  });
}
