import type { AorticPlace } from "../anatomy/places.ts";
import { zonesAround } from "../anatomy/zones-around.ts";
import { type DissectionType, zoneIds, zoneNumber, zoneWords } from "./dissection-notation.ts";
import type { Exam, Finding, Measurement } from "./patient-case.ts";

/** What one exam says of a zone; a zone that is not listed is unknown. */
interface ZoneState {
  zone: string;
  state: "dissected" | "not dissected" | "contradictory";
  /** "a false lumen was measured in zone 10 left". */
  because: string[];
  /** Keys of measurements and findings. */
  used: string[];
}

/** Evidence at a place that stands for no single zone. */
interface LooseEvidence {
  state: "dissected" | "not dissected";
  /** Zones that it may be of; empty upstream of zone 0. */
  zones: string[];
  isUpstream: boolean;
  because: string;
  used: string[];
}

/** A tear with the zones that it may lie in: one, several on a border or range, none upstream of zone 0. */
interface SeenTear {
  label: string;
  zones: string[];
  used: string[];
}

/** First or last dissected zone; `isExact` where the next zone is known not to be dissected. */
interface ExtentEnd {
  zone: number;
  isExact: boolean;
}

/** Extent and type of a dissection as far as one exam shows them. */
export interface DissectionExtent {
  exam: string;
  /** YYYY-MM-DD. */
  date: string;
  zones: ZoneState[];
  loose: LooseEvidence[];
  entry: {
    state: "seen" | "not found" | "contradictory" | "not stated";
    tears: SeenTear[];
    /** Labels of the places at which none was found. */
    notFoundAt: string[];
    used: string[];
  };
  /** Null where it can't be derived; `typeBecause` then says what is missing. */
  type: DissectionType | null;
  typeBecause: string;
  /** False where the rule behind the type was not compared with the standard. */
  typeConfirmed: boolean;
  proximal: ExtentEnd | null;
  distal: ExtentEnd | null;
  /** Sides of the last zone where it is an iliac one. */
  distalSides: ("left" | "right")[];
  /** "type B, from zone 3, at least to zone 9". */
  words: string;
  notes: string[];
  used: string[];
}

interface Evidence {
  place: AorticPlace;
  isDissected: boolean;
  what: string;
  key: string;
}

/**
 * Derives zones, entry tear, type and extent from the lumens measured and the findings of one exam. Null where
 * nothing in it speaks of a dissection or of its absence. A false or true lumen, a false lumen's state and a tear
 * show a dissection in the zone that they lie in; only a statement on the whole zone shows that there is none.
 * Branches fed by the false lumen say nothing of a zone.
 */
export function dissectionExtent(
  exam: Exam,
  measurements: readonly Measurement[],
  findings: readonly Finding[],
): DissectionExtent | null {
  const own = findings.filter((finding) => finding.exam === exam.key);
  const evidence = evidenceOf(
    measurements.filter((measurement) => measurement.exam === exam.key),
    own,
  );
  const entry = entryOf(own);
  if (evidence.length === 0 && entry.state === "not stated") return null;
  const zones = zoneStates(evidence);
  const loose = looseEvidence(evidence);
  const stateOf = (zone: string) => zones.find((one) => one.zone === zone)?.state;
  const { type, typeBecause, typeConfirmed } = typeOf(entry, stateOf("0"));
  const { proximal, distal, distalSides } = endsOf(stateOf);
  return {
    exam: exam.key,
    date: exam.imagingDate,
    zones,
    loose,
    entry,
    type,
    typeBecause,
    typeConfirmed,
    proximal,
    distal,
    distalSides,
    words: extentWords(type, proximal, distal, distalSides),
    notes: notesOf(zones, loose, proximal, distal),
    used: [...new Set([...evidence.map(({ key }) => key), ...entry.used])],
  };
}

