import type { StatedExam } from "../reading.ts";
import { concepts } from "./concepts.ts";
import type { ContentItem } from "./content-tree.ts";
import type { DataSet } from "./data-set.ts";
import { asciiOf, isoDateOf, itemsOf } from "./element-values.ts";
import { tags } from "./tags.ts";

/** What the image library says of one image, or of a group that lists none. */
interface LibraryEntry {
  image: string | null;
  acquisitionDate: string | null;
  studyDate: string | null;
  modality: string | null;
}

export type ExamProblem = "imaging-date-unknown" | "imaging-date-ambiguous";

/** Tells, for the images that a number rests on, which examination they are of. The same list is looked up once. */
export type ExamFinder = (references: string[]) => StatedExam | ExamProblem;

/**
 * The imaging date is the acquisition date of the images in the image library, else their study date there, else
 * the study date of the report where the report lies in the study of its images. A content date is the day of
 * reporting and is never used.
 */
export function examFinder(report: DataSet, root: ContentItem): ExamFinder {
  const library = imageLibraryOf(root);
  const byImage = new Map(library.map((entry) => [entry.image, entry]));
  const wholeLibrary = summaryOf(library);
  const studies = studiesOfEvidence(report);
  const evidenceStudies = new Set(studies.values());
  const ownStudy = asciiOf(report, tags.studyInstanceUid);
  const ownDate = isoDateOf(asciiOf(report, tags.studyDate));

  const find: ExamFinder = (references) => {
    const entries = references.flatMap((image) => byImage.get(image) ?? []);
    const images = entries.length > 0 ? summaryOf(entries) : wholeLibrary;
    const studyUids = new Set(references.flatMap((image) => studies.get(image) ?? []));
    const named = studyUids.size > 0 ? studyUids : evidenceStudies;
    const isOwnStudy = named.size === 0 || (ownStudy !== null && named.has(ownStudy));
    const [study = null] = named.size === 1 ? named : [];
    const studyUid = isOwnStudy && studyUids.size <= 1 ? ownStudy : study;
    const exam = { studyUid, modality: images.modality, gated: null };

    const acquisitionDate = onlyOf(images.acquisitionDates);
    if (acquisitionDate !== null) {
      return { ...exam, imagingDate: acquisitionDate, imagingDateOrigin: "acquisition date" };
    }
    const studyDate = onlyOf(images.studyDates);
    if (studyDate !== null) {
      return { ...exam, imagingDate: studyDate, imagingDateOrigin: "study date" };
    }
    const isDated = images.acquisitionDates.length + images.studyDates.length > 0;
    if (isDated) return "imaging-date-ambiguous";
    if (ownDate === null || !isOwnStudy || studyUids.size > 1) return "imaging-date-unknown";
    return { ...exam, imagingDate: ownDate, imagingDateOrigin: "study date" };
  };

  const known = new Map<string[], ReturnType<ExamFinder>>();
  return (references) => {
    const exam = known.get(references) ?? find(references);
    known.set(references, exam);
    return exam;
  };
}

/** The different dates, and the only modality, of library entries. */
const summaryOf = (entries: LibraryEntry[]) => ({
  acquisitionDates: distinct(entries.map(({ acquisitionDate }) => acquisitionDate)),
  studyDates: distinct(entries.map(({ studyDate }) => studyDate)),
  modality: onlyOf(entries.map(({ modality }) => modality)),
});

const distinct = (values: (string | null)[]): string[] => [
  ...new Set(values.filter((value) => value !== null)),
];
const onlyOf = (values: (string | null)[]): string | null => {
  const [value, ...others] = distinct(values);
  return others.length === 0 ? (value ?? null) : null;
};

/** Image to study, from the lists of referenced instances of the document. */
function studiesOfEvidence(report: DataSet): Map<string, string> {
  const studies = new Map<string, string>();
  const evidence = [
    ...itemsOf(report, tags.currentRequestedProcedureEvidence),
    ...itemsOf(report, tags.pertinentOtherEvidence),
  ];
  for (const study of evidence) {
    const uid = asciiOf(study, tags.studyInstanceUid);
    for (const series of itemsOf(study, tags.referencedSeriesSequence)) {
      for (const instance of itemsOf(series, tags.referencedSopSequence)) {
        const image = asciiOf(instance, tags.referencedSopInstanceUid);
        if (uid !== null && image !== null) studies.set(image, uid);
      }
    }
  }
  return studies;
}

/** Reads the image library: what a group states holds for its images unless an image states otherwise. */
function imageLibraryOf(root: ContentItem): LibraryEntry[] {
  const nothing: LibraryEntry = {
    image: null,
    acquisitionDate: null,
    studyDate: null,
    modality: null,
  };
  const entries: LibraryEntry[] = [];
  const open = root.children
    .filter(({ key }) => key === concepts.imageLibrary)
    .map((item) => ({ item, inherited: nothing }));
  for (let next = open.pop(); next; next = open.pop()) {
    const { item, inherited } = next;
    const stated = withContextOf(item, inherited);
    const [image] = item.references;
    if (image !== undefined) entries.push({ ...stated, image });
    const parts = item.children.filter(
      (child) => child.valueType === "CONTAINER" || child.references.length > 0,
    );
    const isLastContainer = item.valueType === "CONTAINER" && parts.length === 0;
    if (isLastContainer && stated !== nothing) entries.push(stated);
    for (const part of parts) open.push({ item: part, inherited: stated });
  }
  return entries;
}

function withContextOf(item: ContentItem, inherited: LibraryEntry): LibraryEntry {
  const own: Partial<LibraryEntry> = {};
  for (const { key, text, code } of item.children) {
    const date = isoDateOf(text);
    const isAcquired = key === concepts.acquisitionDate || key === concepts.acquisitionDateTime;
    if (isAcquired && date !== null) own.acquisitionDate ??= date;
    if (key === concepts.studyDate && date !== null) own.studyDate = date;
    if (key === concepts.modality && code) own.modality = code.code?.value ?? null;
  }
  return Object.keys(own).length > 0 ? { ...inherited, ...own } : inherited;
}
