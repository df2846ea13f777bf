import { profileOf } from "../charts/profile-data.ts";
import { widthProfile } from "../charts/width-profile.ts";
import { formatCount } from "../format.ts";
import { paperSize, textWidthOf, type Paper } from "../paper.ts";
import type { Plan } from "../plan.ts";
import { wrapText } from "../text-width.ts";
import { anatomyLines } from "./anatomy-view.ts";
import { criteriaGroups } from "./criteria-groups.ts";
import { sourceRows } from "./criteria-view.ts";
import { derivedRows } from "./derived-view.ts";
import { growthViews } from "./growth-view.ts";
import { keyLines, type KeyLine } from "./key-lines.ts";
import { optionsGlance } from "./options-view.ts";
import { fileRows, measurementGroups, messageRow } from "./provenance-view.ts";
import { examRows, sizesView } from "./sizes-view.ts";
import { surveillanceView } from "./surveillance-view.ts";
import { titleBlock, type TitleBlock } from "./title-block.ts";
import { textLinePt, textSizePt, titleHeightPt } from "./title-height.ts";

/** Where the plan report stands: alone, or inside a packet under a case. */
export interface PlanSetting {
  paper: Paper;
  /** Put before every id, so that two reports can share a document. */
  idPrefix: string;
  titleTag: "h1" | "h3";
  sectionTag: "h2" | "h4";
  itemTag: "h3" | "h5";
}

const leastProfilePt = 290;
const largestProfilePt = 420;
/** Section titles, gaps, and the caption of the profile, as the stylesheet sets them. */
const findingsTitlePt = 43;
const sizesTitlePt = 43;
const captionPt = 3 + 4 * textLinePt;
const keyLinePt = 5.5;
const keyLineLabelPt = 78;

/** Height in points that is left on the first page for the width profile. */
function freeOnFirstPagePt(title: TitleBlock, lines: readonly KeyLine[], paper: Paper): number {
  const { heightPt, topPt, bottomPt } = paperSize(paper);
  const widthPt = textWidthOf(paper);
  const findings = lines.map(({ text }) => {
    const count = wrapText(text, widthPt - keyLineLabelPt, textSizePt).length;
    return keyLinePt + count * textLinePt;
  });
  const used = [
    titleHeightPt(title, widthPt),
    findingsTitlePt,
    ...findings,
    sizesTitlePt,
    captionPt,
  ];
  return heightPt - topPt - bottomPt - used.reduce((sum, height) => sum + height, 0);
}

function profileView(plan: Plan, freePt: number, { paper, idPrefix }: PlanSetting) {
  const profile = profileOf(plan);
  if (profile === null) return null;
  const fits = freePt >= leastProfilePt;
  const { svg, caption, notMeasured } = widthProfile(profile, {
    id: `${idPrefix}profile`,
    widthPt: textWidthOf(paper),
    heightPt: fits ? Math.min(freePt, largestProfilePt) : largestProfilePt,
    branchesPt: 140,
    barsPt: 190,
  });
  return {
    drawing: { markup: svg },
    caption,
    notMeasured: notMeasured === "" ? null : notMeasured,
  };
}

const decidesShown = 2;

/** The first results that wait for something missing, and how many more. */
function decidesText(decides: readonly string[]): string {
  const rest = decides.length - decidesShown;
  const shown = decides.slice(0, decidesShown).join("; ");
  return rest > 0 ? `${shown}; and ${formatCount(rest, "more", "more")}` : shown;
}

/** Everything that the plan report's template shows. */
export function planView(plan: Plan, setting: PlanSetting) {
  const { idPrefix, titleTag, sectionTag, itemTag } = setting;
  const title = titleBlock(plan, "Plan report");
  const lines = keyLines(plan);
  const freePt = freeOnFirstPagePt(title, lines, setting.paper);
  const profile = profileView(plan, freePt, setting);
  const isProfileFirst = freePt >= leastProfilePt;
  return {
    id: idPrefix,
    titleTag,
    sectionTag,
    itemTag,
    titleBlock: title,
    keyLines: lines,
    exams: examRows(plan),
    profileFirst: isProfileFirst ? profile : null,
    profileAfterExams: isProfileFirst ? null : profile,
    sizes: sizesView(plan),
    derived: derivedRows(plan),
    anatomy: anatomyLines(plan),
    ...growthViews(plan, idPrefix),
    ...criteriaGroups(plan),
    hiddenRules: plan.hiddenRules.map(
      ({ title, body, year, by, date, reason }) =>
        `${title} (${body} ${year}): not evaluated, by ${by} on ${date}: ${reason}`,
    ),
    surveillance: surveillanceView(plan),
    disagreements: plan.disagreements.map(({ sentence }) => sentence),
    missing: plan.missing.map(({ what, decides }) => ({ what, decides: decidesText(decides) })),
    prompts: plan.prompts,
    ...optionsGlance(plan),
    measurements: measurementGroups(plan),
    files: fileRows(plan),
    messages: plan.messages.map(messageRow),
    sources: sourceRows(plan),
    cautions: plan.cautions,
    software: `${plan.software.name} ${plan.software.version}`,
    rulesDigest: plan.software.rulesDigest,
    asOf: plan.asOf,
  };
}
