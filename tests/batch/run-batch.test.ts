import { existsSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, test, vi } from "vitest";
import { exitCodeOf, runBatch } from "../../src/batch/run-batch.ts";
import { loadRules } from "../../src/guidelines/load-rules.ts";
import { loadSchedules } from "../../src/guidelines/load-schedules.ts";
import type { buildPlan as realBuildPlan } from "../../src/report/build-plan.ts";
import { noSiteConfig } from "../../src/site/site-config.ts";

/** Stands in for the browser: what it prints is not looked at here. A page of TEST-UNPRINTED is refused. */
vi.mock("../../src/report/pdf-printer.ts", () => ({
  openPrinter: async () => ({
    print: async (html: string) => {
      if (html.includes("TEST-UNPRINTED")) throw new Error("the browser went away");
      return new TextEncoder().encode("printed");
    },
    close: async () => {},
  }),
}));

/** A defect of the program that only the plan of TEST-DEFECT meets. */
vi.mock("../../src/report/build-plan.ts", async (importOriginal) => {
  const original = await importOriginal<{ buildPlan: typeof realBuildPlan }>();
  const buildPlan: typeof realBuildPlan = (patientCase, basis) => {
    if (patientCase.patient.id === "TEST-DEFECT") throw new Error("an invented defect");
    return original.buildPlan(patientCase, basis);
  };
  return { ...original, buildPlan };
});

let base = "";
beforeEach(() => {
  base = mkdtempSync(join(tmpdir(), "run-"));
  mkdirSync(join(base, "inbox"));
});
afterEach(() => rmSync(base, { recursive: true }));

const put = (name: string, content: string): void =>
  writeFileSync(join(base, "inbox", name), content);
const numbersOf = (...ids: string[]): string =>
  [
    "patient_id,exam_date,place,quantity,value,unit",
    ...ids.map((id) => `${id},2024-01-10,aortic arch,diameter,50,mm`),
    "",
  ].join("\n");

const run = () =>
  runBatch({
    input: join(base, "inbox"),
    out: join(base, "out"),
    asOf: "2026-01-15",
    site: noSiteConfig,
    rules: loadRules(),
    hiddenRules: [],
    schedules: loadSchedules(),
    inventory: null,
    onProgress: () => {},
  });
const hasReport = (key: string | undefined, name = "plan.json"): boolean =>
  existsSync(join(base, "out/patients", key ?? "", name));

describe("runBatch", () => {
  test("a defect that one patient meets stays with this patient", async () => {
    put("numbers.csv", numbersOf("TEST-1", "TEST-DEFECT", "TEST-3"));
    const summary = await run();
    const rows = summary.patients.map(({ id, failure, key }) => [
      id,
      failure?.code ?? null,
      hasReport(key),
    ]);
    expect(rows).toEqual([
      ["TEST-1", null, true],
      ["TEST-3", null, true],
      ["TEST-DEFECT", "case-failed", false],
    ]);
    expect(exitCodeOf(summary)).toBe(1);
  });

  test("a page that is not printed leaves its HTML, and the run says so", async () => {
    put("numbers.csv", numbersOf("TEST-1", "TEST-UNPRINTED"));
    const summary = await run();
    expect(summary.messages.map(({ code }) => code)).toEqual(["print-failed"]);
    const key = summary.patients.find(({ id }) => id === "TEST-UNPRINTED")?.key;
    expect([hasReport(key, "plan.html"), hasReport(key, "plan.pdf")]).toEqual([true, false]);
    expect(exitCodeOf(summary)).toBe(1);
  });

  test("a patient whose files come to disagree has no old report left, and one again after that", async () => {
    put("numbers.csv", numbersOf("TEST-1", "TEST-2"));
    put("people.csv", "patient_id,birth_date\nTEST-1,1950-01-02\n");
    const [first] = (await run()).patients;
    expect(hasReport(first?.key)).toBe(true);
    put("other.csv", "patient_id,birth_date\nTEST-1,1950-02-01\n");
    const second = await run();
    expect(second.patients.map(({ id, outcome, key }) => [id, outcome, hasReport(key)])).toEqual([
      ["TEST-1", "failed", false],
      ["TEST-2", "reported", true],
    ]);
    rmSync(join(base, "inbox/other.csv"));
    expect((await run()).patients[0]?.outcome).toBe("reported");
    expect(hasReport(first?.key)).toBe(true);
  });
});
