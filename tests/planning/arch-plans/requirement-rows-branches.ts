import type { CaseFacts } from "../../../src/cases/patient-case.ts";
import { type RequirementRow, sound } from "./requirement-row.ts";

const commonOrigin: Partial<CaseFacts> = {
  archVariants: ["common origin of the innominate and left common carotid arteries"],
};
const edges = [
  ["innominate-artery", "distal edge", 100],
  ["left-common-carotid-artery", "proximal edge", 104],
] as const;
const wideEdges = [
  ["innominate-artery", "distal edge", 100],
  ["left-common-carotid-artery", "proximal edge", 126],
] as const;
const vertebrals = [
  ["left-vertebral-artery", "dominance", "equal to the other"],
  ["right-vertebral-artery", "patency", "patent"],
] as const;

/** Requirements on the branches of the arch and the gap of zone 1. Outcome, then what is missing: each requirement holds, fails and is unknown. */
export const branchRows: RequirementRow[] = [
  ["independent-right-carotid-inflow", "stent-graft-zone-1", {}, "met"],
  ["independent-right-carotid-inflow", "stent-graft-zone-1", { facts: commonOrigin }, "not-met"],
  [
    "independent-right-carotid-inflow",
    "stent-graft-zone-1",
    { facts: { archVariants: null } },
    "not-assessable: arch variant (or usual)",
  ],
  [
    "independent-right-carotid-inflow",
    "stent-graft-zone-1",
    { facts: { archVariants: ["aberrant right subclavian artery"] } },
    "not-assessable: where the right common carotid artery leaves the arch",
  ],
  [
    "right-carotid-donor",
    "stent-graft-zone-1",
    {
      findings: [
        ["innominate-artery", "patency", "patent"],
        ["right-common-carotid-artery", "patency", "patent"],
      ],
    },
    "met",
  ],
  [
    "right-carotid-donor",
    "stent-graft-zone-1",
    { findings: [["right-common-carotid-artery", "patency", "occluded"]] },
    "not-met",
  ],
  [
    "right-carotid-donor",
    "stent-graft-zone-1",
    { findings: [["right-common-carotid-artery", "patency", "patent"]] },
    "not-assessable: patency of the innominate artery",
  ],
  [
    "left-carotid-donor",
    "stent-graft-zone-2",
    { findings: [["left-common-carotid-artery", "patency", "patent"]] },
    "met",
  ],
  [
    "left-carotid-donor",
    "stent-graft-zone-2",
    { findings: [["left-common-carotid-artery", "patency", "narrowed"]] },
    "not-met",
  ],
  [
    "left-carotid-donor",
    "stent-graft-zone-2",
    {},
    "not-assessable: patency of the left common carotid artery",
  ],
  [
    "left-carotid-donor",
    "stent-graft-zone-2",
    {
      findings: [
        ["left-common-carotid-artery", "patency", "patent"],
        ["left-common-carotid-artery", "patency", "narrowed"],
      ],
    },
    "not-assessable: patency of the left common carotid artery (readers differ)",
  ],
  [
    "transposition-room",
    "stent-graft-zone-2",
    { vessel: "left-subclavian-artery", marks: [["left-vertebral-artery", null, 31]] },
    "not-assessable: a least length for a transposition, which no source seen gives",
  ],
  [
    "transposition-room",
    "stent-graft-zone-2",
    { readings: [{ place: "left-subclavian-artery", mm: 28, quantity: "length" }] },
    "not-assessable: a least length for a transposition, which no source seen gives",
  ],
  [
    "transposition-room",
    "stent-graft-zone-2",
    {},
    "not-assessable: length from the left subclavian origin to the left vertebral artery",
  ],
  [
    "transposition-room",
    "stent-graft-zone-2",
    { facts: { archVariants: ["left vertebral artery off the arch"] } },
    "not-applicable",
  ],
  [
    "left-subclavian-supplies",
    "stent-graft-zone-2",
    { findings: [["left-subclavian-artery", "supplies", "coronary bypass graft"]] },
    "not-met",
  ],
  [
    "left-subclavian-supplies",
    "stent-graft-zone-2",
    {},
    "not-assessable: whether a coronary bypass graft or a dialysis access hangs on the left subclavian artery",
  ],
  [
    "left-subclavian-supplies",
    "stent-graft-zone-2",
    { findings: [["left-subclavian-artery", "supplies", "neither"]] },
    "met",
  ],
  [
    "left-subclavian-supplies",
    "stent-graft-zone-2",
    {
      findings: [
        ["left-subclavian-artery", "supplies", "neither"],
        ["left-subclavian-artery", "supplies", "dialysis access"],
      ],
    },
    "not-assessable: whether a coronary bypass graft or a dialysis access hangs on the left subclavian artery (readers differ)",
  ],
  ["left-vertebral-not-dominant", "stent-graft-zone-2", { findings: vertebrals }, "met"],
  [
    "left-vertebral-not-dominant",
    "stent-graft-zone-2",
    { findings: [["left-vertebral-artery", "dominance", "dominant"]] },
    "not-met",
  ],
  [
    "left-vertebral-not-dominant",
    "stent-graft-zone-2",
    { findings: [["right-vertebral-artery", "dominance", "not joined to the basilar artery"]] },
    "not-met",
  ],
  [
    "left-vertebral-not-dominant",
    "stent-graft-zone-2",
    { findings: [["right-vertebral-artery", "patency", "occluded"]] },
    "not-met",
  ],
  [
    "left-vertebral-not-dominant",
    "stent-graft-zone-2",
    { findings: vertebrals.slice(0, 1) },
    "not-assessable: patency of the right vertebral artery",
  ],
  [
    "left-vertebral-not-dominant",
    "stent-graft-zone-2",
    { findings: vertebrals.slice(1) },
    "not-assessable: which vertebral artery is dominant",
  ],
  [
    "right-axillary-inflow",
    "open-arch-repair",
    { findings: [["right-subclavian-artery", "patency", "patent"]] },
    "met",
  ],
  [
    "right-axillary-inflow",
    "open-arch-repair",
    { findings: [["right-subclavian-artery", "patency", "occluded"]] },
    "not-met",
  ],
  [
    "right-axillary-inflow",
    "open-arch-repair",
    {},
    "not-assessable: patency of the right subclavian artery",
  ],
  ["zone-1-gap-20", "stent-graft-zone-1", { marks: edges }, "not-met"],
  [
    "zone-1-gap-20",
    "stent-graft-zone-1",
    { marks: wideEdges },
    "not-assessable: length of zone 1 along the inner curve",
  ],
  [
    "zone-1-gap-20",
    "stent-graft-zone-1",
    { marks: wideEdges, readings: [sound("zone-1", 21, "inner-curve")] },
    "met",
  ],
  [
    "zone-1-gap-20",
    "stent-graft-zone-1",
    { marks: wideEdges, readings: [sound("zone-1", 19, "inner-curve")] },
    "not-met",
  ],
  [
    "zone-1-gap-20",
    "stent-graft-zone-1",
    { readings: [sound("zone-1", 30)] },
    "not-assessable: distal edge of the innominate artery and proximal edge of the left common carotid artery, on the centreline",
  ],
  [
    "zone-1-gap-20",
    "stent-graft-zone-1",
    {
      marks: [
        ["innominate-artery", "centre", 100],
        ["left-common-carotid-artery", "centre", 112],
      ],
    },
    "not-assessable: distal edge of the innominate artery and proximal edge of the left common carotid artery, on the centreline",
  ],
  ["zone-1-gap-25", "stent-graft-zone-1", { readings: [sound("zone-1", 24)] }, "not-met"],
  [
    "zone-1-gap-25",
    "stent-graft-zone-1",
    { marks: wideEdges, readings: [sound("zone-1", 25, "inner-curve")] },
    "met",
  ],
  [
    "zone-1-gap-25",
    "stent-graft-zone-1",
    { facts: commonOrigin },
    "not-assessable: the site's convention (archConventions in the site file) for: common origin of the innominate and left common carotid arteries",
  ],
];
