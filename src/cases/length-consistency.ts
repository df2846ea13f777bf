import type { Message } from "../message.ts";
import { holds } from "../quantities/limit.ts";
import type { PathId } from "../quantities/measured-quantity.ts";
import { caseMessage } from "./messages.ts";
import type { Measurement } from "./patient-case.ts";
import { soleReading, writtenNumber } from "./sections.ts";
import { writtenInterval } from "./written-precision.ts";

/** Lines of which the first is not longer than the second. */
const orderedPaths = [
  ["inner-curve", "centreline"],
  ["centreline", "outer-curve"],
  ["inner-curve", "outer-curve"],
] as const;

/**
 * Lengths of one place of an exam that contradict each other, whatever values they were rounded from: an inner curve
 * over the centreline, the centreline over an outer curve, a sound length over the length along the same line.
 */
export function lengthConflicts(measurements: Measurement[], date: string): Message[] {
  const groups = Map.groupBy(measurements, ({ place, lumen, edge, phase }) =>
    [place.id, lumen, edge, phase].join("\n"),
  );
  return [...groups.values()].flatMap((group) =>
    orderedPairs(group).flatMap(([shorter, longer]) =>
      shorter && longer && isLonger(shorter, longer)
        ? caseMessage("length-conflict", shorter.source, {
            date,
            at: shorter.place.label,
            number: writtenNumber(shorter),
            other: writtenNumber(longer),
          })
        : [],
    ),
  );
}

type Pair = readonly [Measurement | null, Measurement | null];

function orderedPairs(group: Measurement[]): Pair[] {
  const find = (quantity: "length" | "sound-length", path: PathId) =>
    soleReading(
      group.filter((one) => one.path === path),
      quantity,
      ["unstated"],
    );
  const alongLines = (["length", "sound-length"] as const).flatMap((quantity) =>
    orderedPaths.map(([shorter, longer]): Pair => [
      find(quantity, shorter),
      find(quantity, longer),
    ]),
  );
  const soundInLength = (["inner-curve", "centreline", "outer-curve"] as const).map(
    (path): Pair => [find("sound-length", path), find("length", path)],
  );
  return [...alongLines, ...soundInLength];
}

/** Whether one length is over another for all values that they may have been rounded from. */
export function isLonger(one: Measurement, other: Measurement): boolean {
  return holds(writtenInterval(one).low, ">", writtenInterval(other).high);
}
