import type { ArchConvention } from "../anatomy/arch-variants.ts";
import { type Dissection, dissectionOf } from "../cases/dissection.ts";
import type { CaseFacts, Measurement, PatientCase } from "../cases/patient-case.ts";
import type { PathId } from "../quantities/measured-quantity.ts";
import type { InventoryRow } from "../readers/csv/inventory.ts";
import { type LandingArch, landingArch } from "./landing-arch.ts";
import {
  checksOfStopped,
  hasConditionOfNativeWall,
  isCurved,
  type LandingCheck,
  landingChecks,
  zoneName,
} from "./landing-checks.ts";
import { landingData, type LandingZone, type OversizingWindow } from "./landing-data.ts";
import {
  type LandingWall,
  landingWall,
  type ZoneDissected,
  zoneDissected,
} from "./landing-zone-facts.ts";
import { graftInterval, type GraftInterval, oversizingWindow, rowsThatFit } from "./oversizing.ts";
import { referenceDiameter, type ReferenceDiameter } from "./reference-diameter.ts";

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
  soundLengths: { path: PathId; valueMm: number; measurement: string }[];
  diameterRange: { lowMm: number; highMm: number; measurements: string[] } | null;
  reference: { diameterMm: number; method: string; edge: string; measurements: string[] } | null;
  oversizing:
    | ({
        situation: string;
        lowPercent: number;
        highPercent: number;
        source: string;
        /** Inventory rows whose proximal diameter lies in the window; null without an inventory. */
        inventoryRows: { id: string; proximalMm: number }[] | null;
      } & GraftInterval)
    | null;
  branchesCovered: string[];
  /** Why a landing here may cover more branches; null where all are known. */
  branchesUnknown: string | null;
  movedFirst: string[];
  checks: LandingCheck[];
  missing: string[];
  questions: { text: string; answeredBy: string }[];
}

/** What the options stand on besides the case. `readingSdMmOf` gives the SD of a diameter reading. */
export interface PlanningBasis {
  asOf: string;
  readingSdMmOf: (reading: Measurement) => number;
  /** Null where the site names no inventory. */
  inventory: readonly InventoryRow[] | null;
  /** How the site divides arches that are not the usual one. */
  archConventions: readonly ArchConvention[];
}

/** One option per candidate zone 0 to 4, in that order, also where the numbers fail or are missing. */
export function landingOptions(patientCase: PatientCase, basis: PlanningBasis): LandingOption[] {
  const arch = landingArch(patientCase, basis.archConventions);
  const dissection = dissectionOf(patientCase, basis.asOf);
  return landingData.zones.map((zone) => {
    const wall = landingWall(zone.zone, patientCase.facts.priorRepairs, basis.asOf);
    const facts = zoneFacts(zone, { arch, wall, dissection });
    const { stopped } = facts;
    const numbers =
      stopped === null
        ? numbersOf(zone, { patientCase, wall, dissection, basis })
        : { ...noNumbers, checks: checksOfStopped(zone, stopped) };
    return { ...facts, ...numbers, missing: [...facts.missing, ...numbers.missing] };
  });
}

type NumberFields =
  | "soundLengths"
  | "diameterRange"
  | "reference"
  | "oversizing"
  | "checks"
  | "missing";

const noNumbers = {
  soundLengths: [],
  diameterRange: null,
  reference: null,
  oversizing: null,
  missing: [],
} as const satisfies Partial<Pick<LandingOption, NumberFields>>;

