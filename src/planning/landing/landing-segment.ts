/** Stands as the condition of an end at which no condition failed: beyond it nothing is measured. */
export const sectionsEnd = "sections-end";

/** Where a stretch begins or ends, and by what. */
export interface SegmentEnd {
  /** A sentence. */
  what: string;
  /** The id of the condition in landing-conditions.yaml that failed here, or `sectionsEnd` where nothing is measured beyond; null for a border. */
  condition: string | null;
  /** Distance on the aortic centreline in mm; null without a centreline. */
  atMm: number | null;
  /** Keys of the values it stands on. */
  used: string[];
  source: string | null;
}

/** A length in mm with its least and its greatest, over the gaps between stations and the reading error. */
export interface LengthRange {
  value: number;
  low: number;
  high: number;
}

/** One stretch of wall on which one end of a graft could lie, for one candidate zone. */
export interface LandingSegment {
  end: "proximal" | "distal";
  /** "0".."4" proximal: where the fabric's proximal edge lies; distal: "2".."5". */
  zone: string;
  basis: "centreline" | "zone values" | "sound length as stated" | "none";
  exam: string | null;
  date: string | null;
  /** Which of the published limits that differ were taken. */
  conditions: "strictest published" | "widest published";
  /** What the stretch consists of ("native", "graft" …); null where that is not stated. */
  surface: string | null;
  /** Distances on the aortic centreline in mm; null without one, and where no section holds. startMm < endMm. */
  startMm: number | null;
  endMm: number | null;
  /** The near border of the zone, on the side that the stretch comes from; null without a centreline. */
  zoneStartMm: number | null;
  /** The far border of the zone, on the side that the stretch runs to: the edge of the fabric lies before it. Null where it is not known. */
  zoneEndMm: number | null;
  /** Along the centreline. */
  lengthMm: LengthRange | null;
  innerMm: LengthRange | null;
  outerMm: LengthRange | null;
  /** How the inner and the outer length were made, or why not. */
  curveMethod: string | null;
  begunBy: SegmentEnd;
  endedBy: SegmentEnd;
  /** Kinds of conditions that the site leaves out, each a sentence. */
  leftOut: string[];
  notAssessed: { condition: string; missing: string }[];
  spacing: { largestMm: number | null; neededMm: number | null; words: string };
  /** Keys of the stations inside. */
  stations: string[];
  used: string[];
  missing: string[];
}
