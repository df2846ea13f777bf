import type { Exam, Measurement } from "../../cases/patient-case.ts";
import { sentenceCase } from "../../quantities/sentence-case.ts";
import type { RequirementId } from "./arch-plan-data.ts";
import { type Found, notAssessable, type PlanContext } from "./plan-context.ts";
import { against, examsUntil, type Sized } from "./requirement-diameters.ts";
import { ascendingWall } from "./requirement-walls.ts";

/** The sound length of a landing in zone 0 against the limit. */
export const landingLength = (context: PlanContext, id: RequirementId): Found =>
  ascendingLength(context, id, "native");

/** The same of a graft in the ascending aorta, which is not there yet where the wall is native. */
export function graftLength(context: PlanContext, id: RequirementId): Found {
  const { isNative, words } = ascendingWall(context);
  if (typeof isNative === "object") {
    return notAssessable(`${sentenceCase(words)}.`, [isNative.unclear]);
  }
  if (!isNative) return ascendingLength(context, id, "graft");
  const missing = "length of the graft that is to be sewn in";
  return notAssessable(`Native wall: not known is the ${missing}.`, [missing]);
}

function ascendingLength(
  context: PlanContext,
  id: RequirementId,
  surface: "native" | "graft",
): Found {
  const segment = context.segments?.proximal.find(
    (one) => one.zone === "0" && (one.surface ?? surface) === surface,
  );
  return lengthAgainst(context, id, { zone: "0", segment, needsInner: true });
}

/** The sound length at the distal end, in zone 5, else in zone 4. */
export function distalLength(context: PlanContext, id: RequirementId): Found {
  const of = (zone: string): Found => {
    const segment = context.segments?.distal.find((one) => one.zone === zone);
    return lengthAgainst(context, id, { zone, segment, needsInner: false });
  };
  const last = of("5");
  if (last.value) return last;
  const former = of("4");
  return former.value ? former : last;
}

type Segment = NonNullable<PlanContext["segments"]>["proximal"][number];
interface LengthQuestion {
  zone: string;
  segment: Segment | undefined;
  /** Along a bend the centreline alone can fail a limit but not show that it holds. */
  needsInner: boolean;
}

function lengthAgainst(
  context: PlanContext,
  id: RequirementId,
  { zone, segment, needsInner }: LengthQuestion,
): Found {
  const { lengths, missing, open } = soundLengths(context, zone, segment);
  const shortest = lengths.toSorted((a, b) => a.valueMm - b.valueMm)[0];
  if (shortest === undefined) return notAssessable(`Not known: ${missing}.`, [missing]);
  const found = against(id, shortest);
  const lacksInner = needsInner && !lengths.some(({ isInner }) => isInner);
  if (found.outcome === "not-met" || (!lacksInner && open.length === 0)) return found;
  const inner = lacksInner ? " The inner curve is shorter and is not known." : "";
  const other = open.length > 0 ? " Conditions of the wall are open." : "";
  return {
    ...found,
    outcome: "not-assessable",
    reason: `${found.reason}${inner}${other}`,
    missing: [
      ...(lacksInner ? [`sound length along the inner curve in zone ${zone}`] : []),
      ...open,
    ],
  };
}

type Length = Sized & { isInner: boolean };

interface SoundLengths {
  lengths: Length[];
  /** What is missing where there are none. */
  missing: string;
  /** Conditions of the wall that could not be judged. */
  open: string[];
}

function soundLengths(
  context: PlanContext,
  zone: string,
  segment: Segment | undefined,
): SoundLengths {
  if (segment?.lengthMm) {
    const { lengthMm, innerMm, used, date } = segment;
    const of = (range: typeof lengthMm, isInner: boolean): Length => {
      const words = `${isInner ? "along the inner curve" : "along the centreline"}, ${date ?? "date not stated"}`;
      return { valueMm: range.value, low: range.low, high: range.high, used, words, isInner };
    };
    const lengths = [of(lengthMm, false), ...(innerMm ? [of(innerMm, true)] : [])];
    const open = segment.notAssessed.map((one) => one.missing);
    return { lengths, missing: "", open: [...new Set(open)] };
  }
  const wall = zone === "0" ? ascendingWall(context) : null;
  for (const exam of examsUntil(context)) {
    const found = context.patientCase.measurements.filter(
      ({ exam: key, quantity, place }) =>
        key === exam.key && quantity === "sound-length" && place.zones.includes(zone),
    );
    if (found.length === 0) continue;
    const isShown = wall?.isShownBy(exam) ?? true;
    if (isShown === true)
      return { lengths: found.map((one) => stated(one, exam)), missing: "", open: [] };
    const missing =
      isShown === false ? `sound length in zone ${zone} after its repair` : isShown.unclear;
    return { lengths: [], missing, open: [] };
  }
  return { lengths: [], missing: `sound length in zone ${zone}`, open: [] };
}

function stated({ value, path, key }: Measurement, { imagingDate }: Exam): Length {
  const along = path === "unstated" ? "path not stated" : `along the ${path.replace("-", " ")}`;
  return {
    valueMm: value,
    low: null,
    high: null,
    used: [key],
    words: `${along}, ${imagingDate}`,
    isInner: path === "inner-curve",
  };
}
