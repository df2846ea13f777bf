import {
  cpSync,
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
} from "node:fs";
import { join, resolve } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { type BatchSummary, batchSummarySchema } from "../../src/report/batch-summary.ts";
import { type Plan, planSchema } from "../../src/report/plan.ts";
import { digests, newFolder, runProgram, runProgramIn } from "./run-program.ts";

const inbox = "fixtures/demo/inbox";
const common = ["--config", "fixtures/demo/site.yaml"];
const runWords = (out: string, input = inbox) => [
  "run",
  "--in",
  input,
  "--out",
  out,
  "--as-of",
  "2026-01-15",
  ...common,
];
const out = newFolder();
let first: ReturnType<typeof runProgram>;
let batch: BatchSummary;

const readBatch = (folder: string): BatchSummary =>
  batchSummarySchema.parse(JSON.parse(readFileSync(join(folder, "batch.json"), "utf8")));
const readPlan = (folder: string, id: string): Plan => {
  const key = readBatch(folder).patients.find((patient) => patient.id === id)?.key ?? "";
  const path = join(folder, "patients", key, "plan.json");
  return planSchema.parse(JSON.parse(readFileSync(path, "utf8")));
};

beforeAll(() => {
  first = runProgram(...runWords(out));
  batch = readBatch(out);
}, 120_000);
afterAll(() => rmSync(out, { recursive: true }));

describe("run on the demo", () => {
  test("ends with exit code 1 and says why", () => {
    expect(first.exitCode).toBe(1);
    expect(first.out).toContain("uncalibrated-mara-2026-01-09.dcm: set aside");
    expect(first.out).toContain("patient DEMO-010: the birth date differs between files");
    expect(first.out).toContain("30 used, 0 already known, 0 skipped, 3 set aside");
    expect(first.out).toContain("patients: 11 reported, 1 failed");
  });

  test("writes what the README lists, for the owner only", () => {
    const reported = batch.patients.find(({ outcome }) => outcome === "reported");
    const folder = join(out, "patients", reported?.key ?? "");
    expect(readdirSync(folder).toSorted()).toEqual([
      ...(reported?.hasOptions ? ["options.html", "options.pdf"] : []),
      "plan.html",
      "plan.json",
      "plan.pdf",
      "summary.html",
      "summary.pdf",
    ]);
    for (const name of ["index.html", "batch.json", "measurements.csv", "history.sqlite"]) {
      expect(existsSync(join(out, name)), name).toBe(true);
    }
    // oxlint-disable-next-line no-bitwise
    expect(statSync(join(folder, "plan.json")).mode & 0o077).toBe(0);
  });

  test("no file name carries an ID or a name", () => {
    const names = Object.keys(digests(out)).join("\n");
    expect(names).not.toMatch(/demo-|invented|fictive|conflict/i);
  });

  test("each refused file lies beside its reason", () => {
    const refused = batch.files.filter(({ outcome }) => outcome === "set-aside");
    expect(refused.map(({ reason }) => reason?.code).toSorted()).toEqual([
      "file-identity-conflict",
      "file-identity-conflict",
      "file-nothing-placed",
    ]);
    for (const { file, sha256 } of refused) {
      const stem = join(out, "set-aside", sha256?.slice(0, 16) ?? "");
      expect(readFileSync(`${stem}.dcm`).equals(readFileSync(join(inbox, file)))).toBe(true);
      expect(readFileSync(`${stem}.reason.txt`, "utf8")).toContain(`File: ${file}`);
    }
  });

  test("the amended report stands and the first one does not", () => {
    const { measurements, messages } = readPlan(out, "DEMO-008");
    const sizes = measurements
      .filter(({ place, exam }) => place.id === "zone-9" && exam === "2025-12-04")
      .map(({ value }) => value);
    expect(sizes).toEqual([52.1]);
    expect(messages.map(({ code }) => code)).toContain("report-superseded");
  });

  test("the patient of sheets alone has a report, and the cell with a decimal comma is left out", () => {
    const { growth, messages } = readPlan(out, "DEMO-007");
    expect(growth[0]?.points.map(({ values }) => values)).toEqual([[47.1], [49], [51.2]]);
    expect(messages.map(({ code }) => code)).toContain("csv-number-comma");
  });

  test("one truly grows, one only seems to, one can't be compared", () => {
    const answersOf = (id: string, place: string) =>
      readPlan(out, id)
        .growth.find((entry) => entry.place.id === place)
        ?.answers.map(({ answer }) => answer) ?? [];
    expect(answersOf("DEMO-002", "mid-ascending")).not.toContain("exceeds");
    const root = readPlan(out, "DEMO-004").growth.find(
      ({ place }) => place.id === "sinuses-of-valsalva",
    );
    expect(root?.points.map(({ comparability }) => comparability)).toEqual([
      "not-comparable",
      "not-comparable",
      "comparable",
    ]);
    expect(root?.rate).toBeNull();
    const grown = readPlan(out, "DEMO-001").growth.find(
      ({ place }) => place.id === "mid-descending",
    );
    expect(grown?.answers.find(({ limitMmPerYear }) => limitMmPerYear === 5)?.answer).toBe(
      "exceeds",
    );
  });

  test("guidelines that disagree are both shown", () => {
    const [disagreement] = readPlan(out, "DEMO-003").disagreements;
    const outcomes = new Set(disagreement?.statements.map(({ outcome }) => outcome));
    expect(outcomes).toContain("not-met");
    expect(disagreement?.statements.length).toBeGreaterThan(1);
  });

  test("the patient with too little measured says what is missing", () => {
    const plan = readPlan(out, "DEMO-009");
    expect(plan.assessments.some(({ outcome }) => outcome === "met")).toBe(false);
    expect(plan.missing.map(({ what }) => what)).toContain("diagnosis");
  });
});

