import { archScheme } from "../../anatomy/arch-variants.ts";
import type { ArchConvention } from "../../anatomy/arch-variants.ts";
import { placeById } from "../../anatomy/places.ts";
import { archOf } from "../../cases/arch.ts";
import type { Measurement, PatientCase, Station, StationMark } from "../../cases/patient-case.ts";
import type { Spread } from "./sound-stretch.ts";

/** A border of a zone on the centreline, in mm. */
export interface ZoneBorder extends Spread {
  /** "the distal edge of the left subclavian artery". */
  what: string;
  /** Keys of the stations that carry the mark, and of a diameter that an edge was reckoned with. */
  used: string[];
}

export type Border = ZoneBorder | { missing: string };

interface BorderMark {
  place: string;
  edge: "proximal edge" | "distal edge" | null;
  plusMm: number;
}

/** What the words of a zone's border in places.yaml mean on a centreline. */
const marksByWords: Readonly<Record<string, BorderMark>> = {
  "sinotubular junction": { place: "sinotubular-junction", edge: null, plusMm: 0 },
  "distal edge of the innominate artery origin": distalEdgeOf("innominate-artery"),
  "distal edge of the left common carotid artery origin": distalEdgeOf(
    "left-common-carotid-artery",
  ),
  "distal edge of the left subclavian artery origin": distalEdgeOf("left-subclavian-artery"),
  "2 cm distal to it": distalEdgeOf("left-subclavian-artery", 20),
  "2 cm distal to the left subclavian artery": distalEdgeOf("left-subclavian-artery", 20),
  "mid-descending aorta, about T6": { place: "mid-descending", edge: null, plusMm: 0 },
  "coeliac artery": { place: "coeliac-artery", edge: "proximal edge", plusMm: 0 },
};

function distalEdgeOf(place: string, plusMm = 0): BorderMark {
  return { place, edge: "distal edge", plusMm };
}

const zoneFive = { from: "mid-descending aorta, about T6", to: "coeliac artery" };
const zoneIds = ["0", "1", "2", "3", "4", "5"] as const;

export interface ZoneBorders {
  /** Both borders of a zone "0" to "5"; null for a zone that this arch has not. */
  of: (zone: string) => { from: Border; to: Border } | null;
  /** The zone that a distance surely lies in; null where the borders around it are not known. */
  zoneAt: (atMm: number) => string | null;
}

/**
 * The borders of zones 0 to 5 on a centreline, from the marks of its stations. A branch given by its centre or by the
 * other edge counts only with a diameter of its origin in the same exam (`branchDiameters`), of which half the 95 %
 * interval is `errorMmOf`.
 */
export function zoneBorders(
  stations: readonly Station[],
  branchDiameters: readonly Measurement[],
  {
    patientCase,
    archConventions,
    errorMmOf,
  }: {
    patientCase: PatientCase;
    archConventions: readonly ArchConvention[];
    errorMmOf: (reading: Measurement) => number;
  },
): ZoneBorders {
  const { zones } = archScheme(archOf(patientCase).variants ?? [], archConventions);
  const borderOf = (words: string, zone: string): Border => {
    const mark = marksByWords[words];
    if (!mark) return { missing: `the borders of zone ${zone} in this arch on the centreline` };
    return borderAt(mark, stations, { branchDiameters, errorMmOf });
  };
  const borders = new Map(
    zoneIds.map((zone) => {
      const words = zone === "5" ? zoneFive : zones[zone];
      return [
        zone as string,
        words && { from: borderOf(words.from, zone), to: borderOf(words.to, zone) },
      ];
    }),
  );
  return {
    of: (zone) => borders.get(zone) ?? null,
    zoneAt: (atMm) => {
      const around = [...borders].find(([, own]) => {
        if (own === null || "missing" in own.from || "missing" in own.to) return false;
        return own.from.at <= atMm && atMm < own.to.at;
      });
      return around?.[0] ?? null;
    },
  };
}

type MarkedStation = Station & { mark: StationMark };

function borderAt(
  { place, edge, plusMm }: BorderMark,
  stations: readonly Station[],
  {
    branchDiameters,
    errorMmOf,
  }: {
    branchDiameters: readonly Measurement[];
    errorMmOf: (reading: Measurement) => number;
  },
): Border {
  const { label } = placeById(place);
  const name = edge === null ? `the ${label}` : `the ${edge} of the ${label}`;
  const what = plusMm === 0 ? name : `${plusMm} mm beyond ${name}`;
  const marked = stations.filter(
    (station): station is MarkedStation => station.mark?.place.id === place,
  );
  const exact = marked.filter(({ mark }) => edge === null || mark.edge === edge);
  const used = exact.map(({ key }) => key);
  if (exact.length > 0) {
    const places = exact.map(({ distanceMm }) => distanceMm + plusMm);
    const [low, high] = [Math.min(...places), Math.max(...places)];
    return { at: (low + high) / 2, low, high, what, used };
  }
  const missing = `${name.replace(/^the /, "")} on the centreline`;
  const other = marked.find(({ mark }) => mark.edge !== null);
  const diameter = branchDiameters.find(
    ({ place: at, quantity }) => at.id === place && quantity === "diameter",
  );
  if (!other || edge === null) return { missing };
  if (!diameter) {
    return {
      missing: `${missing} (its ${other.mark.edge} alone, without a diameter of the origin)`,
    };
  }
  const shares = other.mark.edge === "centre" ? 0.5 : 1;
  const sign = edge === "distal edge" ? 1 : -1;
  const at = other.distanceMm + sign * shares * diameter.value + plusMm;
  const errorMm = shares * errorMmOf(diameter);
  const how = `${what}, reckoned from its ${other.mark.edge} and the diameter of its origin`;
  return {
    at,
    low: at - errorMm,
    high: at + errorMm,
    what: how,
    used: [other.key, diameter.key],
  };
}
