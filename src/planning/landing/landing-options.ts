import type { Dissection } from "../../cases/dissection.ts";
import type { PathId } from "../../quantities/measured-quantity.ts";
import type { PatientCase } from "../../cases/patient-case.ts";
import { dependantsOf } from "../branch-dependants.ts";
import { isDominanceKnown } from "../known-dominance.ts";
import type { PlanningCheck } from "../planning-check.ts";
import { mayBeDissected } from "../whole-lumen.ts";
import { archTypeOf } from "./arch-type.ts";
import { diameterChecks, diametersOfZone } from "./diameter-checks.ts";
import { type LandingArch, landingArch } from "./landing-arch.ts";
import { landingData, type LandingZone } from "./landing-data.ts";
import type { LandingSegment } from "./landing-segment.ts";
import {
  type LandingWall,
  landingWall,
  type ZoneDissected,
  zoneDissected,
} from "./landing-zone-facts.ts";
import type { SegmentBasis } from "./segment-basis.ts";
import { segmentChecks } from "./segment-checks.ts";
import { zoneStations, type ZoneStations } from "./zone-stations.ts";
import { statedLengths } from "./zone-values.ts";

/** Everything computed for one candidate proximal landing zone. Nothing here ranks the zones. */
export interface LandingOption {
  zone: LandingZone["zone"];
  label: string;
  /** Why nothing is computed: the zone has no meaning in this arch, and what would give it one. Null where it has one. */
  stopped: string | null;
  /** What the option takes for granted about the arch; null where the arch is stated. */
  assumes: string | null;
  /** Where borders and branches come from: the published map, and a site's convention where one is used. */
  zoneSource: string;
  /** What the zone consists of at the as-of date: "native wall", "graft since 2019, …", "not stated: …". */
  wall: string;
  /** Null where the case speaks of no dissection. */
  dissected: ZoneDissected | null;
  /** As readers of the latest exam state them, also where the stretch is worked out from sections. */
  soundLengths: { path: PathId; valueMm: number; measurement: string }[];
  /** Of readings and sections of the whole vessel; `measurements` are their keys. */
  diameterRange: { lowMm: number; highMm: number; measurements: string[] } | null;
  /** The stretch that a proximal edge in this zone would lie on: under the strictest conditions, and under the widest where they change it. */
  segments: LandingSegment[];
  branchesCovered: string[];
  /** Why a landing here may cover more branches; null where all are known. */
  branchesUnknown: string | null;
  movedFirst: string[];
  /** Published seal lengths on the stretch of the strictest conditions, and published diameters. */
  checks: PlanningCheck[];
  missing: string[];
  questions: { text: string; answeredBy: string }[];
}

/** One option per candidate zone 0 to 4, in that order, also where the numbers fail or are missing. */
export function landingOptions(
  patientCase: PatientCase,
  segments: readonly LandingSegment[],
  basis: SegmentBasis,
): LandingOption[] {
  const arch = landingArch(patientCase, basis.archConventions);
  const { dissection, asOf } = basis;
  const isStated = statedIn(patientCase, asOf, arch);
  const sections = zoneStations(patientCase, basis);
  return landingData.zones.map((zone) => {
    const wall = landingWall(zone.zone, patientCase.facts.priorRepairs, asOf);
    const facts = zoneFacts(zone, { arch, wall, dissection, isStated });
    const own = segments.filter((segment) => segment.zone === zone.zone);
    const stopped = facts.stopped === null ? null : { why: facts.stopped, missing: facts.missing };
    const numbers = numbersOf(zone, own, { patientCase, wall, basis, sections, stopped });
    return {
      ...facts,
      ...numbers,
      missing: [...new Set([...facts.missing, ...numbers.missing])],
    };
  });
}

type Numbers = Pick<
  LandingOption,
  "soundLengths" | "diameterRange" | "segments" | "checks" | "missing"
>;

/** What holds of a zone whatever was measured in it. */
function zoneFacts(
  zone: LandingZone,
  {
    arch,
    wall,
    dissection,
    isStated,
  }: {
    arch: LandingArch;
    wall: LandingWall;
    dissection: Dissection | null;
    isStated: (fact: AskedFact) => boolean;
  },
): Omit<LandingOption, Exclude<keyof Numbers, "missing">> {
  const { stopped, missing, borders, branches, branchesUnknown } = arch.zone(zone.zone);
  const name = `zone ${zone.zone}`;
  const usual = stopped === null ? zone.label : name;
  return {
    zone: zone.zone,
    label: borders === null ? usual : `${name}, ${borders}`,
    stopped,
    assumes: stopped === null ? arch.assumes : null,
    zoneSource: arch.source,
    wall: wall.words,
    dissected: zoneDissected(zone.zone, dissection, wall),
    branchesCovered: branches,
    branchesUnknown,
    movedFirst: movedFirst(zone, branches, arch),
    missing,
    questions: questionsOf(zone, stopped, arch, isStated),
  };
}

