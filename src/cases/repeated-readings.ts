import type { Message } from "../message.ts";
import { caseMessage } from "./messages.ts";
import { wayMeasured } from "./way-measured.ts";
import type { Measurement } from "./patient-case.ts";
import { equalAsWritten } from "./written-precision.ts";

/**
 * Compares what was measured more than once in one exam. Readings that differ are said number by number; those that
 * two files or readers give alike, within the decimals that they are written with, are counted in one note.
 */
export function repeatedReadings(measurements: Measurement[], date: string): Message[] {
  const messages: Message[] = [];
  const alike: Measurement[][] = [];
  const groups = Map.groupBy(measurements, (one) => JSON.stringify(wayMeasured(one)));
  for (const group of groups.values()) {
    const [first] = group;
    if (!first || group.length < 2) continue;
    const readers = new Set(group.map(readBy));
    const isAlike = group.every((one, index) =>
      group
        .slice(0, index)
        .every(
          (other) => one.value === other.value || (readers.size > 1 && equalAsWritten(one, other)),
        ),
    );
    if (!isAlike) {
      const values = [...new Set(group.map(({ value }) => value))];
      messages.push(
        caseMessage("readings-differ", first.source, {
          number: `${first.quantity} at ${first.place.label}`,
          date,
          values: values.map((value) => `${value} ${first.unit}`).join(", "),
        }),
      );
    } else if (readers.size > 1) alike.push(group);
  }
  if (alike.length > 0) {
    const by = [...new Set(alike.flat().map(readBy))].toSorted().join("; ");
    messages.push(caseMessage("readings-agree", null, { date, count: alike.length, by }));
  }
  return messages;
}

const readBy = ({ reader, source }: Measurement): string =>
  reader === null ? source.file : `${reader} (${source.file})`;
