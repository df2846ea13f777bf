import { placeById } from "../../anatomy/places.ts";
import type { Dissection } from "../../cases/dissection.ts";
import type { PatientCase, PriorRepair } from "../../cases/patient-case.ts";
import { isHeritable } from "../../cases/vocabulary.ts";
import { timing, wallAt } from "../../cases/wall.ts";
import type { Prompt } from "./prompt.ts";
import { supplyPrompts } from "./prompts-brain.ts";
import { coeliacFacts, turnFacts } from "./prompts-measured.ts";
import { openRepairsIn } from "../arch-plans/requirement-walls.ts";

/** Facts in words that other parts of a plan compute, each with its numbers and date. */
export interface ComputedFacts {
  /** Size criteria that are met. */
  limitsReached?: readonly string[];
  /** Sharp turns at a landing. */
  sharpTurns?: readonly string[];
  /** Options that cover much of the descending aorta. */
  longCover?: readonly string[];
}

interface Basis {
  asOf: string;
  dissection: Dissection | null;
  computed: ComputedFacts;
}

/** Operations and diseases that a thoracic stent graft may be meant for. */
const mayTakeStentGraft: ReadonlySet<string> = new Set([
  "arch repair",
  "descending repair",
  "thoraco-abdominal repair",
  "arch aneurysm",
  "descending thoracic aneurysm",
  "thoraco-abdominal aneurysm",
  "type A dissection",
  "type B dissection",
]);
const opensSternum: ReadonlySet<string> = new Set([
  "ascending repair",
  "arch repair",
  "aortic valve surgery",
  "other cardiac surgery",
]);
const opensArch: ReadonlySet<string> = new Set(["arch repair", "arch aneurysm"]);
const isRepair = (operation: string): boolean => operation.endsWith("repair");

/**
 * Questions that an operation raises: where the case sheet considers one; and where it considers nothing that
 * it says, with a size criterion met or within 14 days of the onset of a dissection. "None" considered raises none.
 */
export function operationPrompts(patientCase: PatientCase, basis: Basis): Prompt[] {
  const sight = operationInSight(patientCase, basis);
  if (sight === null) return [];
  const { words, reason } = sight;
  const mayStent = words.some((word) => mayTakeStentGraft.has(word));
  return [
    ...(mayStent ? stentGraftPrompts(patientCase, basis, reason) : []),
    ...(words.some((word) => opensArch.has(word))
      ? [
          {
            text: "How is the brain perfused while the arch is open or its branches are moved?",
            raisedBy: reason,
            answeredBy: "cardiac surgeon and anaesthesia",
          },
        ]
      : []),
    ...(words.some((word) => opensSternum.has(word)) ? adhesions(patientCase, basis.asOf) : []),
    ...staging(words),
  ];
}

interface Sight {
  /** Operations considered, or the diagnoses where none is named. */
  words: string[];
  reason: string;
}

function operationInSight(
  { facts: { considered, diagnoses } }: PatientCase,
  { dissection, computed }: Basis,
): Sight | null {
  if (considered !== null) {
    const isMeant = considered.some((one) => isRepair(one) || opensSternum.has(one));
    return isMeant ? { words: considered, reason: `considered: ${considered.join(", ")}` } : null;
  }
  const limits = computed.limitsReached ?? [];
  const words = diagnoses ?? [];
  if (limits.length > 0) return { words, reason: limits.join("; ") };
  const days = dissection?.bands.find(({ exam }) => exam === null)?.days ?? null;
  const isAcute = days !== null && days >= 0 && days <= 14;
  return isAcute ? { words, reason: `dissection, day ${days} after the onset` } : null;
}

function stentGraftPrompts(patientCase: PatientCase, basis: Basis, reason: string): Prompt[] {
  const { asOf, dissection, computed } = basis;
  return [
    {
      text: "Which wire, brought in from where, and where does its tip rest?",
      raisedBy: reason,
      answeredBy: "aortic surgeon",
    },
    ...oneOf("What holds the device at the turn?", "aortic surgeon and imaging lab", [
      ...turnFacts(patientCase, asOf),
      ...(computed.sharpTurns ?? []),
    ]),
    {
      text: "What is the fall-back, and who converts to open surgery if it fails?",
      raisedBy: reason,
      answeredBy: "whole team",
    },
    ...newDissection(patientCase, basis, reason),
    ...(dissection ? dissectedAorta(dissection) : []),
    ...supplyPrompts(patientCase, asOf, reason),
    ...oneOf(
      "What is the plan for the spinal cord: drain, pressure, stages, and who watches the legs?",
      "aortic surgeon and anaesthesia",
      [...cordFacts(patientCase, asOf), ...(computed.longCover ?? [])],
    ),
    ...oneOf(
      "If the coeliac artery is covered, are collaterals shown that feed its organs?",
      "imaging lab",
      coeliacFacts(patientCase, asOf),
    ),
    ...heritable(patientCase),
    {
      text: "Who follows the repair, with which imaging, and from when on?",
      raisedBy: reason,
      answeredBy: "coordinator",
    },
  ];
}

