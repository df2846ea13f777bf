import type { AorticPlace } from "../anatomy/places.ts";
import type { PlaceOrigin } from "../anatomy/term.ts";
import type { Message, SourcePlace } from "../message.ts";
import type {
  EdgeId,
  LumenId,
  PathId,
  QuantityId,
  StatisticId,
} from "../quantities/measured-quantity.ts";

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

/** A repair that the case sheet states. */
export interface PriorRepair {
  /** The sheet's own words. */
  words: string;
  /** YYYY-MM-DD, YYYY-MM or YYYY as stated; null where no date stands. */
  date: string | null;
  /** Zones it covers ("0" to "11-right"), as stated by zone numbers; null where the words do not say. */
  zones: string[] | null;
}

/** What the case sheet says, understood as far as its words are known. */
export interface CaseFacts {
  heightCm: number | null;
  weightKg: number | null;
  /** Known diagnoses; null where the cell is empty or holds a word that is not known. */
  diagnoses: string[] | null;
  diagnosisWords: string | null;
  onsetDate: string | null;
  aetiology: string | null;
  aetiologyWords: string | null;
  familyHistory: string | null;
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
  messages: Message[];
}
