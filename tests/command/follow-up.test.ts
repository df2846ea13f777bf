import { existsSync, readFileSync, mkdirSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import { runCommandLine } from "../../src/cli/command-line.ts";
import { followUp } from "../../src/cli/verbs/follow-up.ts";
import { jsonText } from "../../src/batch/write-output.ts";
import { sampleBatch, samplePatientRow } from "../report/sample-batch.ts";
import { assessment } from "../report/sample-criteria.ts";
import { quietPlan, sampleDue, surveillanceOf } from "../report/sample-follow-up.ts";
import { growth } from "../report/sample-growth.ts";
import { samplePlan } from "../report/sample-plan.ts";
import { newFolder, runProgram } from "./run-program.ts";

const out = newFolder();
const plans = [
  quietPlan("QUIET"),
  quietPlan("LATE", { surveillance: surveillanceOf([sampleDue("2025-12-10")]) }),
  quietPlan("GROWS", { growth: growth.slice(1, 2) }),
  quietPlan("NEAR", { assessments: [assessment("invented", {})] }),
  quietPlan("LOST", { exams: samplePlan.exams.slice(0, 1) }),
];

beforeAll(() => {
  const failed = sampleBatch.patients.filter(({ outcome }) => outcome === "failed");
  const patients = plans.map(({ patient: { id, key } }) => samplePatientRow(1, { id, key }));
  const batch = { ...sampleBatch, patients: [...patients, ...failed] };
  writeFileSync(join(out, "batch.json"), jsonText(batch));
  for (const plan of plans) {
    const folder = join(out, "patients", plan.patient.key);
    mkdirSync(folder, { recursive: true });
    writeFileSync(join(folder, "plan.json"), jsonText(plan));
  }
});
afterAll(() => rmSync(out, { recursive: true }));

/** The verb in this process, behind the same command line. */
async function listed(...words: string[]): Promise<{ exitCode: number; out: string }> {
  const lines: string[] = [];
  const print = (line: string) => {
    lines.push(line);
  };
  const terminal = { print, complain: print, progress: () => {} };
  const exitCode = await runCommandLine(["follow-up", ...words], [followUp], terminal);
  return { exitCode, out: lines.join("\n") };
}

const idsIn = (text: string): string[] => text.match(/^[A-Z]+(?= {2})/gm) ?? [];

test("prints one line for each reason, in columns, and ends with 0", () => {
  const { exitCode, out: text } = runProgram("follow-up", "--out", out);
  const [head, headings, late] = text.split("\n");
  expect(head).toBe("follow-up list as of 2026-01-14: 5 of 5 patients");
  expect(headings).toBe("patient  last exam   due         overdue, days  why");
  expect(late).toBe(
    "LATE     2026-01-12  2025-12-10  35             overdue by 35 days: CT of descending aorta (Northbody 2022)",
  );
  expect(idsIn(text)).toEqual(["LATE", "GROWS", "LOST", "NEAR", "QUIET"]);
  expect(text).toContain("patient TEST-0002: no report: Two files disagree");
  expect(exitCode).toBe(0);
}, 30_000);

test.each([
  [["--overdue"], ["LATE"]],
  [["--growing"], ["GROWS"]],
  [["--near"], ["NEAR"]],
  [["--lost"], ["LOST"]],
  [
    ["--overdue", "--lost"],
    ["LATE", "LOST"],
  ],
])("%j lists %j", async (words, ids) => {
  const { exitCode, out: text } = await listed("--out", out, ...words);
  expect(idsIn(text)).toEqual(ids);
  expect(exitCode).toBe(0);
});

test("--json gives the rows with their parts", async () => {
  const { out: text } = await listed("--out", out, "--json", "--overdue");
  const { rows, notListed } = JSON.parse(text);
  expect(rows).toMatchObject([{ id: "LATE", overdueDays: 35, due: [{ latest: "2025-12-10" }] }]);
  expect(notListed).toMatchObject([{ id: "TEST-0002" }]);
});

test("without a run there is nothing to read", async () => {
  const { exitCode, out: text } = await listed("--out", join(out, "none"));
  expect([exitCode, text]).toEqual([2, expect.stringContaining("no run has written")]);
});

test("a run writes the list beside the index, which links to it", () => {
  const [inbox, made] = [newFolder(), newFolder()];
  const lines = ["patient_id,exam_date,place,quantity,value,unit"];
  writeFileSync(
    join(inbox, "numbers.csv"),
    [...lines, "TEST-1,2020-01-10,aortic arch,diameter,50,mm", ""].join("\n"),
  );
  const { exitCode } = runProgram("run", "--in", inbox, "--out", made, "--as-of", "2026-01-15");
  expect(exitCode).toBe(0);
  expect(existsSync(join(made, "follow-up.html"))).toBe(true);
  expect(readFileSync(join(made, "follow-up.csv"), "utf8")).toContain("no exam for 72 months");
  expect(readFileSync(join(made, "index.html"), "utf8")).toContain('href="follow-up.html"');
  for (const folder of [inbox, made]) rmSync(folder, { recursive: true });
}, 60_000);
