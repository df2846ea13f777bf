import {
  copyFileSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  writeFileSync,
} from "node:fs";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, test, vi } from "vitest";
import { takeIn } from "../../src/batch/intake.ts";
import { patientKey } from "../../src/cases/identity.ts";
import { History } from "../../src/history/history.ts";
import { noSiteConfig } from "../../src/site/site-config.ts";
import { runCommandLine } from "../../src/cli/command-line.ts";
import { check } from "../../src/cli/verbs/check.ts";
import { history as historyVerb } from "../../src/cli/verbs/history.ts";
import { run } from "../../src/cli/verbs/run.ts";
import { newFolder, runProgram } from "./run-program.ts";

vi.setConfig({ testTimeout: 60_000 });

let base = "";
let out = "";
let store = "";
beforeEach(() => {
  base = newFolder();
  out = join(base, "out");
  store = join(out, "history.sqlite");
  mkdirSync(out);
  writeFileSync(join(base, "site.yaml"), "issuer: LAB\n");
});
afterEach(() => rmSync(base, { recursive: true }));

/** Takes in one night's folder, as a run does before it prints. */
function night(number: number, files: Record<string, string>): void {
  const folder = join(base, `inbox-${number}`);
  mkdirSync(folder);
  for (const [name, text] of Object.entries(files)) writeFileSync(join(folder, name), text);
  const history = new History(store);
  const asOf = `2026-01-1${number}`;
  const intake = takeIn(folder, history, { asOf, site: noSiteConfig, onFile: () => {} });
  history.addNight(intake.night, asOf);
  history.close();
}
const measured = (id: string, value: string, issuer = ""): string =>
  `${id},${issuer},2024-01-10,aortic arch,diameter,${value},mm`;
const sheet = (...rows: string[]): string =>
  `${["patient_id,issuer,exam_date,place,quantity,value,unit", ...rows].join("\n")}\n`;
/** Runs a verb as the command line does, in this process. */
async function runHere(...words: string[]) {
  const lines = { out: "", err: "" };
  const exitCode = await runCommandLine(words, [historyVerb, run, check], {
    print: (line) => (lines.out += `${line}\n`),
    complain: (line) => (lines.err += `${line}\n`),
    progress: () => {},
  });
  return { exitCode, ...lines };
}
const history = (...words: string[]) => runHere("history", ...words, "--out", out);
const twoNights = (): void => {
  night(1, {
    "numbers.csv": sheet(measured("TEST-1", "50"), measured("TEST-2", "41")),
    "people.csv": "patient_id,name,sex\nTEST-1,Vera Vanished,woman\nTEST-2,Stella Staying,F\n",
  });
  night(2, {
    "later.csv": sheet(measured("TEST-1", "52")),
    "lab.csv": sheet(measured("TEST-2", "43", "LAB")),
  });
};