function evidenceOf(
  measurements: readonly Measurement[],
  findings: readonly Finding[],
): Evidence[] {
  const lumens = measurements
    .filter(({ lumen }) => lumen === "true" || lumen === "false")
    .map(({ place, lumen, key }) => {
      return { place, isDissected: true, what: `a ${lumen} lumen was measured`, key };
    });
  const seen = findings.flatMap(({ place, finding, state, key }): Evidence[] => {
    const shown = (isDissected: boolean, what: string) => [{ place, isDissected, what, key }];
    if (finding === "dissection") {
      return state === "absent"
        ? shown(false, "no dissection was seen")
        : shown(true, "dissection was seen");
    }
    if (finding === "false lumen") return shown(true, `a ${state} false lumen was seen`);
    const isTear = finding === "entry tear" || finding === "re-entry tear";
    return isTear && state === "present" ? shown(true, `the ${finding} was seen`) : [];
  });
  return [...lumens, ...seen].filter(({ place }) => place.kind !== "branch");
}

/** The zones that a statement decides: the one it lies in, or for an absence each zone that it covers whole. */
function decidedZones({ place, isDissected }: Evidence): readonly string[] {
  const { kind, span, zones } = place;
  if (isDissected) return zones.length === 1 ? zones : [];
  if (kind === "zone") return zones;
  if (span === null) return [];
  return zonesAround(place).filter((zone) => {
    const number = zoneNumber(zone);
    return span[0] <= number + 1 && number + 2 <= span[1];
  });
}

const becauseIn = ({ what, place }: Evidence, zone: string): string =>
  `${what} in ${zoneWords(zone)}${place.kind === "zone" ? "" : ` (${place.label})`}`;

function zoneStates(evidence: readonly Evidence[]): ZoneState[] {
  return zoneIds.flatMap((zone): ZoneState[] => {
    const own = evidence.filter((one) => decidedZones(one).includes(zone));
    if (own.length === 0) return [];
    const isDissected = own.some((one) => one.isDissected);
    const isFree = own.some((one) => !one.isDissected);
    const state = isDissected ? (isFree ? "contradictory" : "dissected") : "not dissected";
    const because = [...new Set(own.map((one) => becauseIn(one, zone)))];
    return [{ zone, state, because, used: own.map(({ key }) => key) }];
  });
}

function looseEvidence(evidence: readonly Evidence[]): LooseEvidence[] {
  return evidence
    .filter((one) => decidedZones(one).length === 0)
    .map(({ place, isDissected, what, key }) => ({
      state: isDissected ? "dissected" : "not dissected",
      zones: [...zonesAround(place)],
      isUpstream: place.position < 1,
      because: `${what} at ${place.label}`,
      used: [key],
    }));
}

function entryOf(findings: readonly Finding[]): DissectionExtent["entry"] {
  const own = findings.filter(({ finding }) => finding === "entry tear");
  const seen = own.filter(({ state }) => state === "present");
  const notFound = own.filter(({ state }) => state === "not found");
  const isContradictory = seen.some(({ place }) =>
    notFound.some((one) => one.place.id === place.id),
  );
  const withoutContradiction =
    seen.length > 0 ? "seen" : notFound.length > 0 ? "not found" : "not stated";
  const byPlace = [...Map.groupBy(seen, ({ place }) => place.id).values()];
  return {
    state: isContradictory ? "contradictory" : withoutContradiction,
    tears: byPlace.flatMap((ofPlace) =>
      ofPlace.slice(0, 1).map(({ place }) => ({
        label: place.label,
        zones: place.kind === "branch" ? [] : [...zonesAround(place)],
        used: ofPlace.map(({ key }) => key),
      })),
    ),
    notFoundAt: [...new Set(notFound.map(({ place }) => place.label))],
    used: own.map(({ key }) => key),
  };
}

