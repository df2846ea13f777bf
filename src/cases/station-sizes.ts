import { type AorticPlace, placeById } from "../anatomy/places.ts";
import type { Message } from "../message.ts";
import { formatLength } from "../quantities/format-length.ts";
import { holds } from "../quantities/limit.ts";
import type { LumenId, QuantityId, StatisticId } from "../quantities/measured-quantity.ts";
import type { StatedStation } from "../readers/reading.ts";

import { believedRange, sizeDoubt } from "./doubtful-size.ts";
import { caseMessage } from "./messages.ts";
import type { CourseId, Station } from "./patient-case.ts";

type Sizes = Pick<
  Station,
  | "maximumMm"
  | "minimumMm"
  | "perimeterMm"
  | "areaMm2"
  | "thrombusArcDeg"
  | "thrombusThicknessMm"
  | "calciumArcDeg"
>;

interface SizeKind {
  words: string;
  unit: "mm" | "mm2" | "deg";
  quantity: QuantityId | null;
  statistic: StatisticId;
}

const sizeKinds: Readonly<Record<keyof Sizes, SizeKind>> = {
  maximumMm: { words: "maximum diameter", unit: "mm", quantity: "diameter", statistic: "maximum" },
  minimumMm: { words: "minimum diameter", unit: "mm", quantity: "diameter", statistic: "minimum" },
  perimeterMm: { words: "perimeter", unit: "mm", quantity: "perimeter", statistic: "unstated" },
  areaMm2: { words: "area", unit: "mm2", quantity: "area", statistic: "unstated" },
  thrombusArcDeg: { words: "thrombus arc", unit: "deg", quantity: null, statistic: "unstated" },
  thrombusThicknessMm: {
    words: "thrombus thickness",
    unit: "mm",
    quantity: null,
    statistic: "unstated",
  },
  calciumArcDeg: { words: "calcium arc", unit: "deg", quantity: null, statistic: "unstated" },
};

/** What a section is of, as far as its sizes are judged by it. */
interface Section {
  vessel: CourseId;
  lumen: LumenId;
  /** Receives why a number is not used or doubted. */
  reasons: Message[];
}

/**
 * The sizes of a row that can be: across, around and area over 0, thicknesses from 0, arcs from 0 to 360 degrees, and no
 * minimum over the maximum, where neither is used. What can't be is null, with the reason.
 */
export function usableSizes(row: StatedStation, section: Section): Sizes {
  const use = (name: keyof Sizes): number | null => usable(row, name, section);
  const sizes: Sizes = {
    maximumMm: use("maximumMm"),
    minimumMm: use("minimumMm"),
    perimeterMm: use("perimeterMm"),
    areaMm2: use("areaMm2"),
    thrombusArcDeg: use("thrombusArcDeg"),
    thrombusThicknessMm: use("thrombusThicknessMm"),
    calciumArcDeg: use("calciumArcDeg"),
  };
  const { maximumMm, minimumMm } = sizes;
  if (maximumMm === null || minimumMm === null || holds(minimumMm, "<=", maximumMm)) return sizes;
  const data = { number: numberOf(row, "diameter"), minimumMm, maximumMm };
  section.reasons.push(caseMessage("station-minimum-over-maximum", row.source, data));
  return { ...sizes, maximumMm: null, minimumMm: null };
}

const numberOf = ({ distanceMm }: StatedStation, words: string): string =>
  `${words} at ${formatLength(distanceMm ?? 0)} of the centreline`;

function usable(
  row: StatedStation,
  name: keyof Sizes,
  { vessel, lumen, reasons }: Section,
): number | null {
  const value = row[name];
  if (value === null) return null;
  const { words, unit, quantity, statistic } = sizeKinds[name];
  const number = numberOf(row, words);
  const met = `${value} ${unit}`;
  const isPossible =
    quantity !== null ? value > 0 : value >= 0 && (unit !== "deg" || holds(value, "<=", 360));
  if (!isPossible) {
    reasons.push(caseMessage("value-not-positive", row.source, { number, met }));
    return null;
  }
  if (quantity === null) return value;
  const place = placeOfCourse(vessel);
  const what = { place, lumen, statistic, quantity } as const;
  const doubt = sizeDoubt(
    { ...what, placeOrigin: "sheet column", edge: "unstated", path: "unstated", ...unstatedWay },
    { value, text: String(value) },
    unit,
    met,
  );
  if (doubt?.other) {
    const data = { number, met: doubt.met, other: doubt.other };
    reasons.push(caseMessage("value-of-another-unit", row.source, data));
    return null;
  }
  if (doubt) reasons.push(caseMessage("value-doubtful", row.source, { number, met: doubt.met }));
  const range = believedRange({ ...what, value });
  if (range !== null) {
    const at = `${vessel}`;
    reasons.push(
      caseMessage("station-hard-to-believe", row.source, {
        at,
        number: `${number}, ${met}`,
        range,
      }),
    );
  }
  return value;
}

const unstatedWay = { plane: "unstated", phase: "unstated" } as const;

/** A place on the vessel that a centreline runs along, by which its sizes are believed. */
function placeOfCourse(vessel: CourseId): AorticPlace {
  if (vessel === "aorta") return placeById("aortic-arch");
  const [side] = vessel.split(" ");
  return vessel.endsWith(" access path") ? placeById(`zone-10-${side}`) : placeById(vessel);
}
