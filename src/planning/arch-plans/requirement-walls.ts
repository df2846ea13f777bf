import { placeById } from "../../anatomy/places.ts";
import type { PriorRepair } from "../../cases/patient-case.ts";
import { coverage, timing, wallAt } from "../../cases/wall.ts";
import { sentenceCase } from "../../quantities/sentence-case.ts";
import { landingWall, type LandingWall, zoneDissected } from "../landing/landing-zone-facts.ts";
import { type Found, notAssessable, type PlanContext } from "./plan-context.ts";

/** The wall of zone 0 at the as-of date. */
export const ascendingWall = ({ patientCase, asOf }: PlanContext): LandingWall =>
  landingWall("0", patientCase.facts.priorRepairs, asOf);

/** Whether the ascending aorta is native. */
export function nativeAscending(context: PlanContext): Found {
  const { isNative, words } = ascendingWall(context);
  const reason = `${sentenceCase(words)}.`;
  if (typeof isNative === "object") return notAssessable(reason, [isNative.unclear]);
  return { outcome: isNative ? "met" : "not-met", reason };
}

/** Whether the ascending aorta is a graft already; a native one is replaced as part of the operation. */
export function graftedAscending(context: PlanContext): Found {
  const { patientCase, asOf } = context;
  const { words } = ascendingWall(context);
  const wall = wallAt(placeById("zone-0"), patientCase.facts.priorRepairs, asOf, "present");
  if ("unclear" in wall) return notAssessable(`${sentenceCase(words)}.`, [wall.unclear]);
  if (wall.kind === "native") {
    return {
      outcome: "not-applicable",
      reason: "Native wall: this operation puts the graft in first.",
    };
  }
  return wall.kind === "graft"
    ? { outcome: "met", reason: `${sentenceCase(words)}.` }
    : { outcome: "not-met", reason: `${sentenceCase(words)}, no surgical graft.` };
}

/** Whether zone 0 is free of dissection. A case that speaks of no dissection and states its diagnosis has none. */
export function ascendingUndissected(context: PlanContext): Found {
  const { patientCase, dissection } = context;
  const dissected = zoneDissected("0", dissection, ascendingWall(context));
  if (dissected === null) {
    return patientCase.facts.diagnoses === null
      ? notAssessable("No diagnosis is stated.", ["diagnosis"])
      : { outcome: "met", reason: "The case speaks of no dissection." };
  }
  const { state, used } = dissected;
  if (state === "yes" || state === "no") {
    return {
      outcome: state === "no" ? "met" : "not-met",
      reason: state === "no" ? "Zone 0 is not dissected." : "Zone 0 is dissected.",
      used,
    };
  }
  return notAssessable(`Dissection of zone 0: ${state}.`, ["whether zone 0 is dissected"], used);
}

const unstatedRepairs = (): Found =>
  notAssessable("Prior repair is not stated.", ["prior repair (or none)"]);

/** Repairs done by the as-of date; one without a date has been done. */
function doneRepairs({ patientCase, asOf }: PlanContext): PriorRepair[] | null {
  const repairs = patientCase.facts.priorRepairs;
  return repairs && repairs.filter((repair) => timing(repair, asOf, "present") !== "later");
}

const quoted = (repairs: readonly PriorRepair[]): string =>
  repairs.map(({ words }) => `"${words}"`).join("; ");

/** Whether an elephant trunk, free or stented, is stated. */
export function trunkPresent(context: PlanContext): Found {
  const repairs = doneRepairs(context);
  if (repairs === null) return unstatedRepairs();
  const trunks = repairs.filter(({ kinds }) =>
    kinds.some((kind) => kind.endsWith("elephant trunk")),
  );
  if (trunks.length > 0) {
    return { outcome: "met", reason: `Stated: ${quoted(trunks)}.` };
  }
  const untold = repairs.filter(({ kinds }) => kinds.length === 0);
  return untold.length > 0
    ? notAssessable(`The kind is not stated: ${quoted(untold)}.`, [
        `kind of the repair ${quoted(untold)}`,
      ])
    : { outcome: "not-met", reason: "None is stated: it would be sewn in first." };
}

/** Kinds of repair that are made by opening the chest at the aorta. */
const openKinds: ReadonlySet<string> = new Set([
  "graft",
  "elephant trunk",
  "frozen elephant trunk",
]);

/** Open repairs, done or possibly done, in any of these stretches ("root" or a zone), and those that leave it open. */
export function openRepairsIn(
  repairs: readonly PriorRepair[],
  stretches: readonly string[],
): { sure: PriorRepair[]; unclear: PriorRepair[] } {
  const met = repairs.flatMap((repair) => {
    const { kinds } = repair;
    const isOpen = kinds.some((kind) => openKinds.has(kind));
    if (!isOpen && kinds.length > 0) return [];
    const covers = stretches.map((stretch) => coverage(repair, stretch, labelOf(stretch)));
    if (covers.every((one) => one === "no")) return [];
    return [{ repair, isSure: isOpen && covers.includes("yes") }];
  });
  return {
    sure: met.filter(({ isSure }) => isSure).map(({ repair }) => repair),
    unclear: met.filter(({ isSure }) => !isSure).map(({ repair }) => repair),
  };
}

const labelOf = (stretch: string): string =>
  stretch === "root" ? "aortic root" : placeById(`zone-${stretch}`).label;

/** Whether the chest was never opened at these stretches of the aorta, as far as the case sheet says. */
export function noEarlierOpening(context: PlanContext, stretches: readonly string[]): Found {
  const repairs = doneRepairs(context);
  if (repairs === null) return unstatedRepairs();
  const { sure, unclear } = openRepairsIn(repairs, stretches);
  if (sure.length > 0) return { outcome: "not-met", reason: `Stated: ${quoted(sure)}.` };
  if (unclear.length === 0) return { outcome: "met", reason: "The case sheet states none here." };
  return notAssessable(`Kind or zones are not stated: ${quoted(unclear)}.`, [
    `kind and zones of the repair ${quoted(unclear)}`,
  ]);
}