/** The usual re-feeding as far as it fits this arch; a covered branch that no line of it names stands on its own. */
function movedFirst(zone: LandingZone, covered: string[], { variants }: LandingArch): string[] {
  const lines = zone.refeeding.filter(
    ({ branches, notWith }) =>
      branches.every((branch) => covered.includes(branch)) &&
      !notWith.some((variant) => variants.includes(variant)),
  );
  const named = new Set(lines.flatMap(({ branches }) => branches));
  return [
    ...lines.map(({ how }) => how),
    ...covered
      .filter((branch) => !named.has(branch))
      .map((branch) => `${branch}, on its own (common practice without a source)`),
  ];
}

type AskedFact = NonNullable<LandingZone["questions"][number]["untilStated"]>;

/** Whether the case answers, without contradiction, what a question asks. */
function statedIn(
  patientCase: PatientCase,
  asOf: string,
  arch: LandingArch,
): (fact: AskedFact) => boolean {
  const { names, isDenied } = dependantsOf(patientCase, asOf, "left-subclavian-artery");
  const answers: Record<AskedFact, boolean> = {
    arch: arch.isStated,
    "what hangs on the left subclavian artery": names.length > 0 !== isDenied,
    "vertebral dominance": isDominanceKnown(patientCase, asOf),
  };
  return (fact) => answers[fact];
}

function questionsOf(
  zone: LandingZone,
  stopped: string | null,
  { isStated: isArchStated, isContradictory }: LandingArch,
  isStated: (fact: AskedFact) => boolean,
): LandingOption["questions"] {
  const ofArch = isContradictory
    ? "Which arch is it? The statements contradict each other."
    : "Is the arch the usual one? It is not stated.";
  const first = isArchStated ? [] : [{ text: ofArch, answeredBy: "imaging lab" }];
  if (stopped !== null) {
    const text = "How does the site divide this arch into zones?";
    return isArchStated ? [{ text, answeredBy: "whole team" }] : first;
  }
  const own = zone.questions.filter(
    ({ untilStated }) => untilStated === undefined || !isStated(untilStated),
  );
  return [...first, ...own.map(({ text, answeredBy }) => ({ text, answeredBy }))];
}

/** What the measurements of a zone give. */
function numbersOf(
  zone: LandingZone,
  segments: LandingSegment[],
  {
    patientCase,
    wall,
    basis,
    sections,
    stopped,
  }: {
    patientCase: PatientCase;
    wall: LandingWall;
    basis: SegmentBasis;
    sections: ZoneStations | null;
    stopped: { why: string; missing: string[] } | null;
  },
): Numbers {
  const stated = stopped === null ? statedLengths(zone.zone, patientCase, basis).readings : [];
  const { readings, stations, date, missing } =
    stopped === null
      ? diametersOfZone(zone, patientCase, {
          wall,
          mayBeDissected: mayBeDissected(patientCase, basis.dissection),
          asOf: basis.asOf,
          sections,
        })
      : { readings: [], stations: [], date: "", missing: [] };
  const errorMmOf = (reading: (typeof readings)[number]): number =>
    1.96 * basis.readingSdMmOf(reading);
  const [strictest] = segments;
  const checks = [
    ...(strictest === undefined
      ? []
      : segmentChecks(strictest, archTypeOf(patientCase, basis.asOf))),
    ...diameterChecks(zone, { readings, stations, errorMmOf, date }, { wall, stopped }),
  ];
  const across = readings.filter(({ quantity }) => quantity !== "perimeter" && quantity !== "area");
  const values = [...across.map(({ value }) => value), ...stations.map(({ valueMm }) => valueMm)];
  return {
    soundLengths: stated.map(({ path, value, key }) => ({
      path,
      valueMm: value,
      measurement: key,
    })),
    diameterRange:
      values.length === 0
        ? null
        : {
            lowMm: Math.min(...values),
            highMm: Math.max(...values),
            measurements: [...across, ...stations].map(({ key }) => key),
          },
    segments,
    checks,
    missing: [
      ...missing,
      ...(strictest?.missing ?? []),
      ...checks.flatMap((check) => check.missing),
    ],
  };
}
