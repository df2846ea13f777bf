/** Columns of the invented centreline sheets after patient, exam date and modality. */
export const stationColumns =
  "vessel,distance_mm,mark,mark_edge,wall,lumen,edge,max_diameter_mm,min_diameter_mm,perimeter_mm,thrombus_arc_deg,thrombus_mm,calcium_arc_deg,x_mm,y_mm,z_mm,axes,patient_position";

/** A place on the aortic centreline in DICOM patient coordinates, in mm. */
type Course = (distanceMm: number) => readonly [number, number, number];

/** Straight down: the distance is the way from the head, so that the inner curve is as long as the centreline. */
export const straightDown: Course = (distanceMm) => [0, 0, -distanceMm];

/** What a section or mark states; a section is native, whole, read between inner edges, free of thrombus and calcium. */
export interface StationCells {
  mark?: string;
  markEdge?: string;
  wall?: string;
  lumen?: string;
  largestMm?: number;
  leastMm?: number;
  perimeterMm?: number;
  thrombusArcDeg?: number;
  thrombusMm?: number;
  calciumArcDeg?: number;
}

/** One row of the centreline sheet. */
export function station(distanceMm: number, cells: StationCells, course: Course): string {
  const isSection = cells.largestMm !== undefined || cells.perimeterMm !== undefined;
  const ofSection = (value: string | number): string => (isSection ? `${value}` : "");
  return [
    "aorta",
    distanceMm,
    cells.mark ?? "",
    cells.markEdge ?? "",
    cells.wall ?? ofSection("native"),
    cells.lumen ?? ofSection("whole"),
    ofSection("inner"),
    cells.largestMm ?? "",
    cells.leastMm ?? "",
    cells.perimeterMm ?? "",
    cells.thrombusArcDeg ?? ofSection(0),
    cells.thrombusMm ?? ofSection(0),
    cells.calciumArcDeg ?? ofSection(0),
    ...course(distanceMm).map((mm) => mm.toFixed(6)),
    "LPS",
    "HFS",
  ].join(",");
}

/** Where the borders of the zones lie, in mm. */
type Marks = readonly (readonly [atMm: number, mark: string, edge?: string])[];

/** The usual arch: zones 0 to 5 begin at 0, 65, 85, 105, 125 and 205 mm, zone 5 ends at 325 mm. */
const usualMarks: Marks = [
  [0, "sinotubular junction"],
  [65, "innominate artery", "distal edge"],
  [75, "left common carotid artery", "proximal edge"],
  [85, "left common carotid artery", "distal edge"],
  [95, "left subclavian artery", "proximal edge"],
  [105, "left subclavian artery", "distal edge"],
  [205, "mid-descending aorta"],
  [325, "coeliac artery", "proximal edge"],
];

/** A centreline sheet: a section at each of `atMm` with the cells that `sectionAt` gives it, and the marks. */
export function centrelineSheet({
  atMm,
  sectionAt,
  marks = usualMarks,
  course = straightDown,
}: {
  atMm: readonly number[];
  sectionAt: (distanceMm: number) => StationCells;
  marks?: Marks;
  course?: Course;
}): string {
  const marked = new Map(marks.map(([mm, mark, markEdge = ""]) => [mm, { mark, markEdge }]));
  const places = [...new Set([...atMm, ...marked.keys()])].toSorted((a, b) => a - b);
  return places
    .map((mm) => {
      const section = atMm.includes(mm) ? sectionAt(mm) : {};
      return station(mm, { ...section, ...marked.get(mm) }, course);
    })
    .join("\n");
}

/** Distances from `fromMm` to `toMm`, both in. */
export const everyMm = (stepMm: number, fromMm: number, toMm: number): number[] =>
  Array.from(
    { length: Math.floor((toMm - fromMm) / stepMm) + 1 },
    (_, index) => fromMm + index * stepMm,
  );
