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
    { name: "key", describe: "key of the measurement, as printed beside it", required: true },
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
    const measurement = plan.measurements.find((one) => one.key === key);
    if (!measurement) {
      throw new CannotStart(`no measurement ${key} in the report of ${plan.patient.id}`);
    }
    const usedBy = usesOf(plan, key);
    if (args.json) {
      terminal.print(JSON.stringify({ measurement, usedBy }, null, 2));
      return 0;
    }
    const { place, quantityLabel, statistic, edge, lumen, value, unit, exam } = measurement;
    terminal.print(
      `${key}: ${place.label}, ${quantityLabel}, statistic ${statistic}, edge ${edge}, lumen ${lumen}`,
    );
    terminal.print(`value: ${value} ${unit}, written as ${measurement.asWritten}`);
    terminal.print(`exam: ${exam}; place taken from the ${measurement.placeOrigin}`);
    terminal.print(`file: ${formatPlace(measurement.source)}`);
    terminal.print(`sha256: ${measurement.source.sha256}`);
    for (const use of usedBy) terminal.print(`used by: ${use}`);
    if (usedBy.length === 0) terminal.print("used by: no result");
    return 0;
  },
};

/** The results of a plan that stand on a measurement, in words. */
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
  return [...growth, ...criteria, ...options];
}
