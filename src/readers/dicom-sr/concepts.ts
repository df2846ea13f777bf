/** Concept names that the reading of a report rests on, as keys of `codeKey`. Source: DICOM PS3.16, TID 300, 1410 to 1502, 1600 to 1604, annex D. */
export const concepts = {
  imageLibrary: "DCM:111028",
  imageLibraryGroup: "DCM:126200",
  referenceMeasurementGroup: "DCM:130755",
  trackingIdentifier: "DCM:112039",
  finding: "DCM:121071",
  findingSite: "SCT:363698007",
  laterality: "SCT:272741003",
  topographicalModifier: "SCT:106233006",
  measurementMethod: "SCT:370129005",
  derivation: "DCM:121401",
  equivalentMeaning: "DCM:121050",
  comment: "DCM:121106",
  personObserverName: "DCM:121008",
  timePointOrder: "DCM:126073",
  modality: "DCM:121139",
  studyDate: "DCM:111060",
  acquisitionDate: "DCM:126201",
  acquisitionDateTime: "DCM:130884",
} as const;

/** Modifiers that say nothing of what a number is or where: language, country, procedure reported, geometric purpose of region. */
export const descriptiveModifiers = new Set([
  "DCM:121049",
  "DCM:121046",
  "DCM:121058",
  "DCM:130400",
]);

/** Population and normal range descriptions and their authorities (TID 311, 312): beside them stands no number of the patient. */
export const populationConcepts = new Set(["DCM:121405", "DCM:121406", "DCM:121407", "DCM:121408"]);

/** Findings that are a disease of a vessel and not the name of a place. Source: DICOM PS3.16, context group 3810. */
export const vascularMorphology = new Set([
  "SCT:85659009",
  "SCT:25322007",
  "SCT:710864009",
  "SCT:415582006",
  "SCT:396339007",
  "SCT:22036004",
  "SCT:15690004",
]);
