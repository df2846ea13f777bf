import type { DissectionExtent } from "./dissection-extent.ts";
import {
  type DissectionNotation,
  type DissectionType,
  formatDissectionNotation,
  zoneIds,
  zoneNumber,
  zonesOfNotation,
} from "./dissection-notation.ts";
import type { Malperfusion, Territory, TerritoryMalperfusion } from "./malperfusion.ts";

export type StanfordType = "A" | "B" | "non-A-non-B";

/** A dissection in the words of one classification. */
export interface Scheme {
  scheme: "SVS/STS 2020" | "Stanford" | "TEM" | "DeBakey";
  /** Null where it is not assessable. In TEM a part that is not assessable is "E?" or "M?". */
  value: string | null;
  /** What it rests on, or why it is not assessable. */
  because: string;
  source: string;
  confirmed: boolean;
}

/** What is known of a dissection for classification. */
export interface DissectionPicture {
  type: DissectionType | null;
  /** False where the type rests on a rule that was not compared with the standard. */
  isTypeConfirmed: boolean;
  /** The type with its extent, in the standard's notation or in words. */
  words: string | null;
  /** True: dissected; false: not dissected; a zone that is missing is unknown. */
  zones: ReadonlyMap<string, boolean>;
  /** Each entry tear with the zones it may lie in; "not found" where it was looked for; null where nothing is known. */
  entry: readonly (readonly string[])[] | "not found" | null;
}

/**
 * Puts a stated notation and the extent seen in an exam together. The notation decides the zones that it speaks of;
 * the exam the others, and the place of the entry tear.
 */
export function pictureOf(
  notation: DissectionNotation | null,
  seen: DissectionExtent | null,
): DissectionPicture {
  const zones = new Map<string, boolean>(
    (seen?.zones ?? [])
      .filter(({ state }) => state !== "contradictory")
      .map(({ zone, state }) => [zone, state === "dissected"]),
  );
  if (notation !== null) {
    const { involved, unclear } = zonesOfNotation(notation);
    for (const zone of zoneIds) {
      if (involved.includes(zone)) zones.set(zone, true);
      else if (notation.distal !== null && !unclear.includes(zone)) zones.set(zone, false);
    }
  }
  const tears = seen?.entry.state === "seen" ? seen.entry.tears.map((tear) => tear.zones) : null;
  const withoutTears = notation === null ? entryNotFound(seen) : entryOfType(notation, zones);
  return {
    type: notation?.type ?? seen?.type ?? null,
    isTypeConfirmed: notation !== null || (seen?.typeConfirmed ?? true),
    words: notation === null ? (seen?.words ?? null) : formatDissectionNotation(notation),
    zones,
    entry: tears ?? withoutTears,
  };
}

const entryNotFound = (seen: DissectionExtent | null) =>
  seen?.entry.state === "not found" ? "not found" : null;

/** The entry tear as the type alone places it. */
function entryOfType(
  { type, distal }: DissectionNotation,
  zones: ReadonlyMap<string, boolean>,
): DissectionPicture["entry"] {
  if (type === "A") return [["0"]];
  if (type === "I") return "not found";
  if (distal === null) return null;
  const isAorticBeyondZoneZero = (zone: string) => zoneNumber(zone) >= 1 && zoneNumber(zone) <= 9;
  return [zoneIds.filter((zone) => isAorticBeyondZoneZero(zone) && zones.get(zone) === true)];
}

/** All schemes of a picture. */
export function schemesOf(picture: DissectionPicture, malperfusion: Malperfusion): Scheme[] {
  return [
    {
      scheme: "SVS/STS 2020",
      value: picture.type === null ? null : picture.words,
      because: svsReason(picture),
      source:
        "SVS/STS 2020 (J Vasc Surg 2020;71:723-47) as reproduced in ESC 2024 (doi 10.1093/eurheartj/ehae179), figure 29, page 3620",
      confirmed: picture.isTypeConfirmed,
    },
    stanford(picture),
    tem(picture, malperfusion),
    deBakey(picture),
  ];
}

