import type { Measurement } from "./patient-case.ts";

/** What and how was measured, without exam and value: readings of one exam are of one kind where these are equal. */
export const wayMeasured = (one: Measurement): string[] => [
  one.place.id,
  one.quantity,
  one.statistic,
  one.lumen,
  one.edge,
  one.path,
  one.plane,
  one.phase,
];
