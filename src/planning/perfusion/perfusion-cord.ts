import type { PatientCase } from "../../cases/patient-case.ts";
import { findingWords, latestFinding } from "../latest-finding.ts";
import type { LandingArch } from "../landing/landing-arch.ts";
import { landingData, type LandingZone } from "../landing/landing-data.ts";
import { type Coverage, type CoverageInterval, coverageOf } from "./perfusion-coverage.ts";
import { findingFact, type PerfusionFact, repairOf, type RepairState } from "./perfusion-facts.ts";

type ZoneId = LandingZone["zone"];

/** One of the four supplies of the cord that the registry of 2012 counts. "part closed": one of two, or a part of its length. */
export interface CordSupply {
  supply: "left subclavian" | "intercostal" | "lumbar" | "internal iliac";
  state: "open" | "part closed" | "closed" | "unknown";
  words: string;
  used: string[];
  missing: string[];
}

/** What a landing in one zone means for the cord. No score. */
export interface CordZone extends Coverage {
  zone: ZoneId;
  /** Why the zone has no meaning in this arch; null where it has one. */
  stopped: string | null;
  /** Null where it is not known whether the landing covers the left subclavian artery. */
  coversSubclavian: boolean | null;
  /** Usual re-feeding where it is covered; whether it is planned no sheet says. */
  subclavianRefedBy: string[];
  supplies: CordSupply[];
}

interface CordBasis {
  asOf: string;
  arch: LandingArch;
  coverage: readonly CoverageInterval[];
  siteMm: number;
}

const subclavian = "left subclavian artery";

/** The cord under a landing in one zone. */
export function cordZone(patientCase: PatientCase, zone: ZoneId, basis: CordBasis): CordZone {
  const { asOf, arch, siteMm } = basis;
  const { stopped, branches, branchesUnknown, borders, missing } = arch.zone(zone);
  const given = basis.coverage.find(({ fromZone }) => fromZone === zone) ?? null;
  const isUsualArch = borders === null && !arch.variants.includes("right arch");
  const coverage = coverageOf(patientCase, zone, given, { asOf, siteMm, isUsualArch, stopped });
  const coversSubclavian =
    stopped !== null
      ? null
      : branches.includes(subclavian)
        ? true
        : branchesUnknown === null
          ? false
          : null;
  const supplies = [
    subclavianSupply(patientCase, asOf, coversSubclavian),
    intercostalSupply(patientCase, asOf, given),
    lumbarSupply(patientCase, asOf),
    iliacSupply(patientCase, asOf),
  ];
  return {
    ...coverage,
    zone,
    stopped,
    coversSubclavian,
    subclavianRefedBy: coversSubclavian === true ? refeedingOf(zone, branches, arch) : [],
    supplies,
    missing: [
      ...new Set([
        ...(stopped === null ? [] : missing),
        ...coverage.missing,
        ...supplies.flatMap((one) => one.missing),
      ]),
    ],
  };
}

/** The usual re-feeding of the left subclavian artery under a landing, as far as it fits this arch. */
function refeedingOf(
  zone: ZoneId,
  covered: readonly string[],
  { variants }: LandingArch,
): string[] {
  const lines = landingData.zones.find((one) => one.zone === zone)?.refeeding ?? [];
  return lines
    .filter(
      ({ branches, notWith }) =>
        branches.includes(subclavian) &&
        branches.every((branch) => covered.includes(branch)) &&
        !notWith.some((variant) => variants.includes(variant)),
    )
    .map(({ how }) => how);
}

const isClosed = (state: string | null): boolean => state === "occluded" || state === "absent";

function subclavianSupply(
  patientCase: PatientCase,
  asOf: string,
  covers: boolean | null,
): CordSupply {
  const seen = latestFinding(patientCase, asOf, "patency", "left-subclavian-artery");
  const base = { supply: "left subclavian" as const, used: seen.used, missing: [] };
  const patency = findingWords(seen);
  if (isClosed(seen.state)) return { ...base, state: "closed", words: patency };
  if (covers === true) return { ...base, state: "closed", words: "covered, unless re-fed" };
  if (covers === null) {
    const missing = ["whether the landing covers the left subclavian artery"];
    return { ...base, state: "unknown", words: "whether it is covered is not known", missing };
  }
  if (seen.state === null) {
    const missing = ["patency of the left subclavian artery"];
    return { ...base, state: "unknown", words: `not covered; patency ${patency}`, missing };
  }
  return { ...base, state: "open", words: `not covered; ${patency}` };
}