/** One question for all facts that raise it; none without a fact. */
const oneOf = (text: string, answeredBy: string, facts: readonly string[]): Prompt[] =>
  facts.length > 0 ? [{ text, raisedBy: facts.join("; "), answeredBy }] : [];

/** Raised unless the ascending aorta is surely no native wall. */
function newDissection(
  { facts }: PatientCase,
  { asOf, dissection }: Basis,
  reason: string,
): Prompt[] {
  const wall = wallAt(placeById("zone-0"), facts.priorRepairs, asOf, "present");
  if ("kind" in wall && wall.kind !== "native") return [];
  const times = dissection ? ", 5.33 times as often in dissection as in aneurysm" : "";
  const numbers = `2.5 % after thoracic stent grafting${times}, mortality 37.1 % (J Am Heart Assoc 2017;6:e004649)`;
  return [
    {
      text: "Who is ready for a new dissection of the ascending aorta, during and after?",
      raisedBy: `${reason}; ${numbers}`,
      answeredBy: "cardiac surgeon and anaesthesia",
    },
  ];
}

function dissectedAorta({ stated }: Dissection): Prompt[] {
  const raisedBy = stated.diagnoses[0] ?? "parts of the case that speak of a dissection";
  return [
    {
      text: "Is a balloon to be used in the dissected aorta at all?",
      raisedBy,
      answeredBy: "aortic surgeon",
    },
    {
      text: "Is intravascular ultrasound at hand for the lumens and the landing size?",
      raisedBy: `${raisedBy}; SVS 2021 names it where landing zones are poorly seen`,
      answeredBy: "aortic surgeon",
    },
  ];
}

const done = (repairs: readonly PriorRepair[] | null, asOf: string): PriorRepair[] =>
  (repairs ?? []).filter((repair) => timing(repair, asOf, "present") !== "later");

/** Zones below the coeliac artery. */
const isAbdominal = (zone: string): boolean => Number.parseInt(zone, 10) >= 6;
const abdominalWords = /abdom|infrarenal|iliac|\baaa\b|\bf?evar\b/i;

function cordFacts({ facts }: PatientCase, asOf: string): string[] {
  const repairs = done(facts.priorRepairs, asOf).filter(
    ({ zones, words }) => zones?.some(isAbdominal) ?? abdominalWords.test(words),
  );
  const isLong = facts.considered?.includes("thoraco-abdominal repair") ?? false;
  return [
    ...(isLong ? ["considered: thoraco-abdominal repair"] : []),
    ...repairs.map(({ words }) => `earlier abdominal repair: ${words}`),
  ];
}

/** Earlier open repairs of the root, ascending aorta or arch, also where the sheet leaves kind or zones open. */
function adhesions({ facts }: PatientCase, asOf: string): Prompt[] {
  const { sure, unclear } = openRepairsIn(done(facts.priorRepairs, asOf), ["root", "0", "1", "2"]);
  const open = unclear.filter(({ words }) => !abdominalWords.test(words));
  const words = [
    ...sure.map((repair) => repair.words),
    ...open.map((repair) => `${repair.words} (kind or zones not stated)`),
  ];
  if (words.length === 0) return [];
  return [
    {
      text: "How is the chest re-entered, and how far is the sternum from the aorta or graft?",
      raisedBy: `${words.join("; ")}; no distance from the sternum is measured`,
      answeredBy: "cardiac surgeon and imaging lab",
    },
  ];
}

function heritable({ facts: { aetiology } }: PatientCase): Prompt[] {
  if (aetiology === null || !isHeritable(aetiology)) return [];
  return [
    {
      text: "What does the heritable disease mean for a stent graft and where it may end?",
      raisedBy: `${aetiology}; ACC/AHA 2022 leaves Marfan, Loeys-Dietz and vascular Ehlers-Danlos out of its class 1 advice on stent grafting`,
      answeredBy: "cardiac and aortic surgeon",
    },
  ];
}

function staging(words: readonly string[]): Prompt[] {
  const parts = words.filter((word) => isRepair(word));
  if (parts.length < 2) return [];
  return [
    {
      text: "One stage or several, in which order, and how long apart?",
      raisedBy: `several parts considered: ${parts.join(", ")}`,
      answeredBy: "whole team",
    },
  ];
}