/** SVS/STS 2020 as reproduced in ESC 2024, figure 29; without a tear and with a free zone 0: recalled, not compared. */
function typeOf(
  { state, tears, notFoundAt }: DissectionExtent["entry"],
  zoneZero: ZoneState["state"] | undefined,
): Pick<DissectionExtent, "type" | "typeBecause" | "typeConfirmed"> {
  const answer = (type: DissectionType | null, typeBecause: string, typeConfirmed = true) => ({
    type,
    typeBecause,
    typeConfirmed,
  });
  const notFound = `no entry tear found (${notFoundAt.join(", ")})`;
  switch (state) {
    case "not stated":
      return answer(null, "nothing is said of an entry tear");
    case "contradictory":
      return answer(null, "one reading has an entry tear where another found none");
    case "seen": {
      const isInZoneZero = ({ zones }: SeenTear) => zones.length === 1 && zones[0] === "0";
      const isBeyond = ({ zones }: SeenTear) => zones.length > 0 && !zones.includes("0");
      const inZoneZero = tears.find(isInZoneZero);
      if (inZoneZero) return answer("A", `entry tear seen at ${inZoneZero.label}, in zone 0`);
      const unclear = tears.find((tear) => !isBeyond(tear));
      if (unclear) {
        return answer(null, `an entry tear at ${unclear.label} is in no single zone`);
      }
      const where = tears.map(({ label }) => label).join(", ");
      return answer("B", `entry tear seen at ${where}, in zone 1 or beyond`);
    }
    case "not found":
      if (zoneZero === "dissected") return answer("I", `${notFound} and zone 0 dissected`);
      if (zoneZero === "not dissected") {
        const because = `${notFound} and zone 0 not dissected; that this is type B is recalled, not compared with the standard`;
        return answer("B", because, false);
      }
      return answer(null, `${notFound}; whether zone 0 is dissected is not clear`);
  }
}

const iliacSides = ["left", "right"] as const;

/** The outermost dissected zones. A zone with contradictory statements counts as unknown. */
function endsOf(
  stateOf: (zone: string) => ZoneState["state"] | undefined,
): Pick<DissectionExtent, "proximal" | "distal" | "distalSides"> {
  const dissected = zoneIds.filter((zone) => stateOf(zone) === "dissected").map(zoneNumber);
  if (dissected.length === 0) return { proximal: null, distal: null, distalSides: [] };
  const isFree = (zone: string): boolean => stateOf(zone) === "not dissected";
  const isFreeOnBothSides = (zone: number): boolean =>
    iliacSides.every((side) => isFree(`${zone}-${side}`));
  const [first, last] = [Math.min(...dissected), Math.max(...dissected)];
  const isLast = (): boolean => {
    if (last < 9) return isFree(`${last + 1}`);
    if (last === 9) return isFreeOnBothSides(10);
    return last === 11 || iliacSides.every((side) => isFree(`10-${side}`) || isFree(`11-${side}`));
  };
  const upstream = first > 10 ? [`10-left`, `10-right`] : [`${first - 1}`];
  return {
    proximal: { zone: first, isExact: first === 0 || upstream.every(isFree) },
    distal: { zone: last, isExact: isLast() },
    distalSides: iliacSides.filter((side) => stateOf(`${last}-${side}`) === "dissected"),
  };
}

function extentWords(
  type: DissectionType | null,
  proximal: ExtentEnd | null,
  distal: ExtentEnd | null,
  sides: readonly string[],
): string {
  const end = (word: string, { zone, isExact }: ExtentEnd, sideWords: string): string =>
    `${isExact ? "" : "at least "}${word} zone ${zone}${sideWords}`;
  return [
    type === null ? "type not derivable" : `type ${type}`,
    ...(proximal ? [end("from", proximal, "")] : []),
    ...(distal ? [end("to", distal, sides.map((side) => ` ${side}`).join(" and"))] : []),
  ].join(", ");
}

function notesOf(
  zones: readonly ZoneState[],
  loose: readonly LooseEvidence[],
  proximal: ExtentEnd | null,
  distal: ExtentEnd | null,
): string[] {
  const contradictory = zones
    .filter(({ state }) => state === "contradictory")
    .map(({ zone, because }) => `${zoneWords(zone)} is contradictory: ${because.join("; ")}`);
  const gaps =
    proximal === null || distal === null
      ? []
      : zones
          .filter(({ zone, state }) => {
            const number = zoneNumber(zone);
            return state === "not dissected" && number > proximal.zone && number < distal.zone;
          })
          .filter(({ zone }) => zoneNumber(zone) < 10)
          .map(({ zone }) => `${zoneWords(zone)} between dissected zones is not dissected`);
  const unplaced = loose.map(({ because, zones: candidates, isUpstream }) =>
    isUpstream
      ? `${because}, upstream of zone 0`
      : `${because}, which counts for no single zone; it touches ${candidates.map(zoneWords).join(", ")}`,
  );
  return [...contradictory, ...gaps, ...new Set(unplaced)];
}
