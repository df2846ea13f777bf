import { sentenceCase } from "../../quantities/sentence-case.ts";
import { gatherBeginnings, listAlike } from "../gathered-words.ts";
import type { PlanRingView, PlanViews } from "../views-schema.ts";
import { ringNames } from "./ring-names.ts";

type Gap = PlanViews["notAssessable"][number];

/** What can't be told of which rings, and what is missing for it. */
export interface GapRow {
  rings: string;
  what: string;
  missing: string;
}

/** Gaps of the rings; those that lack the same share a row. */
export function gapRows(rings: readonly PlanRingView[]): GapRow[] {
  const names = ringNames(rings);
  const gaps = rings.flatMap(({ notAssessable }, index) =>
    joinBranches(notAssessable).map((gap) => ({ ...gap, ring: names[index] ?? "" })),
  );
  const alike = Map.groupBy(gaps, ({ what, missing }) => JSON.stringify([what, missing]));
  return [...alike.values()].flatMap((same) =>
    same.slice(0, 1).map(({ what, missing }) => ({
      rings: sentenceCase(gatherBeginnings(same.map(({ ring }) => ring))),
      what: sentenceCase(what),
      missing,
    })),
  );
}

const profileOf = /^view of the origin of the (.+) in profile$/;

/** Origins of branches that lack the same of each branch, in one. */
function joinBranches(gaps: readonly Gap[]): Gap[] {
  const alike = Map.groupBy(gaps, ({ what, missing }) => {
    const branch = profileOf.exec(what)?.[1];
    return branch === undefined
      ? JSON.stringify([what, missing])
      : missing.replaceAll(branch, "branch");
  });
  return [...alike].flatMap(([shared, same]) => {
    const branches = same.flatMap(({ what }) => profileOf.exec(what)?.[1] ?? []);
    return branches.length > 1
      ? [{ what: `view of the origin in profile: ${listAlike(branches)}`, missing: shared }]
      : same.slice(0, 1);
  });
}
