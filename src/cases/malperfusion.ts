import { wordKey } from "../anatomy/dictionary.ts";
import type { AorticPlace } from "../anatomy/places.ts";
import type { Exam, Finding } from "./patient-case.ts";
import type { findingStates } from "./vocabulary.ts";

const territoryIds = [
  "coronary",
  "supra-aortic",
  "right arm",
  "left arm",
  "spinal cord",
  "coeliac",
  "superior mesenteric",
  "right renal",
  "left renal",
  "right leg",
  "left leg",
] as const;
/** A part of the body that can lack blood. */
export type Territory = (typeof territoryIds)[number];

/** "not stated": affected, and it is not said whether clinically or on imaging only. */
type MalperfusionState = (typeof findingStates.malperfusion)[number] | "not stated";

/** One territory as the case sheet states it. */
interface StatedMalperfusion {
  territory: Territory;
  state: MalperfusionState;
}

/** One statement on a territory: of the case sheet, which has no exam and no date, or of a finding. */
export interface MalperfusionSource {
  by: "case sheet" | "finding";
  state: MalperfusionState;
  place: string | null;
  exam: string | null;
  date: string | null;
  /** Keys of findings. */
  used: string[];
}

/** All statements on one territory. */
export interface TerritoryMalperfusion {
  territory: Territory;
  /** By the case sheet and the last exam that speaks of the territory; the gravest of several branches. */
  state: MalperfusionState | "sources differ";
  /** The case sheet first, then findings by exam. */
  sources: MalperfusionSource[];
}

/** What a case records of malperfusion. */
export interface Malperfusion {
  /** True where the case sheet says that there is none. */
  statedNone: boolean;
  territories: TerritoryMalperfusion[];
  problems: string[];
}

const territoryWords = new Map<string, readonly Territory[]>(
  (
    [
      ...territoryIds.map((territory) => [territory, [territory]] as const),
      ["coronaries", ["coronary"]],
      ["brain", ["supra-aortic"]],
      ["cerebral", ["supra-aortic"]],
      ["celiac", ["coeliac"]],
      ["SMA", ["superior mesenteric"]],
      ["right kidney", ["right renal"]],
      ["left kidney", ["left renal"]],
      ["both kidneys", ["right renal", "left renal"]],
      ["both renal", ["right renal", "left renal"]],
      ["both legs", ["right leg", "left leg"]],
      ["both arms", ["right arm", "left arm"]],
    ] as const
  ).map(([words, territories]) => [wordKey(words), territories]),
);

const stateWords: readonly (readonly [string, MalperfusionState])[] = [
  ["on imaging only", "on imaging only"],
  ["imaging only", "on imaging only"],
  ["on imaging", "on imaging only"],
  ["imaging", "on imaging only"],
  ["silent", "on imaging only"],
  ["clinical", "clinical"],
  ["symptomatic", "clinical"],
  ["absent", "absent"],
];

/**
 * Reads "left renal on imaging; right leg clinical". "none" gives an empty list. Of words that are not known each
 * part is named in `problems`; the other parts stand.
 */
export function parseMalperfusion(words: string): {
  stated: StatedMalperfusion[];
  problems: string[];
} {
  const stated: StatedMalperfusion[] = [];
  const problems: string[] = [];
  if (isNone(words)) return { stated, problems };
  for (const part of partsOf(words)) {
    const key = wordKey(part.replaceAll(/[():]/g, " "));
    if (key === "") continue;
    const [ending, state] = stateWords.find(([word]) => key.endsWith(` ${word}`)) ?? [
      "",
      "not stated" as const,
    ];
    const territories = territoryWords.get(key.slice(0, key.length - ending.length).trim());
    if (territories) stated.push(...territories.map((territory) => ({ territory, state })));
    else problems.push(`"${part.trim()}" is no known territory with its state`);
  }
  return { stated, problems };
}

/** Parts between separators; a state that stands alone belongs to the part before it ("left renal, on imaging only"). */
function partsOf(words: string): string[] {
  const parts: string[] = [];
  for (const piece of words.split(/(?<=;)|(?<=,)/)) {
    const part = piece.replace(/[;,]$/, "");
    const isState = stateWords.some(([word]) => wordKey(part) === word);
    const before = parts.pop();
    if (before === undefined) parts.push(part);
    else if (isState) parts.push(`${before} ${part}`);
    else parts.push(before, part);
  }
  return parts;
}

