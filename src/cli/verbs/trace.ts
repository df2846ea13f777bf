import { findPlan } from "../../batch/reports.ts";
import type { Centreline, Station } from "../../cases/patient-case.ts";
import { formatPlace, type SourcePlace } from "../../message.ts";
import type { Plan } from "../../report/plan.ts";
import { lastRun, outOption } from "../inputs.ts";
import { CannotStart, type Verb } from "../verb.ts";

/** From a number in a report back to its file and place, and forward to all that used it. */
export const trace: Verb = {
  name: "trace",
  describe: "from a number in a report back to its file and place, and forward to what used it",
  positionals: [
    {
      name: "key",
      describe:
        "key of the measurement, finding, derived quantity or section of a centreline, as printed beside it",
      required: true,
    },
  ],
  options: {
    patient: { describe: "patient ID, or the patient's key", type: "string", required: true },
    out: outOption,
  },
  example: "aortic-packet trace --patient DEMO-001 M1a2b3c4d",
  run: async (args, terminal) => {
    const out = args.text("out");
    lastRun(out);
    const found = findPlan(out, args.text("patient"));
    if ("failure" in found) {
      terminal.complain(`${found.failure.text}. ${found.failure.remedy}`);
      return 1;
    }
    const { plan } = found;
    const key = args.text("key");
    const traced = tracedOf(plan, key);
    if (traced === null) {
      const what = "no measurement, finding, derived quantity or section";
      throw new CannotStart(`${what} ${key} in the report of ${plan.patient.id}`);
    }
    const usedBy = usesOf(plan, key);
    if (args.json) {
      terminal.print(JSON.stringify({ [traced.kind]: traced.entry, usedBy }, null, 2));
      return 0;
    }
    for (const line of linesOf(traced, plan)) terminal.print(line);
    for (const use of usedBy) terminal.print(`used by: ${use}`);
    if (usedBy.length === 0) terminal.print("used by: no result");
    return 0;
  },
};

type Traced =
  | { kind: "measurement"; entry: Plan["measurements"][number] }
  | { kind: "finding"; entry: Plan["findings"][number] }
  | { kind: "derived"; entry: Plan["derived"][number] }
  | { kind: "section"; entry: TracedStation };

/** A section of a centreline of the plan, with the vessel and exam of its centreline. */
export interface TracedStation extends Station {
  vessel: string;
  exam: string;
}

/** The section with this key; null where the plan lists none. */
export function stationOf(plan: object, key: string): TracedStation | null {
  const { centrelines = [] } = plan as { centrelines?: Centreline[] };
  for (const { exam, label, stations } of centrelines) {
    const station = stations.find((one) => one.key === key);
    if (station) return { ...station, vessel: label, exam };
  }
  return null;
}

function tracedOf(plan: Plan, key: string): Traced | null {
  const { measurements, findings, derived } = plan;
  const measurement = measurements.find((one) => one.key === key);
  if (measurement) return { kind: "measurement", entry: measurement };
  const finding = findings.find((one) => one.key === key);
  if (finding) return { kind: "finding", entry: finding };
  const computed = derived.find((one) => one.key === key);
  if (computed) return { kind: "derived", entry: computed };
  const station = stationOf(plan, key);
  return station && { kind: "section", entry: station };
}

const decimal = (value: number): string => value.toFixed(2);

/** Where a number or a finding stands, or what it was computed from. */
function linesOf(traced: Traced, plan: Plan): string[] {
  if (traced.kind === "section") return stationLines(traced.entry);
  const { key, place, exam } = traced.entry;
  if (traced.kind === "derived") {
    const { kind, edge, lumen, value, unit, low, high, how, derivedFrom } = traced.entry;
    const sources = plan.measurements.filter((one) => derivedFrom.includes(one.key));
    return [
      `${key}: ${place.label}, ${kind}, edge ${edge}, lumen ${lumen}`,
      `value: ${decimal(value)} ${unit}, ${decimal(low)} to ${decimal(high)} by the rounding of what it was computed from`,
      `exam: ${exam}; computed: ${how}`,
      ...sources.map(({ key: own, asWritten, source }) => {
        return `from: ${own}, ${asWritten}, ${formatPlace(source)}`;
      }),
    ];
  }
  const origin = originLines(traced.entry.source);
  if (traced.kind === "finding") {
    const { finding, state } = traced.entry;
    return [`${key}: ${place.label}, ${finding}: ${state}`, `exam: ${exam}`, ...origin];
  }
  const { quantityLabel, statistic, edge, lumen, value, unit, asWritten, placeOrigin } =
    traced.entry;
  return [
    `${key}: ${place.label}, ${quantityLabel}, statistic ${statistic}, edge ${edge}, lumen ${lumen}`,
    `value: ${value} ${unit}, written as ${asWritten}`,
    `exam: ${exam}; place taken from the ${placeOrigin}`,
    ...origin,
  ];
}

