import { sentenceCase } from "../../quantities/sentence-case.ts";
import { formatList, formatNumber, formatValue } from "../format.ts";
import type { Plan, PlanOption } from "../plan.ts";
import { pathWord } from "../words.ts";
import { glanceColumns } from "./glance-columns.ts";
import { type GlanceView, glanceView } from "./glance-view.ts";

/** One candidate proximal landing zone: what it is made of, what it covers. */
export interface OptionView {
  zone: string;
  wall: string;
  covers: string;
  movedFirst: string;
  measured: string;
}

/** The options of a plan at a glance, with what they take for granted. */
export interface OptionsGlance {
  /** Null where no option is laid out, which `noOptions` then says. */
  glance: (GlanceView & { caption: string; width: number }) | null;
  noOptions: string | null;
  /** What the options take for granted about the arch, each once. */
  optionAssumptions: string[];
}

/** Whether options are laid out on pages: a repair is considered that has a landing, or one is measured. */
export const hasOptions = ({ worklists, options }: Pick<Plan, "worklists" | "options">): boolean =>
  worklists.length > 0 ||
  options.some(({ segments }) => segments.some(({ basis }) => basis !== "none"));

const caption =
  "Every condition of every candidate zone for the proximal end. Holds, fails and unknown are told by shape and word; ± where the reading error or the gaps between sections reach across the limit; – where it is no condition of the zone. Nothing is summed up, and no zone goes before another.";

/** The matrix of all conditions of all candidate zones. */
export function optionsGlance(plan: Plan): OptionsGlance {
  const optionAssumptions = [...new Set(plan.options.flatMap(({ assumes }) => assumes ?? []))];
  if (!hasOptions(plan)) {
    const noOptions =
      "No repair with a landing in the thoracic aorta is considered and no landing zone is measured: no options are laid out.";
    return { glance: null, noOptions, optionAssumptions: [] };
  }
  const view = glanceView(glanceColumns(plan));
  return {
    glance: { ...view, caption, width: view.columns.length + 1 },
    noOptions: null,
    optionAssumptions,
  };
}

const range = (low: number, high: number): string =>
  low === high ? formatNumber(low) : `${formatNumber(low)} to ${formatNumber(high)}`;

function optionView(option: PlanOption): OptionView {
  const { label, stopped, wall, dissected, soundLengths, diameterRange, movedFirst } = option;
  const lengths = soundLengths.map(
    ({ path, valueMm }) => `sound length ${formatValue(valueMm, "mm")} ${pathWord(path)} as stated`,
  );
  const diameters =
    diameterRange && `diameters ${range(diameterRange.lowMm, diameterRange.highMm)} mm`;
  return {
    zone: sentenceCase(label),
    wall: dissected === null ? wall : `${wall}; dissected: ${dissected.state}`,
    covers: stopped ?? coveredWords(option),
    movedFirst: stopped === null ? formatList(movedFirst) || "nothing" : "not known",
    measured: formatList([...(diameters === null ? [] : [diameters]), ...lengths]) || "nothing",
  };
}

function coveredWords({ branchesCovered, branchesUnknown }: PlanOption): string {
  const known = formatList(branchesCovered) || "no arch branch";
  return branchesUnknown === null ? known : `${known}; ${branchesUnknown}`;
}

/** One row for each candidate zone, with the questions of its zone and where the zones come from. */
export function optionRows({ options }: Plan): {
  optionZones: OptionView[];
  optionQuestions: { zones: string; text: string; answeredBy: string }[];
  optionZoneSources: string[];
} {
  const asked = Map.groupBy(
    options.flatMap(({ zone, questions }) => questions.map((question) => ({ zone, ...question }))),
    ({ text, answeredBy }) => JSON.stringify([text, answeredBy]),
  );
  return {
    optionZones: options.map(optionView),
    optionQuestions: [...asked.values()].flatMap((same) => {
      const [first] = same;
      if (!first) return [];
      const { text, answeredBy } = first;
      const zones = `zone ${formatList(same.map(({ zone }) => zone))}`;
      return [{ zones, text, answeredBy }];
    }),
    optionZoneSources: [...new Set(options.map(({ zoneSource }) => zoneSource))],
  };
}