const isNone = (words: string): boolean => wordKey(words) === "none";

const territoryOfPlaceId: Readonly<Record<string, Territory>> = {
  "innominate-artery": "supra-aortic",
  "right-common-carotid-artery": "supra-aortic",
  "left-common-carotid-artery": "supra-aortic",
  "right-vertebral-artery": "supra-aortic",
  "left-vertebral-artery": "supra-aortic",
  "right-subclavian-artery": "right arm",
  "left-subclavian-artery": "left arm",
  "coeliac-artery": "coeliac",
  "superior-mesenteric-artery": "superior mesenteric",
  "right-renal-artery": "right renal",
  "left-renal-artery": "left renal",
  "zone-10-right": "right leg",
  "zone-11-right": "right leg",
  "right-common-femoral-artery": "right leg",
  "zone-10-left": "left leg",
  "zone-11-left": "left leg",
  "left-common-femoral-artery": "left leg",
};

/** The territory that a branch or iliac artery feeds; null for a place that feeds no one of them. */
export function territoryOf(place: Pick<AorticPlace, "id">): Territory | null {
  return territoryOfPlaceId[place.id] ?? null;
}

const gravity: readonly MalperfusionState[] = [
  "clinical",
  "not stated",
  "on imaging only",
  "absent",
];

/** Puts the words of the case sheet (null where the cell is empty) and the findings of the exams side by side. */
export function malperfusionOf(
  words: string | null,
  exams: readonly Exam[],
  findings: readonly Finding[],
): Malperfusion {
  const { stated, problems } =
    words === null ? { stated: [], problems: [] } : parseMalperfusion(words);
  const statedNone = words !== null && isNone(words);
  const seen = exams.flatMap(({ key, imagingDate }) =>
    findings
      .filter((finding) => finding.exam === key && finding.finding === "malperfusion")
      .map((finding) => ({ finding, date: imagingDate, territory: territoryOf(finding.place) })),
  );
  const withoutTerritory = seen
    .filter(({ territory }) => territory === null)
    .map(({ finding }) => `malperfusion recorded at ${finding.place.label} names no territory`);
  const territories = territoryIds.flatMap((territory): TerritoryMalperfusion[] => {
    const own = seen.filter((one) => one.territory === territory);
    const bySheet = stated
      .filter((one) => one.territory === territory)
      .map(({ state }) => sheetSource(state));
    if (statedNone && own.length > 0) bySheet.push(sheetSource("absent"));
    const byFinding = own.map(({ finding, date }): MalperfusionSource => ({
      by: "finding",
      state: finding.state as MalperfusionState,
      place: finding.place.label,
      exam: finding.exam,
      date,
      used: [finding.key],
    }));
    const sources = [...bySheet, ...byFinding];
    return sources.length === 0 ? [] : [{ territory, state: stateOf(sources), sources }];
  });
  return { statedNone, territories, problems: [...problems, ...withoutTerritory] };
}

const sheetSource = (state: MalperfusionState): MalperfusionSource => ({
  by: "case sheet",
  state,
  place: null,
  exam: null,
  date: null,
  used: [],
});

function stateOf(sources: readonly MalperfusionSource[]): TerritoryMalperfusion["state"] {
  const lastExam = sources.findLast(({ by }) => by === "finding")?.exam ?? null;
  const inForce = sources.filter(({ exam }) => exam === null || exam === lastExam);
  const ofSheet = inForce.filter(({ by }) => by === "case sheet");
  const ofExam = inForce.filter(({ by }) => by === "finding");
  const placesDiffer = [...Map.groupBy(ofExam, ({ place }) => place).values()].some(
    (ofPlace) => new Set(ofPlace.map(({ state }) => state)).size > 1,
  );
  const gravest = gravity.find((state) => ofExam.some((source) => source.state === state));
  const states = new Set(ofSheet.map(({ state }) => state));
  if (gravest !== undefined) states.add(gravest);
  const isAffected = !states.has("absent");
  if (isAffected && states.size > 1) states.delete("not stated");
  const [state, other] = [...states];
  return placesDiffer || state === undefined || other !== undefined ? "sources differ" : state;
}
