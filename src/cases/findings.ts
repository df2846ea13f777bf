import { createHash } from "node:crypto";
import { archVariantOf } from "../anatomy/arch-variants.ts";
import { type Dictionary, wordKey } from "../anatomy/dictionary.ts";
import { placeOfTerm } from "../anatomy/place-of-term.ts";
import { type AorticPlace, placeById } from "../anatomy/places.ts";
import type { Message } from "../message.ts";
import type { StatedFinding } from "../readers/reading.ts";
import { excludeEachOther } from "./arch.ts";
import { caseMessage } from "./messages.ts";
import type { Finding } from "./patient-case.ts";
import { type FindingId, findingStates } from "./vocabulary.ts";

const findingIds = Object.keys(findingStates) as FindingId[];

/** Other words for a finding, as word keys. */
const findingSynonyms: Readonly<Record<string, FindingId>> = {
  entry: "entry tear",
  "primary entry": "entry tear",
  "primary entry tear": "entry tear",
  "re entry": "re-entry tear",
  reentry: "re-entry tear",
  "reentry tear": "re-entry tear",
  "supplied by": "fed by",
  "perfused by": "fed by",
  "origin from": "fed by",
  flow: "patency",
  calcification: "wall calcium",
  calcium: "wall calcium",
  "mural thrombus": "wall thrombus",
  "vertebral dominance": "dominance",
};

/** Other words for the states of a finding, as word keys. A bare "thrombosed" says not how far and is none of them. */
const stateSynonyms: Readonly<Partial<Record<FindingId, Readonly<Record<string, string>>>>> = {
  "arch type": {
    "1": "I",
    "2": "II",
    "3": "III",
    "type i": "I",
    "type ii": "II",
    "type iii": "III",
    "type 1": "I",
    "type 2": "II",
    "type 3": "III",
  },
  dissection: { yes: "present", dissected: "present", no: "absent", "not dissected": "absent" },
  "false lumen": {
    open: "patent",
    "partially thrombosed": "partly thrombosed",
    "partial thrombosis": "partly thrombosed",
    "fully thrombosed": "completely thrombosed",
    "complete thrombosis": "completely thrombosed",
  },
  "entry tear": { yes: "present", "none found": "not found", "not seen": "not found" },
  "re-entry tear": { yes: "present" },
  "fed by": {
    true: "true lumen",
    false: "false lumen",
    both: "both lumens",
    "both lumina": "both lumens",
    neither: "neither lumen",
  },
  malperfusion: { "imaging only": "on imaging only", none: "absent", no: "absent" },
  patency: { open: "patent", stenosed: "narrowed", stenotic: "narrowed", closed: "occluded" },
  dominance: { equal: "equal to the other", codominant: "equal to the other" },
  "wall calcium": { none: "absent", no: "absent", partial: "part of the circumference" },
  "wall thrombus": { none: "absent", no: "absent", yes: "present" },
  "access repair": { none: "absent", no: "absent", stented: "stent", graft: "bypass graft" },
};

/** Where a finding can be. The iliac arteries are zones of the aorta and arteries that are fed. */
const fits = {
  aorta: { expected: "place of the aorta", test: ({ kind }: AorticPlace) => kind !== "branch" },
  branch: {
    expected: "branch of the aorta",
    test: ({ kind, region }: AorticPlace) => kind === "branch" || region === "iliac",
  },
  anywhere: { expected: "place of the aorta or a branch", test: () => true },
  vertebral: {
    expected: "vertebral artery",
    test: ({ id }: AorticPlace) =>
      id === "left-vertebral-artery" || id === "right-vertebral-artery",
  },
  brain: {
    expected: "circle of Willis",
    test: ({ id }: AorticPlace) => id === "circle-of-willis",
  },
  arch: {
    expected: "place of the aortic arch",
    test: ({ kind, region }: AorticPlace) => kind !== "branch" && region === "arch",
  },
} as const;
const whereabouts: Readonly<Record<FindingId, keyof typeof fits>> = {
  dissection: "aorta",
  "false lumen": "aorta",
  "entry tear": "aorta",
  "re-entry tear": "aorta",
  "fed by": "branch",
  malperfusion: "branch",
  "arch variant": "arch",
  "arch type": "arch",
  patency: "branch",
  dominance: "vertebral",
  "circle of Willis": "brain",
  supplies: "branch",
  "wall calcium": "anywhere",
  "wall thrombus": "aorta",
  "access repair": "branch",
};

/** Findings of one place only: it need not be stated. */
const placeOf: Readonly<Partial<Record<FindingId, string>>> = {
  "arch variant": "aortic-arch",
  "arch type": "aortic-arch",
  "circle of Willis": "circle-of-willis",
};

