import { placeById } from "../../anatomy/places.ts";
import type { PatientCase } from "../../cases/patient-case.ts";
import { wallAt } from "../../cases/wall.ts";
import { holds } from "../../quantities/limit.ts";
import { accessLimits, sourceWords } from "./access-limits.ts";
import { latestPath, type Section, type Side, stretchPlaces } from "./access-samples.ts";
import { findingNeeded, findingWords, latestFinding } from "../latest-finding.ts";
import type { PlanningCheck } from "../planning-check.ts";

type Stretch = ReturnType<typeof stretchPlaces>[number];

/** What is known of a hindrance on one stretch: that it is there, that it is not, or what is missing. */
interface StretchState {
  isClear: boolean | null;
  words: string;
  used: string[];
  missing: string | null;
}

/** Occlusion, earlier stent or graft, and circumferential calcium on the way in on one side. */
export function obstacleChecks(
  patientCase: PatientCase,
  side: Side,
  asOf: string,
): PlanningCheck[] {
  const sections = latestPath(patientCase, side, asOf)?.sections ?? [];
  const over = (
    id: string,
    label: string,
    origin: { source: string; confirmed: boolean },
    stateOf: (stretch: Stretch) => StretchState,
  ): PlanningCheck =>
    overStretches(
      { id, label, limit: "none", source: sourceWords(origin) },
      stretchPlaces(side).map(stateOf),
    );
  const { obstacles, calcium } = accessLimits;
  return [
    over("access-open", "no occlusion on the way", obstacles, (stretch) =>
      patencyState(patientCase, asOf, stretch),
    ),
    over("access-unrepaired", "no earlier stent or graft on the way", obstacles, (stretch) =>
      repairState(patientCase, asOf, stretch, side),
    ),
    over("access-calcium", "no circumferential calcium on the way", calcium, (stretch) =>
      calciumState(
        patientCase,
        asOf,
        stretch,
        sections.filter((one) => one.stretch === stretch.id),
      ),
    ),
  ];
}

function overStretches(
  base: Pick<PlanningCheck, "id" | "label" | "limit" | "source">,
  states: readonly StretchState[],
): PlanningCheck {
  const blocked = states.filter(({ isClear }) => isClear === false);
  const open = states.filter(({ isClear }) => isClear === null);
  const deciding = blocked.length > 0 ? blocked : open.length > 0 ? open : states;
  return {
    ...base,
    outcome: blocked.length > 0 ? "not-met" : open.length > 0 ? "not-assessable" : "met",
    value: null,
    spansLimit: false,
    used: [...new Set(states.flatMap(({ used }) => used))],
    missing: blocked.length > 0 ? [] : open.flatMap(({ missing }) => missing ?? []),
    reason: `${deciding.map(({ words }) => words).join("; ")}.`,
  };
}

function patencyState(
  patientCase: PatientCase,
  asOf: string,
  { placeId, label }: Stretch,
): StretchState {
  const seen = latestFinding(patientCase, asOf, "patency", placeId);
  const { state, used } = seen;
  return {
    isClear: state === null ? null : state === "patent" || state === "narrowed",
    words: `${label}: ${findingWords(seen)}`,
    used,
    missing: state === null ? findingNeeded(`patency of the ${label}`, seen) : null,
  };
}

/** A finding counts before the case sheet, unless it says that there is none where the sheet names one. */
function repairState(
  patientCase: PatientCase,
  asOf: string,
  stretch: Stretch,
  side: Side,
): StretchState {
  const { placeId, label } = stretch;
  const seen = latestFinding(patientCase, asOf, "access repair", placeId);
  const bySheet = repairOfSheet(patientCase, asOf, stretch, side);
  const isSilent = seen.states.length === 0;
  if (isSilent || (seen.state === "absent" && bySheet.isClear === false)) return bySheet;
  return {
    isClear: seen.state === null ? null : seen.state === "absent",
    words: `${label}: ${findingWords(seen)}`,
    used: seen.used,
    missing:
      seen.state === null ? findingNeeded(`earlier stent or graft in the ${label}`, seen) : null,
  };
}

/** By the case sheet. A bypass names no zone: it may begin or end at the femoral artery. */
function repairOfSheet(
  { facts: { priorRepairs } }: PatientCase,
  asOf: string,
  { id, placeId, label }: Stretch,
  side: Side,
): StretchState {
  const unclear = (what: string): StretchState => ({
    isClear: null,
    words: `${label}: ${what} is not stated`,
    used: [],
    missing: what,
  });
  const isFemoral = id === "common femoral";
  const place = placeById(isFemoral ? `zone-11-${side}` : placeId);
  const wall = wallAt(place, priorRepairs, asOf, "present");
  if ("unclear" in wall) return unclear(wall.unclear);
  if (isFemoral && priorRepairs?.some(({ kinds }) => kinds.includes("bypass"))) {
    return unclear(`whether an earlier bypass reaches the ${label}`);
  }
  if (wall.kind === "native") {
    return { isClear: true, words: `${label}: none by the case sheet`, used: [], missing: null };
  }
  if (isFemoral) {
    return unclear(`whether the repair of the external iliac artery reaches the ${label}`);
  }
  const words = `${label}: ${wall.kind} by the case sheet, "${wall.words}"`;
  return { isClear: false, words, used: [], missing: null };
}

const wholeTurnDeg = 360;

function calciumState(
  patientCase: PatientCase,
  asOf: string,
  { placeId, label }: Stretch,
  sections: readonly Section[],
): StretchState {
  const seen = latestFinding(patientCase, asOf, "wall calcium", placeId);
  const used = [...seen.used, ...sections.map(({ station }) => station.key)];
  const isRound = sections.some(({ station: { calciumArcDeg } }) =>
    holds(calciumArcDeg ?? 0, ">=", wholeTurnDeg),
  );
  const isMeasured =
    sections.length > 0 && sections.every(({ station }) => station.calciumArcDeg !== null);
  if (isRound) {
    return { isClear: false, words: `${label}: all round at a section`, used, missing: null };
  }
  if (seen.states.length === 0 && isMeasured) {
    return { isClear: true, words: `${label}: all round at no section`, used, missing: null };
  }
  return {
    isClear: seen.state === null ? null : seen.state !== "circumferential",
    words: `${label}: ${findingWords(seen)}`,
    used,
    missing: seen.state === null ? findingNeeded(`wall calcium of the ${label}`, seen) : null,
  };
}
