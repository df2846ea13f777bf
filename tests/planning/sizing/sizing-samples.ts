import { dissectionOf, type Dissection } from "../../../src/cases/dissection.ts";
import type { SizingInput } from "../../../src/planning/sizing/sizing.ts";
import type { SizingSection } from "../../../src/planning/sizing/sizing-section.ts";
import type { InventoryRow } from "../../../src/readers/csv/inventory.ts";
import { dissectionCase } from "../../cases/sample-dissection.ts";

/** An invented section with nothing measured but what is given. */
export const section = (more: Partial<SizingSection>): SizingSection => ({
  place: "invented place",
  distanceMm: null,
  lumen: "whole",
  edge: "inner",
  maximumMm: null,
  minimumMm: null,
  meanMm: null,
  perimeterMm: null,
  areaMm2: null,
  used: ["M1"],
  errorMm: 0,
  problem: null,
  ...more,
});

/** A section of which the perimeter is that of a circle of this diameter. */
export const round = (diameterMm: number, more: Partial<SizingSection> = {}): SizingSection =>
  section({ perimeterMm: Math.PI * diameterMm, ...more });

/** An invented inventory row: id, proximal and distal diameter, covered length. */
export const row = (
  id: string,
  proximalMm: number,
  distalMm: number,
  coveredLengthMm = 150,
): InventoryRow => ({
  id,
  proximalMm,
  distalMm,
  coveredLengthMm,
  sheathOuterMm: 8,
  sheathAsWritten: "8 mm",
});

/** The inventory of the worked examples A to C. */
export const workedInventory: readonly InventoryRow[] = [
  row("G01", 32, 32),
  row("G02", 34, 34),
  row("G03", 36, 36),
  row("G05", 36, 32),
  row("G06", 38, 34),
  row("G07", 38, 38, 200),
  row("G08", 40, 36),
];

/** An invented aneurysm of the descending aorta with round ends of 32 and 28 mm. */
export const aneurysmInput = (more: Partial<SizingInput> = {}): SizingInput => ({
  proximal: [round(32)],
  distal: [round(28)],
  diagnoses: ["descending thoracic aneurysm"],
  onsetDate: null,
  asOf: "2026-01-15",
  walls: {
    proximal: { wall: "native", isDissected: false },
    distal: { wall: "native", isDissected: false },
  },
  aetiology: "degenerative",
  dissection: null,
  coverage: { leastMm: 130, mostMm: 140 },
  inventory: workedInventory,
  planning: { overlapMm: 50 },
  ...more,
});

/** What an invented case of type B dissection holds of it. */
export function inventedDissection(): Dissection {
  const facts = { diagnoses: ["type B dissection"], onsetDate: "2026-01-10" };
  const found = dissectionOf(dissectionCase(facts), "2026-01-15");
  if (found === null) throw new Error("the invented case speaks of a dissection");
  return found;
}

/** An invented acute type B dissection: 30 mm proximally, a true lumen of 30 by 12 mm in a whole aorta of 36 mm distally. */
export const dissectionInput = (more: Partial<SizingInput> = {}): SizingInput =>
  aneurysmInput({
    proximal: [round(30)],
    distal: [
      section({ lumen: "true", perimeterMm: 69.039338, areaMm2: 282.7433 }),
      round(36, { used: ["M2"] }),
    ],
    diagnoses: ["type B dissection"],
    onsetDate: "2026-01-10",
    walls: {
      proximal: { wall: "native", isDissected: false },
      distal: { wall: "native", isDissected: true },
    },
    dissection: inventedDissection(),
    ...more,
  });
