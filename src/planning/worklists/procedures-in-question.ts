import type { PatientCase } from "../../cases/patient-case.ts";
import { type Procedure, procedures } from "./worklists.ts";

const throughTheGroin = ["distal landing", "access"];

/** The ways of doing each operation that a case sheet may consider, by the ids of their worklists. */
const waysOf: Readonly<Record<string, readonly string[]>> = {
  "ascending repair": ["open arch"],
  "arch repair": [
    "zone 0",
    "zone 1",
    "zone 2",
    "hybrid type I",
    "hybrid type II",
    "frozen elephant trunk",
    "open arch",
    ...throughTheGroin,
  ],
  "descending repair": ["zone 2", "zone 3", "zone 4", "open descending", ...throughTheGroin],
  "thoraco-abdominal repair": ["zone 3", "zone 4", "open descending", ...throughTheGroin],
};

/** The procedures whose measurements the meeting may need, in the order of the worklists; none where no repair is considered. */
export function proceduresInQuestion({ facts }: PatientCase): Procedure[] {
  const asked = new Set((facts.considered ?? []).flatMap((operation) => waysOf[operation] ?? []));
  return procedures.filter(({ id }) => asked.has(id));
}
