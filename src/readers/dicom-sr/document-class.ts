/** Report classes whose content may hold measurements. Source: DICOM PS3.4, B.5 and PS3.3, A.35. */
const reportClasses = new Set([
  "1.2.840.10008.5.1.4.1.1.88.11",
  "1.2.840.10008.5.1.4.1.1.88.22",
  "1.2.840.10008.5.1.4.1.1.88.33",
  "1.2.840.10008.5.1.4.1.1.88.34",
  "1.2.840.10008.5.1.4.1.1.88.35",
]);

/** What other objects are, by SOP Class UID or the beginning of one. The longest match counts. Source: DICOM PS3.6, annex A. */
const otherClasses = new Map([
  ["1.2.840.10008.1.3.10", "a directory of DICOM files"],
  [
    "1.2.840.10008.5.1.4.1.1.",
    "an image or another DICOM object without measurements of the aorta",
  ],
  ["1.2.840.10008.5.1.4.1.1.1", "an X-ray image"],
  ["1.2.840.10008.5.1.4.1.1.2", "a CT image"],
  ["1.2.840.10008.5.1.4.1.1.3", "an ultrasound image"],
  ["1.2.840.10008.5.1.4.1.1.4", "an MR image"],
  ["1.2.840.10008.5.1.4.1.1.6", "an ultrasound image"],
  ["1.2.840.10008.5.1.4.1.1.7", "a secondary capture image"],
  ["1.2.840.10008.5.1.4.1.1.9", "a waveform"],
  ["1.2.840.10008.5.1.4.1.1.11", "a presentation state"],
  ["1.2.840.10008.5.1.4.1.1.12", "an X-ray angiography image"],
  ["1.2.840.10008.5.1.4.1.1.66", "raw data"],
  ["1.2.840.10008.5.1.4.1.1.66.4", "a segmentation"],
  ["1.2.840.10008.5.1.4.1.1.78", "an eye examination"],
  ["1.2.840.10008.5.1.4.1.1.79", "an eye examination"],
  ["1.2.840.10008.5.1.4.1.1.88.1", "a text report of a retired trial class"],
  ["1.2.840.10008.5.1.4.1.1.88.2", "an audio report of a retired trial class"],
  ["1.2.840.10008.5.1.4.1.1.88.3", "a report of a retired trial class"],
  ["1.2.840.10008.5.1.4.1.1.88.4", "a report of a retired trial class"],
  ["1.2.840.10008.5.1.4.1.1.88.40", "a procedure log"],
  ["1.2.840.10008.5.1.4.1.1.88.50", "a report of computer-aided detection (mammography)"],
  [
    "1.2.840.10008.5.1.4.1.1.88.59",
    "a key object selection, which marks images and holds no numbers",
  ],
  ["1.2.840.10008.5.1.4.1.1.88.65", "a report of computer-aided detection (chest)"],
  ["1.2.840.10008.5.1.4.1.1.88.67", "an X-ray dose report"],
  ["1.2.840.10008.5.1.4.1.1.88.68", "a radiopharmaceutical dose report"],
  ["1.2.840.10008.5.1.4.1.1.88.69", "a report of computer-aided detection (colon)"],
  ["1.2.840.10008.5.1.4.1.1.88.70", "an implantation plan"],
  ["1.2.840.10008.5.1.4.1.1.88.71", "an acquisition context report"],
  ["1.2.840.10008.5.1.4.1.1.88.72", "an echocardiography report"],
  ["1.2.840.10008.5.1.4.1.1.88.73", "a patient radiation dose report"],
  ["1.2.840.10008.5.1.4.1.1.88.74", "a report of planned contrast administration"],
  ["1.2.840.10008.5.1.4.1.1.88.75", "a report of contrast administration"],
  ["1.2.840.10008.5.1.4.1.1.88.76", "an X-ray dose report"],
  ["1.2.840.10008.5.1.4.1.1.88.77", "a waveform annotation"],
  ["1.2.840.10008.5.1.4.1.1.104.1", "an encapsulated PDF"],
  ["1.2.840.10008.5.1.4.1.1.104", "an encapsulated document"],
  ["1.2.840.10008.5.1.4.1.1.128", "a PET image"],
  ["1.2.840.10008.5.1.4.1.1.130", "a PET image"],
  ["1.2.840.10008.5.1.4.1.1.481", "a radiotherapy object"],
]);

/** What a report is when its root concept names another kind of document. Source: DICOM PS3.16, annex D. */
const otherDocuments = new Map([
  ["DCM:113701", "an X-ray dose report"],
  ["DCM:113500", "a radiopharmaceutical dose report"],
  ["DCM:128401", "a patient radiation dose report"],
  ["DCM:125200", "an echocardiography report"],
  ["DCM:125100", "a vascular ultrasound report"],
  ["DCM:111036", "a report of computer-aided detection (mammography)"],
  ["DCM:112000", "a report of computer-aided detection (chest)"],
  ["DCM:112220", "a report of computer-aided detection (colon)"],
]);

/** Longest UID. Source: DICOM PS3.5, 9. */
const maxUidLength = 64;

/** What an object of this SOP class is where it can't be a measurement report; null for the classes that are read. */
export function otherObjectOf(sopClassUid: string): string | null {
  if (reportClasses.has(sopClassUid)) return null;
  const parts = sopClassUid.slice(0, maxUidLength).split(".");
  for (let length = parts.length; length > 0; length--) {
    const beginning = parts.slice(0, length).join(".");
    const what = otherClasses.get(beginning) ?? otherClasses.get(`${beginning}.`);
    if (what !== undefined) return what;
  }
  return "a DICOM object of another kind";
}

/** What a report with this root concept is where it can't be a measurement report; null for all others. */
export function otherDocumentOf(rootConceptKey: string): string | null {
  return otherDocuments.get(rootConceptKey) ?? null;
}