function svsReason({ type, isTypeConfirmed }: DissectionPicture): string {
  if (type === null) return "the type by entry tear is not known";
  return isTypeConfirmed
    ? "by entry tear and extent"
    : "no entry tear found and zone 0 not dissected: that this is type B is recalled, not compared";
}

/** Stanford type with the group between: null where what is known does not decide. */
export function stanfordType({ zones }: DissectionPicture): StanfordType | null {
  const ascending = zones.get("0");
  if (ascending === undefined) return null;
  if (ascending) return "A";
  const arch = new Set(["1", "2"].map((zone) => zones.get(zone)));
  if (arch.has(true)) return "non-A-non-B";
  const isBeyond = zoneIds.some((zone) => zoneNumber(zone) >= 3 && zones.get(zone) === true);
  return arch.has(undefined) || !isBeyond ? null : "B";
}

const stanfordReasons: Record<StanfordType, string> = {
  A: "zone 0 is dissected, wherever the tear is",
  "non-A-non-B":
    "the arch (zone 1 or 2) is dissected and zone 0 is not; older texts count this as type B",
  B: "zones 0 to 2 are not dissected",
};

function stanford(picture: DissectionPicture): Scheme {
  const value = stanfordType(picture);
  return {
    scheme: "Stanford",
    value,
    because:
      value === null ? "whether zones 0 to 2 are dissected is not known" : stanfordReasons[value],
    source:
      "Stanford (Daily 1970, Ann Thorac Surg 10:237-47), second-hand from a reference text of 2023; non-A-non-B as in Sievers 2020 (Interact Cardiovasc Thorac Surg 30:451-7)",
    confirmed: true,
  };
}

function tem(picture: DissectionPicture, malperfusion: Malperfusion): Scheme {
  const type = stanfordType(picture);
  const entry = temEntry(picture.entry);
  const flow = temMalperfusion(malperfusion);
  const isKnown = type !== null || entry.part !== "E?" || flow.part !== "M?";
  return {
    scheme: "TEM",
    value: isKnown ? `${type ?? "type?"} ${entry.part} ${flow.part}` : null,
    because: [
      ...(type === null ? ["type: whether zones 0 to 2 are dissected is not known"] : []),
      entry.because,
      flow.because,
    ].join("; "),
    source: "Sievers 2020 (Interact Cardiovasc Thorac Surg 30:451-7), abstract",
    confirmed: true,
  };
}

/** E1 ascending, E2 arch, E3 descending; an iliac tear has no class. */
function temClass(zone: string): string | null {
  const number = zoneNumber(zone);
  if (number === 0) return "E1";
  if (number <= 2) return "E2";
  return number <= 9 ? "E3" : null;
}

function temEntry(entry: DissectionPicture["entry"]): { part: string; because: string } {
  if (entry === "not found") return { part: "E0", because: "entry: not found" };
  if (entry === null) return { part: "E?", because: "entry: nothing is said of it" };
  const classes = new Set(
    entry.flatMap((zones) => (zones.length === 0 ? [null] : zones.map(temClass))),
  );
  const [only, other] = [...classes];
  if (typeof only === "string" && other === undefined && classes.size === 1) {
    return { part: only, because: "entry: from the zones of the tear" };
  }
  const because =
    entry.length > 1
      ? "entry: tears in several parts, and which is the primary one is not said"
      : "entry: its zone is not known closely enough";
  return { part: "E?", because };
}

const temClassOf: Record<Territory, "M1" | "M2" | "M3" | null> = {
  coronary: "M1",
  "supra-aortic": "M2",
  "right arm": "M2",
  "left arm": "M2",
  "spinal cord": null,
  coeliac: "M3",
  "superior mesenteric": "M3",
  "right renal": "M3",
  "left renal": "M3",
  "right leg": "M3",
  "left leg": "M3",
};

