/** Departures from the usual left arch with three branches, in words of the trade. */
export const archVariantIds = [
  "usual",
  "common origin of the innominate and left common carotid arteries",
  "left vertebral artery off the arch",
  "aberrant right subclavian artery",
  "right arch",
] as const;
export type ArchVariantId = (typeof archVariantIds)[number];
