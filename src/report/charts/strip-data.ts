import { landingConditions } from "../../planning/landing/landing-conditions.ts";
import { formatInterval, formatNumber } from "../format.ts";
import type { Plan } from "../plan.ts";

type Line = Plan["centrelines"][number];
type Segment = Plan["options"][number]["segments"][number];
type Stretch = Segment & { startMm: number; endMm: number };

/** One row of the drawing: the stretches of one zone and one end. */
export interface StripRow {
  /** "Zone 2, proximal". */
  heading: string;
  /** The strictest first; none where no section holds. */
  stretches: Stretch[];
}

/** A place on the line, at one distance or from the first to the last edge of an origin. */
export interface StripMark {
  text: string;
  atMm: number[];
}

/** Landing diameters of any zone that sources name. */
export const limitsMm = landingConditions.conditions
  .filter(({ measure, zones }) => measure === "diameter" && zones === undefined)
  .map(({ limit }) => limit);

/** The aortic centreline that the stretches of a plan lie on; null where none lies on one. */
export function stripLine({ centrelines, options, distalLandings }: Plan): Line | null {
  const exam = [...options, ...distalLandings]
    .flatMap(({ segments }) => segments)
    .find(({ basis }) => basis === "centreline")?.exam;
  const found = centrelines.find((one) => one.vessel === "aorta" && one.exam === exam);
  return found !== undefined && found.stations.length > 1 ? found : null;
}

const isDrawn = (segment: Segment): segment is Stretch =>
  segment.startMm !== null && segment.endMm !== null;

/** The proximal ends first, in the order of the zones. */
export const stripRows = ({ options, distalLandings }: Plan): StripRow[] =>
  [
    ...options.map(({ zone, segments }) => ({ heading: `Zone ${zone}, proximal`, segments })),
    ...distalLandings.map(({ zone, segments }) => ({ heading: `Zone ${zone}, distal`, segments })),
  ].map(({ heading, segments }) => ({ heading, stretches: segments.filter(isDrawn) }));

/** Largest whole diameters along the line, in order. */
export const wholeDiameters = ({ stations }: Line): [number, number][] =>
  stations.flatMap((station): [number, number][] => {
    const { lumen, maximumMm, distanceMm } = station;
    const isWhole = lumen !== "true" && lumen !== "false";
    return isWhole && maximumMm !== null ? [[distanceMm, maximumMm]] : [];
  });

/** One for each place, with both edges of an origin where both are marked. */
export function stripMarks({ stations }: Line): StripMark[] {
  const marked = stations.flatMap(({ distanceMm, mark }) =>
    mark === null ? [] : [{ distanceMm, ...mark }],
  );
  return [...Map.groupBy(marked, ({ place }) => place.label)].map(([name, here]) => {
    const short = name.replace(/ artery$/, "");
    const edges = new Set(here.map(({ edge }) => edge));
    const [edge] = edges;
    return {
      text: edges.size === 1 && edge ? `${short}, ${edge}` : short,
      atMm: [...new Set(here.map(({ distanceMm }) => distanceMm))],
    };
  });
}

const lengthOf = ({ lengthMm }: Stretch): string =>
  lengthMm === null ? "" : formatInterval({ ...lengthMm, unit: "mm" });

/** Whether the stretch is the one under the widest limits. */
export const isWidest = ({ conditions }: Segment): boolean => conditions === "widest published";

/** "88.0 mm (40.0 to 92.0); widest 138.0 mm (138.0 to 142.0)": lengths along the centreline. */
export const rowWords = ({ stretches }: StripRow): string =>
  stretches.map((one) => `${isWidest(one) ? "widest " : ""}${lengthOf(one)}`).join("; ");

/** The rows without a stretch in one sentence; empty where there is none. */
export function emptyWords(rows: readonly StripRow[]): string {
  const none = rows.filter(({ stretches }) => stretches.length === 0);
  if (none.length === 0) return "";
  const zones = none.map(({ heading }) => heading.replace("Zone", "zone"));
  return `No stretch: ${zones.join("; ")}.`;
}
/** What the drawing shows, in sentences. */
export function describeStrip(
  line_: Line,
  { marks, rows, empty }: { marks: readonly StripMark[]; rows: readonly StripRow[]; empty: string },
): string {
  const sizes = wholeDiameters(line_).map(
    ([at, size]) => `${formatNumber(size)} at ${formatNumber(at)}`,
  );
  const places = marks.map(
    ({ text, atMm }) => `${text} at ${atMm.map((mm) => formatNumber(mm)).join(" and ")} mm`,
  );
  const stretches = rows.flatMap(({ heading, stretches: own }) =>
    own.map(
      (one) =>
        `${heading}, ${one.conditions}: from ${formatNumber(one.startMm)} to ${formatNumber(one.endMm)} mm, ${lengthOf(one)}.`,
    ),
  );
  return [
    `Largest diameters of the whole vessel along the centreline, in mm: ${sizes.join(", ")}.`,
    `Landing diameters that sources name: ${limitsMm.join(" and ")} mm.`,
    `Marks: ${places.join("; ")}.`,
    ...stretches,
    empty,
  ].join(" ");
}
