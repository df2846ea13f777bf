import { checkedSource } from "../checked-source.ts";
import { limitOf, type RequirementId } from "./arch-plan-data.ts";
import {
  checkOf,
  commonPractice,
  type Condition,
  type Found,
  type PlanContext,
} from "./plan-context.ts";
import type { PlanningCheck } from "../planning-check.ts";
import {
  areOpen,
  leftVertebral,
  rightCarotidInflow,
  subclavianSupplies,
  transpositionRoom,
} from "./requirement-branches.ts";
import { zoneOneGap } from "./requirement-gap.ts";
import {
  descendingDiameter,
  measuredGraft,
  nativeAscendingDiameter,
  trueLumen,
} from "./requirement-diameters.ts";
import { distalLength, graftLength, landingLength } from "./requirement-lengths.ts";
import {
  ascendingUndissected,
  graftedAscending,
  nativeAscending,
  noEarlierOpening,
  trunkPresent,
} from "./requirement-walls.ts";

interface Requirement extends Condition {
  find: (context: PlanContext) => Found;
}

const practised = (label: string, limit: string, find: Requirement["find"]): Requirement => ({
  label,
  limit,
  source: commonPractice,
  find,
});

const limited = (
  id: RequirementId,
  find: (context: PlanContext, id: RequirementId) => Found,
): Requirement => {
  const { label, operator, valueMm, source, confirmed } = limitOf(id);
  return {
    label,
    limit: `${operator} ${valueMm} mm`,
    source: checkedSource({ source, confirmed }),
    find: (context) => find(context, id),
  };
};

const archStretches = ["root", "0", "1", "2"];

/** Conditions of the operation that sews in the trunk, which has been done once it is in place. */
const unlessTrunk =
  (find: Requirement["find"]): Requirement["find"] =>
  (context) =>
    trunkPresent(context).outcome === "met"
      ? { outcome: "not-applicable", reason: "The elephant trunk is in place already." }
      : find(context);

const neededFlow =
  "J Cardiovasc Surg 2012;53:135-41, abstract: needed with a patent mammary coronary graft, a dominant or isolated left vertebral artery, a working left-arm dialysis access";
const trunkFamily =
  "recalled: a stent graft completes an elephant trunk; no text on type III itself was seen (not confirmed against the source)";

const requirements: Readonly<Record<RequirementId, Requirement>> = {
  "independent-right-carotid-inflow": {
    ...practised(
      "right carotid artery with an inflow of its own",
      "an origin that stays uncovered",
      rightCarotidInflow,
    ),
    source: "read off the anatomy of a common origin",
  },
  "right-carotid-donor": practised(
    "innominate and right common carotid artery, the donors, open and not narrowed",
    "patent",
    (context) => areOpen(context, ["innominate-artery", "right-common-carotid-artery"]),
  ),
  "left-carotid-donor": practised(
    "left common carotid artery, the donor, open and not narrowed",
    "patent",
    (context) => areOpen(context, ["left-common-carotid-artery"]),
  ),
  "transposition-room": practised(
    "room on the left subclavian artery before the vertebral artery",
    "no published number",
    transpositionRoom,
  ),
  "left-subclavian-supplies": {
    label: "no coronary graft or dialysis access hangs on the left subclavian artery",
    limit: "none",
    source: neededFlow,
    find: subclavianSupplies,
  },
  "left-vertebral-not-dominant": {
    label: "left vertebral artery not dominant, right one able to take its place",
    limit: "right vertebral artery patent and not hypoplastic",
    source: neededFlow,
    find: leftVertebral,
  },
  "right-axillary-inflow": practised(
    "right subclavian artery, for cannulation, open and not narrowed",
    "patent",
    (context) => areOpen(context, ["right-subclavian-artery"]),
  ),
  "zone-1-gap-20": limited("zone-1-gap-20", zoneOneGap),
  "zone-1-gap-25": limited("zone-1-gap-25", zoneOneGap),
  "native-ascending": {
    label: "native ascending aorta",
    limit: "native",
    source: "Dohle and Desai, chapter on hybrid arch repair, abstract",
    find: nativeAscending,
  },
  "ascending-under-37": limited("ascending-under-37", nativeAscendingDiameter),
  "landing-over-30": limited("landing-over-30", landingLength),
  "ascending-not-dissected": practised(
    "ascending aorta not dissected",
    "not dissected",
    ascendingUndissected,
  ),
  "ascending-graft": {
    label: "ascending aorta is a graft",
    limit: "graft",
    source:
      "Vallabhajosyula et al., type II arch hybrid, Ann Cardiothorac Surg; Front Cardiovasc Med 2022, 882783",
    find: graftedAscending,
  },
  "ascending-graft-measured": {
    label: "diameter of the graft measured, not taken from its label",
    limit: "measured",
    source: "CT series of 547 grafts, 1986 to 2005: 17 % and 21 % over the label within 7 days",
    find: measuredGraft,
  },
  "graft-length-25": limited("graft-length-25", graftLength),
  "graft-length-30": limited("graft-length-30", graftLength),
  "trunk-present": {
    label: "elephant trunk in place",
    limit: "present",
    source: trunkFamily,
    find: trunkPresent,
  },
  "first-stage-chest": practised(
    "no earlier open repair of the root, ascending aorta or arch",
    "none, until the trunk is in place",
    unlessTrunk((context) => noEarlierOpening(context, archStretches)),
  ),
  "first-stage-axillary-inflow": practised(
    "right subclavian artery, for cannulation, open and not narrowed",
    "patent, until the trunk is in place",
    unlessTrunk((context) => areOpen(context, ["right-subclavian-artery"])),
  ),
  "distal-length-20": limited("distal-length-20", distalLength),
  "descending-diameter-known": practised(
    "descending aorta measured where the trunk or stented end would lie",
    "measured",
    descendingDiameter,
  ),
  "true-lumen-known": practised(
    "true lumen measured where the trunk or stented end would lie",
    "perimeter or area measured",
    trueLumen,
  ),
  "no-earlier-arch-operation": practised(
    "no earlier open repair of the root, ascending aorta or arch",
    "none",
    (context) => noEarlierOpening(context, archStretches),
  ),
  "no-earlier-descending-operation": practised(
    "no earlier open repair of the descending aorta",
    "none",
    (context) => noEarlierOpening(context, ["3", "4", "5"]),
  ),
};

/** One requirement laid beside the case. */
export function requirementCheck(id: RequirementId, context: PlanContext): PlanningCheck {
  const { find, label, limit, source } = requirements[id];
  return checkOf(id, { label, limit, source }, find(context));
}
