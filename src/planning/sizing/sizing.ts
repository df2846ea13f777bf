import type { Dissection } from "../../cases/dissection.ts";
import { isHeritable } from "../../cases/vocabulary.ts";
import type { InventoryRow } from "../../readers/csv/inventory.ts";
import type { PlanningSettings } from "../../site/planning-settings.ts";
import { type Coverage, type PiecesOfLength, piecesByLength } from "./graft-pieces.ts";
import { type EndInWindow, graftTaper, type GraftTaper } from "./graft-taper.ts";
import { inventoryFit, type InventoryFit, windowPairs } from "./inventory-fit.ts";
import { type OversizingAlarm, oversizingData, oversizingSituation } from "./oversizing-windows.ts";
import { type PiecePair, piecePairs } from "./piece-pairs.ts";
import { sizingEnd, type SizingEnd } from "./sizing-end.ts";
import { largestSection } from "./sizing-references.ts";
import type { SizingSection } from "./sizing-section.ts";
import { type EndFacts, endSituation, type SituationFacts } from "./sizing-situation.ts";
import { trueLumenEnd, type TrueLumenEnd } from "./true-lumen-end.ts";

/** Everything that a graft with one end in each of two landing stretches is sized by. */
export interface SizingInput {
  proximal: readonly SizingSection[];
  distal: readonly SizingSection[];
  diagnoses: readonly string[] | null;
  onsetDate: string | null;
  /** YYYY-MM-DD. */
  asOf: string;
  walls: { proximal: EndFacts; distal: EndFacts };
  aetiology: string | null;
  dissection: Dissection | null;
  /** Fabric edge to fabric edge, in mm; null where it is not known. */
  coverage: Coverage | null;
  /** Null where the site names none. */
  inventory: readonly InventoryRow[] | null;
  planning: Pick<PlanningSettings, "overlapMm">;
}

/** References, windows, taper, pieces and inventory. It computes and compares, and chooses nothing. */
export interface Sizing {
  proximal: SizingEnd;
  distal: SizingEnd;
  tapers: GraftTaper[];
  coverage: Coverage | null;
  overlapMm: number;
  pieces: PiecesOfLength[];
  /** Null where the site names no inventory. */
  inventory: InventoryFit | null;
  /** Two rows, one inside the other; null where inventory or coverage is not known. */
  piecePairs: PiecePair[] | null;
  /** Null where the distal end is not known to lie in dissected wall. */
  trueLumen: TrueLumenEnd | null;
  /** Oversizing that some source warns of, beside any window; the rows name those that they are above. */
  alarms: OversizingAlarm[];
  facts: { text: string; source: string; confirmed: boolean }[];
  questions: { text: string; raisedBy: string; answeredBy: string }[];
  missing: string[];
}

/** Sizes a graft at both ends. Whatever is missing is named and takes away only what rests on it. */
export function sizing(input: SizingInput): Sizing {
  const { coverage, inventory, planning } = input;
  const { proximal, distal } = endsOf(input);
  const fit =
    inventory &&
    inventoryFit(inventory, { proximal: endToFit(proximal), distal: endToFit(distal) }, coverage);
  const pairs =
    inventory && fit && coverage && piecePairs(inventory, fit.rows, coverage, planning.overlapMm);
  const isInTrueLumen = distal.situations.some(({ id }) => id === "true-lumen-end");
  const trueLumen = isInTrueLumen ? trueLumenOf(input, proximal, distal) : null;
  return {
    proximal,
    distal,
    tapers: tapersOf(proximal, distal),
    coverage,
    overlapMm: planning.overlapMm,
    pieces:
      inventory && coverage
        ? piecesByLength(
            inventory.map(({ coveredLengthMm }) => coveredLengthMm),
            coverage,
            planning.overlapMm,
          )
        : [],
    inventory: fit,
    piecePairs: pairs,
    trueLumen,
    alarms: oversizingData.alarms,
    facts: factsOf(proximal, distal),
    questions: questionsOf(input, proximal, distal, { pairs, fit }),
    missing: [
      ...new Set([
        ...proximal.missing,
        ...distal.missing,
        ...(coverage === null ? ["length to be covered, fabric edge to fabric edge"] : []),
        ...(inventory === null ? ["inventory of the site"] : []),
        ...(input.aetiology === null && hasNativeEnd(input)
          ? ["aetiology (a heritable disease raises a question of its own)"]
          : []),
        ...(trueLumen?.missing ?? []),
      ]),
    ],
  };
}

function endsOf(input: SizingInput): { proximal: SizingEnd; distal: SizingEnd } {
  const { diagnoses, onsetDate, asOf, dissection } = input;
  const speaksOfDissection = dissection !== null;
  const facts: SituationFacts = { diagnoses, onsetDate, asOf, speaksOfDissection };
  const allowsUnstated = !speaksOfDissection && diagnoses !== null;
  const end = (one: "proximal" | "distal"): SizingEnd => {
    const sections = input[one];
    const { wall, isDissected } = input.walls[one];
    const showsTwoLumens = sections.some(({ lumen }) => lumen === "true" || lumen === "false");
    const known = isDissected ?? (showsTwoLumens ? true : null);
    const situation = endSituation(one, { wall, isDissected: known }, facts);
    return sizingEnd(one, sections, situation, allowsUnstated);
  };
  return { proximal: end("proximal"), distal: end("distal") };
}