describe("running again", () => {
  test("the same inputs give the same bytes in another folder", () => {
    const other = newFolder();
    runProgram(...runWords(other));
    expect(digests(other)).toEqual(digests(out));
    rmSync(other, { recursive: true });
  }, 120_000);

  test("a folder with only the new exam grows the earlier history", () => {
    const [early, late, folder] = [newFolder(), newFolder(), newFolder()];
    const lateName = "reports/fictive-bruno-2025-12-02.dcm";
    cpSync(inbox, early, { recursive: true });
    rmSync(join(early, lateName));
    mkdirSync(join(late, "reports"));
    cpSync(join(inbox, lateName), join(late, lateName));
    runProgram(...runWords(folder, early));
    expect(readPlan(folder, "DEMO-002").exams).toHaveLength(2);
    const night = runProgram(...runWords(folder, late));
    expect(night.exitCode, "the files of DEMO-010 still wait for a decision").toBe(1);
    expect(night.out).toContain("patients: 11 reported, 1 failed");
    expect(readPlan(folder, "DEMO-002")).toEqual(readPlan(out, "DEMO-002"));
    expect(readBatch(folder).patients.filter(({ changed }) => changed)).toMatchObject([
      { id: "DEMO-002" },
    ]);
    const again = runProgram(...runWords(folder, late));
    expect(again.out).toContain("0 used, 1 already known");
    for (const made of [early, late, folder]) rmSync(made, { recursive: true });
  }, 240_000);
});

