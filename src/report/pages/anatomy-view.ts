import { sentenceCase } from "../../quantities/sentence-case.ts";
import { formatCount, formatList, notConfirmed } from "../format.ts";
import type { Plan } from "../plan.ts";
import type { KeyLine } from "./key-lines.ts";

type Dissection = NonNullable<Plan["dissection"]>;

/** "root", "zone 3", "zone 10 left", "zone 11" (both sides). */
function stretchName(zone: string, zones: readonly string[]): string {
  if (zone === "root") return zone;
  const [number, side] = zone.split("-");
  const other = `${number}-${side === "left" ? "right" : "left"}`;
  return side === undefined || zones.includes(other) ? `zone ${number}` : `zone ${number} ${side}`;
}

/** "root to zone 2". */
function runName(zones: readonly string[]): string {
  const [first, last] = [zones[0], zones.at(-1)].map((zone) => stretchName(zone ?? "", zones));
  return first === last ? `${first}` : `${first} to ${last}`;
}

/** What the wall is, stretch by stretch; neighbours that are alike are joined. */
function wallText({ walls }: Plan): string {
  const [open] = walls;
  if (open && walls.every(({ unclear }) => unclear === open.unclear) && open.unclear !== null) {
    return `not stated: ${open.unclear}.`;
  }
  const runs: { words: string; zones: string[] }[] = [];
  for (const { kind, since, unclear, zone } of walls) {
    const words =
      kind === null
        ? `unclear (${unclear})`
        : `${kind}${since === null || kind === "native" ? "" : ` since ${since}`}`;
    const last = runs.at(-1);
    if (last?.words === words) last.zones.push(zone);
    else runs.push({ words, zones: [zone] });
  }
  if (runs.length === 1) return `${runs[0]?.words} throughout.`;
  return `${runs.map(({ words, zones }) => `${runName(zones)} ${words}`).join("; ")}.`;
}

function archText({ arch }: Plan): string {
  if (arch.conflict !== null) return arch.conflict;
  if (arch.variants === null) return "not stated; options below are for the usual arch.";
  const by = formatList([...new Set(arch.stated.map((statement) => statement.by))]);
  const which =
    arch.variants.length === 0 ? "usual arch with three branches" : formatList(arch.variants);
  const stopped = arch.undefinedBecause === null ? "" : ` ${arch.undefinedBecause}`;
  return `${which}, by ${by}.${stopped}`;
}

const mark = (confirmed: boolean): string => (confirmed ? "" : ` (${notConfirmed})`);

function statedText({ stated }: Dissection): string {
  const { words, formatted, problem, diagnoses, onsetDate } = stated;
  const parts = [
    ...diagnoses,
    ...(words === null ? ["extent not stated"] : [formatted ?? `"${words}": ${problem}`]),
    onsetDate === null ? "onset not stated" : `onset ${onsetDate}`,
  ];
  return `${parts.join("; ")}.`;
}

function seenText({ derived, comparison }: Dissection): string {
  if (derived === null) return "no exam shows lumens or findings of it.";
  const verdicts = {
    agrees: " This agrees with what is stated.",
    contradicts: ` This contradicts what is stated: ${comparison?.reasons.join("; ")}.`,
    "not contradicted": ` It does not contradict what is stated; open: ${comparison?.open.join("; ")}.`,
  };
  const compared = comparison === null ? "" : verdicts[comparison.verdict];
  return `${derived.date}: ${derived.words}${mark(derived.typeConfirmed || derived.type === null)}.${compared}`;
}

function schemesText({ schemes }: Dissection): string {
  const said = schemes.map(
    ({ scheme, value, because, confirmed }) =>
      `${scheme} ${value ?? `not assessable, ${because}`}${mark(confirmed || value === null)}`,
  );
  return `${[...new Set(said)].join("; ")}.`;
}

function ageText({ bands }: Dissection): string {
  const last = bands.at(-1);
  if (!last) return "";
  if (last.days === null) return `not assessable: ${last.bands[0]?.because ?? "no onset date"}.`;
  const named = last.bands.map(({ scheme, band, because }) => `${band ?? because} (${scheme})`);
  return `${formatCount(last.days, "day", "days")} after the onset on ${last.date}: ${formatList(named)}.`;
}

/** "patent: mid-arch, zone 9 (2025-06-02); …": places grouped by what was seen at the last exam that says it. */
function groupedText(seen: readonly { place: string; date: string; what: string }[]): string {
  const groups = Map.groupBy(seen, ({ what, date }) => `${what}\n${date}`);
  return [...groups]
    .map(([key, here]) => {
      const [what = "", date = ""] = key.split("\n");
      return `${what}: ${formatList(here.map(({ place }) => place))} (${date})`;
    })
    .join("; ");
}

function malperfusionText({ malperfusion }: Dissection): string {
  return malperfusion
    .map(({ territory, state, sources }) =>
      state === "sources differ"
        ? `${territory}: sources differ (${sources
            .map((source) => `${source.by} ${source.date ?? ""} ${source.state}`)
            .join("; ")})`
        : `${territory}: ${state}`,
    )
    .join("; ");
}

function calledText({ statements }: Dissection): string {
  return [...Map.groupBy(statements, ({ fact }) => fact)]
    .map(([fact, said]) => {
      const when = formatList([...new Set(said.map(({ timing }) => timing))]);
      const by = said.map(({ says, body, confirmed }) => `${says} by ${body}${mark(confirmed)}`);
      return `${fact} (${when}): ${formatList([...new Set(by)])}`;
    })
    .join("; ");
}

function dissectionLines(dissection: Dissection): KeyLine[] {
  const seen = dissection.falseLumen.map(({ state, ...rest }) => ({ ...rest, what: state }));
  const fed = dissection.branches.map(({ fedBy, ...rest }) => ({ ...rest, what: fedBy }));
  const tears = dissection.tears.map(({ kind, state, ...rest }) => ({
    ...rest,
    what: state === "present" ? kind : `${kind} ${state}`,
  }));
  const optional = [
    { label: "False lumen", text: groupedText(seen) },
    { label: "Tears", text: groupedText(tears) },
    { label: "Branches fed by", text: groupedText(fed) },
    { label: "Malperfusion", text: malperfusionText(dissection) },
    { label: "Called", text: calledText(dissection) },
    { label: "Not known", text: dissection.missing.join("; ") },
  ];
  return [
    { label: "Dissection, stated", text: statedText(dissection) },
    { label: "Dissection, seen", text: seenText(dissection) },
    { label: "Classified", text: schemesText(dissection) },
    { label: "Age", text: ageText(dissection) },
    ...optional
      .filter(({ text }) => text !== "")
      .map(({ label, text }) => ({ label, text: `${text}.` })),
  ].map(({ label, text }) => ({ label, text: sentenceCase(text) }));
}

/** What the aorta is now: its wall by stretch, its arch, and its dissection where there is one. */
export function anatomyLines(plan: Plan): KeyLine[] {
  return [
    { label: "Wall", text: sentenceCase(wallText(plan)) },
    { label: "Arch", text: sentenceCase(archText(plan)) },
    ...(plan.dissection === null ? [] : dissectionLines(plan.dissection)),
  ];
}
