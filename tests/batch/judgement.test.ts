import { cpSync, mkdirSync, readFileSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type { FailedCase } from "../../src/cases/build-cases.ts";
import type { Message } from "../../src/message.ts";
import { type BatchSummary, batchSummarySchema } from "../../src/report/batch-summary.ts";
import { digests, newFolder, runProgram } from "../command/run-program.ts";

const base = newFolder();
afterAll(() => rmSync(base, { recursive: true }));
const common = ["--config", "fixtures/demo/site.yaml", "--as-of", "2026-01-15"];

/** A folder with something of everything that can come. */
function handMade(): string {
  const folder = join(base, "hand-made");
  rmSync(folder, { recursive: true, force: true });
  mkdirSync(join(folder, "below"), { recursive: true });
  const put = (name: string, content: string | Uint8Array): void =>
    writeFileSync(join(folder, name), content);
  const report = readFileSync("fixtures/demo/inbox/reports/invented-ada-2024-01-11.dcm");
  put("report.dcm", report);
  put("below/same-bytes.dcm", report);
  put("cut.dcm", report.subarray(0, report.length / 2));
  put("empty.dcm", "");
  put("words.txt", "no sheet and no report");
  put("picture.png", new Uint8Array([0x89, 0x50, 0x4e, 0x47, 0, 1, 2, 3]));
  symlinkSync(join(base, "nowhere"), join(folder, "link.dcm"));
  const heading = "patient_id,exam_date,place,quantity,value,unit\n";
  put(
    "partly.csv",
    `${heading}T-1,2024-01-10,aortic arch,diameter,50,mm\nT-1,2024-01-10,elbow,diameter,9,mm\n`,
  );
  put("not-placed.csv", `${heading}T-1,2024-01-10,elbow,diameter,9,mm\n`);
  put("later.csv", `${heading}T-2,2030-01-10,aortic arch,diameter,50,mm\n`);
  const people = "patient_id,name,birth_date,sex\n";
  put("one.csv", `${people}T-1,Ada Invented,1950-01-02,F\nT-3,Eva Invented,1950-01-02,F\n`);
  put("other.csv", `${people}T-3,Eva Invented,1951-01-02,F\n`);
  put("list.csv", "order,patient_id\n1,T-1\n");
  return folder;
}

interface Checked {
  files: (BatchSummary["files"][number] & { details: Message[] })[];
  failed: FailedCase[];
  messages: Message[];
}

test("what check says of each file of the hand-made folder", () => {
  const words = ["check", "--in", handMade(), "--json", ...common];
  const { files } = JSON.parse(runProgram(...words).out) as Checked;
  expect(files.map(({ file, outcome, reason }) => [file, outcome, reason?.code ?? null])).toEqual([
    ["below/same-bytes.dcm", "used", null],
    ["cut.dcm", "set-aside", "report-truncated"],
    ["empty.dcm", "set-aside", "file-empty"],
    ["later.csv", "used", null],
    ["link.dcm", "set-aside", "file-not-regular"],
    ["list.csv", "used", null],
    ["not-placed.csv", "set-aside", "file-nothing-placed"],
    ["one.csv", "used", null],
    ["other.csv", "set-aside", "file-identity-conflict"],
    ["partly.csv", "used", null],
    ["picture.png", "set-aside", "csv-not-text"],
    ["report.dcm", "already-known", "file-already-known"],
    ["words.txt", "set-aside", "file-not-recognised"],
  ]);
});

describe.each([
  ["the demo", () => "fixtures/demo/inbox"],
  ["a hand-made folder", handMade],
])("on %s", (name, folderOf) => {
  const out = join(base, `out of ${name}`);
  let folder = "";
  let checked: Checked = { files: [], failed: [], messages: [] };
  let exitCodes: number[] = [];
  let first: BatchSummary;
  const check = (...words: string[]): Checked => {
    const { out: text, exitCode } = runProgram(
      "check",
      "--in",
      folder,
      "--json",
      ...words,
      ...common,
    );
    exitCodes.push(exitCode);
    return JSON.parse(text) as Checked;
  };
  const run = (): BatchSummary => {
    exitCodes.push(runProgram("run", "--in", folder, "--out", out, ...common).exitCode);
    return batchSummarySchema.parse(JSON.parse(readFileSync(join(out, "batch.json"), "utf8")));
  };
  const rowsOf = ({ files }: Checked) =>
    batchSummarySchema.shape.files.element.strip().array().parse(files);

  beforeAll(() => {
    folder = folderOf();
    exitCodes = [];
    checked = check();
    first = run();
  }, 120_000);

  test("check and run judge every file and every patient alike", () => {
    expect(first.files).toEqual(rowsOf(checked));
    const failed = first.patients.flatMap(({ key, failure }) => (failure ? [[key, failure]] : []));
    const expected = checked.failed.map(({ key, failure }) => [key, failure]);
    expect(Object.fromEntries(failed)).toEqual(Object.fromEntries(expected));
    expect(exitCodes).toEqual([1, 1]);
    expect(first.files.filter(({ outcome }) => outcome === "set-aside").length).toBeGreaterThan(2);
  });

  test("the reason beside each copy is all that check says of the file", () => {
    for (const { outcome, reason, sha256, details } of checked.files) {
      if (outcome !== "set-aside" || sha256 === null) continue;
      const path = join(out, "set-aside", `${sha256.slice(0, 16)}.reason.txt`);
      const text = readFileSync(path, "utf8");
      for (const message of [reason, ...details]) {
        expect(text).toContain(message?.text);
        expect(text).toContain(message?.remedy);
      }
    }
  });

  test("a second run judges the same; what was used is known then, and check says so beside the store", () => {
    const before = digests(join(out, "set-aside"));
    const beside = check("--out", out);
    const second = run();
    expect(second.files).toEqual(rowsOf(beside));
    for (const [index, row] of first.files.entries()) {
      const again = second.files[index];
      const isSame = row.outcome === again?.outcome && row.reason?.code === again.reason?.code;
      expect(
        isSame || (row.outcome === "used" && again?.outcome === "already-known"),
        row.file,
      ).toBe(true);
    }
    const outcomes = ({ patients }: BatchSummary) =>
      patients.map(({ key, outcome, failure }) => [key, outcome, failure]);
    expect(outcomes(second)).toEqual(outcomes(first));
    expect(digests(join(out, "set-aside"))).toEqual(before);
  }, 120_000);

  test("a copy of the folder elsewhere is judged the same", () => {
    const copy = join(base, `copy of ${name}`);
    cpSync(folder, copy, { recursive: true, verbatimSymlinks: true });
    const other = JSON.parse(runProgram("check", "--in", copy, "--json", ...common).out) as Checked;
    expect(other).toEqual(checked);
  });
});
