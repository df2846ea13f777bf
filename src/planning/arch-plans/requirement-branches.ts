import { placeById } from "../../anatomy/places.ts";
import type { Measurement } from "../../cases/patient-case.ts";
import { formatLength } from "../../quantities/format-length.ts";
import { sentenceCase } from "../../quantities/sentence-case.ts";
import { dependantsOf } from "../branch-dependants.ts";
import { findingNeeded, findingPhrase, latestFinding } from "../latest-finding.ts";
import { type Found, notAssessable, type PlanContext } from "./plan-context.ts";

const commonOrigin = "common origin of the innominate and left common carotid arteries";

/** Whether the right common carotid artery has an inflow that a landing in zone 1 leaves open. */
export function rightCarotidInflow({ arch }: PlanContext): Found {
  const missing = ["arch variant (or usual)"];
  if (arch.isContradictory) return notAssessable("The statements of the arch differ.", missing);
  if (arch.variants.includes(commonOrigin)) {
    return {
      outcome: "not-met",
      reason: "Both carotids hang on one trunk, which a landing in zone 1 covers.",
    };
  }
  if (!arch.isStated) return notAssessable("The arch is not stated.", missing);
  const unusual = arch.variants.filter(
    (variant) => variant !== "left vertebral artery off the arch",
  );
  if (unusual.length > 0) {
    return notAssessable(`No source seen says it for: ${unusual.join(", ")}.`, [
      "where the right common carotid artery leaves the arch",
    ]);
  }
  return {
    outcome: "met",
    reason: "The innominate artery leaves the arch on its own, proximal to zone 1.",
  };
}

/** Whether all these branches (ids) are open and not narrowed. */
export function areOpen(
  { patientCase, asOf }: PlanContext,
  branches: readonly [string, ...string[]],
): Found {
  const seen = branches.map((id) => ({
    label: placeById(id).label,
    stated: latestFinding(patientCase, asOf, "patency", id),
  }));
  const used = seen.flatMap(({ stated }) => stated.used);
  const words = seen.map(({ label, stated }) => `${label} ${findingPhrase(stated)}`);
  const reason = `${sentenceCase(words.join("; "))}.`;
  const closed = seen.some(({ stated: { state } }) => state !== null && state !== "patent");
  if (closed) return { outcome: "not-met", reason, used };
  const open = seen.filter(({ stated }) => stated.state === null);
  if (open.length === 0) return { outcome: "met", reason, used };
  const missing = open.map(({ label, stated }) => findingNeeded(`patency of the ${label}`, stated));
  return notAssessable(reason, missing, used);
}

/** Whether neither a coronary graft nor a dialysis access hangs on the left subclavian artery. */
export function subclavianSupplies({ patientCase, asOf }: PlanContext): Found {
  const { names, isDenied, words, used } = dependantsOf(
    patientCase,
    asOf,
    "left-subclavian-artery",
  );
  const missing =
    "whether a coronary bypass graft or a dialysis access hangs on the left subclavian artery";
  if (words === null) return notAssessable("Nothing is stated of what hangs on it.", [missing]);
  if (names.length === 0) return { outcome: "met", reason: `Stated: ${words} hangs on it.`, used };
  const reason = `It supplies ${words}.`;
  return isDenied
    ? notAssessable(reason, [`${missing} (readers differ)`], used)
    : { outcome: "not-met", reason, used };
}

/** Whether the left vertebral artery is the lesser or the equal one, and the right one can take its place. */
export function leftVertebral({ patientCase, asOf }: PlanContext): Found {
  const of = (side: "left" | "right") =>
    latestFinding(patientCase, asOf, "dominance", `${side}-vertebral-artery`);
  const [left, right] = [of("left"), of("right")];
  const rightPatency = latestFinding(patientCase, asOf, "patency", "right-vertebral-artery");
  const used = [left, right, rightPatency].flatMap((one) => one.used);
  const stated = [
    { of: "left", found: left },
    { of: "right", found: right },
    { of: "right", found: rightPatency },
  ].filter(({ found }) => found.states.length > 0);
  const words = stated.map(
    ({ of: side, found }) => `${side} vertebral artery ${findingPhrase(found)}`,
  );
  const reason = words.length > 0 ? `${sentenceCase(words.join("; "))}.` : "Nothing is stated.";
  const isNeeded =
    left.state === "dominant" ||
    right.state === "hypoplastic" ||
    right.state === "not joined to the basilar artery" ||
    (rightPatency.state !== null && rightPatency.state !== "patent");
  if (isNeeded) return { outcome: "not-met", reason, used };
  const missing = [
    ...(left.state || right.state ? [] : ["which vertebral artery is dominant"]),
    ...(rightPatency.state ? [] : ["patency of the right vertebral artery"]),
  ];
  return missing.length > 0
    ? notAssessable(reason, missing, used)
    : { outcome: "met", reason, used };
}

/**
 * The length from the origin of the left subclavian artery to that of the vertebral artery, in mm: by the vertebral's
 * mark on the subclavian's own centreline, else a length measured on the subclavian artery. No source gives a limit.
 */
export function transpositionRoom({ patientCase, asOf, arch }: PlanContext): Found {
  if (arch.variants.includes("left vertebral artery off the arch")) {
    return {
      outcome: "not-applicable",
      reason: "The left vertebral artery leaves the arch, not the subclavian artery.",
    };
  }
  const missing = "length from the left subclavian origin to the left vertebral artery";
  const exams = patientCase.exams.filter(({ imagingDate }) => imagingDate <= asOf).toReversed();
  for (const { key, imagingDate } of exams) {
    const station = patientCase.centrelines
      .filter(({ exam, vessel }) => exam === key && vessel === "left-subclavian-artery")
      .flatMap(({ stations }) => stations)
      .find(({ mark }) => mark?.place.id === "left-vertebral-artery");
    const measured = patientCase.measurements.find((one) => one.exam === key && isRoom(one));
    const valueMm = station?.distanceMm ?? measured?.value;
    const used = station?.key ?? measured?.key;
    if (valueMm !== undefined && used !== undefined) {
      return {
        outcome: "not-assessable",
        reason: `${formatLength(valueMm)} on ${imagingDate}; no source seen says how much is enough.`,
        value: { value: valueMm, low: null, high: null, unit: "mm" },
        used: [used],
        missing: ["a least length for a transposition, which no source seen gives"],
      };
    }
  }
  return notAssessable(`Not measured: ${missing}.`, [missing]);
}

const isRoom = ({ place, quantity }: Measurement): boolean =>
  place.id === "left-subclavian-artery" && quantity === "length";
