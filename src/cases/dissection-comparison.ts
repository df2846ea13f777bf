import type { DissectionExtent } from "./dissection-extent.ts";
import {
  type DissectionNotation,
  type DissectionType,
  formatDissectionNotation,
  zoneNumber,
  zonesOfNotation,
  zoneWords,
} from "./dissection-notation.ts";
import type { StanfordType } from "./dissection-schemes.ts";

/** How a stated notation fits what one exam shows. */
export interface NotationComparison {
  verdict: "agrees" | "contradicts" | "not contradicted";
  /** Each contradiction. */
  reasons: string[];
  /** What the exam leaves open; empty where it agrees. */
  open: string[];
  /** Keys of the measurements and findings of the exam. */
  used: string[];
}

/**
 * Compares the type by entry tear and every zone. `repaired` holds the zones whose wall was replaced or lined by the
 * time of the exam, with words for it: there the exam can't show what the notation states, so nothing of them
 * contradicts.
 */
export function compareNotation(
  stated: DissectionNotation,
  seen: DissectionExtent,
  repaired: ReadonlyMap<string, string>,
): NotationComparison {
  const isTypeHidden = isTearRepaired(stated, repaired);
  const ofType = typeReasons(stated, seen);
  const shown = seen.zones.filter(
    ({ zone, state }) => state === "dissected" || !repaired.has(zone),
  );
  const reasons = [
    ...(isTypeHidden ? [] : ofType),
    ...zoneReasons(stated, { ...seen, zones: shown }),
  ];
  const hidden = [
    ...(isTypeHidden ? ofType : []),
    ...(shown.length < seen.zones.length ? ["what is stated of repaired zones"] : []),
  ];
  const since = [...new Set(repaired.values())].join("; ");
  const open =
    reasons.length > 0
      ? []
      : [
          ...hidden.map((words) => `${words} (since the repair it can't be seen: ${since})`),
          ...openQuestions(stated, seen, isTypeHidden),
        ];
  const withoutReasons = open.length === 0 ? "agrees" : "not contradicted";
  return {
    verdict: reasons.length > 0 ? "contradicts" : withoutReasons,
    reasons,
    open,
    used: seen.used,
  };
}

/** Whether the zone in which the stated type has its entry tear may lie under a repair. */
function isTearRepaired(
  { type, proximal }: DissectionNotation,
  repaired: ReadonlyMap<string, string>,
): boolean {
  return type === "B" ? proximal !== null && repaired.has(`${proximal}`) : repaired.has("0");
}

/** A tear that one exam did not find may have been found in another: that alone contradicts nothing. */
function typeReasons({ type }: DissectionNotation, { entry, type: seenType }: DissectionExtent) {
  if (entry.state !== "seen") return [];
  const where = entry.tears
    .map(({ label, zones }) => {
      const [zone, other] = zones;
      return zone === undefined || other !== undefined ? `at ${label}` : `in ${zoneWords(zone)}`;
    })
    .join(" and ");
  if (type === "I") return [`stated type I (no entry tear found); entry tear seen ${where}`];
  return seenType === null || seenType === type
    ? []
    : [`stated type ${type}; entry tear seen ${where}`];
}

