import { formatLength } from "../../quantities/format-length.ts";
import { holds } from "../../quantities/limit.ts";
import { remembered } from "../remembered.ts";
import type { ConditionSet, StretchCondition } from "./landing-conditions.ts";
import { checkedSource } from "../checked-source.ts";
import { landingConditions } from "./landing-conditions.ts";
import type { LandingSection } from "./landing-samples.ts";
import type { SectionState } from "./sound-stretch.ts";

/** A condition that does not hold. */
export interface Fault {
  condition: string;
  /** "diameter 41.0 mm, limit < 40 mm". */
  what: string;
  source: string;
  used: string[];
}

/** One section laid beside all conditions of a set. */
export interface SectionVerdict {
  state: SectionState;
  /** In the order of the conditions. */
  faults: Fault[];
  /** Conditions that can't be judged here, with what is missing. */
  open: { condition: string; missing: string }[];
}

type Reading =
  | { value: number; error: number; words: () => string }
  | { missing: string }
  | "not asked";

const formatDegrees = (deg: number): string => `${deg.toFixed(0)} degrees`;

/** What the section says to a condition of its own; conditions of the stretch are judged in `stretch-fault.ts`. */
function readingOf(condition: StretchCondition, section: LandingSection): Reading {
  const { diameter, thrombusArcDeg, thrombusThicknessMm, calciumArcDeg } = section;
  switch (condition.measure) {
    case "diameter": {
      if (condition.wall !== undefined && section.surface === null) {
        return { missing: section.wallMissing ?? "wall" };
      }
      if (condition.wall !== undefined && section.surface !== condition.wall) return "not asked";
      if (diameter === null) return { missing: "largest diameter" };
      const words = () =>
        `${diameter.isLargest ? "largest diameter" : "mean diameter"} ${formatLength(diameter.mm)}`;
      const isShown =
        diameter.isLargest || !holds(diameter.mm, condition.operator, condition.limit);
      return isShown
        ? { value: diameter.mm, error: diameter.errorMm, words }
        : { missing: "largest diameter" };
    }
    case "thrombus-arc":
      return thrombusArcDeg === null
        ? { missing: "thrombus on the circumference" }
        : exactly(thrombusArcDeg, () => `thrombus over ${formatDegrees(thrombusArcDeg)}`);
    case "thrombus-thickness":
      return thrombusThicknessMm === null
        ? { missing: "thickness of thrombus" }
        : exactly(thrombusThicknessMm, () => `thrombus ${formatLength(thrombusThicknessMm)} thick`);
    case "calcium-arc":
      if (calciumArcDeg !== null) {
        return exactly(calciumArcDeg, () => `calcium over ${formatDegrees(calciumArcDeg)}`);
      }
      return section.isCalciumPartial && condition.limit === 360
        ? "not asked"
        : { missing: "calcium of the circumference" };
    case "turn": {
      const turn = section.turnOver(condition.withinMm ?? 0);
      return typeof turn === "number"
        ? exactly(turn, () => `the centreline turns by ${formatDegrees(turn)}`)
        : { missing: turn.why };
    }
    case "bulge": {
      const bulge = section.bulgeOver(condition.withinMm ?? 0);
      return bulge === null
        ? "not asked"
        : exactly(
            bulge,
            () => `bulges by ${formatLength(bulge)} within ${condition.withinMm} mm on both sides`,
          );
    }
    default:
      return "not asked";
  }
}

const exactly = (value: number, words: () => string): Reading => ({ value, error: 0, words });

const unitWords = { mm: "mm", deg: "degrees", "%": "%" } as const;

/** "< 40 mm". */
export const limitWords = ({ operator, limit, unit }: StretchCondition): string =>
  `${operator} ${limit} ${unitWords[unit]}`;

/** What one condition says of a section; null where it asks nothing of it. */
type Judgement =
  | { open: SectionVerdict["open"][number] }
  | { fault: Fault | null; surelyHolds: boolean; surelyFails: boolean }
  | null;

function judgementOf(section: LandingSection, condition: StretchCondition): Judgement {
  const { zones, operator, limit } = condition;
  if (zones && !zones.some((zone) => zone === section.zone)) return null;
  const reading = readingOf(condition, section);
  if (reading === "not asked") return null;
  if ("missing" in reading) return { open: { condition: condition.id, missing: reading.missing } };
  const { value, error, words } = reading;
  const isHeld = holds(value, operator, limit);
  const least = error === 0 ? isHeld : holds(value - error, operator, limit);
  const most = error === 0 ? isHeld : holds(value + error, operator, limit);
  const fault = isHeld
    ? null
    : {
        condition: condition.id,
        what: `${words()}, limit ${limitWords(condition)}`,
        source: checkedSource(condition),
        used: section.keys,
      };
  return { fault, surelyHolds: least && most, surelyFails: !least && !most };
}

/** Judges a section by any set of conditions; what sets have in common is judged once. */
export function sectionJudge(section: LandingSection): (set: ConditionSet) => SectionVerdict {
  const judged = remembered((condition: StretchCondition) => judgementOf(section, condition));
  return (set) => sectionVerdict(section, set, judged);
}

function sectionVerdict(
  section: LandingSection,
  set: ConditionSet,
  judged: (condition: StretchCondition) => Judgement,
): SectionVerdict {
  const faults: Fault[] = [];
  const open: SectionVerdict["open"] = [];
  let surelyFails = false;
  let surelyHolds = section.diameter !== null;
  const { disease, wallMissing } = section;
  if (set.judgesWall) {
    const { id, source } = landingConditions.walls;
    if (disease) {
      faults.push({ condition: id, what: disease.what, source, used: disease.used });
      surelyFails = disease.isSure;
    }
    if (wallMissing !== null) open.push({ condition: id, missing: wallMissing });
  }
  for (const condition of set.conditions) {
    const judgement = judged(condition);
    if (judgement === null) continue;
    if ("open" in judgement) {
      open.push(judgement.open);
      continue;
    }
    if (judgement.fault !== null) faults.push(judgement.fault);
    surelyHolds &&= judgement.surelyHolds;
    surelyFails ||= judgement.surelyFails;
  }
  const isSound = faults.length === 0;
  const state = isSound
    ? surelyHolds
      ? "surely sound"
      : "sound"
    : surelyFails
      ? "surely unsound"
      : "unsound";
  return { state, faults, open };
}
