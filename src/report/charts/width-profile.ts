import { formatCount, formatList, notConfirmed } from "../format.ts";
import { hasUnconfirmed, notConfirmedMark } from "../limits-in-force.ts";
import type { Profile } from "./profile-data.ts";
import { profileGaps } from "./profile-gaps.ts";
import { drawColumn, labelColumns, type LabelColumn } from "./profile-callouts.ts";
import { commonMethod, profileSentences } from "./profile-labels.ts";
import {
  barHeights,
  profileLayout,
  type ProfileLayout,
  type WidthProfileSize,
} from "./profile-layout.ts";
import { drawAxis, drawBar, drawBrackets, drawGaps, drawRuler } from "./profile-parts.ts";
import { drawRepairs } from "./profile-repairs.ts";
import { drawing } from "./svg.ts";

function captionOf(profile: Profile, layout: ProfileLayout, columns: LabelColumn[]): string {
  const isFull = columns.every(({ detail }) => detail === "full");
  const unnamed = columns.reduce((sum, column) => sum + column.unnamed, 0);
  const rows = [...profile.bars, ...profile.ranges];
  const scale = layout.denominator === 1 ? "at true size" : `at 1 : ${layout.denominator}`;
  const sentences = [
    `Bars ${scale} on paper. Unless said otherwise: ${commonMethod(profile)}. Bands 0 to 11 are zones, of even height.`,
    profile.dateBefore === null
      ? `Solid: ${profile.date}.`
      : `Solid: ${profile.date}; outline: ${profile.dateBefore}.`,
  ];
  if (rows.some(({ trueLumenMm }) => trueLumenMm !== null)) sentences.push("Dark: true lumen.");
  if (profile.repaired.length > 0) sentences.push("Hatched: repaired.");
  if (rows.some(({ limits }) => limits.length > 0)) {
    const where = isFull ? "" : ", named under the criteria";
    sentences.push(`Ticks: size limits compared at the place${where}.`);
  }
  const shown = isFull ? rows.flatMap(({ limits }) => limits) : [];
  if (hasUnconfirmed(shown)) sentences.push(`${notConfirmedMark} ${notConfirmed}.`);
  if (unnamed > 0)
    sentences.push(`${formatCount(unnamed, "place is", "places are")} drawn without a name.`);
  return sentences.join(" ");
}

/** The drawing of the aorta: diameters to scale along the vessel, with its caption. */
export function widthProfile(
  profile: Profile,
  size: WidthProfileSize,
): { svg: string; caption: string; notMeasured: string } {
  const layout = profileLayout(profile, size);
  const heights = barHeights(profile, layout);
  const columns = labelColumns(profile, layout, heights);
  const gaps = profileGaps(profile.bars).map(({ label: name }) => name);
  const bars = profile.bars.map((row, index) => drawBar(row, heights[index] ?? 0, layout));
  const svg = drawing(
    {
      ...size,
      title: `Width profile of the aorta on ${profile.date}.`,
      description: profileSentences(profile, gaps),
    },
    drawRuler(layout),
    drawRepairs(profile.repaired, layout),
    drawAxis(profile, layout),
    drawGaps(profile, layout),
    ...columns.map((column) => drawColumn(column, layout)),
    drawBrackets(profile, layout),
    ...bars,
  );
  return { svg, caption: captionOf(profile, layout, columns), notMeasured: formatList(gaps) };
}
