import type { Plan, PlanOption } from "../plan.ts";
import type { GlanceCheck, GlanceColumn } from "./glance-view.ts";

type Sizing = Plan["sizings"][number];

/** One column for each candidate zone: the conditions of its landing, of the graft, of the branches, of brain and cord. */
export function glanceColumns(plan: Plan): GlanceColumn[] {
  return plan.options.map((option) => {
    const { zone, stopped } = option;
    const way = plan.archPlans.find(({ proximalZone, id }) => proximalZone === zone && isStent(id));
    const cord = plan.perfusion.cord.zones.find((one) => one.zone === zone);
    const brain = plan.perfusion.brain.zones.find((one) => one.zone === zone);
    return {
      heading: `Zone ${zone}`,
      stopped,
      groups: [
        { title: "Landing", checks: [...wallChecks(option), ...option.checks] },
        { title: "Graft", checks: graftChecks(plan, zone) },
        { title: "Branches", checks: branchChecks(way?.requirements ?? [], option) },
        {
          title: "Inflow that stays open without re-feeding",
          checks: (brain?.supplies ?? []).map(({ check, territory }) => ({
            ...check,
            label: territory,
          })),
        },
        { title: "Cord", checks: cord?.checks ?? [] },
      ],
    };
  });
}

const isStent = (id: string): boolean => id.startsWith("stent-graft");

/** Requirements of the way that the landing itself does not judge already. */
const branchChecks = (requirements: readonly GlanceCheck[], { checks }: PlanOption) =>
  requirements.filter(({ id }) => !checks.some((check) => check.id === id));

const dissectedOutcome = {
  no: "met",
  yes: "not-met",
  "not stated": "not-assessable",
  "sources differ": "not-assessable",
} as const;

function wallChecks({ dissected }: PlanOption): GlanceCheck[] {
  if (dissected === null) return [];
  const outcome = dissectedOutcome[dissected.state];
  const label = "the zone is not dissected";
  return [{ id: "undissected", label, outcome, value: null, spansLimit: false, source: "" }];
}

/** Whether the inventory holds a row for the proximal end, and one for both ends, in the first windows. */
function graftChecks({ sizings }: Plan, zone: string): GlanceCheck[] {
  const own = sizings.filter(({ fromZone }) => fromZone === zone);
  const [first] = own;
  return [
    {
      id: "row-proximal",
      label: "a row of the inventory lies in the first window at the proximal end",
      source: "",
      ...rowsInside(first),
    },
    ...own.flatMap(({ toZone, sizing }): GlanceCheck[] => {
      if (toZone === null) return [];
      const label = `a row lies in the first windows at both ends, to zone ${toZone}`;
      const answer = sizing.inventory?.answers[0];
      const isKnown = sizing.proximal.reference !== null && sizing.distal.reference !== null;
      const outcome =
        answer === undefined || !isKnown
          ? "not-assessable"
          : answer.fits.length > 0
            ? "met"
            : "not-met";
      return [
        { id: `row-both-${toZone}`, label, outcome, value: null, spansLimit: false, source: "" },
      ];
    }),
  ];
}

function rowsInside(
  one: Sizing | undefined,
): Pick<GlanceCheck, "outcome" | "value" | "spansLimit"> {
  const reference = one?.sizing.proximal.reference ?? null;
  const inside = one?.sizing.inventory?.answers[0]?.ends.find(({ end }) => end === "proximal");
  const value = reference === null ? null : { value: reference.reference.diameterMm, unit: "mm" };
  const hasWindow = (one?.sizing.proximal.windows.length ?? 0) > 0;
  if (reference === null || inside === undefined || !hasWindow) {
    return { outcome: "not-assessable", value, spansLimit: false };
  }
  return {
    outcome: inside.inside.length > 0 ? "met" : "not-met",
    value,
    spansLimit: false,
  };
}