const endToFit = ({ end, reference, windows }: SizingEnd) => ({
  end,
  reference: reference && {
    diameterMm: reference.reference.diameterMm,
    errorMm: reference.errorMm,
  },
  windows,
});

function tapersOf(proximal: SizingEnd, distal: SizingEnd): GraftTaper[] {
  const pairs = windowPairs(
    proximal.windows.map(({ window }) => window),
    distal.windows.map(({ window }) => window),
  );
  return pairs.flatMap((pair) => {
    const [p, d] = [inWindow(proximal, pair.proximal), inWindow(distal, pair.distal)];
    return p && d ? [graftTaper(p, d)] : [];
  });
}

function inWindow({ reference, windows }: SizingEnd, id: string | null): EndInWindow | null {
  const found = windows.find(({ window }) => window.id === id);
  if (!found || found.interval === null || reference === null) return null;
  const { diameterMm } = reference.reference;
  return {
    vessel: { diameterMm, errorMm: reference.errorMm, used: reference.used },
    window: found.window,
    interval: found.interval,
  };
}

/** Where the wall at the proximal end is known not to be dissected, the one lumen there counts as the true one. */
function trueLumenOf(input: SizingInput, proximal: SizingEnd, distal: SizingEnd): TrueLumenEnd {
  const isUndissected = input.walls.proximal.isDissected === false;
  const flow = proximal.sections.filter(
    ({ lumen }) => lumen === "true" || (lumen === "whole" && isUndissected),
  );
  return trueLumenEnd({
    distalTrue: distal.reference,
    distalWhole: largestSection(distal.sections.filter(({ lumen }) => lumen === "whole")),
    proximal: largestSection(flow),
    distalSections: input.distal,
    inventory: input.inventory,
  });
}

const situationIdsOf = (...ends: SizingEnd[]): Set<string> =>
  new Set(ends.flatMap(({ situations }) => situations.map(({ id }) => id)));

function factsOf(proximal: SizingEnd, distal: SizingEnd): Sizing["facts"] {
  const ids = situationIdsOf(proximal, distal);
  return oversizingData.facts
    .filter(({ of }) => of.some((id) => ids.has(id)))
    .map(({ text, source, confirmed }) => ({ text: text.trim(), source, confirmed }));
}

const hasNativeEnd = ({ walls }: SizingInput): boolean =>
  [walls.proximal, walls.distal].some(({ wall }) => wall !== "graft" && wall !== "stent graft");

function questionsOf(
  input: SizingInput,
  proximal: SizingEnd,
  distal: SizingEnd,
  { pairs, fit }: { pairs: readonly PiecePair[] | null; fit: InventoryFit | null },
): Sizing["questions"] {
  const ids = situationIdsOf(proximal, distal);
  const { heritable, questions } = oversizingData;
  const { aetiology } = input;
  const isOfHeritable = aetiology !== null && isHeritable(aetiology);
  return [
    ...questions
      .filter(({ of }) => of.some((id) => ids.has(id)))
      .map(({ text, answeredBy, of }) => ({
        text: text.trim(),
        raisedBy: of
          .filter((id) => ids.has(id))
          .map((id) => oversizingSituation(id).label)
          .join(", "),
        answeredBy,
      })),
    ...(isOfHeritable && hasNativeEnd(input)
      ? [
          {
            text: heritable.text.trim(),
            raisedBy: `aetiology: ${aetiology}`,
            answeredBy: heritable.answeredBy,
          },
        ]
      : []),
    ...[proximal, distal].flatMap(edgeQuestion),
    ...(ids.has("true-lumen-end")
      ? [
          {
            text: "Does the distal end of the graft come to lie at a bend?",
            raisedBy: "distal end in the true lumen",
            answeredBy: "imaging lab",
          },
        ]
      : []),
    ...pairQuestion(pairs, fit),
  ];
}

/** Asked where no single row of the inventory, in one piece, lies in the first windows. */
function pairQuestion(
  pairs: readonly PiecePair[] | null,
  fit: InventoryFit | null,
): Sizing["questions"] {
  if (pairs === null || pairs.length === 0) return [];
  const first = fit?.answers[0]?.fits ?? [];
  const isOneEnough = fit?.rows.some(
    ({ id, onePiece }) => onePiece === "met" && first.includes(id),
  );
  if (isOneEnough) return [];
  return [
    {
      text: "Would two pieces be taken, the smaller distal one first and the larger proximal one inside it (common practice without a source)?",
      raisedBy: `pairs of inventory rows whose numbers lie in the windows: ${pairs.length}`,
      answeredBy: "whole team",
    },
  ];
}

function edgeQuestion({ end, reference }: SizingEnd): Sizing["questions"] {
  if (reference === null || reference.edge === "inner") return [];
  const words = reference.edge === "outer" ? "outer edge" : "edge not stated";
  return [
    {
      text: `What is the size between inner edges at the ${end} end? Grafts are sized from the lumen (common practice without a source).`,
      raisedBy: `${reference.place}, ${words}`,
      answeredBy: "imaging lab",
    },
  ];
}
