import { stringify } from "csv-stringify/sync";
import type { Plan } from "../report/plan.ts";

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
      one.value,
      one.unit,
      one.asWritten,
      one.source.file,
      one.source.at ?? "",
      one.key,
    ]);
  });
  return stringify(rows, {
    header: true,
    columns,
    escape_formulas: true,
    record_delimiter: "windows",
  });
}
