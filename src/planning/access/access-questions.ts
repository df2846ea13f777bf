import type { PatientCase } from "../../cases/patient-case.ts";
import { formatLength } from "../../quantities/format-length.ts";
import type { AccessSide } from "./access-side.ts";
import type { PlanningCheck } from "../planning-check.ts";
import type { Prompt } from "../prompts/prompt.ts";

/** Questions that the two ways in raise, each tied to its fact. All are common practice without a source. */
export function accessQuestions(
  sides: readonly AccessSide[],
  { facts: { priorRepairs } }: PatientCase,
): Prompt[] {
  const groinGraft = (priorRepairs ?? []).find(
    ({ kinds, zones }) =>
      kinds.some((kind) => kind === "graft" || kind === "bypass") &&
      zones?.some((zone) => zone.startsWith("10") || zone.startsWith("11")),
  );
  return [
    ...bothOver(sides),
    ...sides.flatMap((side) => ofSide(side)),
    ...(groinGraft === undefined
      ? []
      : [
          {
            text: "Is the limb of the earlier graft measured, where the sheath would go through it?",
            raisedBy: `earlier repair by the case sheet: "${groinGraft.words}"`,
            answeredBy: "imaging lab",
          },
        ]),
  ];
}

const isNotMet = (checks: readonly PlanningCheck[], id: string): boolean =>
  checks.some((check) => check.id === id && check.outcome === "not-met");

/** The first check of a sheath is the site's ratio. */
const isOver = (sheath: { checks: readonly PlanningCheck[] } | undefined): boolean =>
  sheath?.checks[0]?.outcome === "not-met";

function bothOver(sides: readonly AccessSide[]): Prompt[] {
  const [first] = sides;
  const over = (first?.sheaths ?? []).filter((_, index) =>
    sides.every(({ sheaths }) => isOver(sheaths?.[index])),
  );
  if (over.length === 0) return [];
  const label = over[0]?.checks[0]?.label ?? "";
  const sizes = over.map(({ asWritten, rows }) => `${asWritten} (${rows.join(", ")})`).join("; ");
  return [
    {
      text: "Neither groin is wide enough by this ratio: which other way in is there, and who prepares it?",
      raisedBy: `on both sides not ${label}: ${sizes}`,
      answeredBy: "vascular surgeon",
    },
  ];
}

function ofSide({ side, narrowest, checks }: AccessSide): Prompt[] {
  const byCheck = (id: string, text: string, answeredBy: string): Prompt[] => {
    const check = checks.find((one) => one.id === id);
    return check && isNotMet([check], id)
      ? [{ text, raisedBy: `${side} side: ${check.reason.replace(/\.$/, "")}`, answeredBy }]
      : [];
  };
  const size = narrowest === null ? "" : formatLength(narrowest.valueMm);
  return [
    ...byCheck(
      "access-conduit",
      `Would a sheath on the ${side} need a conduit on the iliac artery, with ${size} on the way?`,
      "vascular surgeon",
    ),
    ...byCheck(
      "access-open",
      `Can the occlusion on the ${side} be opened, or is that side out?`,
      "vascular surgeon",
    ),
    ...byCheck(
      "access-calcium",
      `The wall on the ${side} is calcified all round and can't stretch: what lumen is really left?`,
      "imaging lab",
    ),
    ...byCheck(
      "access-unrepaired",
      `Can a sheath pass the earlier stent or graft on the ${side}, and is its lumen measured?`,
      "imaging lab",
    ),
    ...byCheck(
      "access-angle",
      `Does the angle on the ${side} straighten over a stiff wire?`,
      "vascular surgeon",
    ),
  ];
}
