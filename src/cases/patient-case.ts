import type { ArchVariantId } from "../anatomy/arch-variants.ts";
import type { AorticPlace } from "../anatomy/places.ts";
import type { PlaceOrigin } from "../anatomy/term.ts";
import type { Vector } from "../geometry/vector.ts";
import type { Message, SourcePlace } from "../message.ts";
import type {
  EdgeId,
  LumenId,
  PathId,
  PhaseId,
  PlaneId,
  QuantityId,
  StatisticId,
} from "../quantities/measured-quantity.ts";
import type { FamilyEvent, FindingId, RepairKind, StationWall } from "./vocabulary.ts";

/** One CT or other imaging examination of a patient, put together from all documents that report it. */
export interface Exam {
  /** Stable within the patient: the imaging date, with a letter where one day has several studies. */
  key: string;
  studyUid: string | null;
  /** YYYY-MM-DD. */
  imagingDate: string;
  imagingDateOrigin: string;
  modality: string | null;
  gated: boolean | null;
  /** How finished the reports are: "preliminary", "partial", "unverified" …; empty when nothing of the kind is said. */
  reportState: string[];
}

/** A reading placed on the aorta, in mm, mm2, mL or degrees. */
export interface Measurement {
  /** Stable for the same bytes: made from the file's digest and the place in it. */
  key: string;
  exam: string;
  place: AorticPlace;
  placeOrigin: PlaceOrigin;
  quantity: QuantityId;
  statistic: StatisticId;
  lumen: LumenId;
  edge: EdgeId;
  path: PathId;
  plane: PlaneId;
  phase: PhaseId;
  value: number;
  unit: string;
  /** The value and unit as the source writes them. */
  asWritten: string;
  /** Keys of the measurements that it was computed from; empty for a reading. */
  derivedFrom: string[];
  source: SourcePlace;
  reader: string | null;
  comment: string | null;
}

/** Something seen at a place in one exam that is no number. */
export interface Finding {
  /** Stable for the same bytes, like a measurement's. */
  key: string;
  exam: string;
  place: AorticPlace;
  finding: FindingId;
  /** One of the states of this finding in `findingStates`. */
  state: string;
  source: SourcePlace;
  reader: string | null;
  comment: string | null;
}

/** A landmark that a station of a centreline stands at: a branch with the edge of its origin, or another place. */
export interface StationMark {
  place: AorticPlace;
  /** Null for what is no branch, and for a branch of which no edge is stated. */
  edge: "proximal edge" | "distal edge" | "centre" | null;
}

/** One section across a vessel, at a distance along its centreline. A section in each lumen is a station of its own. */
export interface Station {
  /** Stable for the same bytes, like a measurement's; begins with "S". */
  key: string;
  /** Along the centreline from its own zero, growing away from the heart; in an access path away from the aorta. */
  distanceMm: number;
  /** In DICOM patient coordinates (x to the left, y to the back, z to the head), mm; null where not stated so. */
  point: Vector | null;
  mark: StationMark | null;
  /** What the wall is there; null where not stated. */
  wall: StationWall | null;
  lumen: LumenId;
  edge: EdgeId;
  maximumMm: number | null;
  minimumMm: number | null;
  perimeterMm: number | null;
  areaMm2: number | null;
  /** How much of the circumference thrombus covers, in degrees, 0 to 360; 0 says that there is none. */
  thrombusArcDeg: number | null;
  thrombusThicknessMm: number | null;
  calciumArcDeg: number | null;
  source: SourcePlace;
  reader: string | null;
  comment: string | null;
}

/** Vessels that a centreline can run along: the aorta, a branch from its origin on, or the way in from the femoral artery. */
export type CourseId = "aorta" | "right access path" | "left access path" | (string & {});

/** The line along one vessel in one exam, with the sections measured on it. */
export interface Centreline {
  exam: string;
  /** "aorta", "right access path", "left access path", or the id of a branch. */
  vessel: CourseId;
  label: string;
  /** How the patient lay in the scanner, in the words of DICOM's patient position ("HFS" …); null where not stated. */
  patientPosition: string | null;
  /** Who says so, where it is not the sheet itself: the site file. Null otherwise. */
  positionBy: string | null;
  origin: "centreline sheet" | "structured report";
  /** By distance, then lumen. */
  stations: Station[];
}

/** A ring drawn around the vessel in a structured report: its plane, in DICOM patient coordinates. */
export interface Ring {
  exam: string;
  place: AorticPlace;
  /** Key of the measurement that was taken from it. */
  measurement: string;
  centre: Vector;
  /** Unit vector along the vessel, of either sign. */
  axis: Vector;
  patientPosition: string | null;
  positionBy: string | null;
}

/** A repair that the case sheet states. */
export interface PriorRepair {
  /** The sheet's own words. */
  words: string;
  /** YYYY-MM-DD, YYYY-MM or YYYY as stated; null where no date stands. */
  date: string | null;
  /** "root" and the zones it covers ("0" to "11-right"), as stated; empty for a bypass or valve alone; null where the words do not say. */
  zones: string[] | null;
  /** What was done, in the order met; empty where the words name no known kind. */
  kinds: RepairKind[];
}

/** What the case sheet says, understood as far as its words are known. */
export interface CaseFacts {
  heightCm: number | null;
  weightKg: number | null;
  /** Known diagnoses; null where the cell is empty or holds a word that is not known. */
  diagnoses: string[] | null;
  diagnosisWords: string | null;
  onsetDate: string | null;
  /** Extent of a dissection in the notation of the reporting standard, as the sheet writes it. */
  dissectionWords: string | null;
  /** Territories with malperfusion, as the sheet writes them. */
  malperfusionWords: string | null;
  /** Known arch variants; empty where the sheet says "usual"; null where the cell is empty or not understood. */
  archVariants: ArchVariantId[] | null;
  archVariantWords: string | null;
  /** Known symptoms; empty where the sheet says "none"; null where the cell is empty or not understood. */
  symptoms: string[] | null;
  symptomsWords: string | null;
  aetiology: string | null;
  aetiologyWords: string | null;
  /** In the sheet's own words. */
  familyHistory: string | null;
  /** What those words surely say; empty where they say that there was nothing; null where that is not sure. */
  familyEvents: FamilyEvent[] | null;
  /** Null where the cell is empty; empty list where it says "none". */
  priorRepairs: PriorRepair[] | null;
  priorRepairWords: string | null;
  considered: string[] | null;
  consideredWords: string | null;
  question: string | null;
  source: SourcePlace | null;
}

/** One patient: who, examinations in time, measurements, facts. */
export interface PatientCase {
  /** Stable digest of issuer and patient ID; safe for file names. */
  key: string;
  patient: {
    id: string;
    issuer: string | null;
    name: string | null;
    birthDate: string | null;
    sex: "F" | "M" | "O" | null;
  };
  facts: CaseFacts;
  /** By imaging date, earliest first. */
  exams: Exam[];
  /** By exam, then along the vessel. */
  measurements: Measurement[];
  /** By exam, then along the vessel. */
  findings: Finding[];
  /** By exam, then the aorta first, then by vessel. */
  centrelines: Centreline[];
  /** By exam, then along the vessel. */
  rings: Ring[];
  messages: Message[];
}
