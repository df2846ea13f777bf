import type { Message } from "../message.ts";
import { holds } from "../quantities/limit.ts";
import { caseMessage } from "./messages.ts";
import type { Measurement } from "./patient-case.ts";
import { largestOrUnstated, soleReading, writtenNumber } from "./sections.ts";
import { writtenInterval } from "./written-precision.ts";

/**
 * True or false lumens of one exam that are larger than the whole lumen of the same place, edge, plane and phase, or
 * larger together, whatever values they were rounded from. Only a lumen that is said to be the whole one counts as such.
 */
export function lumenConflicts(measurements: Measurement[], date: string): Message[] {
  const groups = Map.groupBy(measurements, ({ place, edge, plane, phase }) =>
    [place.id, edge, plane, phase].join("\n"),
  );
  return [...groups.values()].flatMap((group) =>
    comparisons(group).flatMap(({ parts, whole }) => {
      const [first] = parts;
      if (!first || !isOver(parts, whole)) return [];
      return caseMessage("lumen-conflict", first.source, {
        date,
        at: `${whole.place.label}${whole.edge === "unstated" ? "" : `, ${whole.edge} edge`}`,
        parts: parts.map((part) => `${part.lumen} lumen ${writtenNumber(part)}`).join(" and "),
        whole: writtenNumber(whole),
      });
    }),
  );
}

/** Numbers of parts of a lumen of which the sum is not over that of the whole. */
interface Comparison {
  parts: Measurement[];
  whole: Measurement;
}

function comparisons(group: Measurement[]): Comparison[] {
  const ofLumen = (lumen: string) => group.filter((one) => one.lumen === lumen);
  const whole = ofLumen("whole");
  const both = [ofLumen("true"), ofLumen("false")];
  const diameters = both.flatMap((part) => [
    ...comparison([largest(part) ?? soleReading(part, "diameter", ["unstated"])], largest(whole)),
    ...(["minimum", "mean"] as const).flatMap((statistic) =>
      comparison(
        [soleReading(part, "diameter", [statistic])],
        soleReading(whole, "diameter", [statistic]),
      ),
    ),
  ]);
  const spaces = (["area", "volume"] as const).flatMap((quantity) => {
    const sizeOf = (lumen: Measurement[]) => soleReading(lumen, quantity, largestOrUnstated);
    const wholeSize = sizeOf(whole);
    const single = both.flatMap((part) => comparison([sizeOf(part)], wholeSize));
    if (single.some(({ parts, whole: of }) => isOver(parts, of))) return single;
    // The largest areas of a range may lie in different sections, so their sum says nothing.
    const canAdd = quantity === "volume" || wholeSize?.place.span === null;
    return canAdd ? [...single, ...comparison(both.map(sizeOf), wholeSize)] : single;
  });
  return [...diameters, ...spaces];
}

const largest = (lumen: Measurement[]): Measurement | null =>
  soleReading(lumen, "diameter", ["maximum"]) ?? soleReading(lumen, "long-axis", largestOrUnstated);

/** None where one of the numbers is not measured. */
function comparison(parts: (Measurement | null)[], whole: Measurement | null): Comparison[] {
  const measured = parts.filter((part) => part !== null);
  return whole && measured.length === parts.length ? [{ parts: measured, whole }] : [];
}

function isOver(parts: Measurement[], whole: Measurement): boolean {
  const low = parts.reduce((sum, part) => sum + writtenInterval(part).low, 0);
  return holds(low, ">", writtenInterval(whole).high);
}
