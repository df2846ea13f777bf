import type { z } from "zod";
import { sentenceCase } from "../../quantities/sentence-case.ts";
import { type CellRun, cellRuns } from "../cell-runs.ts";
import { formatNumber, notConfirmed } from "../format.ts";
import { gatherBeginnings } from "../gathered-words.ts";
import { outcomeMark, type OutcomeMark } from "../outcome-mark.ts";
import type { perfusionSchema } from "../perfusion-schema.ts";
import { type NumberedNotes, numberedNotes } from "./numbered-notes.ts";

type Perfusion = z.infer<typeof perfusionSchema>;
type CordZone = Perfusion["cord"]["zones"][number];
type BrainZone = Perfusion["brain"]["zones"][number];
type Statement = Perfusion["statements"][number];

interface MarkCell {
  mark: OutcomeMark;
  text: string;
}

/** The section on perfusion: tables with a column for each candidate zone, facts, statements and questions. */
export interface PerfusionView {
  perfusionAssumes: string | null;
  perfusionZones: string[];
  cordRows: { label: string; cells: CellRun<{ text: string }>[] }[];
  cordLimits: { label: string; notes: string; cells: MarkCell[] }[];
  brainRows: { territory: string; cells: CellRun<MarkCell>[] }[];
  brainNotes: string;
  refeeding: string[];
  perfusionFacts: string[];
  organRows: {
    branch: string;
    organ: string;
    fedBy: string;
    patency: string;
    malperfusion: string;
  }[];
  perfusionStatements: {
    heading: string;
    rows: { number: string; text: string; note: string; contrary: string }[];
  }[];
  perfusionQuestions: Perfusion["questions"];
  perfusionUnknown: string;
  perfusionSources: { note: string; text: string }[];
}

/** The section on perfusion. */
export function perfusionView(perfusion: Perfusion): PerfusionView {
  const { assumes, cord, brain, organs, statements, questions, missing } = perfusion;
  const notes = numberedNotes();
  return {
    perfusionAssumes: assumes,
    perfusionZones: cord.zones.map(({ zone, stopped }) =>
      stopped === null ? `Zone ${zone}` : `Zone ${zone}, not defined`,
    ),
    cordRows: cordRows(cord.zones),
    cordLimits: cordLimits(cord.zones, notes),
    brainRows: (brain.zones[0]?.supplies ?? []).map(({ territory, check: { id } }) => ({
      territory: sentenceCase(territory),
      cells: cellRuns(brain.zones.map((zone) => brainCell(zone, id))),
    })),
    brainNotes: marksOf(
      brain.zones.flatMap(({ supplies }) => supplies.map(({ check }) => check.source)),
      notes,
    ),
    refeeding: refeedingLines(brain.zones),
    perfusionFacts: factLines([...cord.facts, ...brain.facts]),
    organRows: organs.map(({ branch, organ, fedBy, patency, malperfusion }) => ({
      branch: sentenceCase(branch),
      organ,
      fedBy,
      patency,
      malperfusion,
    })),
    perfusionStatements: statementGroups(statements, notes),
    perfusionQuestions: questions,
    perfusionUnknown: missing.length === 0 ? "nothing" : gatherBeginnings(missing),
    perfusionSources: notes.all().map((text) => ({ note: notes.mark(text), text })),
  };
}

/** "[1] [4]". */
const marksOf = (sources: readonly string[], { mark }: NumberedNotes): string =>
  [...new Set(sources)].map(mark).join(" ");

function range(low: number | null, high: number, unit: string): string {
  if (low === null) return `at most ${formatNumber(high, unit)}`;
  return low === high
    ? formatNumber(high, unit)
    : `${formatNumber(low, unit)} to ${formatNumber(high, unit)}`;
}

const notKnown = "not known";

function cordRows(zones: readonly CordZone[]): PerfusionView["cordRows"] {
  const row = (label: string, textOf: (zone: CordZone) => string) => ({
    label,
    cells: cellRuns(zones.map((zone) => ({ text: textOf(zone) }))),
  });
  return [
    row("Covered, mm", ({ lengthMm }) =>
      lengthMm === null ? notKnown : range(lengthMm.leastMm, lengthMm.mostMm, "mm"),
    ),
    row("Share, %", ({ sharePercent }) =>
      sharePercent === null ? notKnown : range(sharePercent.low, sharePercent.high, "%"),
    ),
    row("Left over, mm", ({ aboveCoeliacMm }) =>
      aboveCoeliacMm === null ? notKnown : range(aboveCoeliacMm.lowMm, aboveCoeliacMm.highMm, "mm"),
    ),
    ...(zones[0]?.supplies ?? []).map(({ supply }) =>
      row(sentenceCase(supply), ({ supplies }) => {
        const found = supplies.find((one) => one.supply === supply);
        return found ? `${sentenceCase(found.state)}: ${found.words}` : notKnown;
      }),
    ),
  ];
}

