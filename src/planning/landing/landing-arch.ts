import {
  type ArchConvention,
  type ArchVariantId,
  archScheme,
} from "../../anatomy/arch-variants.ts";
import { type Arch, archOf } from "../../cases/arch.ts";
import type { PatientCase } from "../../cases/patient-case.ts";
import { landingZoneIds, type LandingZone } from "./landing-data.ts";

type ZoneId = LandingZone["zone"];

/** What the arch makes of the candidate landing zones. */
export interface LandingArch {
  /** Stated variants other than the usual arch; of all statements where they contradict each other. */
  variants: readonly ArchVariantId[];
  isStated: boolean;
  isContradictory: boolean;
  /** What the zones stand on where the arch is not stated or the statements contradict; null where it is stated. */
  assumes: string | null;
  /** Where the zones come from. */
  source: string;
  zone: (zone: ZoneId) => ZoneInArch;
}

/** One candidate zone in the arch of the patient. */
interface ZoneInArch {
  /** Why the zone has no meaning in this arch and what would give it one; null where it has one. */
  stopped: string | null;
  /** What is missing where it is stopped. */
  missing: string[];
  /** The borders in words where they are not those of the usual arch, else null. */
  borders: string | null;
  /** Branches whose origin lies in the zone or further on, as far as they are known. */
  branches: string[];
  /** Why there may be more branches further on; null where all are known. */
  branchesUnknown: string | null;
}

/**
 * The candidate zones in the arch of the patient. An arch that is not stated is taken as the usual one, which
 * `assumes` says. Where statements contradict each other, a zone stands only if all of them give it the same borders.
 */
export function landingArch(
  patientCase: PatientCase,
  conventions: readonly ArchConvention[],
): LandingArch {
  const arch = archOf(patientCase);
  const possible = possibleArches(arch);
  const schemes = possible.map((variants) => archScheme(variants, conventions));
  const usual = archScheme([], conventions);
  const open = (zone: ZoneId): string | null => {
    const reason = schemes.find(({ zones }) => zones[zone] === null)?.undefinedBecause;
    if (reason !== undefined) return [arch.conflict, reason].filter(Boolean).join(" ");
    const borders = schemes.map(({ zones }) => `${zones[zone]?.from} to ${zones[zone]?.to}`);
    return new Set(borders).size > 1 ? arch.conflict : null;
  };
  const needed = (zone: ZoneId): string[] => {
    if (arch.conflict !== null) return ["which arch it is"];
    const [variants = []] = possible;
    const undefinedAlone = variants.filter(
      (variant) => archScheme([variant], conventions).zones[zone] === null,
    );
    const of = (undefinedAlone.length > 0 ? undefinedAlone : variants).join(" with ");
    return [`the site's convention (archConventions in the site file) for: ${of}`];
  };
  return {
    variants: [...new Set(arch.stated.map(({ variant }) => variant))].filter(
      (variant) => variant !== "usual",
    ),
    isStated: arch.variants !== null,
    isContradictory: arch.conflict !== null,
    assumes: assumptionOf(arch),
    source: [...new Set(schemes.map(({ source }) => source))].join("; "),
    zone: (zone) => {
      const reason = open(zone);
      if (reason !== null) {
        const missing = needed(zone);
        const stopped = `${reason} Needed: ${missing.join("; ")}.`;
        return { stopped, missing, borders: null, branches: [], branchesUnknown: null };
      }
      const covered = landingZoneIds.slice(landingZoneIds.indexOf(zone));
      const branches = covered.flatMap((id) =>
        schemes.flatMap(({ zones }) => zones[id]?.branches ?? []),
      );
      const beyond = covered.find((id) => open(id) !== null);
      return {
        stopped: null,
        missing: beyond === undefined ? [] : needed(beyond),
        borders: unusualBorders(schemes[0]?.zones[zone], usual.zones[zone]),
        branches: [...new Set(branches)],
        branchesUnknown: beyond === undefined ? null : open(beyond),
      };
    },
  };
}

/** The arches that the statements allow: one, or each of several that contradict each other. */
function possibleArches({ variants, stated }: Arch): ArchVariantId[][] {
  if (variants !== null) return [variants];
  if (stated.length === 0) return [[]];
  return [...new Set(stated.map(({ variant }) => variant))].map((variant) =>
    variant === "usual" ? [] : [variant],
  );
}

type Borders = { from: string; to: string } | null | undefined;

function unusualBorders(own: Borders, usual: Borders): string | null {
  if (!own || (own.from === usual?.from && own.to === usual.to)) return null;
  return [...new Set([own.from, own.to])].join(" to ");
}

function assumptionOf({ variants, conflict }: Arch): string | null {
  if (variants !== null) return null;
  return conflict === null
    ? "The arch is not stated; this stands on the usual arch."
    : `${conflict} The branches of each of them are listed.`;
}
