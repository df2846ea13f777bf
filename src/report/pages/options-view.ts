import { sentenceCase } from "../../quantities/sentence-case.ts";
import { formatError, formatList, formatLimit, formatNumber, formatValue } from "../format.ts";
import { outcomeMark, type OutcomeMark } from "../outcome-mark.ts";
import type { Plan, PlanOption } from "../plan.ts";
import { pathWord } from "../words.ts";

/** One candidate proximal landing zone. */
export interface OptionView {
  heading: string;
  /** Why nothing is computed for this zone. */
  stopped: string | null;
  cells: { label: string; value: string }[];
  /** `note` is the number of the check's source in the list below the options. */
  checks: { mark: OutcomeMark; label: string; reason: string; note: number }[];
  /** Said once instead of the checks where nothing of the zone is measured. */
  notMeasured: string | null;
  notMeasuredMark: OutcomeMark;
  unknown: string;
  questions: { text: string; answeredBy: string }[];
}

const range = (low: number, high: number): string =>
  low === high ? formatNumber(low) : `${formatNumber(low)} to ${formatNumber(high)}`;

function graftCells({ reference, oversizing }: PlanOption): OptionView["cells"] {
  if (reference === null || oversizing === null) return [];
  const { lowPercent, highPercent, graftLowMm, graftHighMm, situation, source } = oversizing;
  const { surelyInsideLowMm, surelyInsideHighMm } = oversizing;
  const percent = `${formatLimit(lowPercent)} to ${formatLimit(highPercent)} %`;
  const inside =
    surelyInsideLowMm > surelyInsideHighMm
      ? "none over the whole reading error"
      : `${range(surelyInsideLowMm, surelyInsideHighMm)} mm`;
  return [
    {
      label: "Oversizing from",
      value: `${formatValue(reference.diameterMm, "mm")}, ${reference.method}, ${reference.edge} edge`,
    },
    { label: "Oversizing", value: `${percent}, ${situation} (${source})` },
    { label: "Graft diameters", value: `${range(graftLowMm, graftHighMm)} mm` },
    { label: "Inside despite reading error", value: inside },
    ...inventoryCell(oversizing.inventoryRows),
  ];
}

function inventoryCell(rows: { id: string; proximalMm: number }[] | null): OptionView["cells"] {
  if (rows === null) return [];
  const named = rows.map(({ id, proximalMm }) => `${id} (${formatValue(proximalMm, "mm")})`);
  return [
    { label: "Inventory rows of such a proximal diameter", value: formatList(named) || "none" },
  ];
}

const wasMeasured = ({ checks }: PlanOption): boolean => checks.some(({ used }) => used.length > 0);

function coveredWords({ branchesCovered, branchesUnknown }: PlanOption): string {
  const known = formatList(branchesCovered) || "no arch branch";
  return branchesUnknown === null ? known : `${known}; ${branchesUnknown}`;
}

function optionView(option: PlanOption, sources: readonly string[]): OptionView {
  const { soundLengths, diameterRange, movedFirst } = option;
  const lengths = soundLengths.map(
    ({ path, valueMm }) => `${formatValue(valueMm, "mm")} ${pathWord(path)}`,
  );
  const diameters = diameterRange && `${range(diameterRange.lowMm, diameterRange.highMm)} mm`;
  return {
    heading: sentenceCase(option.label),
    stopped: option.stopped,
    cells: [
      { label: "Wall", value: option.wall },
      ...(option.dissected === null ? [] : [{ label: "Dissected", value: option.dissected.state }]),
      ...(option.stopped === null
        ? [
            {
              label: "Sound length",
              value: lengths.length === 0 ? "not measured" : formatList(lengths),
            },
            { label: "Diameters", value: diameters ?? "not measured" },
            { label: "Covers", value: coveredWords(option) },
            { label: "To be re-fed first", value: formatList(movedFirst) || "nothing" },
            ...graftCells(option),
          ]
        : []),
    ],
    checks: wasMeasured(option)
      ? option.checks.map(({ outcome, label, value, reason, source }) => {
          const error = value === null ? "" : ` ${formatError(value, value.unit)}`;
          return {
            mark: outcomeMark(outcome),
            label: sentenceCase(label),
            reason: `${reason}${error}`,
            note: sources.indexOf(source) + 1,
          };
        })
      : [],
    notMeasured:
      wasMeasured(option) || option.checks.length === 0 || option.stopped !== null
        ? null
        : `${option.checks.length} conditions: nothing of this zone is measured.`,
    notMeasuredMark: outcomeMark("not-assessable"),
    unknown: option.missing.length === 0 ? "nothing" : option.missing.join("; "),
    questions: option.questions,
  };
}

/** One entry for each candidate proximal landing zone, and the numbered sources of their checks. */
export function optionViews({ options }: Plan): {
  options: OptionView[];
  /** What the options take for granted about the arch, each once. */
  optionAssumptions: string[];
  optionSources: { note: number; text: string }[];
} {
  const checks = options.flatMap((option) => option.checks);
  const zoneSources = options.map(({ zoneSource }) => `Zones: ${zoneSource}`);
  const sources = [...new Set([...checks.map(({ source }) => source), ...zoneSources])];
  return {
    options: options.map((option) => optionView(option, sources)),
    optionAssumptions: [...new Set(options.flatMap(({ assumes }) => assumes ?? []))],
    optionSources: sources.map((text, index) => ({ note: index + 1, text })),
  };
}
