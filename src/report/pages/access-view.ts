import type { z } from "zod";
import { sentenceCase } from "../../quantities/sentence-case.ts";
import type { accessSchema, planningCheckSchema } from "../access-schema.ts";
import { type CellRun, cellRuns } from "../cell-runs.ts";
import { formatError, formatInterval, formatValue, notConfirmed } from "../format.ts";
import { gatherBeginnings, listAlike } from "../gathered-words.ts";
import { outcomeMark, type OutcomeMark } from "../outcome-mark.ts";
import { numberedNotes } from "./numbered-notes.ts";
import { sheathTable, type SheathTable, spansSign } from "./sheath-table.ts";

type Access = z.infer<typeof accessSchema>;
type Side = Access["sides"][number];
type Stretch = Side["stretches"][number];
type Check = z.infer<typeof planningCheckSchema>;

interface CheckCell {
  mark: OutcomeMark;
  /** " ±" where the interval holds the limit. */
  spans: string;
  reason: string;
}

/** Tables with a column for each side, right first; what the access raises; the numbered sources. */
export interface AccessView {
  accessSides: string[];
  accessRows: { label: string; cells: string[] }[];
  accessSheaths: SheathTable | null;
  noSheaths: string | null;
  accessChecks: {
    label: string;
    note: string;
    cells: CellRun<CheckCell>[];
  }[];
  /** What is missing on both sides, then what only on one; empty rows are left out. */
  accessUnknown: { label: string; cells: CellRun<{ text: string }>[] }[];
  accessQuestions: Access["questions"];
  accessStatements: { text: string; note: string }[];
  accessSources: { note: string; text: string }[];
}

/** The section on the way in. */
export function accessView({ sides, questions, statements }: Access): AccessView {
  const notes = numberedNotes();
  return {
    accessSides: sides.map(({ side }) => sentenceCase(side)),
    accessRows: sizeRows(sides),
    accessSheaths: sheathTable(
      sides.map(({ sheaths }) => sheaths ?? []),
      notes,
    ),
    noSheaths: sides.some(({ sheaths }) => sheaths === null)
      ? "No inventory is named in the site file: no sheath is judged."
      : null,
    accessChecks: (sides[0]?.checks ?? []).map(({ id, label, source }) => ({
      label: sentenceCase(label),
      note: notes.mark(source),
      cells: cellRuns(sides.map((side) => checkCell(side, id))),
    })),
    accessUnknown: unknownRows(sides),
    accessQuestions: questions,
    accessStatements: statements.map(({ says, source, confirmed }) => ({
      text: says,
      note: notes.mark(confirmed ? source : `${source} (${notConfirmed})`),
    })),
    accessSources: notes.all().map((text) => ({ note: notes.mark(text), text })),
  };
}

/** The heading of the column says the side. */
const withoutSide = (phrases: readonly string[], side: Side["side"]): string[] =>
  phrases.map((phrase) => phrase.replaceAll(`${side} `, ""));

function sizeRows(sides: readonly Side[]): AccessView["accessRows"] {
  const stretches = (sides[0]?.stretches ?? []).map(({ id }) => ({
    label: `${sentenceCase(id)} artery`,
    cells: sides.map((side) =>
      stretchWords(side.stretches.find((one) => one.id === id) ?? null, side.side),
    ),
  }));
  const unplaced = {
    label: "Path, stretch not marked",
    cells: sides.map(({ unplaced: stretch, side }) => stretchWords(stretch, side)),
  };
  return [
    { label: "Narrowest", cells: sides.map(narrowestWords) },
    ...stretches,
    ...(sides.some((side) => side.unplaced !== null) ? [unplaced] : []),
    {
      label: "Internal iliac artery",
      cells: sides.map(({ internalIliac }) => internalIliac.words),
    },
  ];
}

function unknownRows(sides: readonly Side[]): AccessView["accessUnknown"] {
  const lists = sides.map(({ side, missing }) => withoutSide(missing, side));
  const [first = [], ...others] = lists;
  const shared = first.filter((phrase) => others.every((list) => list.includes(phrase)));
  const row = (label: string, phrasesOf: (list: readonly string[]) => readonly string[]) => ({
    label,
    cells: cellRuns(
      lists.map((list) => ({ text: gatherBeginnings(phrasesOf(list)) || "nothing more" })),
    ),
  });
  const onSome = lists.some((list) => list.length > shared.length);
  return [
    ...(shared.length > 0 ? [row("Unknown on both sides", () => shared)] : []),
    ...(onSome
      ? [row("Unknown", (list) => list.filter((phrase) => !shared.includes(phrase)))]
      : []),
  ];
}

function stretchWords(stretch: Stretch | null, side: Side["side"]): string {
  if (stretch === null) return "–";
  const { lumenMm, isLeast, words } = stretch;
  if (lumenMm === null) return "not measured";
  const size = formatInterval({ ...lumenMm, unit: "mm" });
  const number = ` ${formatValue(lumenMm.value, "mm")},`;
  const [how] = withoutSide(
    [words.replace(isLeast ? `least diameter${number}` : number, isLeast ? "" : ",").trim()],
    side,
  );
  return `${isLeast ? "" : "at most "}${size}, ${how}`;
}

function narrowestWords({ narrowest, largestGapMm, side }: Side): string {
  if (narrowest === null) return "not measured";
  const { valueMm, lowMm, highMm, at, isWhole } = narrowest;
  const size = formatInterval({ value: valueMm, low: lowMm, high: highMm, unit: "mm" });
  const gap =
    largestGapMm === null
      ? ""
      : `; sections of the path up to ${formatValue(largestGapMm, "mm")} apart`;
  const [place] = withoutSide([at], side);
  return isWhole
    ? `${size}, ${place}${gap}`
    : `at most ${size}, ${place}; the way is not measured whole, so that it can only show that a sheath is too large${gap}`;
}

function checkCell(side: Side, id: string): CheckCell {
  const check = side.checks.find((one) => one.id === id);
  if (!check) return { mark: outcomeMark("not-applicable"), spans: "", reason: "" };
  return {
    mark: outcomeMark(check.outcome),
    spans: spansSign(check),
    reason: sentenceCase(reasonWords(check, side)),
  };
}

/** "a: not stated; b: not stated." as "a, b: not stated."; a number in mm carries its error. */
function reasonWords({ reason, value }: Check, { side, stretches }: Side): string {
  const [words = ""] = withoutSide([reason], side);
  if (value !== null && value.unit === "mm") return `${words} ${formatError(value)}`.trim();
  const facts = words
    .replace(/\.$/, "")
    .split("; ")
    .flatMap((fact) => {
      const [, label, state] = /^(.+? artery): (.+)$/.exec(fact) ?? [];
      return label === undefined || state === undefined ? [] : [{ label, words: state }];
    });
  if (facts.length < words.split("; ").length) return words;
  const said = [...Map.groupBy(facts, (fact) => fact.words)].map(([state, same]) =>
    same.length === stretches.length
      ? `all stretches: ${state}`
      : `${listAlike(same.map(({ label }) => label))}: ${state}`,
  );
  return `${said.join("; ")}.`;
}
