import type { ArchVariantId } from "../../anatomy/arch-variants.ts";
import type { BrainZone } from "./perfusion-brain.ts";
import type { CordZone } from "./perfusion-cord.ts";
import type { PerfusionFact } from "./perfusion-facts.ts";
import type { Prompt } from "../prompts/prompt.ts";

/** Questions on cord and brain, each tied to the fact that raised it. All are common practice without a source. */
export function perfusionQuestions(
  cord: { zones: readonly CordZone[]; facts: readonly PerfusionFact[] },
  brain: { zones: readonly BrainZone[]; facts: readonly PerfusionFact[] },
  variants: readonly ArchVariantId[],
): Prompt[] {
  return [
    ...coverageQuestions(cord.zones),
    ...coeliacQuestions(cord.zones),
    ...archQuestions(brain.zones, variants),
    ...supplyQuestions(brain.zones),
    ...factQuestions(brain.facts),
  ];
}

const zoneList = (zones: readonly { zone: string }[]): string =>
  `zone ${zones.map(({ zone }) => zone).join(", ")}`;

function coverageQuestions(zones: readonly CordZone[]): Prompt[] {
  const over = zones.filter(({ checks }) => checks.some(({ outcome }) => outcome === "not-met"));
  if (over.length === 0) return [];
  const reasons = over.flatMap(({ checks }) =>
    checks.filter(({ outcome }) => outcome === "not-met").map(({ label }) => `not ${label}`),
  );
  return [
    {
      text: "One stage or several? Drain beforehand or on the first sign? Which pressure is aimed at, and who watches the legs for 72 hours?",
      raisedBy: `${zoneList(over)}: ${[...new Set(reasons)].join("; ")}`,
      answeredBy: "anaesthesia and aortic surgeon",
    },
  ];
}

function coeliacQuestions(zones: readonly CordZone[]): Prompt[] {
  const reaching = zones.filter(({ aboveCoeliacMm }) => {
    const least = aboveCoeliacMm === null ? null : (aboveCoeliacMm.lowMm ?? aboveCoeliacMm.highMm);
    return least !== null && least < 0;
  });
  return reaching.length === 0
    ? []
    : [
        {
          text: "The coverage may reach past the coeliac artery: do collaterals from the superior mesenteric artery suffice?",
          raisedBy: `${zoneList(reaching)}: less than nothing left above the coeliac artery`,
          answeredBy: "imaging lab and vascular surgeon",
        },
      ];
}

function archQuestions(zones: readonly BrainZone[], variants: readonly ArchVariantId[]): Prompt[] {
  const vertebral = zones.filter(({ notRefed }) => notRefed.includes("left vertebral artery"));
  return [
    ...(vertebral.length === 0
      ? []
      : [
          {
            text: "A bypass to the left subclavian artery does not re-feed a left vertebral artery off the arch: is it moved itself, or does the right one suffice?",
            raisedBy: `left vertebral artery off the arch, covered by a landing in ${zoneList(vertebral)}`,
            answeredBy: "vascular surgeon and neuroradiology",
          },
        ]),
    ...(variants.includes("aberrant right subclavian artery")
      ? [
          {
            text: "Would the landing cover both subclavian arteries, and with them both vertebral arteries?",
            raisedBy: "aberrant right subclavian artery",
            answeredBy: "imaging lab and vascular surgeon",
          },
        ]
      : []),
  ];
}

/** Bypass grafts, dialysis access and vertebral arteries that stand alone, where a landing would take their only inflow. */
function supplyQuestions(zones: readonly BrainZone[]): Prompt[] {
  const always = new Set(["right-carotid", "left-carotid", "right-arm", "left-arm"]);
  const lost = zones.flatMap(({ zone, supplies }) =>
    supplies
      .filter(
        ({ check }) => check.outcome === "not-met" && !always.has(check.id.replace("supply-", "")),
      )
      .map(({ territory }) => ({ territory, zone })),
  );
  return [...Map.groupBy(lost, ({ territory }) => territory)].map(([territory, own]) => ({
    text: `Who re-feeds this before it is covered, and when: ${territory}?`,
    raisedBy: `no inflow stays open without re-feeding in ${zoneList(own)}`,
    answeredBy: territory.startsWith("coronary")
      ? "cardiac surgeon"
      : "vascular surgeon and neuroradiology",
  }));
}

function factQuestions(facts: readonly PerfusionFact[]): Prompt[] {
  return facts
    .filter(({ id, words }) => id.startsWith("circle-of-willis") && words.startsWith("incomplete"))
    .map(({ words }) => ({
      text: "The circle of Willis is incomplete: how is the brain watched and fed while a branch is clamped?",
      raisedBy: `circle of Willis ${words}`,
      answeredBy: "anaesthesia and neuroradiology",
    }));
}