function zoneReasons(stated: DissectionNotation, seen: DissectionExtent): string[] {
  const { involved, unclear } = zonesOfNotation(stated);
  const isPossible = (zone: string): boolean => involved.includes(zone) || unclear.includes(zone);
  const { distal } = stated;
  const proximal = stated.type === "B" ? (stated.proximal ?? null) : 0;
  const to = `stated to zone ${distal}`;
  const from = `stated from zone ${proximal}`;
  const limitFor = (zone: string): string =>
    proximal !== null && zoneNumber(zone) < proximal ? from : to;
  const hasExtent = distal !== null;
  const ofZones = seen.zones.flatMap(({ zone, state, because }): string[] => {
    if (state === "dissected" && hasExtent && !isPossible(zone)) {
      return because.map((words) => `${limitFor(zone)}; ${words}`);
    }
    return state === "not dissected" && involved.includes(zone)
      ? because.map((words) => `stated ${formatDissectionNotation(stated)}; ${words}`)
      : [];
  });
  const ofLoose = seen.loose.flatMap(({ state, zones, isUpstream, because }): string[] => {
    if (state === "not dissected" || !hasExtent) return [];
    if (isUpstream) return proximal === 0 ? [] : [`${from}; ${because}, upstream of zone 0`];
    const [first] = zones;
    return first === undefined || zones.some(isPossible) ? [] : [`${limitFor(first)}; ${because}`];
  });
  const lastOnBothSides = unclear.filter((zone) => zoneNumber(zone) === distal);
  const isFree = (zone: string): boolean =>
    seen.zones.some((one) => one.zone === zone && one.state === "not dissected");
  const ofSides =
    stated.side === null && lastOnBothSides.length > 0 && lastOnBothSides.every(isFree)
      ? [`${to}; no dissection was seen in it on either side`]
      : [];
  return [...new Set([...ofZones, ...ofLoose, ...ofSides])];
}

function openQuestions(
  stated: DissectionNotation,
  seen: DissectionExtent,
  isTypeHidden: boolean,
): string[] {
  const open: string[] = [];
  if (seen.type !== stated.type && !isTypeHidden) {
    open.push(
      seen.entry.state === "not found"
        ? `stated type ${stated.type}; this exam found no entry tear`
        : `the type: ${seen.typeBecause}`,
    );
  }
  if (stated.distal === null) return [...open, "the zones: the notation states no extent"];
  const proximal = stated.type === "B" ? stated.proximal : 0;
  const ends = [
    { name: "proximal", statedZone: proximal, end: seen.proximal, beyond: "above" },
    { name: "distal", statedZone: stated.distal, end: seen.distal, beyond: "below" },
  ];
  for (const { name, statedZone, end, beyond } of ends) {
    if (end === null) open.push(`the ${name} end: no single zone is shown to be dissected`);
    else if (end.zone !== statedZone) {
      open.push(
        `the ${name} end: stated zone ${statedZone}; dissection shown as far as zone ${end.zone}`,
      );
    } else if (!end.isExact) {
      open.push(`the ${name} end: the exam does not say that the zone ${beyond} it is free`);
    }
  }
  const sides = seen.distalSides.length === 2 ? "both sides" : (seen.distalSides[0] ?? null);
  if (stated.distal >= 10 && sides !== stated.side) {
    open.push(`the side: stated ${stated.side ?? "none"}; shown ${sides ?? "none"}`);
  }
  return open;
}

/** A diagnosis beside the type by entry tear and the type by involvement of the ascending aorta. */
export interface DiagnosisComparison {
  diagnosis: string;
  byTear: DissectionType | null;
  byInvolvement: StanfordType | null;
  /** Agrees where one of the two has the diagnosis's letter; contradicts where both are known and none has it. */
  verdict: "agrees" | "contradicts" | "not contradicted";
  sentence: string;
}

/** Compares "type A dissection" and "type B dissection" with both schemes; other diagnoses are passed over. */
export function compareDiagnoses(
  diagnoses: readonly string[],
  byTear: DissectionType | null,
  byInvolvement: StanfordType | null,
): DiagnosisComparison[] {
  return diagnoses.flatMap((diagnosis) => {
    const letter = /^type ([AB]) dissection$/.exec(diagnosis)?.[1];
    if (letter === undefined) return [];
    const agrees = byTear === letter || byInvolvement === letter;
    const isKnown = byTear !== null && byInvolvement !== null;
    const sentence = `the case sheet says ${diagnosis}; by entry tear (SVS/STS 2020) it is ${byTear ?? "not assessable"}, by involvement (Stanford) ${byInvolvement ?? "not assessable"}`;
    const verdict = agrees ? "agrees" : isKnown ? "contradicts" : "not contradicted";
    return [{ diagnosis, byTear, byInvolvement, verdict, sentence }];
  });
}
