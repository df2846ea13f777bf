import { readFileSync } from "node:fs";
import { z } from "zod";
import { parseOwnDataFile } from "../data-file.ts";
import { sentenceCase } from "../quantities/sentence-case.ts";
import { type ArchVariantId, archVariantIds } from "./arch-variant-ids.ts";
import { placeById, placeTable } from "./places.ts";
import { spellingIndex, unorderedKey } from "./spelling.ts";

export { type ArchVariantId, archVariantIds } from "./arch-variant-ids.ts";

const archZones = ["0", "1", "2", "3", "4"] as const;
export type ArchZone = (typeof archZones)[number];

/** A site's own convention for one variant: the branches, by their labels, whose origin lies in each of zones 0 to 4. */
export interface ArchConvention {
  variant: ArchVariantId;
  branches: Readonly<Record<ArchZone, readonly string[]>>;
  /** YYYY-MM-DD of the decision. */
  date: string;
  /** Role of who decided. */
  by: string;
}

/** Zones 0 to 4 of one arch. */
export interface ArchScheme {
  /** Borders and the labels of the branches whose origin lies in the zone; null where the scheme does not define it for this arch. */
  zones: Readonly<
    Record<ArchZone, { from: string; to: string; branches: readonly string[] } | null>
  >;
  /** Why zones are undefined, one sentence; null where all are defined. */
  undefinedBecause: string | null;
  /** Where the definition comes from: the published zone map, or the site's convention with date and role. */
  source: string;
}

const branchId = z.string().transform((id) => placeById(id).label);
const branchList = z.array(branchId).nullable();
const file = parseOwnDataFile(
  readFileSync(new URL("arch-variants.yaml", import.meta.url), "utf8"),
  z.strictObject({
    source: z.string(),
    variants: z.array(
      z.strictObject({
        id: z.enum(archVariantIds),
        words: z.array(z.string()),
        bordersUndefined: z.array(z.enum(archZones)),
        branches: z.record(z.enum(archZones), branchList),
        because: z.string().nullable(),
        source: z.string().nullable(),
      }),
    ),
  }),
  "src/anatomy/arch-variants.yaml",
);

const rows = new Map(file.variants.map((row) => [row.id, row]));
const rowOf = (id: ArchVariantId) => {
  const row = rows.get(id);
  if (!row) throw new Error(`no arch variant ${id} in arch-variants.yaml`);
  return row;
};

const spellings = file.variants.flatMap(({ id, words }) =>
  [id, ...words].map((spelling) => [spelling, id] as const),
);
const variantsBySpelling = spellingIndex(spellings, unorderedKey);

/** All spellings of arch variants that are known. */
export const archVariantWords: readonly string[] = spellings.map(([spelling]) => spelling);

/** The variant that the words name ("usual" for the usual arch), or null for words that are not known. */
export const archVariantOf = (words: string): ArchVariantId | null =>
  variantsBySpelling.get(unorderedKey(words)) ?? null;

const bySite = "set by the site's own convention";

/**
 * Zones 0 to 4 of an arch with these variants; an empty list is the usual arch. A site's convention for a variant goes
 * before the published map. With several variants a zone is defined only where it is defined under each, and it has
 * the branches that each of them adds; two variants that replace its branches in different ways leave it undefined.
 */
export function archScheme(
  variants: readonly ArchVariantId[],
  conventions: readonly ArchConvention[],
): ArchScheme {
  const present = variants.length === 0 ? (["usual"] as const) : [...new Set(variants)];
  const parts = present.map((id) => {
    const own = conventions.find(({ variant }) => variant === id) ?? null;
    return { row: rowOf(id), own, branches: own?.branches ?? rowOf(id).branches };
  });
  const zoneOf = (zone: ArchZone) => {
    const branches = mergedBranches(
      zone,
      parts.map((part) => part.branches[zone]),
    );
    if (branches === null) return null;
    const hasBorders = parts.every(({ row }) => !row.bordersUndefined.includes(zone));
    return { ...(hasBorders ? bordersOf(zone) : { from: bySite, to: bySite }), branches };
  };
  const zones = {
    "0": zoneOf("0"),
    "1": zoneOf("1"),
    "2": zoneOf("2"),
    "3": zoneOf("3"),
    "4": zoneOf("4"),
  };
  const missing = archZones.filter((zone) => zones[zone] === null);
  const reasons = parts.flatMap(({ row, own }) => (own ? [] : (row.because ?? [])));
  const because =
    reasons.length > 0
      ? reasons
      : [`the site's conventions for ${present.join(" and ")} divide them in different ways`];
  return {
    zones,
    undefinedBecause:
      missing.length === 0
        ? null
        : sentenceCase(`${zoneList(missing)} not defined for this arch: ${because.join("; ")}.`),
    source: sourceOf(parts),
  };
}

function bordersOf(zone: ArchZone): { from: string; to: string } {
  const borders = placeTable.find(({ place }) => place.id === `zone-${zone}`)?.borders;
  if (!borders) throw new Error(`zone ${zone} has no borders in places.yaml`);
  return borders;
}

/** The branches of a zone under all variants together, along the vessel; null where they can't be told. */
function mergedBranches(
  zone: ArchZone,
  lists: readonly (readonly string[] | null)[],
): readonly string[] | null {
  const usual = rowOf("usual").branches[zone] ?? [];
  const replaced = new Map<string, readonly string[]>();
  const added = new Set<string>();
  for (const list of lists) {
    if (list === null) return null;
    const keepsAll = usual.every((branch) => list.includes(branch));
    if (!keepsAll) replaced.set(list.toSorted().join("\n"), list);
    else for (const branch of list) if (!usual.includes(branch)) added.add(branch);
  }
  if (replaced.size > 1) return null;
  const [base = usual] = replaced.values();
  return [...new Set([...base, ...added])].toSorted((a, b) => positionOf(a) - positionOf(b));
}

const positions = new Map(placeTable.map(({ place }) => [place.label, place.position]));
const positionOf = (label: string): number => positions.get(label) ?? 0;

/** "zones 0, 1 and 3 are". */
function zoneList(zones: readonly ArchZone[]): string {
  const last = zones.at(-1) ?? "";
  return zones.length === 1
    ? `zone ${last} is`
    : `zones ${zones.slice(0, -1).join(", ")} and ${last} are`;
}

function sourceOf(
  parts: readonly {
    row: { id: ArchVariantId; source: string | null };
    own: ArchConvention | null;
  }[],
): string {
  const said = parts.flatMap(({ row, own }) =>
    own ? `the site's convention of ${own.date} (${own.by}) for ${row.id}` : (row.source ?? []),
  );
  return [file.source, ...said].join("; ");
}
