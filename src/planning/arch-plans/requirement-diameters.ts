import type { Exam } from "../../cases/patient-case.ts";
import { formatLength } from "../../quantities/format-length.ts";
import { holds, spans } from "../../quantities/limit.ts";
import { acrossQuantities } from "../../quantities/measured-quantity.ts";
import { sentenceCase } from "../../quantities/sentence-case.ts";
import { limitOf, type RequirementId } from "./arch-plan-data.ts";
import { type Found, notAssessable, type PlanContext } from "./plan-context.ts";
import { isWholeLumen, mayBeDissected } from "../whole-lumen.ts";
import { ascendingWall } from "./requirement-walls.ts";

/** A diameter or a length with its 95 % interval, in mm. */
export interface Sized {
  valueMm: number;
  low: number | null;
  high: number | null;
  used: string[];
  words: string;
}

/** Exams by the as-of date, the latest first. */
export const examsUntil = ({ patientCase, asOf }: PlanContext): Exam[] =>
  patientCase.exams.filter(({ imagingDate }) => imagingDate <= asOf).toReversed();

function diametersIn(
  context: PlanContext,
  { key, imagingDate }: Exam,
  zones: readonly string[],
): Sized[] {
  return context.patientCase.measurements
    .filter(
      ({ exam, place, quantity, lumen }) =>
        exam === key &&
        acrossQuantities.has(quantity) &&
        place.kind !== "branch" &&
        place.zones.some((zone) => zones.includes(zone)) &&
        isWholeLumen(lumen, mayBeDissected(context.patientCase, context.dissection)),
    )
    .map((reading) =>
      withError(
        reading.value,
        context.readingSdMmOf(reading),
        reading.key,
        `${reading.place.label}, ${imagingDate}`,
      ),
    );
}

function stationsIn(
  { sections }: PlanContext,
  { key, imagingDate }: Exam,
  zones: readonly string[],
): Sized[] {
  if (sections === null || sections.exam.key !== key) return [];
  return zones
    .flatMap((zone) => sections.inZone(zone))
    .map(({ valueMm, errorMm, key: station, where }) => ({
      valueMm,
      low: valueMm - errorMm,
      high: valueMm + errorMm,
      used: [station],
      words: `${where}, ${imagingDate}`,
    }));
}

const withError = (valueMm: number, sdMm: number, key: string, words: string): Sized => ({
  valueMm,
  low: valueMm - 1.96 * sdMm,
  high: valueMm + 1.96 * sdMm,
  used: [key],
  words,
});

/** Stations of the aorta from the sinotubular junction to the innominate artery; none where either has no mark. */
function ascendingStations(context: PlanContext, { key, imagingDate }: Exam): Sized[] {
  const { patientCase, stationSdMmOf } = context;
  if (stationSdMmOf === null) return [];
  const { isNative } = ascendingWall(context);
  const stations = patientCase.centrelines
    .filter(({ exam, vessel }) => exam === key && vessel === "aorta")
    .flatMap((line) => line.stations);
  const at = (id: string) => stations.find(({ mark }) => mark?.place.id === id)?.distanceMm;
  const [startMm, endMm] = [at("sinotubular-junction"), at("innominate-artery")];
  if (startMm === undefined || endMm === undefined) return [];
  return stations.flatMap((station) => {
    const { distanceMm, maximumMm, lumen, wall } = station;
    const isInside = distanceMm >= startMm && distanceMm <= endMm;
    const isOtherWall = wall !== null && (wall !== "graft" && wall !== "stent graft") !== isNative;
    if (
      maximumMm === null ||
      !isInside ||
      !isWholeLumen(lumen, mayBeDissected(context.patientCase, context.dissection))
    )
      return [];
    if (typeof isNative === "boolean" && isOtherWall) return [];
    const words = `${formatLength(distanceMm)} along the centreline, ${imagingDate}`;
    return [withError(maximumMm, stationSdMmOf(station), station.key, words)];
  });
}

/** The largest diameter of the ascending aorta in the latest exam that shows the wall of today. */
function ascendingDiameter(context: PlanContext): Sized | { missing: string } {
  const wall = ascendingWall(context);
  for (const exam of examsUntil(context)) {
    const sizes = [...diametersIn(context, exam, ["0"]), ...ascendingStations(context, exam)];
    const largest = sizes.toSorted((a, b) => b.valueMm - a.valueMm)[0];
    if (largest === undefined) continue;
    const isShown = wall.isShownBy(exam);
    if (isShown === true) return largest;
    return {
      missing: isShown === false ? "diameters in zone 0 after its repair" : isShown.unclear,
    };
  }
  return { missing: "diameters in zone 0" };
}