const originLines = (source: SourcePlace): string[] => [
  `file: ${formatPlace(source)}`,
  `sha256: ${source.sha256}`,
];

/** What a section of a centreline is, as far as it is stated. */
export function stationLines(station: TracedStation): string[] {
  const { key, vessel, exam, distanceMm, mark, wall, lumen, edge, point, source } = station;
  const edgeOfMark = mark?.edge ? `, ${mark.edge}` : "";
  const stated: [string, string | number | null, string?][] = [
    ["mark", mark && `${mark.place.label}${edgeOfMark}`],
    ["wall", wall],
    ["maximum diameter", station.maximumMm, "mm"],
    ["minimum diameter", station.minimumMm, "mm"],
    ["perimeter", station.perimeterMm, "mm"],
    ["area", station.areaMm2, "mm2"],
    ["thrombus arc", station.thrombusArcDeg, "degrees"],
    ["thrombus thickness", station.thrombusThicknessMm, "mm"],
    ["calcium arc", station.calciumArcDeg, "degrees"],
    ["point", point && point.map(decimal).join(", "), "mm"],
  ];
  return [
    `${key}: section of the centreline of the ${vessel} at ${decimal(distanceMm)} mm, edge ${edge}, lumen ${lumen}`,
    ...stated.flatMap(([what, value, unit]) =>
      value === null ? [] : [[`${what}: ${value}`, unit].filter(Boolean).join(" ")],
    ),
    `exam: ${exam}`,
    ...originLines(source),
  ];
}

/** All keys in the lists of a part of a plan that are named `used` or `stations`. */
function usedIn(part: unknown): string[] {
  if (typeof part !== "object" || part === null) return [];
  return Object.entries(part).flatMap(([name, inner]) =>
    (name === "used" || name === "stations") && isKeys(inner) ? inner : usedIn(inner),
  );
}

const isKeys = (list: unknown): list is string[] =>
  Array.isArray(list) && list.every((one) => typeof one === "string");

/** Parts of a plan that `usesOf` names one by one, and those that list what was read. */
const namedParts: ReadonlySet<string> = new Set([
  "measurements",
  "findings",
  "centrelines",
  "rings",
  "derived",
  "growth",
  "assessments",
  "options",
  "dissection",
  "arch",
]);

/** The results of a plan that stand on a measurement, a finding or a derived quantity, in words. */
export function usesOf(plan: Plan, key: string): string[] {
  const growth = plan.growth
    .filter(({ points }) => points.some(({ measurements }) => measurements.includes(key)))
    .map(({ key: own, place }) => `growth ${own}, ${place.label}`);
  const criteria = plan.assessments
    .filter(({ used }) => used.includes(key))
    .map(({ rule, outcome }) => `criterion ${rule}: ${outcome}`);
  const options = plan.options
    .filter(
      (option) =>
        option.soundLengths.some(({ measurement }) => measurement === key) ||
        option.diameterRange?.measurements.includes(key) ||
        usedIn(option).includes(key),
    )
    .map(({ zone }) => `landing in zone ${zone}`);
  const derived = plan.derived
    .filter(({ derivedFrom }) => derivedFrom.includes(key))
    .map(({ key: own, kind, place }) => `derived ${own}, ${kind} at ${place.label}`);
  const anatomy = [
    ...(usedIn(plan.dissection).includes(key) ? ["dissection"] : []),
    ...(usedIn(plan.arch).includes(key) ? ["arch"] : []),
  ];
  const others = Object.entries(plan)
    .filter(([name, part]) => !namedParts.has(name) && usedIn(part).includes(key))
    .map(([name]) => name.replaceAll(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`));
  return [...derived, ...growth, ...criteria, ...options, ...anatomy, ...others];
}
