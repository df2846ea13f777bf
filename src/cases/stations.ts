import { createHash } from "node:crypto";
import { type Dictionary, wordKey } from "../anatomy/dictionary.ts";
import { placeOfTerm } from "../anatomy/place-of-term.ts";
import type { AorticPlace } from "../anatomy/places.ts";
import { isProblem } from "../anatomy/problem.ts";
import { plainKey } from "../anatomy/spelling.ts";
import type { Vector } from "../geometry/vector.ts";
import type { Message, SourcePlace } from "../message.ts";
import type { LumenId } from "../quantities/measured-quantity.ts";
import type { StatedStation } from "../readers/reading.ts";
import { caseMessage } from "./messages.ts";
import type { CourseId, Station, StationMark } from "./patient-case.ts";
import { usableSizes } from "./station-sizes.ts";
import { type StationWall, stationWalls } from "./vocabulary.ts";

/** A row of a centreline sheet, understood, with what holds for its whole centreline. */
export interface PlacedStation {
  vessel: CourseId;
  /** The vessel as pages name it. */
  label: string;
  station: Station;
  /** "without axes" and "incomplete": coordinates stand there, and there is no point. */
  axes: "LPS" | "RAS" | "without axes" | "incomplete" | "none";
  /** A defined term of DICOM's Patient Position; null where none is stated. */
  patientPosition: string | null;
}

/** Defined terms of Patient Position (0018,5100). Source: DICOM PS3.3, C.7.3.1.1.2. */
const patientPositions =
  "HFP HFS HFDR HFDL FFDR FFDL FFP FFS LFP LFS RFP RFS AFDR AFDL PFDR PFDL".split(" ");

/** Other words for a wall, as word keys. */
const wallSynonyms: Readonly<Record<string, StationWall>> = {
  "native aorta": "native",
  "native wall": "native",
  "surgical graft": "graft",
  "fabric graft": "graft",
  stentgraft: "stent graft",
  endograft: "stent graft",
  dissection: "dissected",
  imh: "intramural haematoma",
  "intramural hematoma": "intramural haematoma",
  pau: "penetrating ulcer",
  "penetrating aortic ulcer": "penetrating ulcer",
};

type MarkEdge = NonNullable<StationMark["edge"]>;
const markEdges: readonly MarkEdge[] = ["proximal edge", "distal edge", "centre"];
const edgeSynonyms: Readonly<Record<string, MarkEdge>> = {
  proximal: "proximal edge",
  distal: "distal edge",
  "proximal border": "proximal edge",
  "distal border": "distal edge",
  center: "centre",
  middle: "centre",
};

/**
 * Understands the rows of centreline sheets. A row whose vessel or lumen is not understood is left out with the reason;
 * any other word or number that can't be used loses only itself. A reason that holds for many rows is said once.
 */
export function placeStations(
  stated: readonly StatedStation[],
  dictionary: Dictionary,
): { placed: PlacedStation[]; messages: Message[] } {
  const placed: PlacedStation[] = [];
  const messages: Message[] = [];
  const said = new Set<string>();
  for (const row of stated) {
    const reasons: Message[] = [];
    const one = placeStation(row, { dictionary, reasons });
    if (one) placed.push(one);
    messages.push(...row.unusable);
    for (const reason of reasons) {
      const { code, text, place } = reason;
      const key = JSON.stringify([code, text, place?.sha256]);
      const isOfRow = code.startsWith("csv-") || "number" in reason.data;
      if (!isOfRow && said.has(key)) continue;
      said.add(key);
      messages.push(reason);
    }
  }
  return { placed, messages };
}

interface Understanding {
  dictionary: Dictionary;
  /** Receives why something of the row is not used. */
  reasons: Message[];
}

function placeStation(row: StatedStation, understanding: Understanding): PlacedStation | null {
  const { dictionary, reasons } = understanding;
  const { source, distanceMm, reader, comment } = row;
  if (row.refused || distanceMm === null) {
    if (row.refused) reasons.push(row.refused);
    return null;
  }
  const course = courseOf(row, understanding);
  const lumen = row.lumen === null ? "unstated" : dictionary.lumenWords.get(plainKey(row.lumen));
  if (lumen === undefined) {
    reasons.push(caseMessage("station-lumen-not-understood", source, { met: row.lumen ?? "" }));
  }
  if (course === null || lumen === undefined) return null;
  const edge = row.edge === null ? "unstated" : dictionary.edgeWords.get(plainKey(row.edge));
  if (edge === undefined) reasons.push(notUnderstood(row, "edge", row.edge, "inner, outer"));
  const wall = row.wall === null ? null : known(row.wall, stationWalls, wallSynonyms);
  if (row.wall !== null && wall === null) {
    reasons.push(notUnderstood(row, "wall", row.wall, stationWalls.join(", ")));
  }
  const { axes, point } = pointOf(row, reasons);
  const station: Station = {
    key: stationKey(source),
    distanceMm,
    point,
    mark: markOf(row, understanding),
    wall,
    lumen,
    edge: edge ?? "unstated",
    ...usableSizes(row, { vessel: course.vessel, lumen: lumen satisfies LumenId, reasons }),
    source,
    reader,
    comment,
  };
  return { ...course, station, axes, patientPosition: positionOf(row, reasons) };
}