/** A number against the published limit of a requirement. */
export function against(id: RequirementId, { valueMm, low, high, used, words }: Sized): Found {
  const { operator, valueMm: limitMm } = limitOf(id);
  return {
    outcome: holds(valueMm, operator, limitMm) ? "met" : "not-met",
    reason: `${formatLength(valueMm)}, ${words}.`,
    value: { value: valueMm, low, high, unit: "mm" },
    spansLimit: low !== null && high !== null && spans(low, high, limitMm),
    used,
  };
}

/** The largest diameter of the native ascending aorta against the limit. */
export function nativeAscendingDiameter(context: PlanContext, id: RequirementId): Found {
  const { isNative, words } = ascendingWall(context);
  if (isNative === false) return { outcome: "not-applicable", reason: `No native wall: ${words}.` };
  const size = ascendingDiameter(context);
  if ("missing" in size) return notAssessable(`Not known: ${size.missing}.`, [size.missing]);
  return isNative === true
    ? against(id, size)
    : notAssessable(`Whether the wall is native is ${words}.`, [isNative.unclear], size.used);
}

/** Whether the graft in the ascending aorta has a measured diameter, which its label does not tell. */
export function measuredGraft(context: PlanContext): Found {
  const { isNative, words } = ascendingWall(context);
  if (isNative === true) return { outcome: "not-applicable", reason: "There is no graft yet." };
  if (typeof isNative === "object") {
    return notAssessable(`${sentenceCase(words)}.`, [isNative.unclear]);
  }
  const size = ascendingDiameter(context);
  if ("missing" in size) return notAssessable(`Not known: ${size.missing}.`, [size.missing]);
  const { valueMm, low, high, used } = size;
  return {
    outcome: "met",
    reason: `${formatLength(valueMm)}, ${size.words}.`,
    value: { value: valueMm, low, high, unit: "mm" },
    used,
  };
}

/** Whether the descending aorta is measured where a trunk or stented end would lie. */
export function descendingDiameter(context: PlanContext): Found {
  for (const exam of examsUntil(context)) {
    const sizes = [
      ...diametersIn(context, exam, ["3", "4"]),
      ...stationsIn(context, exam, ["3", "4"]),
    ];
    const largest = sizes.toSorted((a, b) => b.valueMm - a.valueMm)[0];
    if (largest === undefined) continue;
    const { valueMm, low, high, used, words } = largest;
    return {
      outcome: "met",
      reason: `Largest ${formatLength(valueMm)}, ${words}.`,
      value: { value: valueMm, low, high, unit: "mm" },
      used,
    };
  }
  const missing = "diameters in zones 3 and 4";
  return notAssessable(`Not measured: ${missing}.`, [missing]);
}

/** In dissection, whether perimeter or area of the true lumen is measured where a trunk or stented end would lie. */
export function trueLumen(context: PlanContext): Found {
  const { patientCase, dissection } = context;
  if (dissection === null) {
    return patientCase.facts.diagnoses === null
      ? notAssessable("No diagnosis is stated.", ["diagnosis"])
      : { outcome: "not-applicable", reason: "The case speaks of no dissection." };
  }
  for (const { key, imagingDate } of examsUntil(context)) {
    const found = patientCase.measurements.filter(
      ({ exam, lumen, quantity, place }) =>
        exam === key &&
        lumen === "true" &&
        (quantity === "perimeter" || quantity === "area") &&
        place.zones.some((zone) => zone === "3" || zone === "4"),
    );
    const { sections } = context;
    const stations =
      sections?.exam.key === key
        ? ["3", "4"].flatMap((zone) => sections.trueLumenInZone(zone))
        : [];
    if (found.length === 0 && stations.length === 0) continue;
    const words = [
      ...found.map((one) => `${one.quantity} ${one.asWritten}, ${one.place.label}`),
      ...(stations.length === 0
        ? []
        : [`${stations.length} sections of the centreline in zones 3 and 4`]),
    ];
    const used = [...found, ...stations].map((one) => one.key);
    return { outcome: "met", reason: `True lumen: ${words.join("; ")}, ${imagingDate}.`, used };
  }
  const missing = "perimeter or area of the true lumen in zone 3 or 4";
  return notAssessable(`Not measured: ${missing}.`, [missing]);
}