function intercostalSupply(
  patientCase: PatientCase,
  asOf: string,
  given: CoverageInterval | null,
): CordSupply {
  const repair = repairOf(patientCase, ["4", "5"], asOf);
  const base = { supply: "intercostal" as const, used: [], missing: [] };
  const before = repair.isRepaired === true ? `; earlier repair: ${repair.words}` : "";
  if (given !== null) {
    return { ...base, state: "part closed", words: `covered along the new graft${before}` };
  }
  if (repair.isRepaired === true) {
    return { ...base, state: "part closed", words: `earlier repair: ${repair.words}` };
  }
  const missing = ["covered length"];
  return { ...base, state: "unknown", words: "what the new graft covers is not known", missing };
}

function lumbarSupply(patientCase: PatientCase, asOf: string): CordSupply {
  const repair = repairOf(patientCase, ["8", "9"], asOf);
  const state = { true: "closed", false: "open", null: "unknown" } as const;
  return {
    supply: "lumbar",
    state: state[`${repair.isRepaired}`],
    words: repair.isRepaired === true ? `earlier repair: ${repair.words}` : repair.words,
    used: [],
    missing: repair.missing,
  };
}

function iliacSupply(patientCase: PatientCase, asOf: string): CordSupply {
  const sides = (["right", "left"] as const).map((side) => ({
    side,
    seen: latestFinding(patientCase, asOf, "patency", `${side}-internal-iliac-artery`),
  }));
  const closed = sides.filter(({ seen }) => isClosed(seen.state));
  const unknown = sides.filter(({ seen }) => seen.state === null);
  const state =
    closed.length === sides.length
      ? "closed"
      : unknown.length > 0
        ? "unknown"
        : closed.length > 0
          ? "part closed"
          : "open";
  return {
    supply: "internal iliac",
    state,
    words: sides.map(({ side, seen }) => `${side} ${findingWords(seen)}`).join("; "),
    used: sides.flatMap(({ seen }) => seen.used),
    missing: unknown.map(({ side }) => `patency of the ${side} internal iliac artery`),
  };
}

/** Earlier repair, abdominal aneurysm and internal iliac arteries: what bears on the cord under any landing. */
export function cordFacts(patientCase: PatientCase, asOf: string): PerfusionFact[] {
  const repairFact = (id: string, label: string, state: RepairState): PerfusionFact => ({
    id,
    label,
    words: state.words,
    used: [],
    missing: state.missing,
  });
  const abdominal = repairOf(patientCase, ["6", "7", "8", "9"], asOf);
  return [
    repairFact(
      "repair-thoracic",
      "Earlier repair of the thoracic aorta",
      repairOf(patientCase, ["0", "1", "2", "3", "4", "5"], asOf),
    ),
    repairFact("repair-abdominal", "Earlier repair of the abdominal aorta", abdominal),
    abdominalAneurysm(patientCase, abdominal),
    findingFact(patientCase, asOf, "patency", "right-internal-iliac-artery"),
    findingFact(patientCase, asOf, "patency", "left-internal-iliac-artery"),
  ];
}

const abdominalDiagnoses = new Set(["abdominal aneurysm", "thoraco-abdominal aneurysm"]);

/** Published odds are of an abdominal aneurysm, repaired or not. */
function abdominalAneurysm(
  { facts: { diagnoses } }: PatientCase,
  repair: RepairState,
): PerfusionFact {
  const base = { id: "aneurysm-abdominal", label: "Abdominal aneurysm, repaired or not", used: [] };
  const named = (diagnoses ?? []).filter((one) => abdominalDiagnoses.has(one));
  if (named.length > 0) return { ...base, words: `diagnosis: ${named.join(", ")}`, missing: [] };
  if (repair.isRepaired === true) {
    const words = `repaired: ${repair.words}; whether for an aneurysm is not stated`;
    return { ...base, words, missing: ["what the abdominal aorta was repaired for"] };
  }
  if (diagnoses === null) return { ...base, words: "not stated", missing: ["diagnosis"] };
  return { ...base, words: "not among the diagnoses", missing: repair.missing };
}