/** Limits of the same words with the same outcomes in every zone are one row with the sources of all. */
function cordLimits(zones: readonly CordZone[], notes: NumberedNotes): PerfusionView["cordLimits"] {
  const rows = (zones[0]?.checks ?? []).map(({ id, label, source }) => ({
    label: sentenceCase(label),
    source,
    cells: zones.map((zone) => cordCell(zone, id)),
  }));
  const alike = Map.groupBy(rows, ({ label, cells }) =>
    JSON.stringify([label, cells.map(({ mark, text }) => mark.word + text)]),
  );
  return [...alike.values()].flatMap((group) =>
    group.slice(0, 1).map(({ label, cells }) => ({
      label,
      notes: marksOf(
        group.map(({ source }) => source),
        notes,
      ),
      cells,
    })),
  );
}

function cordCell({ checks }: CordZone, id: string): MarkCell {
  const check = checks.find((one) => one.id === id);
  const text = check?.spansLimit && check.outcome !== "not-assessable" ? " ±" : "";
  return { mark: outcomeMark(check?.outcome ?? "not-applicable"), text };
}

/** What is covered and what stays, by artery. */
function brainCell({ supplies }: BrainZone, id: string): MarkCell {
  const supply = supplies.find(({ check }) => check.id === id);
  const stays = (supply?.inflows ?? [])
    .filter(({ isCovered, isOpen }) => isCovered === false && isOpen === true)
    .map(({ artery }) => artery);
  const text = stays.length === 0 ? "" : `: by the ${stays.join(" and the ")}`;
  return { mark: outcomeMark(supply?.check.outcome ?? "not-applicable"), text };
}

/** "Patency of the a, b: not stated": what is stated alike, once. */
function factLines(facts: Perfusion["cord"]["facts"]): string[] {
  return [...Map.groupBy(facts, ({ words }) => words)].map(([words, alike]) => {
    const labels = alike.map(({ label }) => `${label.slice(0, 1).toLowerCase()}${label.slice(1)}`);
    return sentenceCase(`${gatherBeginnings(labels, ", ")}: ${words}`);
  });
}

/** By zone; zones of which the same is to be said share a line. */
function refeedingLines(zones: readonly BrainZone[]): string[] {
  const said = zones.map(({ zone, stopped, refeeding, notRefed }) => {
    if (stopped !== null) return { zone, words: stopped };
    const none =
      notRefed.length === 0 ? [] : [`no usual re-feeding named for: ${notRefed.join(", ")}`];
    return { zone, words: [...refeeding, ...none].join("; ") };
  });
  const alike = Map.groupBy(
    said.filter(({ words }) => words !== ""),
    ({ words }) => words,
  );
  return [...alike].map(
    ([words, same]) => `Zone ${same.map(({ zone }) => zone).join(", ")}: ${words}`,
  );
}

const topics: Record<Statement["about"], string> = {
  cord: "Spinal cord",
  brain: "Brain and arms",
  gut: "Gut",
};

/** Numbered through, so that those that contradict each other can name each other. */
function statementGroups(
  statements: readonly Statement[],
  { mark }: NumberedNotes,
): PerfusionView["perfusionStatements"] {
  const groups = [...Map.groupBy(statements, ({ about }) => about)];
  const inOrder = groups.flatMap(([, group]) => group);
  const numbers = new Map(inOrder.map(({ id }, index) => [id, `S${index + 1}`]));
  return groups.map(([about, group]) => ({
    heading: topics[about],
    rows: group.map(({ id, says, source, confirmed, against }) => {
      const others = against.flatMap((other) => numbers.get(other) ?? []);
      return {
        number: numbers.get(id) ?? "",
        text: says,
        note: mark(confirmed ? source : `${source} (${notConfirmed})`),
        contrary: others.length === 0 ? "" : ` Found otherwise: ${others.join(", ")}.`,
      };
    }),
  }));
}
