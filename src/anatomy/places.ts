import { readFileSync } from "node:fs";
import { z } from "zod";
import { parseOwnDataFile } from "../data-file.ts";
import { type ArchVariantId, archVariantIds } from "./arch-variant-ids.ts";
import { spellingsOf } from "./spelling.ts";

const placeKinds = ["zone", "level", "landmark", "range", "branch", "distance"] as const;
export type PlaceKind = (typeof placeKinds)[number];

/** Parts of the aorta that size criteria speak of. */
export const regionIds = [
  "root",
  "ascending",
  "arch",
  "descending",
  "thoraco-abdominal",
  "visceral",
  "abdominal",
  "iliac",
] as const;
export type RegionId = (typeof regionIds)[number];

/** A place on the aorta or a branch. */
export interface AorticPlace {
  id: string;
  kind: PlaceKind;
  label: string;
  /** Zones it lies in ("0" to "9", "10-left" …); empty on a border and upstream of zone 0. */
  zones: readonly string[];
  region: RegionId | null;
  /** Position along the vessel in bands: root 0 to 1, zone n from n+1 to n+2. */
  position: number;
  /** First and last band position of a range; null for a single place. */
  span: readonly [number, number] | null;
  /** The arch variant that its very existence states; null where it states none. */
  variant: ArchVariantId | null;
}

const entry = z.strictObject({
  id: z.string(),
  label: z.string(),
  zones: z.array(z.string()),
  region: z.enum(regionIds).nullable(),
  position: z.number(),
  span: z.tuple([z.number(), z.number()]).optional(),
  from: z.string().optional(),
  to: z.string().optional(),
  variant: z.enum(archVariantIds).optional(),
  words: z.array(z.string()),
  codes: z.array(z.string()),
});
const placesFile = z.strictObject({
  alternatives: z.record(z.string(), z.array(z.string())),
  zones: z.array(entry),
  levels: z.array(entry),
  landmarks: z.array(entry),
  ranges: z.array(entry),
  branches: z.array(entry),
});

const url = new URL("places.yaml", import.meta.url);
const file = parseOwnDataFile(readFileSync(url, "utf8"), placesFile, "src/anatomy/places.yaml");

type Entry = z.infer<typeof entry>;
const ofKind = (kind: PlaceKind, entries: Entry[]) =>
  entries.map((row) => ({
    place: {
      id: row.id,
      kind,
      label: row.label,
      zones: row.zones,
      region: row.region,
      position: row.position,
      span: row.span ?? null,
      variant: row.variant ?? null,
    } satisfies AorticPlace,
    words: [row.label, ...row.words.flatMap((pattern) => spellingsOf(pattern, file.alternatives))],
    codes: row.codes,
    borders: row.from === undefined ? null : { from: row.from, to: row.to ?? "" },
  }));

/** All places with their spellings and codes, from `places.yaml`. */
export const placeTable = [
  ...ofKind("zone", file.zones),
  ...ofKind("level", file.levels),
  ...ofKind("landmark", file.landmarks),
  ...ofKind("range", file.ranges),
  ...ofKind("branch", file.branches),
];

const byId = new Map(placeTable.map(({ place }) => [place.id, place]));

/** The place with this id; throws for an id that the table does not hold. */
export function placeById(id: string): AorticPlace {
  const place = byId.get(id);
  if (!place) throw new Error(`no place ${id} in places.yaml`);
  return place;
}

/** The zone that lies between `distanceMm` = 0 at the distal edge of the left subclavian artery and 2 cm beyond it; null further on, where the border is a vertebral level. */
export function placeDistalToLeftSubclavian(distanceMm: number): AorticPlace {
  const zoneThreeLengthMm = 20;
  const inZoneThree = distanceMm < zoneThreeLengthMm;
  return {
    id: `left-subclavian-artery+${distanceMm}mm`,
    kind: "distance",
    label: `${distanceMm} mm distal to the left subclavian artery`,
    zones: inZoneThree ? ["3"] : [],
    region: "descending",
    position: Math.min(4 + distanceMm / zoneThreeLengthMm, 5.2),
    span: null,
    variant: null,
  };
}
