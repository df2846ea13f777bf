/** Printed on every page and stored in every plan report. */
export const cautions = [
  "This report supports, and does not replace, the judgement of licensed clinicians and local protocols.",
  "It compares measurements with published criteria. It does not recommend an operation.",
  "Check every number that matters against the images before it is used.",
] as const;
