import { formatLength } from "../quantities/format-length.ts";
import { holds } from "../quantities/limit.ts";
import { dissectionAge } from "./dissection-bands.ts";
import type { Malperfusion, MalperfusionSource, Territory } from "./malperfusion.ts";
import type { Measurement, PatientCase } from "./patient-case.ts";

/** What a body calls a recorded fact in acute type B dissection. It grades a fact, never a patient. */
export interface SeverityStatement {
  /** "left renal: malperfusion on imaging only". */
  fact: string;
  says: "complicated" | "high risk";
  body: string;
  source: string;
  /** Whether the row was compared with that source. */
  confirmed: boolean;
  /** When the fact was recorded, and whether that was in the acute phase. */
  timing: string;
  /** Keys of measurements and findings. */
  used: string[];
}

const bodies = {
  svs: {
    body: "SVS/STS 2020",
    source:
      "SVS/STS 2020 as PMID 38574807 (doi 10.1016/j.avsg.2024.01.012), abstract, gives it; the document's own page not seen",
    confirmed: true,
  },
  esc: {
    body: "ESC 2024",
    source: "ESC 2024 (doi 10.1093/eurheartj/ehae179), figure 33, page 3626, labels only",
    confirmed: true,
  },
  acc: {
    body: "ACC/AHA 2022",
    source: "ACC/AHA 2022 (doi 10.1161/CIR.0000000000001106), Table 27",
    confirmed: true,
  },
} as const;
type BodyId = keyof typeof bodies;
type Claim = readonly [BodyId, SeverityStatement["says"]];

const acuteToDay = 14;

/** Table 27 speaks of a major branch that is closed, in part or whole, with or without clinical ischaemia. */
const notABranch: ReadonlySet<Territory> = new Set<Territory>(["spinal cord"]);

/**
 * Malperfusion, an aortic diameter above 40 mm in a dissected zone and a false lumen above 22 mm, as recorded in the
 * acute phase (first 14 days) or without a known time; what is recorded later or before the onset is passed over.
 */
export function severityStatements(
  { facts, exams, measurements }: PatientCase,
  malperfusion: Malperfusion,
  isDissected: (zone: string) => boolean,
): SeverityStatement[] {
  const timingAt = (date: string): string | null => {
    const { days } = dissectionAge(facts.onsetDate, date);
    if (days === null) return `recorded on ${date}; whether that was the acute phase is not known`;
    if (days < 0 || days > acuteToDay) return null;
    return `recorded on ${date}, day ${days} after the onset`;
  };
  const undated = "from the case sheet, which gives no date for it";
  const ofTerritories = malperfusion.territories.flatMap(({ territory, sources }) =>
    sources.flatMap((source) => {
      const timing = source.date === null ? undated : timingAt(source.date);
      const where = source.place === null ? territory : `${territory} (${source.place})`;
      const fact = `${where}: malperfusion ${stateWords[source.state]}`;
      return timing === null ? [] : claimed(fact, claimsOf(territory, source), timing, source.used);
    }),
  );
  const ofSizes = exams.flatMap(({ key, imagingDate }) => {
    const timing = timingAt(imagingDate);
    if (timing === null) return [];
    const own = measurements.filter(
      ({ exam, quantity, statistic, place }) =>
        exam === key &&
        quantity === "diameter" &&
        statistic !== "minimum" &&
        place.kind !== "branch" &&
        place.region !== "iliac",
    );
    const inDissection = own.filter(
      ({ lumen, place: { zones } }) =>
        lumen === "whole" && zones.length === 1 && zones.every(isDissected),
    );
    return [
      ...sizeStatements(largest(inDissection), "aortic diameter", timing, aorticClaims),
      ...sizeStatements(
        largest(own.filter(({ lumen }) => lumen === "false")),
        "false lumen diameter",
        timing,
        falseLumenClaims,
      ),
    ];
  });
  return [...ofTerritories, ...ofSizes];
}

const stateWords: Record<MalperfusionSource["state"], string> = {
  clinical: "with clinical signs",
  "on imaging only": "on imaging only",
  absent: "absent",
  "not stated": "(clinical or on imaging only is not stated)",
};

/** Where the state is not stated only the body that asks for no signs can be quoted. */
function claimsOf(territory: Territory, { state }: MalperfusionSource): Claim[] {
  const acc: Claim[] = notABranch.has(territory) ? [] : [["acc", "complicated"]];
  switch (state) {
    case "clinical":
      return [["svs", "complicated"], ["esc", "complicated"], ...acc];
    case "on imaging only":
      return [["svs", "high risk"], ["esc", "high risk"], ...acc];
    case "not stated":
      return acc;
    case "absent":
      return [];
  }
}

const claimed = (
  fact: string,
  claims: readonly Claim[],
  timing: string,
  used: string[],
): SeverityStatement[] => claims.map(([id, says]) => ({ fact, says, ...bodies[id], timing, used }));

function largest(measurements: readonly Measurement[]): Measurement | null {
  return measurements.toSorted((a, b) => b.value - a.value)[0] ?? null;
}

const aorticClaims = (valueMm: number): Claim[] =>
  holds(valueMm, ">", 40)
    ? [
        ["svs", "high risk"],
        ["esc", "high risk"],
      ]
    : [];

/** ESC 2024 prints "> 20-22 mm", which decides nothing between the two. */
const falseLumenClaims = (valueMm: number): Claim[] =>
  holds(valueMm, ">", 22)
    ? [
        ["svs", "high risk"],
        ["esc", "high risk"],
      ]
    : [];

function sizeStatements(
  measurement: Measurement | null,
  name: string,
  timing: string,
  claims: (valueMm: number) => Claim[],
): SeverityStatement[] {
  if (measurement === null) return [];
  const { place, value, key } = measurement;
  const fact = `${name} ${formatLength(value)} at ${place.label}`;
  return claimed(fact, claims(value), timing, [key]);
}
