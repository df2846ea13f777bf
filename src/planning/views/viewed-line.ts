import type { Centreline, Station } from "../../cases/patient-case.ts";
import { type LinePoints, linePoints, smoothedPoints } from "../line-points.ts";
import { remembered } from "../remembered.ts";
import { type VesselDiameter, vesselDiameters } from "./vessel-diameter.ts";

/** A centreline with what its rings are worked out from, made once for all of them. */
export interface ViewedLine {
  line: Centreline;
  placed: LinePoints;
  smooth: ReturnType<typeof smoothedPoints>;
  /** Of the vessel at a distance; see `vesselDiameters`. */
  diameterAt: (atMm: number) => VesselDiameter | null;
}

export const viewedLine = (
  line: Centreline,
  stationSdMmOf: (station: Station) => number,
): ViewedLine => ({
  line,
  placed: linePoints(line),
  smooth: smoothedPoints(line),
  diameterAt: remembered(vesselDiameters(line, stationSdMmOf)),
});
