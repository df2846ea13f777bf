// Source: the program dcmconv of DCMTK (Debian package dcmtk), which writes the reports of the demo in other encodings.
import { execFileSync } from "node:child_process";
import { cpSync, mkdirSync, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { takeIn } from "../../src/batch/intake.ts";
import { History } from "../../src/history/history.ts";
import { buildPlan } from "../../src/report/build-plan.ts";
import type { Plan } from "../../src/report/plan.ts";
import { demoBasis } from "../demo-basis.ts";
import { describeWithTools } from "./outside-tools.ts";
import { once, scratchFolder } from "./report-comparison.ts";

const inbox = "fixtures/demo/inbox";
const { folder } = scratchFolder("re-encoded-plans");
const { asOf, site } = demoBasis;

/**
 * The plan as text without what follows from the bytes of the files: their digests, the keys of measurements, which are
 * written here as file and place, and the order of lists that are sorted by these keys.
 */
function maskedPlan(plan: Plan): string {
  const masks = new Map([
    ...plan.measurements.map(({ key, source }) => [key, `${source.file} ${source.at}`] as const),
    ...plan.derived.map(
      ({ key, exam, place, kind, edge, lumen, how }) =>
        [key, [exam, place.id, kind, edge, lumen, how].join(" ")] as const,
    ),
  ]);
  let text = JSON.stringify(
    plan,
    (_, value: unknown) =>
      isListOf(value, masks)
        ? value.toSorted((a, b) => (orderOf(a, masks) < orderOf(b, masks) ? -1 : 1))
        : value,
    1,
  );
  for (const [key, mask] of masks) text = text.replaceAll(key, mask);
  return text.replaceAll(/"sha256": "[0-9a-f]{64}"/g, '"sha256": "digest"');
}

type Keyed = string | { key?: string; measurement?: string };
const keyOf = (entry: Keyed): string =>
  typeof entry === "string" ? entry : (entry.key ?? entry.measurement ?? "");
const orderOf = (entry: Keyed, masks: Map<string, string>): string => masks.get(keyOf(entry)) ?? "";

/** A list of measurements, of entries that name one, or of their keys. */
const isListOf = (value: unknown, masks: Map<string, string>): value is Keyed[] =>
  Array.isArray(value) &&
  (value as (Keyed | null)[]).every((entry) => entry !== null && masks.has(keyOf(entry)));

/** The plans of all patients in a folder, by patient key, and what became of each file. */
function plansOf(input: string): { plans: Map<string, string>; outcomes: string[] } {
  const history = new History(":memory:");
  const { cases, files } = takeIn(input, history, { asOf, site, onFile: () => {} });
  history.close();
  return {
    plans: new Map(cases.map((one) => [one.key, maskedPlan(buildPlan(one, demoBasis))])),
    outcomes: files.map(({ row: { file, outcome, placed, leftOut } }) =>
      [file, outcome, placed, leftOut].join(" "),
    ),
  };
}

/** The demo's folder with every report written again by dcmconv. */
function reencoded(name: string, options: string[]): string {
  const copy = join(folder, name);
  cpSync(join(inbox, "sheets"), join(copy, "sheets"), { recursive: true });
  mkdirSync(join(copy, "reports"));
  for (const file of readdirSync(join(inbox, "reports"))) {
    const [from, to] = [join(inbox, "reports", file), join(copy, "reports", file)];
    execFileSync("dcmconv", ["-q", ...options, from, to]);
    expect(Buffer.compare(readFileSync(from), readFileSync(to))).not.toBe(0);
  }
  return copy;
}

describeWithTools(["dcmconv"], "the demo in another encoding gives the same plans", () => {
  const original = once(() => plansOf(inbox));

  test("there are plans to compare, and their measurements have keys", () => {
    const { plans, outcomes } = original();
    expect(plans.size).toBeGreaterThan(8);
    expect(outcomes.filter((outcome) => outcome.includes(".dcm used")).length).toBeGreaterThan(20);
    expect([...plans.values()].join("")).toContain(".dcm item 1.");
  });

  test.each([
    ["implicit", "+ti"],
    ["big-endian", "+tb"],
    ["deflated", "+td"],
    ["defined-lengths", "+te", "+e"],
    ["group-lengths", "+te", "+g"],
    ["bare-data-set", "-F", "+te"],
    ["bare-implicit", "-F", "+ti"],
    ["latin-1", "+te", "+L1"],
  ])("%s", (name, ...options) => {
    const { plans, outcomes } = plansOf(reencoded(name, options));
    expect(outcomes).toEqual(original().outcomes);
    expect([...plans.keys()]).toEqual([...original().plans.keys()]);
    for (const [key, plan] of plans) expect(plan).toBe(original().plans.get(key));
  });
});
