import { dissectionAge } from "../../cases/dissection-bands.ts";
import { aneurysms, dissections } from "../../cases/vocabulary.ts";
import type { GraftEnd, SituationId } from "./oversizing-windows.ts";

/** What the wall is where an end of the graft would lie. */
export type EndWall = "native" | "graft" | "stent graft" | `unclear: ${string}`;

/** What is known of the wall at one end. */
export interface EndFacts {
  wall: EndWall;
  /** Null where it is not known. */
  isDissected: boolean | null;
}

/** What the windows of both ends depend on. */
export interface SituationFacts {
  /** Null where the case sheet states none. */
  diagnoses: readonly string[] | null;
  onsetDate: string | null;
  /** YYYY-MM-DD. */
  asOf: string;
  /** Whether findings, lumens or the case sheet speak of a dissection. */
  speaksOfDissection: boolean;
}

/** The situations that an end falls under, which lumen its vessel diameter is of, and what would have to be known. */
export interface EndSituation {
  ids: SituationId[];
  lumen: "whole" | "true";
  missing: string[];
}

/**
 * What an end of a graft lies in, by its wall first, then by the diagnosis and, in dissection, its age (acute to day 14,
 * chronic from day 91: SVS/STS 2020 as printed by ESC 2024, section 9.3.1). A situation that no source gives a window for
 * is named among the missing.
 */
export function endSituation(
  end: GraftEnd,
  { wall, isDissected }: EndFacts,
  facts: SituationFacts,
): EndSituation {
  if (wall === "graft") return { ids: ["surgical-graft"], lumen: "whole", missing: [] };
  if (wall === "stent graft") return { ids: ["stent-graft"], lumen: "whole", missing: [] };
  const lumen = end === "distal" && isDissected === true ? "true" : "whole";
  if (wall !== "native") {
    const missing = [`the wall at the ${end} end (${wall.replace("unclear: ", "")})`];
    return { ids: [], lumen, missing };
  }
  const { diagnoses, speaksOfDissection } = facts;
  if (diagnoses === null || diagnoses.length === 0) {
    return { ids: [], lumen, missing: ["diagnosis"] };
  }
  if (diagnoses.some((diagnosis) => dissections.has(diagnosis))) {
    return { lumen, ...inDissection(end, isDissected, facts) };
  }
  if (speaksOfDissection) {
    const missing = ["the dissection in the diagnosis: other parts of the case speak of one"];
    return { ids: [], lumen, missing };
  }
  return { lumen, ...byDiagnosis(end, diagnoses, facts) };
}

type Found = Pick<EndSituation, "ids" | "missing">;

function inDissection(end: GraftEnd, isDissected: boolean | null, facts: SituationFacts): Found {
  if (isDissected === true) {
    return end === "distal"
      ? { ids: ["true-lumen-end"], missing: [] }
      : none("an oversizing window for a proximal end in dissected wall: no source gives one");
  }
  const whether = `whether the wall at the ${end} end is dissected`;
  if (isDissected === null && end === "distal") return none(whether);
  const open = isDissected === null ? [whether] : [];
  const band = bandOf(facts);
  switch (band) {
    case "acute":
      return { ids: ["acute-dissection"], missing: open };
    case "chronic":
      return { ids: ["chronic-dissection"], missing: open };
    case "subacute":
      return none(...open, "an oversizing window for a subacute dissection: no source gives one");
    default:
      return none(...open, `onset date of the dissection (${band.why})`);
  }
}

const none = (...missing: string[]): Found => ({ ids: [], missing });

function bandOf({
  onsetDate,
  asOf,
}: Pick<SituationFacts, "onsetDate" | "asOf">): "acute" | "subacute" | "chronic" | { why: string } {
  const standard = dissectionAge(onsetDate, asOf).bands.find(
    ({ scheme }) => scheme === "SVS/STS 2020",
  );
  if (!standard || standard.band === null) return { why: standard?.because ?? "no scheme" };
  return standard.band === "hyperacute or acute" ? "acute" : standard.band;
}

const trauma = "blunt traumatic injury";
const haematoma = "intramural haematoma";

/** Every diagnosis with a window of its own; those without one are named. */
function byDiagnosis(end: GraftEnd, diagnoses: readonly string[], facts: SituationFacts): Found {
  const found = diagnoses.map((diagnosis): Found => {
    if (aneurysms.has(diagnosis)) return { ids: ["aneurysm"], missing: [] };
    if (diagnosis === trauma) return { ids: ["blunt-trauma"], missing: [] };
    if (diagnosis === haematoma && end === "proximal") return inHaematoma(facts);
    return none(`an oversizing window for ${diagnosis}: no source gives one`);
  });
  return {
    ids: [...new Set(found.flatMap(({ ids }) => ids))],
    missing: [...new Set(found.flatMap(({ missing }) => missing))],
  };
}

function inHaematoma(facts: SituationFacts): Found {
  const band = bandOf(facts);
  if (band === "acute") return { ids: ["acute-haematoma"], missing: [] };
  return typeof band === "object"
    ? none(`onset date of the intramural haematoma (${band.why})`)
    : none(`an oversizing window for a ${band} intramural haematoma: no source gives one`);
}