/**
 * Understands a finding in a sheet's words. A place, finding or state that is not known is a message that names it, and
 * so is a finding at a place where it can't be. An arch variant is of the whole arch, also where no place is stated.
 */
export function understandFinding(
  stated: StatedFinding,
  exam: string,
  dictionary: Dictionary,
): { finding: Finding; message: null } | { finding: null; message: Message } {
  const { source, reader, comment } = stated;
  const described = stated.place === "" ? stated.finding : `${stated.finding} at ${stated.place}`;
  const refuse = (code: Parameters<typeof caseMessage>[0], data: Record<string, string> = {}) => ({
    finding: null,
    message: caseMessage(code, source, { finding: described, number: described, ...data }),
  });

  if (stated.refused) return { finding: null, message: stated.refused };
  const finding = known(stated.finding, findingIds, findingSynonyms);
  if (finding === null) {
    const expected = findingIds.join(", ");
    return refuse("finding-not-understood", { met: `"${stated.finding}"`, expected });
  }
  const states = findingStates[finding];
  const state =
    finding === "arch variant"
      ? archVariantOf(stated.state)
      : known(stated.state, states, stateSynonyms[finding] ?? {});
  if (state === null) {
    const expected = states.join("; ");
    return refuse("finding-state-not-understood", { met: `"${stated.state}"`, expected });
  }
  const only = placeOf[finding];
  if (stated.place === "" && only === undefined) return refuse("finding-place-not-stated");
  const words = { words: stated.place, code: null };
  const place =
    stated.place === "" && only !== undefined
      ? placeById(only)
      : placeOfTerm(words, "sheet column", null, [], dictionary);
  if ("problem" in place) return refuse(place.problem, place.data);
  const { expected, test } = fits[whereabouts[finding]];
  if (!test(place)) return refuse("finding-place-unfit", { met: place.label, expected });
  return {
    finding: {
      key: findingKey(stated),
      exam,
      place: only === undefined ? place : placeById(only),
      finding,
      state,
      source,
      reader,
      comment,
    },
    message: null,
  };
}

/** The word of a vocabulary that is meant; null for a word that is neither in it nor a synonym. */
function known<Word extends string>(
  met: string,
  vocabulary: readonly Word[],
  synonyms: Readonly<Record<string, string>>,
): Word | null {
  const key = wordKey(met);
  const meant = wordKey(new Map(Object.entries(synonyms)).get(key) ?? key);
  return vocabulary.find((word) => wordKey(word) === meant) ?? null;
}

/** The same bytes give the same key: "F" and eight hex digits of file digest and place in the file. */
function findingKey({ source }: StatedFinding): string {
  const digest = createHash("sha256").update(`${source.sha256}\n${source.at}`).digest("hex");
  return `F${digest.slice(0, 8)}`;
}

/**
 * The findings of one exam along the vessel. A finding that is stated again with the same state, reader and comment is
 * counted once; where the same finding at the same place has several states, all stay and that is said.
 */
export function examFindings(
  findings: readonly Finding[],
  date: string,
): { findings: Finding[]; messages: Message[] } {
  const byMeaning = new Map<string, Finding>();
  for (const one of findings.toSorted(alongTheVessel)) {
    const meaning = meaningOf(one);
    if (!byMeaning.has(meaning)) byMeaning.set(meaning, one);
  }
  const kept = [...byMeaning.values()];
  const groups = Map.groupBy(kept, ({ place, finding }) => JSON.stringify([place.id, finding]));
  const messages = [...groups.values()].flatMap((group) => {
    const [first] = group;
    const states = [...new Set(group.map(({ state }) => state))];
    if (!first || !areContrary(first.finding, states)) return [];
    const { finding, place, source } = first;
    const data = { finding, place: place.label, date, states: states.join("; ") };
    return [caseMessage("findings-differ", source, data)];
  });
  return { findings: kept, messages };
}

/** Several variants of an arch can stand together, as `archOf` says. */
const areContrary = (finding: FindingId, states: readonly string[]): boolean =>
  finding === "arch variant"
    ? excludeEachOther(states)
    : states.length > 1 && (finding !== "supplies" || states.includes("neither"));

const meaningOf = ({ place, finding, state, reader, comment }: Finding): string =>
  JSON.stringify([place.id, finding, state, reader, comment]);

/** Along the vessel, then by what was found; the key decides only between findings that say the same. */
function alongTheVessel(a: Finding, b: Finding): number {
  const rest = (one: Finding): string => JSON.stringify([meaningOf(one), one.key]);
  return a.place.position - b.place.position || (rest(a) < rest(b) ? -1 : 1);
}
