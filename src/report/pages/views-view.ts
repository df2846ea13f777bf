import { sentenceCase } from "../../quantities/sentence-case.ts";
import { formatError, formatLimit, formatNumber, formatValue, notConfirmed } from "../format.ts";
import { plusMinusWords, viewWords } from "../view-words.ts";
import type { PlanRingView, PlanViews } from "../views-schema.ts";
import { bendsView, type BendsView } from "./bends-view.ts";
import { type NumberedNotes, numberedNotes } from "./numbered-notes.ts";
import { reachWord, type RingAngles, ringAngles, sharedAxisParts } from "./ring-angles-view.ts";
import { ringNames, sayOnce } from "./ring-names.ts";
import { gapRows, type GapRow } from "./views-gaps.ts";

/** One landing ring in the first table; a cell is a list of lines. */
export interface RingRow {
  ring: string;
  /** Basis, date and how the patient lay, where rings differ in it. */
  aside: string;
  at: string;
  diameter: string;
  nearest: string[];
  withoutTilt: string;
  /** Up to which front and back of the ring lie within 2 mm. */
  allowedTilt: string;
}

/** What the section of the views prints. */
export interface ViewsOnPage extends BendsView {
  /** Basis, date and how the patient lay, where that is the same for all rings. */
  ringsLie: string | null;
  ringRows: RingRow[];
  ringNotes: string[];
  /** How the axes of all rings with angles were made, where there are several. */
  axesShare: string;
  ringAngles: RingAngles[];
  ringGaps: GapRow[];
  viewFacts: { heading: string; facts: { text: string; note: string }[] }[];
  viewsMissing: string[];
  viewSources: { note: string; text: string }[];
}

/** The section of the views: all landing rings, those with angles each with its plot, the bends, and what is missing. */
export function viewsView(plan: PlanViews, idPrefix: string): ViewsOnPage {
  const { reach, rings, notAssessable } = plan;
  const notes = numberedNotes();
  const names = ringNames(rings);
  const lying = rings.map(lyingWords);
  const isAlike = new Set(lying).size === 1;
  const axesShare = sharedAxisParts(rings);
  return {
    ringsLie: isAlike ? (lying[0] ?? null) : null,
    ringRows: rings.map((ring, index) => ({
      ...ringCells(ring),
      ring: sentenceCase(names[index] ?? ring.label),
      aside: isAlike ? "" : (lying[index] ?? ""),
    })),
    ringNotes: sayOnce(
      rings.length,
      rings.flatMap((ring, index) =>
        ring.diameterMm === null
          ? []
          : [{ ring: names[index] ?? ring.label, words: `diameter: ${diameterMethod(ring)}` }],
      ),
    ),
    axesShare: axesShare.join("; "),
    ringAngles: rings.flatMap(
      (ring, index) =>
        ringAngles(ring, {
          name: names[index] ?? ring.label,
          reach,
          axesShare,
          id: `${idPrefix}view-${index + 1}`,
        }) ?? [],
    ),
    ringGaps: gapRows(rings),
    ...bendsView(rings),
    viewFacts: factGroups(plan, notes),
    viewsMissing: notAssessable.map(({ what, missing }) => `${sentenceCase(what)}: ${missing}`),
    viewSources: notes.all().map((text) => ({ note: notes.mark(text), text })),
  };
}

function lyingWords({ basis, date, patientPosition, positionBy }: PlanRingView): string {
  const lying = patientPosition === null ? "position not stated" : `lying ${patientPosition}`;
  const by = positionBy === null ? "" : ` (${positionBy})`;
  return `${basis}, ${date}, ${lying}${by}`;
}

/** The place of the section need not be said where it is that of the ring. */
function diameterMethod({ diameterMm, atMm }: PlanRingView): string {
  const method = diameterMm?.method ?? "";
  return atMm === null
    ? method
    : method.replace(`section at ${formatValue(atMm, "mm")}`, "section at the ring");
}

const notTold = "can't be told";

function ringCells(ring: PlanRingView): Omit<RingRow, "ring" | "aside"> {
  const { atMm, diameterMm, allowedTiltDeg, views } = ring;
  return {
    at: atMm === null ? "–" : formatNumber(atMm),
    diameter:
      diameterMm === null
        ? "not known"
        : [formatNumber(diameterMm.value), formatError(diameterMm)].filter(Boolean).join(" "),
    nearest: views === null ? [notTold] : nearestLines(views.family),
    withoutTilt:
      views === null
        ? notTold
        : views.family.withoutTilt === null
          ? "every angle to the side"
          : namedView(views.family.withoutTilt),
    allowedTilt: allowedTiltDeg === null ? "not known" : formatNumber(allowedTiltDeg),
  };
}

type Family = NonNullable<PlanRingView["views"]>["family"];

const namedView = (view: NonNullable<Family["nearest"]>): string =>
  `${viewWords(view)} (${plusMinusWords(view.plusMinusDeg)}), ${reachWord(view.withinReach)}`;

/** The edge-on view nearest to the front; beyond reach the nearest within it too. */
function nearestLines({ nearest, nearestWithinReach }: Family): string[] {
  const first = nearest === null ? "none: the vessel runs from front to back" : namedView(nearest);
  if (nearest?.withinReach) return [first];
  const within = nearestWithinReach === null ? "none" : namedView(nearestWithinReach);
  return [first, `the same within reach: ${within}`];
}

function factGroups(
  { reach, perspective, facts }: PlanViews,
  { mark }: NumberedNotes,
): ViewsOnPage["viewFacts"] {
  const { offCentreMm, depthMm, sourceMm, shiftMm } = perspective;
  const factsOn = (wanted: PlanViews["facts"][number]["topic"]) =>
    facts
      .filter(({ topic }) => topic === wanted)
      .map(({ text, source, confirmed }) => ({
        text,
        note: mark(
          confirmed || source.includes("no source") ? source : `${source} (${notConfirmed})`,
        ),
      }));
  return [
    {
      heading: "Views",
      facts: [
        ...factsOn("view"),
        {
          text: `Away from the middle of the beam depth shifts too: ${formatLimit(offCentreMm)} mm off it and ${formatLimit(depthMm)} mm of depth at ${formatLimit(sourceMm)} mm from the source shift by ${formatNumber(shiftMm)} mm. Is the landing level on the central ray?`,
          note: mark("similar triangles"),
        },
        {
          text: `Reach taken: ${formatLimit(reach.primaryDeg)}° to either side, ${formatLimit(reach.secondaryDeg)}° to head and foot.`,
          note: mark(reach.source),
        },
      ],
    },
    { heading: "Bends", facts: factsOn("bend") },
  ];
}
