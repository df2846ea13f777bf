import type { ArchVariantId } from "../../anatomy/arch-variants.ts";
import { placeById } from "../../anatomy/places.ts";
import type { PatientCase } from "../../cases/patient-case.ts";
import { type ArteryId, courseOf, type Supply } from "./branch-supply.ts";
import { findingNeeded, findingWords, latestFinding } from "../latest-finding.ts";
import type { PlanningCheck } from "../planning-check.ts";

/** What a landing in one zone covers: labels of branches, and why there may be more. */
export interface CoveredBranches {
  branches: readonly string[];
  /** Null where all are known. */
  branchesUnknown: string | null;
  missing: readonly string[];
}

/** One inflow of a territory under a landing. Null where it is not known. */
export interface Inflow {
  artery: string;
  isCovered: boolean | null;
  /** Whether it carries blood now. */
  isOpen: boolean | null;
  words: string;
  used: string[];
  missing: string[];
}

/** A territory under a landing: the condition that an inflow stays open without re-feeding. */
export interface SupplyAtZone {
  territory: string;
  inflows: Inflow[];
  check: PlanningCheck;
}

/** A territory under a landing. `archNeeded` names what is missing of the arch; null where it is stated. */
export function supplyAtZone(
  patientCase: PatientCase,
  supply: Supply,
  covered: CoveredBranches,
  arch: { asOf: string; variants: readonly ArchVariantId[]; archNeeded: string | null },
): SupplyAtZone {
  const { id, territory } = supply;
  const inflows = supply.inflows.map((artery) =>
    inflowOf(patientCase, artery, covered, arch, id === "posterior"),
  );
  const kept = inflows.filter(({ isCovered, isOpen }) => isCovered === false && isOpen === true);
  const isArchKnown = arch.archNeeded === null;
  const isLost = inflows.every(
    ({ isCovered, isOpen }) => isOpen === false || (isCovered === true && isArchKnown),
  );
  const isKept = kept.length > 0 && isArchKnown;
  const outcome = isLost ? "not-met" : isKept ? "met" : "not-assessable";
  const onAssumption = arch.archNeeded === null ? [] : [arch.archNeeded];
  const deciding = kept.length > 0 ? [] : inflows.flatMap(({ missing }) => missing);
  return {
    territory,
    inflows,
    check: {
      id: `supply-${id}`,
      label: `${territory}: an inflow stays open without re-feeding`,
      outcome,
      value: null,
      limit: "none",
      spansLimit: false,
      source: "common practice without a source",
      used: [...new Set(inflows.flatMap(({ used }) => used))],
      missing: outcome === "not-assessable" ? [...new Set([...deciding, ...onAssumption])] : [],
      reason: `${inflows.map(({ words }) => words).join("; ")}.`,
    },
  };
}

function inflowOf(
  patientCase: PatientCase,
  artery: ArteryId,
  covered: CoveredBranches,
  { asOf, variants }: { asOf: string; variants: readonly ArchVariantId[] },
  isOfPair: boolean,
): Inflow {
  const { label } = placeById(artery);
  const { through, ostia } = courseOf(artery, variants);
  const isHere = ostia.some((id) => covered.branches.includes(placeById(id).label));
  const isCovered = isHere ? true : covered.branchesUnknown === null ? false : null;
  const way = through.map((id) => latestFinding(patientCase, asOf, "patency", id));
  const [first] = way;
  const own = latestFinding(patientCase, asOf, "patency", artery);
  // An aberrant right subclavian artery may be named by either of its places.
  const seen =
    artery === "right-subclavian-artery" && own.states.length === 0 && isAberrant(variants) && first
      ? first
      : own;
  const joint = isOfPair ? vertebralOf(patientCase, asOf, artery) : alone;
  const isShut = [seen, ...way].some(({ state }) => state === "occluded" || state === "absent");
  const isDoubtful = seen.state === null || joint.isDoubtful;
  const isOpen = isShut || joint.isOut ? false : isDoubtful ? null : true;
  const flow =
    isShut && seen.state !== "occluded" && seen.state !== "absent"
      ? "closed further up"
      : `patency ${findingWords(seen)}`;
  return {
    artery: label,
    isCovered,
    isOpen,
    words: [`${label} ${coveredWords[`${isCovered}`]}`, flow, ...joint.words].join(", "),
    used: [...[seen, ...way].flatMap(({ used }) => used), ...joint.used],
    missing: [
      ...(isCovered === null ? covered.missing : []),
      ...(isOpen === null && seen.state === null
        ? [findingNeeded(`patency of the ${label}`, seen)]
        : []),
      ...(isOpen === null && joint.isDoubtful
        ? [`whether the hypoplastic ${label} feeds enough`]
        : []),
    ],
  };
}

const coveredWords = {
  true: "covered",
  false: "not covered",
  null: "covered or not is not known",
} as const;

const isAberrant = (variants: readonly ArchVariantId[]): boolean =>
  variants.includes("aberrant right subclavian artery");

interface Joint {
  /** It does not reach the other vertebral artery. */
  isOut: boolean;
  isDoubtful: boolean;
  words: string[];
  used: string[];
}

const alone: Joint = { isOut: false, isDoubtful: false, words: [], used: [] };

/** What the dominance of a vertebral artery says of it as one of the two. */
function vertebralOf(patientCase: PatientCase, asOf: string, artery: ArteryId): Joint {
  const { state, states, used } = latestFinding(patientCase, asOf, "dominance", artery);
  return {
    isOut: state === "not joined to the basilar artery",
    isDoubtful: state === "hypoplastic" || states.length > 1,
    words: states,
    used,
  };
}