describe("the other verbs", () => {
  test("check judges the same and writes nothing", () => {
    const [folder, before] = [newFolder(), digests("fixtures")];
    const { exitCode, out: text } = runProgramIn(
      folder,
      "check",
      "--in",
      resolve(inbox),
      "--as-of",
      "2026-01-15",
      "--config",
      resolve("fixtures/demo/site.yaml"),
    );
    expect(exitCode).toBe(1);
    expect(text).toContain(
      "reports/uncalibrated-mara-2026-01-09.dcm: structured report, set-aside",
    );
    expect(text).toContain("12,8 has a comma, and no decimal comma is declared");
    expect(digests("fixtures")).toEqual(before);
    expect(readdirSync(folder)).toEqual([]);
    rmSync(folder, { recursive: true });
  }, 60_000);

  test("trace leads back to the file and its place, and forward to what used the number", () => {
    const { measurements } = readPlan(out, "DEMO-001");
    const largest = measurements.find(({ value }) => value === 58.4);
    const { exitCode, out: text } = runProgram(
      "trace",
      "--patient",
      "DEMO-001",
      largest?.key ?? "",
      "--out",
      out,
    );
    expect(exitCode).toBe(0);
    expect(text).toContain("file: reports/invented-ada-2026-01-12.dcm, item 1.");
    expect(text).toContain("value: 58.4 mm, written as 58.4 mm");
    expect(text).toMatch(/used by: criterion acc-aha-2022-descending-55-mm: met/);
    expect(text).toMatch(/used by: growth /);
  });

  test("trace leads from a derived quantity and a finding back to their files too", () => {
    const { derived, findings } = readPlan(out, "DEMO-005");
    const trace = (key = "") => runProgram("trace", "--patient", "DEMO-005", key, "--out", out).out;
    const computed = trace(derived.find(({ kind }) => kind === "mean diameter")?.key);
    expect(computed).toContain("computed: (33.8 mm + 31.0 mm) / 2");
    expect(
      computed.match(/^from: M.*, reports\/notreal-edith-2026-01-08\.dcm, item 1\./gm),
    ).toHaveLength(2);
    const fed = trace(findings.find(({ finding }) => finding === "fed by")?.key);
    expect(fed).toContain("file: sheets/findings.csv, record ");
    expect(fed).toContain("used by: dissection");
  });

  test("summary prints the largest size, growth and what is met", () => {
    const { out: text } = runProgram("summary", "--patient", "DEMO-001", "--out", out);
    expect(text).toContain("largest: mid-descending aorta: 58.4 mm, outer edge, 2026-01-12");
    expect(text).toMatch(/^growth: /m);
    expect(text).toMatch(/^met: /m);
  });

  test("packet follows the meeting list; a case without a report appears with its reason", () => {
    const { exitCode, out: text } = runProgram(
      "packet",
      "--meeting",
      "fixtures/demo/meeting.csv",
      "--out",
      out,
      "--date",
      "2026-01-20",
      "--json",
    );
    expect(exitCode).toBe(1);
    const { cases, pdfFile } = JSON.parse(text) as {
      cases: { patientId: string; failure: { code: string } | null }[];
      pdfFile: string;
    };
    expect(cases.map(({ patientId, failure }) => [patientId, failure?.code ?? null])).toEqual([
      ["DEMO-001", null],
      ["DEMO-011", null],
      ["DEMO-005", null],
      ["DEMO-003", null],
      ["DEMO-010", "identity-conflict"],
    ]);
    expect(pdfFile).toBe("packets/2026-01-20/packet.pdf");
    expect(existsSync(join(out, pdfFile))).toBe(true);
  }, 60_000);

  test("rules lists what nobody has confirmed first, and one rule in full", () => {
    const { out: list } = runProgram("rules");
    expect(list.indexOf("not confirmed against the source")).toBeLessThan(
      list.indexOf("\nconfirmed against the source"),
    );
    const { out: one } = runProgram("rules", "acc-aha-2022-marfan-root-50-mm");
    expect(one).toContain("printed as 5.0 cm");
    expect(one).toContain("checked against:");
  });
});

describe("work that can't start ends with exit code 2 and says why", () => {
  test.each([
    [["run", "--in", "no-such-folder"], "there is no folder no-such-folder"],
    [["run"], "Missing required argument: in"],
    [["run", "--in", inbox, "--as-of", "12.1.2026"], "not a calendar date"],
    [["rum", "--in", inbox], "Did you mean run?"],
    [["summary", "--patient", "X", "--out", "no-such-folder"], "no run has written"],
    [["packet", "--meeting", "no-such-file.csv"], "there is no file"],
    [["rules", "no-such-rule"], "no criterion no-such-rule"],
    [
      ["run", "--in", inbox, "--config", "fixtures/demo/meeting.csv"],
      "the site file can't be used",
    ],
  ])("%j", (words, reason) => {
    const { exitCode, err } = runProgram(...words);
    expect(err).toContain(reason);
    expect(exitCode).toBe(2);
  });
});
