import type { Measurement, Station } from "../../cases/patient-case.ts";
import { formatLength } from "../../quantities/format-length.ts";
import { type EdgeId, type LumenId, sizeQuantities } from "../../quantities/measured-quantity.ts";

/** One section of one lumen at an end of a graft, between one edge of the wall, in mm and mm2. */
export interface SizingSection {
  place: string;
  /** Along the centreline; null without one. */
  distanceMm: number | null;
  lumen: LumenId;
  edge: EdgeId;
  maximumMm: number | null;
  minimumMm: number | null;
  /** A mean diameter as reported. */
  meanMm: number | null;
  perimeterMm: number | null;
  areaMm2: number | null;
  /** Keys of measurements or stations. */
  used: string[];
  /** Half the 95 % interval of a diameter. */
  errorMm: number;
  /** Why it can't be used as it is read; null where nothing speaks against it. */
  problem: string | null;
}

/**
 * Sections from readings of one exam, one for each place, lumen, edge, plane and phase. `readingSdMmOf` gives the SD of a
 * diameter reading; the largest of a section counts. Readings of one kind that differ are a problem of the section.
 */
export function sectionsFromMeasurements(
  measurements: readonly Measurement[],
  readingSdMmOf: (reading: Measurement) => number,
): SizingSection[] {
  const groups = Map.groupBy(
    measurements.filter(({ quantity }) => sizeQuantities.has(quantity)),
    ({ place, exam, lumen, edge, plane, phase }) =>
      [place.id, exam, lumen, edge, plane, phase].join("\n"),
  );
  return [...groups.values()].flatMap((group) => {
    const [first] = group;
    return first ? [sectionOf(first, group, readingSdMmOf)] : [];
  });
}

function sectionOf(
  { place, lumen, edge }: Measurement,
  group: readonly Measurement[],
  readingSdMmOf: (reading: Measurement) => number,
): SizingSection {
  const valueOf = (isIt: (one: Measurement) => boolean): number | null =>
    group.find(isIt)?.value ?? null;
  return {
    place: place.label,
    distanceMm: null,
    lumen,
    edge,
    maximumMm: valueOf(isLargest),
    minimumMm: valueOf(isSmallest),
    meanMm: valueOf(({ quantity, statistic }) => quantity === "diameter" && statistic === "mean"),
    perimeterMm: valueOf(({ quantity }) => quantity === "perimeter"),
    areaMm2: valueOf(({ quantity }) => quantity === "area"),
    used: group.map(({ key }) => key),
    errorMm: 1.96 * Math.max(...group.map(readingSdMmOf)),
    problem: differ(group) ? "readings of the same exam differ" : null,
  };
}

const isLargest = ({ quantity, statistic }: Measurement): boolean =>
  quantity === "long-axis" || (quantity === "diameter" && statistic === "maximum");
const isSmallest = ({ quantity, statistic }: Measurement): boolean =>
  quantity === "short-axis" || (quantity === "diameter" && statistic === "minimum");

function kindOf(one: Measurement): string {
  if (isLargest(one)) return "largest";
  return isSmallest(one) ? "smallest" : `${one.quantity} ${one.statistic}`;
}

function differ(group: readonly Measurement[]): boolean {
  return [...Map.groupBy(group, kindOf).values()].some(
    (same) => new Set(same.map(({ value }) => value)).size > 1,
  );
}

/** Sections from stations of a centreline; a station without any size is left out. */
export function sectionsFromStations(
  stations: readonly Station[],
  stationSdMmOf: (station: Station) => number,
): SizingSection[] {
  return stations
    .filter((station) =>
      [station.maximumMm, station.minimumMm, station.perimeterMm, station.areaMm2].some(
        (size) => size !== null,
      ),
    )
    .map((station) => ({
      place: stationPlace(station),
      distanceMm: station.distanceMm,
      lumen: station.lumen,
      edge: station.edge,
      maximumMm: station.maximumMm,
      minimumMm: station.minimumMm,
      meanMm: null,
      perimeterMm: station.perimeterMm,
      areaMm2: station.areaMm2,
      used: [station.key],
      errorMm: 1.96 * stationSdMmOf(station),
      problem: null,
    }));
}

function stationPlace({ mark, distanceMm }: Station): string {
  if (mark === null) return `${formatLength(distanceMm)} along the centreline`;
  return mark.edge === null ? mark.place.label : `${mark.place.label}, ${mark.edge}`;
}
