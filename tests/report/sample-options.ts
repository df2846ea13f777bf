import type { PlanOption } from "../../src/report/plan.ts";
import { keyOf } from "./sample-measurements.ts";

const landingCheck = (
  more: Partial<PlanOption["checks"][number]>,
): PlanOption["checks"][number] => ({
  id: "sound-length",
  label: "sound length at least 20 mm",
  outcome: "met",
  value: { value: 24, low: 22, high: 26, unit: "mm" },
  limit: "at least 20 mm",
  spansLimit: false,
  source: "Northbody 2021, seen",
  used: [keyOf("zone-3", "2026-01-12", "-length")],
  reason: "24.0 mm along the outer curve.",
  ...more,
});

const coveredFrom = [
  ["innominate artery", "left common carotid artery", "left subclavian artery"],
  ["left common carotid artery", "left subclavian artery"],
  ["left subclavian artery"],
  [],
  [],
];

/** The five candidate landing zones of the invented patient. */
export const options: PlanOption[] = (["0", "1", "2", "3", "4"] as const).map((zone, index) => ({
  zone,
  label: `zone ${zone}`,
  stopped: null,
  assumes: null,
  zoneSource: "invented zone map",
  wall: "native wall",
  dissected: null,
  soundLengths:
    zone === "3"
      ? [
          {
            path: "outer-curve",
            valueMm: 24,
            measurement: keyOf("zone-3", "2026-01-12", "-length"),
          },
        ]
      : [],
  diameterRange:
    zone === "2"
      ? { lowMm: 31.5, highMm: 32.2, measurements: [keyOf("mid-arch", "2026-01-12")] }
      : null,
  reference:
    zone === "2"
      ? {
          diameterMm: 32.2,
          method: "mean of the landing zone",
          edge: "outer",
          measurements: [keyOf("mid-arch", "2026-01-12")],
        }
      : null,
  oversizing:
    zone === "2"
      ? {
          situation: "aneurysm",
          lowPercent: 10,
          highPercent: 20,
          source: "Northbody 2021, seen",
          graftLowMm: 35.4,
          graftHighMm: 38.6,
          surelyInsideLowMm: 37.6,
          surelyInsideHighMm: 36.5,
          inventoryRows: [{ id: "G04", proximalMm: 36 }],
        }
      : null,
  branchesCovered: coveredFrom[index] ?? [],
  branchesUnknown: null,
  movedFirst: coveredFrom[index] ?? [],
  checks:
    zone === "3"
      ? [
          landingCheck({}),
          landingCheck({
            id: "diameter",
            label: "diameter at most 42 mm",
            outcome: "not-assessable",
            value: null,
            limit: "at most 42 mm",
            used: [],
            reason: "No diameter of zone 3 was measured.",
          }),
        ]
      : [
          landingCheck({
            outcome: "not-assessable",
            value: null,
            used: [],
            reason: `No sound length of zone ${zone} was measured.`,
          }),
        ],
  missing: zone === "3" ? ["diameter of zone 3"] : [`sound length of zone ${zone}`],
  questions:
    zone === "2"
      ? [{ text: "Which vertebral artery is dominant?", answeredBy: "imaging lab" }]
      : [],
}));
