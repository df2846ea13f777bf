import type { ReadingTerms, Term } from "../anatomy/term.ts";
import type { Vector } from "../geometry/vector.ts";
import type { Message, SourcePlace } from "../message.ts";

/** A figure drawn in space under a number of a report: a content item of type SCOORD3D (DICOM PS3.3, C.18.9). */
export interface DrawnFigure {
  source: SourcePlace;
  /** POLYLINE, POLYGON, ELLIPSE … as the report writes it. */
  graphicType: string;
  /** In mm, in the patient coordinates of the frame of reference, in the order stored; 32-bit floats. */
  points: Vector[];
  frameOfReferenceUid: string;
}

/** A number as it arrived, before it is understood or converted. */
export interface Reading {
  source: SourcePlace;
  /** The characters of the value as the file holds them, a declared decimal comma as a point; null where only a qualifier stands. */
  valueText: string | null;
  /** The characters in the file where `valueText` differs from them. */
  valueAsWritten?: string;
  /** Why there is no value, or what is wrong with it (DICOM context group 42). */
  qualifier: Term | null;
  /** Unit as given: a code with its scheme in a report, words in a sheet; null where none is given. */
  unit: Term | null;
  terms: ReadingTerms;
  /** Tracking identifier in a report; null in sheets. */
  trackingIdentifier: string | null;
  reader: string | null;
  comment: string | null;
  /** What was drawn in space where it was measured; null in sheets and where nothing usable was. */
  graphic: DrawnFigure | null;
  /** Why the reading can't be used, where reading the file showed it already. */
  refused?: Message;
}

/** Something seen at a place that is no number, in the words of a finding sheet. */
export interface StatedFinding {
  source: SourcePlace;
  place: string;
  finding: string;
  state: string;
  reader: string | null;
  comment: string | null;
  /** Why it can't be used, where reading the file showed it already. */
  refused?: Message;
}

/** One row of a centreline sheet: a section across a vessel at a distance along its centreline. Words are the sheet's own. */
export interface StatedStation {
  source: SourcePlace;
  /** Null for the aorta. */
  vessel: string | null;
  /** Null only where `refused` says why. */
  distanceMm: number | null;
  mark: string | null;
  markEdge: string | null;
  wall: string | null;
  lumen: string | null;
  edge: string | null;
  /** Null where the cell is empty or can't be used. */
  maximumMm: number | null;
  minimumMm: number | null;
  perimeterMm: number | null;
  areaMm2: number | null;
  thrombusArcDeg: number | null;
  thrombusThicknessMm: number | null;
  calciumArcDeg: number | null;
  /** Coordinates in mm along the axes that `axes` names. */
  x: number | null;
  y: number | null;
  z: number | null;
  axes: string | null;
  patientPosition: string | null;
  reader: string | null;
  comment: string | null;
  /** Cells of the row that can't be used, each with the reason. */
  unusable: Message[];
  /** Why the whole row can't be used, where reading the file showed it already. */
  refused?: Message;
}

/** How a file names the patient. Dates are YYYY-MM-DD. */
export interface StatedPatient {
  id: string;
  issuer: string | null;
  name: string | null;
  birthDate: string | null;
  sex: "F" | "M" | "O" | null;
}

/** Which source of the document gave the imaging date. */
export type ImagingDateOrigin = "acquisition date" | "study date" | "sheet column";

/** The imaging examination that readings were taken from. */
export interface StatedExam {
  studyUid: string | null;
  /** YYYY-MM-DD. */
  imagingDate: string;
  imagingDateOrigin: ImagingDateOrigin;
  /** DICOM modality such as CT; null where not stated. */
  modality: string | null;
  /** ECG-gated or not; null where not stated. */
  gated: boolean | null;
}

/** Document identity and version of a structured report. */
export interface ReportVersion {
  sopInstanceUid: string;
  completion: string | null;
  verification: string | null;
  preliminary: string | null;
  /** Documents that this one replaces. */
  predecessorUids: string[];
  /** Copies of this document that stand under other studies. */
  identicalUids: string[];
}

/** All readings that one file states for one examination of one patient. */
export interface ReadDocument {
  source: SourcePlace;
  patient: StatedPatient;
  exam: StatedExam;
  /** Null for a sheet. */
  report: ReportVersion | null;
  readings: Reading[];
  findings: StatedFinding[];
  stations: StatedStation[];
}

/** One row of a case sheet. Cells are kept as text where the words are the site's own. */
export interface CaseRow {
  source: SourcePlace;
  patientId: string;
  issuer: string | null;
  name: string | null;
  birthDate: string | null;
  sex: "F" | "M" | "O" | null;
  heightCm: number | null;
  weightKg: number | null;
  diagnosis: string | null;
  onsetDate: string | null;
  symptoms: string | null;
  /** Dissection notation, malperfused territories and arch variant in the sheet's words. */
  dissection: string | null;
  malperfusion: string | null;
  archVariant: string | null;
  aetiology: string | null;
  familyHistory: string | null;
  priorRepair: string | null;
  considered: string | null;
  question: string | null;
}

/** How much of a case a packet holds: the summary, the plan report after it, or the options after both. */
export const packetDepths = ["summary", "plan report", "options"] as const;
export type PacketDepth = (typeof packetDepths)[number];

/** One row of a meeting list. */
export interface MeetingRow {
  source: SourcePlace;
  order: number;
  patientId: string;
  presenterRole: string | null;
  /** Null where the list does not say. */
  depth: PacketDepth | null;
  question: string | null;
}

export type FileKind =
  | "structured report"
  | "measurement sheet"
  | "finding sheet"
  | "centreline sheet"
  | "case sheet"
  | "meeting list"
  | "not for this program"
  | "unreadable";

/** What reading one file gave. `setAside` says why the whole file is not used; its other parts are then empty. */
export interface ReadFile {
  file: string;
  sha256: string;
  kind: FileKind;
  documents: ReadDocument[];
  caseRows: CaseRow[];
  meetingRows: MeetingRow[];
  setAside: Message | null;
  messages: Message[];
}
