import { placeById } from "../../anatomy/places.ts";
import type { PatientCase } from "../../cases/patient-case.ts";
import { type FindingId } from "../../cases/vocabulary.ts";
import { wallAt } from "../../cases/wall.ts";
import { sentenceCase } from "../../quantities/sentence-case.ts";
import { findingNeeded, findingWords, latestFinding } from "../latest-finding.ts";

/** One fact of the case that bears on perfusion. */
export interface PerfusionFact {
  id: string;
  label: string;
  /** In words, with its date; "not stated" where the case does not say. */
  words: string;
  /** Keys of findings; empty for the case sheet. */
  used: string[];
  /** What is missing; empty where it is known. */
  missing: string[];
}

/** A finding at a place as a fact. */
export function findingFact(
  patientCase: PatientCase,
  asOf: string,
  finding: FindingId,
  placeId: string,
): PerfusionFact {
  const { label } = placeById(placeId);
  const what = label === finding ? label : `${finding} of the ${label}`;
  const seen = latestFinding(patientCase, asOf, finding, placeId);
  return {
    id: `${placeId}-${finding.replaceAll(" ", "-")}`,
    label: sentenceCase(what),
    words: findingWords(seen),
    used: seen.used,
    missing: seen.state === null ? [findingNeeded(what, seen)] : [],
  };
}

/** What earlier repairs left of a run of zones: "none", "repaired: …", or what is not stated. */
export interface RepairState {
  isRepaired: boolean | null;
  words: string;
  missing: string[];
}

/** The earlier repair of zones (numbers as in "zone-3") at `asOf`; an elephant trunk counts as a repair. */
export function repairOf(
  { facts: { priorRepairs } }: PatientCase,
  zones: readonly string[],
  asOf: string,
): RepairState {
  const walls = zones.map((zone) =>
    wallAt(placeById(`zone-${zone}`), priorRepairs, asOf, "present"),
  );
  const repaired = walls.flatMap((wall) =>
    "kind" in wall && wall.kind !== "native" ? [`${wall.kind}, "${wall.words}"`] : [],
  );
  const unclear = walls.flatMap((wall) => ("unclear" in wall ? [wall.unclear] : []));
  if (repaired.length > 0) {
    return { isRepaired: true, words: [...new Set(repaired)].join("; "), missing: [] };
  }
  return unclear.length > 0
    ? { isRepaired: null, words: "not stated", missing: [...new Set(unclear)] }
    : { isRepaired: false, words: "none by the case sheet", missing: [] };
}
