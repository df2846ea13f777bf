import { cpSync, mkdirSync, mkdtempSync, readdirSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { afterAll, describe, expect, test } from "vitest";
import { takeIn } from "../../src/batch/intake.ts";
import { History } from "../../src/history/history.ts";
import { buildPlan } from "../../src/report/build-plan.ts";
import { demoBasis } from "../demo-basis.ts";

const { asOf, site } = demoBasis;

const scratch = mkdtempSync(join(tmpdir(), "nights-"));
afterAll(() => rmSync(scratch, { recursive: true }));

/** The files of the demo and of the anatomy cases, under names that keep their order. */
const files = ["fixtures/demo/inbox", "fixtures/anatomy"].flatMap((folder) =>
  readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => {
      const path = join(entry.parentPath, entry.name);
      return { from: path, to: path.slice("fixtures/".length) };
    }),
);

/** The plans after dropping the files on several nights, by patient. */
function plansAfter(name: string, nightOf: (index: number) => number): Map<string, string> {
  const history = new History(":memory:");
  const nights = [...new Set(files.map((_, index) => nightOf(index)))].toSorted((a, b) => a - b);
  let plans = new Map<string, string>();
  for (const night of nights) {
    const folder = join(scratch, name, String(night));
    for (const [index, { from, to }] of files.entries()) {
      if (nightOf(index) !== night) continue;
      mkdirSync(dirname(join(folder, to)), { recursive: true });
      cpSync(from, join(folder, to));
    }
    const intake = takeIn(folder, history, { asOf, site, onFile: () => {} });
    history.addNight(intake.night, asOf);
    if (night !== nights.at(-1)) continue;
    plans = new Map(
      intake.cases.map((one) => [
        one.patient.id,
        JSON.stringify(buildPlan(one, demoBasis), null, 1),
      ]),
    );
  }
  history.close();
  return plans;
}

describe("one night or many, the reports are the same", () => {
  const whole = plansAfter("whole", () => 0);

  test("the whole holds every patient", () => {
    expect(whole.size).toBe(16);
  });

  test.each([
    ["two nights, every other file", (index: number) => index % 2],
    ["three nights, in the opposite order", (index: number) => 2 - (index % 3)],
    ["a night for each file, last file first", (index: number) => files.length - index],
  ])("%s", (name, nightOf) => {
    const split = plansAfter(name, nightOf);
    expect([...split.keys()].toSorted()).toEqual([...whole.keys()].toSorted());
    for (const [id, plan] of whole) expect(split.get(id), id).toBe(plan);
  });
});
