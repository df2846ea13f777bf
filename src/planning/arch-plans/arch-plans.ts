import type { ArchConvention } from "../../anatomy/arch-variants.ts";
import type { Dissection } from "../../cases/dissection.ts";
import type { Measurement, PatientCase, Station } from "../../cases/patient-case.ts";
import { isHeritable } from "../../cases/vocabulary.ts";
import { ageInYears } from "../../quantities/age-in-years.ts";
import {
  archPlanData,
  type PlanRow,
  type RefeedingLine,
  revascularisation,
} from "./arch-plan-data.ts";
import { type LandingArch, landingArch } from "../landing/landing-arch.ts";
import { landingZoneIds } from "../landing/landing-data.ts";
import type { LandingSegment } from "../landing/landing-segment.ts";
import { zoneStations } from "../landing/zone-stations.ts";
import { patientPlanFacts, type PatientPlanFacts, type PlanFact } from "./patient-plan-facts.ts";
import type { PlanContext } from "./plan-context.ts";
import { requirementCheck } from "./plan-requirements.ts";
import type { PlanningCheck } from "../planning-check.ts";
import type { Prompt } from "../prompts/prompt.ts";

/** What a body advises, in own words. `strength` is null where it is not known. */
export interface PlanAdvice {
  text: string;
  body: string;
  year: number;
  strength: string | null;
  confirmed: boolean;
  source: string;
}

/** One way of dealing with the proximal end. Nothing here ranks the plans or recommends one. */
export interface ArchPlan {
  id: PlanRow["id"];
  label: string;
  /** Where the fabric's proximal edge lies; null where open surgery makes the proximal end. */
  proximalZone: PlanRow["proximalZone"];
  /** Branches that the fabric covers in the patient's arch. */
  covers: string[];
  /** Why it may cover or rebuild others; null where all are known. */
  coversUnknown: string | null;
  /** How each branch that is covered or rebuilt gets its blood, branch by branch. */
  refeeding: string[];
  requirements: PlanningCheck[];
  /** On the left subclavian artery; empty where the plan does not cover it. */
  advice: PlanAdvice[];
  facts: PlanFact[];
  questions: Prompt[];
  /** What is missing for the requirements and the facts, each once. */
  missing: string[];
}

/** What the plans stand on besides the case. */
export interface ArchPlanBasis {
  /** YYYY-MM-DD. */
  asOf: string;
  dissection: Dissection | null;
  archConventions: readonly ArchConvention[];
  /** SD of a diameter reading, in mm. */
  readingSdMmOf: (reading: Measurement) => number;
  /** The same of a station; without it stations are not judged. */
  stationSdMmOf?: (station: Station) => number;
  /** Landing segments under the strictest published limits are used; without them, sound lengths as measured. */
  segments?: { proximal: readonly LandingSegment[]; distal: readonly LandingSegment[] };
}

/** One entry per way, from the descending aorta up to zone 0, then hybrid and open, also where requirements fail. */
export function archPlans(patientCase: PatientCase, basis: ArchPlanBasis): ArchPlan[] {
  const context: PlanContext = {
    patientCase,
    asOf: basis.asOf,
    dissection: basis.dissection,
    arch: landingArch(patientCase, basis.archConventions),
    readingSdMmOf: basis.readingSdMmOf,
    stationSdMmOf: basis.stationSdMmOf ?? null,
    sections: basis.stationSdMmOf
      ? zoneStations(patientCase, { ...basis, stationSdMmOf: basis.stationSdMmOf })
      : null,
    segments: basis.segments ? strictest(basis.segments) : null,
  };
  const patient = patientPlanFacts(context);
  return archPlanData.plans.map((row) => planOf(row, context, patient));
}

function strictest({
  proximal,
  distal,
}: NonNullable<ArchPlanBasis["segments"]>): PlanContext["segments"] {
  const isStrict = ({ conditions }: LandingSegment): boolean =>
    conditions === "strictest published";
  return { proximal: proximal.filter(isStrict), distal: distal.filter(isStrict) };
}

function planOf(row: PlanRow, context: PlanContext, patient: PatientPlanFacts): ArchPlan {
  const { id, label, proximalZone } = row;
  const branches = branchesOf(row, context.arch);
  const lines = row.branches === "covered" ? linesFor(row, branches.known, context.arch) : [];
  const ids = new Set([...row.requires, ...lines.flatMap(({ requires }) => requires)]);
  const requirements = [...ids].map((requirement) => requirementCheck(requirement, context));
  const coversSubclavian =
    proximalZone !== null &&
    row.branches === "covered" &&
    branches.known.includes("left subclavian artery");
  const spoken = <T extends { zones: readonly string[] }>(rows: readonly T[]): T[] =>
    coversSubclavian ? rows.filter(({ zones }) => zones.includes(proximalZone)) : [];
  const missing = [
    ...branches.missing,
    ...requirements.flatMap((check) => check.missing),
    ...patient.missing,
  ];
  return {
    id,
    label,
    proximalZone,
    covers: row.branches === "covered" ? branches.known : [],
    coversUnknown: branches.unknown,
    refeeding: refeedingOf(row, branches, lines),
    requirements,
    advice: spoken(revascularisation.advice).map(
      ({ text, body, year, strength, confirmed, source }) => ({
        text,
        body,
        year,
        strength,
        confirmed,
        source,
      }),
    ),
    facts: [
      ...patient.facts,
      ...[
        ...archPlanData.facts.filter(({ plans }) => plans.includes(id)),
        ...spoken(revascularisation.evidence),
      ].map(({ text, source, confirmed }) => ({
        of: "publication" as const,
        text,
        source,
        confirmed,
      })),
    ],
    questions: [...row.questions, ...questionsOf(row, context, { requirements, patient })],
    missing: [...new Set(missing)],
  };
}

