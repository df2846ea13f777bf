import { sentenceCase } from "../../quantities/sentence-case.ts";
import { canBeDrawn, viewPlot } from "../charts/view-plot.ts";
import { formatError, formatNumber, formatValue } from "../format.ts";
import { plusMinusWords, primaryWords, secondaryWords, viewWords } from "../view-words.ts";
import type { PlanRingView, PlanViews } from "../views-schema.ts";

type RingViews = NonNullable<PlanRingView["views"]>;

interface FamilyRow {
  primary: string;
  secondary: string;
  reach: string;
}

/** One ring with C-arm angles: its plot, the views, and the branches in profile. */
export interface RingAngles {
  heading: string;
  /** How its axis was made, as far as it is not shared by all rings. */
  aside: string;
  drawing: { markup: string } | null;
  caption: string;
  /** Edge-on views every 15 degrees to the side, in two columns. */
  family: FamilyRow[][];
  displacement: { view: string; tilt: string; apart: string; shown: string }[];
  profiles: string[];
}

export const reachWord = (withinReach: boolean): string => (withinReach ? "within" : "beyond");

const secondaryOf = ({
  secondaryDeg,
  plusMinusDeg,
}: RingViews["family"]["rows"][number]): string => {
  if (secondaryDeg === null) return "none";
  if (secondaryDeg === "any") return "any";
  return `${secondaryWords(secondaryDeg)} ${plusMinusWords(plusMinusDeg)}`;
};

/** How the axis was made, in parts; the place need not be said where it is that of the ring. */
function axisParts({ axis, atMm }: PlanRingView): string[] {
  if (axis === null) return [];
  const method =
    atMm === null
      ? axis.method
      : axis.method.replace(`of ${formatValue(atMm, "mm")}`, "of the ring");
  return method.split("; ");
}

/** What the axes of all rings with angles share; nothing of one alone. */
export function sharedAxisParts(rings: readonly PlanRingView[]): string[] {
  const [first, ...others] = rings.filter(({ views }) => views !== null).map(axisParts);
  if (first === undefined || others.length === 0) return [];
  return first.filter((part) => others.every((parts) => parts.includes(part)));
}

function axisWords(ring: PlanRingView, axesShare: readonly string[]): string {
  if (ring.axis === null) return "";
  const { uncertaintyDeg } = ring.axis;
  const error = uncertaintyDeg === null ? "" : `(±\u00a0${formatNumber(uncertaintyDeg)}°)`;
  const own = axisParts(ring).filter((part) => !axesShare.includes(part));
  return ["axis:", own.join("; "), error].filter(Boolean).join(" ");
}

/** The angles of a ring; null where they can't be told. `name` as its heading, `id` for its drawing. */
export function ringAngles(
  ring: PlanRingView,
  {
    name,
    reach,
    axesShare,
    id,
  }: { name: string; reach: PlanViews["reach"]; axesShare: readonly string[]; id: string },
): RingAngles | null {
  const { views } = ring;
  if (views === null) return null;
  const plot = canBeDrawn(ring) ? viewPlot(ring, reach, id) : null;
  const family = views.family.rows.map((row) => ({
    primary: primaryWords(row.primaryDeg),
    secondary: secondaryOf(row),
    reach: row.secondaryDeg === null ? "–" : reachWord(row.withinReach),
  }));
  const half = Math.ceil(family.length / 2);
  return {
    heading: sentenceCase(name),
    aside: axisWords(ring, axesShare),
    drawing: plot && { markup: plot.svg },
    caption: plot?.caption ?? "",
    family: [family.slice(0, half), family.slice(half)],
    displacement: views.displacement.map(({ displacementMm, ...row }) => ({
      view: viewWords(row),
      tilt: formatNumber(row.tiltDeg),
      apart:
        displacementMm === null
          ? "not known"
          : [formatNumber(displacementMm.value), formatError(displacementMm)]
              .filter(Boolean)
              .join(" "),
      shown: formatNumber(row.shownOf20Mm),
    })),
    profiles: views.profiles.map(
      ({ branch, view, spreadDeg, points }) =>
        `Origin of the ${branch} in profile with the ring edge-on: ${viewWords(view)}, ${reachWord(view.withinReach)} reach (${points} points, scatter ${formatNumber(spreadDeg)}°).`,
    ),
  };
}