describe("history list", () => {
  test("a line for each patient", async () => {
    twoNights();
    const { exitCode, out: text } = await history("list");
    expect(exitCode).toBe(0);
    expect(text.trimEnd().split("\n")).toEqual([
      `TEST-1, no issuer: Vera Vanished; 1 exam, 2024-01-10 to 2024-01-10; 3 files; key ${patientKey("TEST-1", null)}`,
      `TEST-2, issuer LAB: no name; 1 exam, 2024-01-10 to 2024-01-10; 1 file; key ${patientKey("TEST-2", "LAB")}`,
      `TEST-2, no issuer: Stella Staying; 1 exam, 2024-01-10 to 2024-01-10; 2 files; key ${patientKey("TEST-2", null)}`,
      "3 patients",
    ]);
    expect(runProgram("history", "list", "--out", out)).toEqual({
      exitCode: 0,
      out: text,
      err: "",
    });
    const json = await history("list", "--json", "--config", join(base, "site.yaml"));
    expect(JSON.parse(json.out)).toMatchObject({
      patients: [
        { id: "TEST-1", issuer: "LAB", exams: 1, names: ["Vera Vanished"] },
        {
          id: "TEST-2",
          issuer: "LAB",
          exams: 1,
          files: [{ night: 1 }, { night: 1 }, { night: 2 }],
        },
      ],
    });
  });

  test("one patient with the night of every version, and what they state differently", async () => {
    twoNights();
    const { out: text } = await history("list", "--patient", "TEST-1");
    expect(text).toContain(
      "night 1 (2026-01-11): numbers.csv, record 2, line 2, 1 number, 0 findings, 0 sections; in force",
    );
    expect(text).toContain(
      "night 2 (2026-01-12): later.csv, record 2, line 2, 1 number, 0 findings, 0 sections; in force",
    );
    expect(text).toMatch(
      /differs: aortic arch, diameter, .*: 50 mm \(night 1, numbers\.csv, .*\); 52 mm \(night 2, later\.csv, /,
    );
    expect(text).toContain("night 1 (2026-01-11): people.csv, record 2, line 2");
    const { patients } = JSON.parse(
      (await history("list", "--patient", "TEST-1", "--json")).out,
    ) as {
      patients: { heldExams: { versions: unknown[]; differences: unknown[] }[] }[];
    };
    expect(patients[0]?.heldExams[0]?.versions).toHaveLength(2);
    expect(patients[0]?.heldExams[0]?.differences).toHaveLength(1);
  });
});

describe("history export and backup", () => {
  test("writes everything of one patient for the owner only, and overwrites nothing", async () => {
    twoNights();
    const file = join(base, "export.json");
    expect((await history("export", "--patient", "TEST-1", "--to", file)).exitCode).toBe(0);
    const text = readFileSync(file, "utf8");
    expect(JSON.parse(text)).toMatchObject({
      schema: "aortic-packet/history/1",
      patient: { id: "TEST-1" },
      files: [
        {
          name: "numbers.csv",
          night: 1,
          isShared: true,
          documents: [{ patient: { id: "TEST-1" } }],
        },
        { name: "people.csv", night: 1, caseRows: [{ name: "Vera Vanished" }] },
        { name: "later.csv", night: 2, isShared: false },
      ],
    });
    expect(text).not.toMatch(/TEST-2|Stella/);
    // oxlint-disable-next-line no-bitwise
    expect(statSync(file).mode & 0o077).toBe(0);
    const again = await history("export", "--patient", "TEST-1", "--to", file);
    expect([again.exitCode, again.err]).toEqual([2, expect.stringContaining("is there already")]);
    expect(readFileSync(file, "utf8")).toBe(text);
    await history("export", "--patient", "TEST-1", "--to", base);
    const named = `${patientKey("TEST-1", null)}.history.json`;
    expect(readFileSync(join(base, named), "utf8")).toBe(text);
  });

  test("a backup holds the same and can take the place of the history", async () => {
    twoNights();
    const { out: listed } = await history("list");
    const file = join(base, "copy.sqlite");
    expect(await history("backup", "--to", file)).toMatchObject({ exitCode: 0, out: `${file}\n` });
    const bytes = readFileSync(file);
    expect((await history("backup", "--to", file)).exitCode).toBe(2);
    expect(readFileSync(file).equals(bytes)).toBe(true);
    rmSync(store);
    copyFileSync(file, store);
    expect((await history("list")).out).toBe(listed);
  });

  test("a file that can't be written ends the work and leaves nothing", async () => {
    twoNights();
    const ended = await history("backup", "--to", join(base, "none", "copy.sqlite"));
    expect([ended.exitCode, ended.err]).toEqual([2, expect.stringContaining("ENOENT")]);
    expect(readdirSync(base)).not.toContain("none");
  });
});

describe("history forget", () => {
  const words = ["Vera", "Vanished", "TEST-1", "woman", "later.csv"];
  const storeText = (): string =>
    readdirSync(out)
      .map((name) => readFileSync(join(out, name), "latin1"))
      .join("");

  test("says what would go and changes nothing; with --yes it is gone from the bytes", async () => {
    twoNights();
    const before = readFileSync(store);
    const dry = await history("forget", "--patient", "TEST-1");
    expect(dry.exitCode).toBe(0);
    expect(dry.out).toContain("would be removed from the history: 2 documents, 1 case row");
    expect(dry.out).toContain("files that go with them:\n  later.csv\n");
    expect(dry.out).toMatch(/hold other patients too:\n {2}numbers\.csv\n {2}people\.csv\n/);
    expect(dry.out).toContain("dropped again are read as new");
    expect(dry.out).toContain("add --yes");
    expect(readFileSync(store).equals(before)).toBe(true);
    for (const word of words) expect(storeText(), word).toContain(word);

    const done = await history("forget", "--patient", "TEST-1", "--yes");
    expect(done.exitCode).toBe(0);
    expect(done.out).toContain("\nremoved from the history: 2 documents, 1 case row\n");
    for (const word of words) expect(storeText(), word).not.toContain(word);
    expect(readdirSync(out)).toEqual(["history.sqlite"]);
    expect((await history("list")).out).toContain("TEST-2, no issuer: Stella Staying");
    expect((await history("forget", "--patient", "TEST-1", "--yes")).exitCode).toBe(1);
  });

  test("the same data dropped again reads as new", async () => {
    twoNights();
    await history("forget", "--patient", "TEST-1", "--yes");
    night(3, { "later.csv": sheet(measured("TEST-1", "52")) });
    expect((await history("list")).out).toContain("TEST-1, no issuer: no name; 1 exam");
  });

  test("an ID of several issuers is not guessed; the other issuer stays and is said", async () => {
    twoNights();
    const both = await history("forget", "--patient", "TEST-2", "--yes");
    expect([both.exitCode, both.err]).toEqual([1, expect.stringContaining("of 2 issuers")]);
    const key = patientKey("TEST-2", null);
    const { out: text } = await history("forget", "--patient", key, "--yes");
    expect(text).toMatch(/same ID and not touched .*:\n {2}TEST-2, issuer LAB\n/);
    expect((await history("list", "--patient", "TEST-2")).out).toMatch(
      /^TEST-2, issuer LAB: no name/,
    );
  });

  test("with the site's issuer an ID with and without it is one patient", async () => {
    twoNights();
    const config = ["--config", join(base, "site.yaml")];
    const done = await history("forget", "--patient", "TEST-2", "--yes", "--json", ...config);
    expect(JSON.parse(done.out)).toMatchObject({
      isRemoved: true,
      removed: { documents: 2, caseRows: 1, files: ["lab.csv"] },
      others: [],
    });
    expect(storeText()).not.toMatch(/TEST-2|Stella/);
  });
});

describe("what can't start ends with exit code 2, what is not found with 1", () => {
  test.each([
    [["lst"], 2, "there is only list, export, forget, backup"],
    [["constructor"], 2, "there is only list"],
    [["list", "--yes"], 2, "history list takes no --yes"],
    [["backup", "--patient", "TEST-1", "--to", "x"], 2, "takes no --patient"],
    [["export", "--patient", "TEST-1"], 2, "--to is missing"],
    [["forget", "--yes"], 2, "--patient is missing"],
    [["list", "--patient", "TEST-9"], 1, "the history holds nothing of patient TEST-9"],
    [["export", "--patient", "TEST-9", "--to", "x"], 1, "nothing of patient TEST-9"],
  ])("history %j", async (words, code, reason) => {
    twoNights();
    const { exitCode, err } = await history(...words);
    expect(err).toContain(reason);
    expect(exitCode).toBe(code);
  });

  test("no history yet", async () => {
    const { exitCode, err } = await history("list");
    expect([exitCode, err]).toEqual([2, expect.stringContaining("there is no history in")]);
  });

  test.each([["list"], ["forget", "--patient", "TEST-1", "--yes"], ["backup", "--to", "x"]])(
    "a damaged history: %s",
    async (...words) => {
      twoNights();
      const bytes = readFileSync(store).subarray(0, -5000);
      writeFileSync(store, bytes);
      const { exitCode, err } = await history(...words);
      expect([exitCode, err]).toEqual([2, expect.stringContaining("history-damaged")]);
      expect(readFileSync(store).equals(bytes)).toBe(true);
      expect(readdirSync(out)).toEqual(["history.sqlite"]);
    },
  );

  test("run and check on a damaged history", async () => {
    twoNights();
    const bytes = Buffer.from(readFileSync(store)).fill(0xff, 4096, 9000);
    writeFileSync(store, bytes);
    for (const verb of ["run", "check"]) {
      const ended = await runHere(verb, "--in", join(base, "inbox-1"), "--out", out);
      expect([ended.exitCode, ended.err]).toEqual([2, expect.stringContaining("history-damaged")]);
    }
    expect(readFileSync(store).equals(bytes)).toBe(true);
    expect(readdirSync(out)).toEqual(["history.sqlite"]);
  });
});