interface Branches {
  known: string[];
  /** Why there may be others. */
  unknown: string | null;
  /** False where the zone has no meaning in this arch: known are then only the branches of the zones further on. */
  isDefined: boolean;
  missing: string[];
}

/** The branches that the plan covers or rebuilds; surgery that rebuilds the arch rebuilds all of them. */
function branchesOf({ branches, proximalZone }: PlanRow, arch: LandingArch): Branches {
  if (branches === "untouched") return { known: [], unknown: null, isDefined: true, missing: [] };
  const id = proximalZone ?? "0";
  const zone = arch.zone(id);
  const missing = [...zone.missing, ...(arch.isStated ? [] : ["arch variant (or usual)"])];
  if (zone.stopped !== null) {
    const further = landingZoneIds.slice(landingZoneIds.indexOf(id)).map((next) => arch.zone(next));
    const known = further.find(({ stopped }) => stopped === null)?.branches ?? [];
    return { known, unknown: zone.stopped, isDefined: false, missing };
  }
  const unknown = zone.branchesUnknown ?? arch.assumes;
  return { known: zone.branches, unknown, isDefined: true, missing };
}

/** The lines of re-feeding that fit this landing and this arch. */
function linesFor(
  { proximalZone }: PlanRow,
  covered: readonly string[],
  { variants }: LandingArch,
): RefeedingLine[] {
  return revascularisation.refeeding.filter(
    ({ branch, zones, notWith }) =>
      zones.some((zone) => zone === proximalZone) &&
      covered.includes(branch) &&
      !notWith.some((variant) => variants.includes(variant)),
  );
}

function refeedingOf(
  { branches }: PlanRow,
  { known, unknown, isDefined }: Branches,
  lines: readonly RefeedingLine[],
): string[] {
  if (branches === "untouched") return [];
  const joined = "joined to the arch graft by open surgery";
  const others = isDefined ? [] : [`other arch branches: not known. ${unknown}`];
  if (branches === "rebuilt") return [...known.map((branch) => `${branch}, ${joined}`), ...others];
  const named = new Set(lines.map(({ branch }) => branch));
  return [
    ...lines.map(({ how, source }) => `${how} (${source})`),
    ...known
      .filter((branch) => !named.has(branch))
      .map((branch) => `${branch}, on its own: no usual way fits this arch`),
    ...others,
  ];
}

/** Questions that the facts of the patient raise on this plan, at most one of a kind. */
function questionsOf(
  { group, branches }: PlanRow,
  { patientCase, asOf }: PlanContext,
  { requirements, patient }: { requirements: readonly PlanningCheck[]; patient: PatientPlanFacts },
): Prompt[] {
  const { aetiology } = patientCase.facts;
  const { birthDate } = patientCase.patient;
  const takesStentGraft = group !== "open";
  const gap = requirements.find(
    ({ id, outcome }) => id.startsWith("zone-1-gap") && outcome === "not-met",
  );
  const questions: Prompt[] = [];
  if (gap !== undefined) {
    questions.push({
      text: "Where does the seal lie if zone 1 alone is too short for it?",
      raisedBy: `${gap.label}: not met, ${gap.reason}`,
      answeredBy: "aortic surgeon and imaging lab",
    });
  }
  if (branches !== "untouched" && patient.diseasedBranches.length > 0) {
    questions.push({
      text: "Is each branch sound along its length where a graft would be joined to it?",
      raisedBy: patient.diseasedBranches.join("; "),
      answeredBy: "vascular surgeon and imaging lab",
    });
  }
  if (takesStentGraft && birthDate !== null) {
    questions.push({
      text: "Does the meeting count this patient as young for a stent graft?",
      raisedBy: `age ${ageInYears(birthDate, asOf)}; no source seen gives a limit`,
      answeredBy: "whole team",
    });
  }
  if (takesStentGraft && aetiology !== null && isHeritable(aetiology)) {
    questions.push({
      text: "Does the stent graft end in a native wall, or in a surgical graft?",
      raisedBy: aetiology,
      answeredBy: "cardiac and aortic surgeon",
    });
  }
  return questions;
}
