import { renderDocument } from "../document.ts";
import type { Paper } from "../paper.ts";
import type { Plan } from "../plan.ts";
import { summaryView } from "./summary-view.ts";
import { patientLine } from "./title-block.ts";

/** The one-page summary of one patient as a whole HTML document that prints on one sheet. */
export function summaryHtml(plan: Plan, { paper = "A4" }: { paper?: Paper } = {}): string {
  return renderDocument(
    "summary-page",
    summaryView(plan, { paper, idPrefix: "", titleTag: "h1" }),
    {
      title: `Summary · ${patientLine(plan)}`,
      paper,
      orientation: "portrait",
      asOf: plan.asOf,
      software: plan.software,
      runningHead: "",
      namedPages: [],
      script: null,
    },
  );
}
