import { placeById } from "../../anatomy/places.ts";
import type { Dissection } from "../../cases/dissection.ts";
import { zonesOfNotation } from "../../cases/dissection-notation.ts";
import type { Exam, PatientCase } from "../../cases/patient-case.ts";
import { wallAt } from "../../cases/wall.ts";

/** What is said of the wall of a whole zone. */
export interface ZoneWall {
  /** "native", "graft", "stent graft" …; null where that is not stated. */
  surface: string | null;
  /** Why no seal is counted in it, as far as is said of the zone: "zone 3 is dissected". */
  disease: string | null;
  /** Why measurements of the exam are not of the wall that is there now. */
  outdated: string | null;
  /** What would have to be known. */
  missing: string[];
  used: string[];
}

export interface WallBasis {
  patientCase: PatientCase;
  dissection: Dissection | null;
  exam: Exam;
  /** YYYY-MM-DD. */
  asOf: string;
}

/** The wall of a zone at the exam, by the repairs of the case sheet, the findings of the exam and the dissection of the case. */
export function zoneWall(zone: string, basis: WallBasis): ZoneWall {
  const { patientCase, exam, asOf } = basis;
  const place = placeById(`zone-${zone}`);
  const { priorRepairs } = patientCase.facts;
  const then = wallAt(place, priorRepairs, exam.imagingDate);
  const now = wallAt(place, priorRepairs, asOf, "present");
  const isReplaced =
    "kind" in then &&
    "kind" in now &&
    (then.kind !== now.kind || (then.words !== now.words && now.kind !== "native"));
  const surface = "kind" in then ? then.kind : null;
  const seen = dissectedIn(zone, surface, basis);
  return {
    surface,
    disease: seen.isDissected === true ? `zone ${zone} is dissected` : null,
    outdated:
      isReplaced && "words" in now
        ? `measurements of zone ${zone} after its repair (${now.words ?? now.kind})`
        : null,
    missing: [...("unclear" in then ? [then.unclear] : []), ...seen.missing],
    used: seen.used,
  };
}

/** Whether the zone is dissected: by the last exam that shows the dissection and the notation of the case sheet. */
function dissectedIn(
  zone: string,
  surface: string | null,
  { patientCase, dissection, exam }: WallBasis,
): { isDissected: boolean | null; missing: string[]; used: string[] } {
  const present = patientCase.findings.filter(
    ({ exam: of, finding, state, place }) =>
      of === exam.key &&
      finding === "dissection" &&
      state === "present" &&
      place.zones.includes(zone),
  );
  const found = present.map(({ key }) => key);
  if (found.length > 0) return { isDissected: true, missing: [], used: found };
  if (dissection === null) return { isDissected: false, missing: [], used: [] };
  const seen = dissection.derived?.zones.find((one) => one.zone === zone);
  const used = seen?.used ?? [];
  const { notation } = dissection.stated;
  const isStated =
    surface === "native" && notation !== null && zonesOfNotation(notation).involved.includes(zone);
  if (seen?.state === "dissected") return { isDissected: true, missing: [], used };
  if (seen?.state === "contradictory" || (isStated && seen)) {
    return {
      isDissected: true,
      missing: [`whether zone ${zone} is dissected: sources differ`],
      used,
    };
  }
  if (isStated) return { isDissected: true, missing: [], used };
  const isFree = seen !== undefined || isBeyondNotation(zone, notation);
  return isFree
    ? { isDissected: false, missing: [], used }
    : { isDissected: null, missing: [`whether zone ${zone} is dissected`], used };
}

function isBeyondNotation(zone: string, notation: Dissection["stated"]["notation"]): boolean {
  if (notation === null || notation.distal === null) return false;
  const { involved, unclear } = zonesOfNotation(notation);
  return !involved.includes(zone) && !unclear.includes(zone);
}
