import type { Plan } from "../report/plan.ts";
import { csvText } from "./csv-text.ts";

const columns = [
  "patient_key",
  "patient_id",
  "exam_date",
  "place",
  "zones",
  "quantity",
  "statistic",
  "lumen",
  "edge",
  "path",
  "plane",
  "phase",
  "value",
  "unit",
  "as_written",
  "file",
  "at",
  "key",
];

/** All measurements of all reports, one row each. Text that a spreadsheet would run as a formula is escaped. */
export function measurementsCsv(plans: readonly Plan[]): string {
  const rows = plans.flatMap(({ patient, exams, measurements }) => {
    const dates = new Map(exams.map(({ key, imagingDate }) => [key, imagingDate]));
    return measurements.map((one) => [
      patient.key,
      patient.id,
      dates.get(one.exam) ?? "",
      one.place.label,
      one.place.zones.join(" "),
      one.quantityLabel,
      one.statistic,
      one.lumen,
      one.edge,
      one.path,
      one.plane,
      one.phase,
      one.value,
      one.unit,
      one.asWritten,
      one.source.file,
      one.source.at ?? "",
      one.key,
    ]);
  });
  return csvText(columns, rows);
}
