import { findPlan } from "../../batch/reports.ts";
import { formatPlace } from "../../message.ts";
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
      describe: "key of the measurement, finding or derived quantity, as printed beside it",
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
      const what = "no measurement, finding or derived quantity";
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
  | { kind: "derived"; entry: Plan["derived"][number] };

function tracedOf({ measurements, findings, derived }: Plan, key: string): Traced | null {
  const measurement = measurements.find((one) => one.key === key);
  if (measurement) return { kind: "measurement", entry: measurement };
  const finding = findings.find((one) => one.key === key);
  if (finding) return { kind: "finding", entry: finding };
  const computed = derived.find((one) => one.key === key);
  return computed ? { kind: "derived", entry: computed } : null;
}

const decimal = (value: number): string => value.toFixed(2);

/** Where a number or a finding stands, or what it was computed from. */
function linesOf(traced: Traced, plan: Plan): string[] {
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
  const origin = [
    `file: ${formatPlace(traced.entry.source)}`,
    `sha256: ${traced.entry.source.sha256}`,
  ];
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

/** All lists of keys named `used` in a part of a plan. */
function usedIn(part: unknown): string[] {
  if (typeof part !== "object" || part === null) return [];
  return Object.entries(part).flatMap(([name, inner]) =>
    name === "used" ? (inner as string[]) : usedIn(inner),
  );
}

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
      ({ soundLengths, diameterRange, reference, checks }) =>
        soundLengths.some(({ measurement }) => measurement === key) ||
        diameterRange?.measurements.includes(key) ||
        reference?.measurements.includes(key) ||
        checks.some(({ used }) => used.includes(key)),
    )
    .map(({ zone }) => `landing in zone ${zone}`);
  const derived = plan.derived
    .filter(({ derivedFrom }) => derivedFrom.includes(key))
    .map(({ key: own, kind, place }) => `derived ${own}, ${kind} at ${place.label}`);
  const anatomy = [
    ...(usedIn(plan.dissection).includes(key) ? ["dissection"] : []),
    ...(usedIn(plan.arch).includes(key) ? ["arch"] : []),
  ];
  return [...derived, ...growth, ...criteria, ...options, ...anatomy];
}
