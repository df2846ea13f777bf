import type { PatientCase } from "../cases/patient-case.ts";
import { latestFinding } from "./latest-finding.ts";

/** What hangs on an artery besides what it feeds by nature, as the last exam that speaks of it states it. */
export interface BranchDependants {
  /** "coronary bypass graft", "dialysis access"; empty where none is named. */
  names: string[];
  /** True where the exam states that there is none, also where another reader of it names some. */
  isDenied: boolean;
  /** Within a sentence: "a dialysis access on 2026-01-12". Null where nothing is stated. */
  words: string | null;
  /** Keys of findings. */
  used: string[];
}

/** Coronary grafts and dialysis accesses on an artery (an id of places.yaml); `asOf` is YYYY-MM-DD. */
export function dependantsOf(
  patientCase: PatientCase,
  asOf: string,
  artery: string,
): BranchDependants {
  const { states, date, used } = latestFinding(patientCase, asOf, "supplies", artery);
  const names = states.filter((state) => state !== "neither");
  const isDenied = names.length < states.length;
  const listed = names.map((name) => `a ${name}`).join(" and ");
  const said = names.length === 0 ? "nothing" : listed;
  const differ = isDenied && names.length > 0 ? " (readers differ: one states none)" : "";
  return {
    names,
    isDenied,
    words: states.length === 0 ? null : `${said} on ${date}${differ}`,
    used,
  };
}
