import { renderDocument } from "../document.ts";
import { landingStrip } from "../charts/landing-strip.ts";
import { type Paper, textWidthOf } from "../paper.ts";
import type { Plan } from "../plan.ts";
import { accessView } from "./access-view.ts";
import { archPlansView } from "./arch-plans-view.ts";
import { optionRows, optionsGlance } from "./options-view.ts";
import { perfusionView } from "./perfusion-view.ts";
import type { PlanSetting } from "./plan-view.ts";
import { segmentViews } from "./segment-view.ts";
import { sizingsView } from "./sizings-view.ts";
import { patientLine, titleBlock } from "./title-block.ts";
import { viewsView } from "./views-view.ts";
import { worklistViews } from "./worklist-view.ts";

/** Everything that the template of the options shows. */
export function optionsView(plan: Plan, setting: PlanSetting) {
  const { idPrefix, titleTag, sectionTag, itemTag } = setting;
  return {
    id: idPrefix,
    titleTag,
    sectionTag,
    itemTag,
    titleBlock: titleBlock(plan, "Options for a repair"),
    ...optionsGlance(plan),
    ...optionRows(plan),
    strip: stripView(plan, setting),
    ...segmentViews({
      proximal: plan.options.flatMap(({ segments }) => segments),
      distal: plan.distalLandings.flatMap(({ segments }) => segments),
    }),
    ...sizingsView(plan),
    ...archPlansView(plan.archPlans),
    ...viewsView(plan.views, idPrefix),
    ...accessView(plan.access),
    ...perfusionView(plan.perfusion),
    worklists: worklistViews(plan.worklists, plan.patient.id),
    prompts: plan.prompts,
    cautions: plan.cautions,
  };
}

function stripView(plan: Plan, { idPrefix, paper }: PlanSetting) {
  const strip = landingStrip(plan, { id: `${idPrefix}strip`, widthPt: textWidthOf(paper) });
  return strip && { drawing: { markup: strip.svg }, caption: strip.caption };
}

/** The options of one patient as a whole HTML document. */
export function optionsHtml(plan: Plan, { paper = "A4" }: { paper?: Paper } = {}): string {
  const view = optionsView(plan, {
    paper,
    idPrefix: "",
    titleTag: "h1",
    sectionTag: "h2",
    itemTag: "h3",
  });
  return renderDocument("options-page", view, {
    title: `Options · ${patientLine(plan)}`,
    paper,
    orientation: "portrait",
    asOf: plan.asOf,
    software: plan.software,
    runningHead: `Options · ${patientLine(plan)}`,
    namedPages: [],
    script: null,
  });
}