/** What holds of a zone whatever was measured in it. */
function zoneFacts(
  zone: LandingZone,
  {
    arch,
    wall,
    dissection,
  }: { arch: LandingArch; wall: LandingWall; dissection: Dissection | null },
): Omit<LandingOption, Exclude<NumberFields, "missing">> {
  const { stopped, missing, borders, branches, branchesUnknown } = arch.zone(zone.zone);
  const usual = stopped === null ? zone.label : zoneName(zone);
  return {
    zone: zone.zone,
    label: borders === null ? usual : `${zoneName(zone)}, ${borders}`,
    stopped,
    assumes: stopped === null ? arch.assumes : null,
    zoneSource: arch.source,
    wall: wall.words,
    dissected: zoneDissected(zone.zone, dissection, wall),
    branchesCovered: branches,
    branchesUnknown,
    movedFirst: movedFirst(zone, branches, arch),
    missing,
    questions: questionsOf(zone, stopped, arch),
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

function questionsOf(
  zone: LandingZone,
  stopped: string | null,
  { isStated, isContradictory }: LandingArch,
): LandingOption["questions"] {
  const ofArch = isContradictory
    ? "Which arch is it? The statements contradict each other."
    : "Is the arch the usual one? It is not stated.";
  const first = isStated ? [] : [{ text: ofArch, answeredBy: "imaging lab" }];
  if (stopped !== null) {
    const text = "How does the site divide this arch into zones?";
    return isStated ? [{ text, answeredBy: "whole team" }] : first;
  }
  const own = zone.questions.filter(({ untilStated }) => !(untilStated && isStated));
  return [...first, ...own.map(({ text, answeredBy }) => ({ text, answeredBy }))];
}

/** What the measurements of a zone give. */
function numbersOf(
  zone: LandingZone,
  {
    patientCase,
    wall,
    dissection,
    basis,
  }: {
    patientCase: PatientCase;
    wall: LandingWall;
    dissection: Dissection | null;
    basis: PlanningBasis;
  },
): Pick<LandingOption, NumberFields> {
  const missing: string[] = [];
  const { measurements, date, unclear } = latestOfZone(zone, patientCase, wall, dissection);
  if (unclear !== null) missing.push(unclear);
  const lengths = measurements.filter(({ quantity }) => quantity === "sound-length");
  const diameters = measurements.filter(({ quantity }) =>
    ["diameter", "long-axis", "short-axis"].includes(quantity),
  );
  const sections = [...Map.groupBy(measurements, ({ place }) => place.id).values()];
  const references = sections.map(referenceDiameter);
  const reference = references
    .filter((result): result is ReferenceDiameter => "diameterMm" in result)
    .reduce<ReferenceDiameter | null>(
      (largest, next) => (largest && largest.diameterMm >= next.diameterMm ? largest : next),
      null,
    );
  if (lengths.length === 0) missing.push(`sound length in ${zoneName(zone)}`);
  if (diameters.length === 0) missing.push(`diameters in ${zoneName(zone)}`);
  else if (!reference) {
    const why = references.map((result) => ("why" in result ? result.why : "")).find(Boolean);
    missing.push(`reference diameter in ${zoneName(zone)}: ${why}`);
  }
  const chosen = windowOf(patientCase.facts, { wall, dissection, asOf: basis.asOf });
  if ("missing" in chosen) missing.push(chosen.missing);
  const errorMmOf = (reading: Measurement) => 1.96 * basis.readingSdMmOf(reading);
  if (isCurved(zone) && lengths.length > 0 && !lengths.some(({ path }) => path === "inner-curve")) {
    missing.push(`sound length along the inner curve in ${zoneName(zone)}`);
  }
  if (typeof wall.isNative === "object" && hasConditionOfNativeWall(zone)) {
    missing.push(wall.isNative.unclear);
  }
  const values = diameters.map(({ value }) => value);
  return {
    soundLengths: lengths.map(({ path, value, key }) => ({
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
            measurements: diameters.map(({ key }) => key),
          },
    reference: reference && {
      diameterMm: reference.diameterMm,
      method: referenceMethod(reference, references.length),
      edge: reference.edge,
      measurements: reference.measurements.map(({ key }) => key),
    },
    oversizing:
      reference && "window" in chosen
        ? oversizingOf(reference, chosen.window, errorMmOf, basis)
        : null,
    checks: landingChecks(zone, { lengths, diameters, errorMmOf, date }, wall),
    missing,
  };
}

/** The windows are of a native wall, and of a dissection only where the diagnosis names it. */
function windowOf(
  facts: CaseFacts,
  { wall, dissection, asOf }: { wall: LandingWall; dissection: Dissection | null; asOf: string },
): ReturnType<typeof oversizingWindow> {
  if (wall.isNative === false) {
    return { missing: "an oversizing window for a landing in a repaired zone" };
  }
  if (dissection !== null && facts.diagnoses !== null && dissection.stated.diagnoses.length === 0) {
    return { missing: "the dissection in the diagnosis: other parts of the case speak of one" };
  }
  return oversizingWindow(facts, asOf);
}

function oversizingOf(
  { diameterMm, measurements }: ReferenceDiameter,
  { label, lowPercent, highPercent, source }: OversizingWindow,
  errorMmOf: (reading: Measurement) => number,
  { inventory }: PlanningBasis,
): LandingOption["oversizing"] {
  const errorMm = Math.max(...measurements.map(errorMmOf));
  const interval = graftInterval(diameterMm, errorMm, { lowPercent, highPercent });
  return {
    situation: label,
    lowPercent,
    highPercent,
    source,
    ...interval,
    inventoryRows: inventory && rowsThatFit(interval, inventory),
  };
}

/**
 * The measurements that lie in the zone, of the latest exam that has any. Left out are lumens that can't be the whole
 * vessel, and exams from before a repair of the zone; `unclear` says where that order is not known.
 */
function latestOfZone(
  { zone }: LandingZone,
  { measurements, exams, facts }: PatientCase,
  wall: LandingWall,
  dissection: Dissection | null,
): { measurements: Measurement[]; date: string; unclear: string | null } {
  const mayBeDissected = dissection !== null || facts.diagnoses === null;
  const usable = measurements.filter(
    ({ place, lumen, quantity }) =>
      place.zones.includes(zone) &&
      place.kind !== "branch" &&
      (lumen === "whole" ||
        (lumen === "unstated" && (!mayBeDissected || quantity === "sound-length"))),
  );
  const latest = exams.findLast(({ key }) => usable.some(({ exam }) => exam === key));
  if (latest === undefined) return { measurements: [], date: "", unclear: null };
  const date = latest.imagingDate;
  const isShown = wall.isShownBy(latest);
  if (isShown === false) {
    const unclear = `measurements of zone ${zone} after its repair (${wall.words})`;
    return { measurements: [], date, unclear };
  }
  return {
    measurements: usable.filter(({ exam }) => exam === latest.key),
    date,
    unclear: isShown === true ? null : isShown.unclear,
  };
}

function referenceMethod({ method, measurements }: ReferenceDiameter, places: number): string {
  const where = measurements[0]?.place.label ?? "";
  return places > 1
    ? `${method}, ${where}, the largest of ${places} places`
    : `${method}, ${where}`;
}