const notUnderstood = (
  { source }: StatedStation,
  heading: string,
  met: string | null,
  expected: string,
): Message =>
  caseMessage("station-word-not-understood", source, { heading, met: met ?? "", expected });

/** The word of a vocabulary that is meant; null for a word that is neither in it nor a synonym. */
function known<Word extends string>(
  met: string,
  vocabulary: readonly Word[],
  synonyms: Readonly<Record<string, Word>>,
): Word | null {
  const key = wordKey(met);
  const synonym = new Map(Object.entries(synonyms)).get(key);
  return synonym ?? vocabulary.find((word) => wordKey(word) === key) ?? null;
}

const accessWords =
  /^(?:the )?(right|left) (?:ilio ?femoral |iliac |femoral )?access(?: path| route)?$/;

function courseOf(
  { vessel, source }: StatedStation,
  { dictionary, reasons }: Understanding,
): Pick<PlacedStation, "vessel" | "label"> | null {
  const key = wordKey(vessel ?? "aorta");
  if (key === "aorta") return { vessel: "aorta", label: "aorta" };
  const [, side] = accessWords.exec(key) ?? [];
  if (side !== undefined) return { vessel: `${side} access path`, label: `${side} access path` };
  const place = placeOfWords(vessel ?? "", dictionary);
  if (place?.kind === "branch") return { vessel: place.id, label: place.label };
  reasons.push(caseMessage("station-vessel-not-understood", source, { met: vessel ?? "" }));
  return null;
}

function placeOfWords(words: string, dictionary: Dictionary): AorticPlace | null {
  const place = placeOfTerm({ words, code: null }, "sheet column", null, [], dictionary);
  return isProblem(place) ? null : place;
}

/** "left subclavian artery, distal edge", or the place in one cell and the edge in another; both may be there if they agree. */
function markOf(row: StatedStation, { dictionary, reasons }: Understanding): StationMark | null {
  const { mark, markEdge, source } = row;
  if (mark === null) return null;
  const cut = mark.lastIndexOf(",");
  const inCell = cut < 0 ? null : known(mark.slice(cut + 1), markEdges, edgeSynonyms);
  const words = inCell === null ? mark : mark.slice(0, cut);
  const place = placeOfWords(words, dictionary);
  if (place === null || place.kind === "zone" || place.kind === "range") {
    reasons.push(caseMessage("station-mark-not-understood", source, { met: words.trim() }));
    return null;
  }
  const inColumn = markEdge === null ? null : known(markEdge, markEdges, edgeSynonyms);
  const expected = markEdges.join(", ");
  if (markEdge !== null && inColumn === null) {
    reasons.push(notUnderstood(row, "mark_edge", markEdge, expected));
  }
  const edges = new Set([inCell, inColumn].filter((edge) => edge !== null));
  const [edge = null] = edges;
  if (edge !== null && (edges.size > 1 || place.kind !== "branch")) {
    const met = [...edges].join(" / ");
    reasons.push(caseMessage("station-mark-edge-unfit", source, { met, place: place.label }));
    return { place, edge: null };
  }
  return { place, edge };
}

/** RAS axes point to the right, the front and the head; DICOM's (LPS) to the left, the back and the head. */
function pointOf(
  row: StatedStation,
  reasons: Message[],
): { axes: PlacedStation["axes"]; point: Vector | null } {
  const { x, y, z } = row;
  const stated = [x, y, z].filter((coordinate) => coordinate !== null).length;
  if (stated === 0) return { axes: "none", point: null };
  if (x === null || y === null || z === null) return { axes: "incomplete", point: null };
  const axes = row.axes?.trim().toUpperCase() ?? null;
  if (axes === "LPS") return { axes, point: [x, y, z] };
  if (axes === "RAS") return { axes, point: [0 - x, 0 - y, z] };
  if (axes !== null) reasons.push(notUnderstood(row, "axes", row.axes, "LPS, RAS"));
  return { axes: "without axes", point: null };
}

function positionOf(row: StatedStation, reasons: Message[]): string | null {
  const { patientPosition } = row;
  if (patientPosition === null) return null;
  const term = patientPosition.trim().toUpperCase();
  if (patientPositions.includes(term)) return term;
  const expected = patientPositions.join(", ");
  reasons.push(notUnderstood(row, "patient_position", patientPosition, expected));
  return null;
}

/** The same bytes give the same key: "S" and eight hex digits of file digest and place in the file. */
export function stationKey({ sha256, at }: SourcePlace): string {
  const digest = createHash("sha256").update(`${sha256}\n${at}`).digest("hex");
  return `S${digest.slice(0, 8)}`;
}
