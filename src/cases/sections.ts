import { quantities, type QuantityId, type StatisticId } from "../quantities/measured-quantity.ts";
import type { Measurement } from "./patient-case.ts";
import { equalAsWritten } from "./written-precision.ts";

/** Measurements by section: the same exam, place, lumen, edge, plane and phase, in the order met. */
export function sectionsOf(measurements: readonly Measurement[]): Measurement[][] {
  const groups = Map.groupBy(measurements, ({ exam, place, lumen, edge, plane, phase }) =>
    [exam, place.id, lumen, edge, plane, phase].join("\n"),
  );
  return [...groups.values()];
}

/** The statistics under which a perimeter, an area or a long axis is that of the section. */
export const largestOrUnstated = ["maximum", "unstated"] as const;
/** The same for a short axis. */
export const smallestOrUnstated = ["minimum", "unstated"] as const;

/**
 * The one reading of a quantity in a section. Of readings that agree within the decimals written it is the first; null
 * where there is none or readings differ, since none of them is preferred.
 */
export function soleReading(
  section: readonly Measurement[],
  quantity: QuantityId,
  statistics: readonly StatisticId[],
): Measurement | null {
  const readings = section.filter(
    (one) => one.quantity === quantity && statistics.includes(one.statistic),
  );
  const agree = readings.every((one, index) =>
    readings.slice(0, index).every((other) => equalAsWritten(one, other)),
  );
  return agree ? (readings[0] ?? null) : null;
}

/** "largest diameter 41 mm", "length along the centreline 12 cm": what was measured, as written. */
export function writtenNumber({ quantity, statistic, path, asWritten }: Measurement): string {
  const { label } = quantities[quantity];
  const words = { maximum: "largest ", minimum: "smallest ", mean: "mean ", unstated: "" };
  const along = path === "unstated" ? "" : ` along the ${path.replace("-", " ")}`;
  return `${words[statistic]}${label}${along} ${asWritten}`;
}

/** "zone 2, true lumen, outer edge": where a section lies and what of it was measured. */
export function sectionWords({ place, lumen, edge }: Measurement): string {
  const ofLumen = lumen === "true" || lumen === "false" ? `, ${lumen} lumen` : "";
  return `${place.label}${ofLumen}${edge === "unstated" ? "" : `, ${edge} edge`}`;
}