function temMalperfusion({ territories, statedNone }: Malperfusion): {
  part: string;
  because: string;
} {
  const doubtful = territories.filter(
    ({ state, sources }) =>
      state === "sources differ" && sources.some((source) => source.state === "absent"),
  );
  if (doubtful.length > 0) {
    const named = doubtful.map(({ territory }) => territory).join(", ");
    return { part: "M?", because: `malperfusion: sources differ (${named})` };
  }
  const affected = territories.filter(({ state }) => state !== "absent");
  const byClass = Map.groupBy(affected, ({ territory }) => temClassOf[territory]);
  const withoutClass = byClass.has(null) ? ["the source names no class for the spinal cord"] : [];
  const parts = (["M1", "M2", "M3"] as const).flatMap((name) => {
    const own = byClass.get(name);
    return own ? [`${name}${signOf(own)}`] : [];
  });
  if (parts.length > 0) {
    const notes = [
      ...withoutClass,
      ...(parts.length > 1 ? ["how the source joins several classes was not seen"] : []),
      ...(parts.some((part) => part.length === 2)
        ? ["clinical or on imaging only is not clear"]
        : []),
    ];
    const because = ["malperfusion: as recorded", ...notes].join(", ");
    return { part: parts.join(" "), because };
  }
  if (withoutClass.length > 0) {
    return { part: "M?", because: `malperfusion: ${withoutClass.join("")}` };
  }
  return statedNone
    ? { part: "M0", because: "malperfusion: stated to be none" }
    : { part: "M?", because: "malperfusion: not recorded for all territories" };
}

/** "+" where clinical in any territory of the class, "-" where all are on imaging only; else no sign. */
function signOf(territories: readonly TerritoryMalperfusion[]): string {
  if (territories.some(({ state }) => state === "clinical")) return "+";
  return territories.every(({ state }) => state === "on imaging only") ? "-" : "";
}

function deBakey(picture: DissectionPicture): Scheme {
  return {
    scheme: "DeBakey",
    ...deBakeyType(picture),
    source:
      "DeBakey 1965 (J Thorac Cardiovasc Surg 49:130-49), second-hand from a reference text of 2023; the diaphragm taken as the end of zone 5 is common practice",
    confirmed: true,
  };
}

function deBakeyType({ zones, entry }: DissectionPicture): Pick<Scheme, "value" | "because"> {
  const isDissected = (zone: string): boolean | undefined => zones.get(zone);
  const unknown = (because: string) => ({ value: null, because });
  if (entry === "not found") return unknown("no entry tear was found: where it starts is unknown");
  if (entry === null) return unknown("where it starts is not stated");
  const starts = new Set(entry.flat().map(temClass));
  if (entry.some((tear) => tear.length === 0)) return unknown("where it starts is not clear");
  const [start, other] = [...starts];
  if (start === "E1" && other === undefined) {
    const reached = zoneIds.filter((zone) => zone !== "0").map(isDissected);
    if (reached.includes(true)) {
      return { value: "I", because: "starts in the ascending aorta and goes beyond it" };
    }
    return reached[0] === false
      ? { value: "II", because: "starts in the ascending aorta and stays there" }
      : unknown("whether it goes beyond the ascending aorta is not known");
  }
  const proximal = ["0", "1", "2"].map(isDissected);
  if (start === "E2" && other === undefined) return unknown("a start in the arch has no type");
  if (proximal[0] === true) {
    return unknown("texts differ where a tear beyond zone 0 runs back into it: left to the reader");
  }
  if (starts.size !== 1 || start !== "E3") return unknown("where it starts is not clear");
  if (proximal.includes(true)) {
    return unknown("texts differ where a descending tear runs back into the arch");
  }
  if (proximal.includes(undefined))
    return unknown("whether zones 0 to 2 are dissected is not known");
  if (!["3", "4", "5"].some((zone) => isDissected(zone) === true)) {
    return unknown("it starts in the abdominal aorta");
  }
  const below = zoneIds.filter((zone) => zoneNumber(zone) >= 6).map(isDissected);
  if (below.includes(true)) {
    return {
      value: "IIIb",
      because: "starts in the descending aorta and goes below the diaphragm",
    };
  }
  return below[0] === false
    ? { value: "IIIa", because: "starts in the descending aorta and stays above the diaphragm" }
    : unknown("whether it goes below the diaphragm is not known");
}
