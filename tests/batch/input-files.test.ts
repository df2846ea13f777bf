import { spawnSync } from "node:child_process";
import {
  chmodSync,
  mkdirSync,
  mkdtempSync,
  rmSync,
  symlinkSync,
  truncateSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { inputFiles, readInputFile } from "../../src/batch/input-files.ts";
import { takeIn } from "../../src/batch/intake.ts";
import { History } from "../../src/history/history.ts";
import { noSiteConfig } from "../../src/site/site-config.ts";

const sheet =
  "patient_id,exam_date,place,quantity,value,unit\nTEST-1,2024-01-10,aortic arch,diameter,50,mm\n";
let folder = "";
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "inbox-"));
  chmodSync(folder, 0o755);
});
afterEach(() => rmSync(folder, { recursive: true }));

const put = (name: string, content = sheet): void => writeFileSync(join(folder, name), content);
/** File names with the code of what is wrong with each; null where it can be read. */
const listed = () => inputFiles(folder).map(({ file, fault }) => [file, fault?.code ?? null]);

/** What a run makes of the folder; `between` is called after the first file was read. */
function judged(between = (): void => {}) {
  const history = new History(":memory:");
  const onFile = (done: number): void => {
    if (done === 1) between();
  };
  const { files, cases } = takeIn(folder, history, {
    asOf: "2026-01-15",
    site: noSiteConfig,
    onFile,
  });
  history.close();
  const rows = files.map(({ row }) => [row.file, row.outcome, row.reason?.code ?? null]);
  return { rows, cases };
}

/** Runs the task as a user without rights of their own, where the tests run as root. */
function asPlainUser<T>(task: () => T): T {
  const isRoot = process.geteuid?.() === 0;
  if (isRoot) process.seteuid?.(65_534);
  try {
    return task();
  } finally {
    if (isRoot) process.seteuid?.(0);
  }
}

describe("the input folder", () => {
  test("files of all subfolders by name; a folder that is named like a file is a folder; hidden ones are passed over", () => {
    mkdirSync(join(folder, "report.dcm"));
    mkdirSync(join(folder, ".hidden"));
    for (const name of ["b.csv", "report.dcm/a.csv", ".hidden/c.csv", ".started"]) put(name);
    expect(listed()).toEqual([
      ["b.csv", null],
      ["report.dcm/a.csv", null],
    ]);
  });

  test("a link is never followed, wherever it leads, and the run goes on", () => {
    const outside = mkdtempSync(join(tmpdir(), "outside-"));
    writeFileSync(join(outside, "secret.csv"), sheet);
    symlinkSync(join(outside, "secret.csv"), join(folder, "link.csv"));
    symlinkSync(outside, join(folder, "linked-folder"));
    symlinkSync(folder, join(folder, "loop"));
    symlinkSync(join(folder, "nowhere"), join(folder, "broken"));
    put("sheet.csv");
    const { rows, cases } = judged();
    expect(rows).toEqual([
      ["broken", "set-aside", "file-not-regular"],
      ["link.csv", "set-aside", "file-not-regular"],
      ["linked-folder", "set-aside", "file-not-regular"],
      ["loop", "set-aside", "file-not-regular"],
      ["sheet.csv", "used", null],
    ]);
    expect(cases).toHaveLength(1);
    rmSync(outside, { recursive: true });
  });

  test("a pipe is not waited for", () => {
    expect(spawnSync("mkfifo", [join(folder, "pipe.dcm")]).status).toBe(0);
    put("sheet.csv");
    expect(judged().rows).toEqual([
      ["pipe.dcm", "set-aside", "file-not-regular"],
      ["sheet.csv", "used", null],
    ]);
  }, 5000);

  test("a file that becomes a pipe or a link, or goes away, after the folder was listed", () => {
    for (const name of ["a.csv", "b.csv", "c.csv", "d.csv"]) put(name);
    const between = (): void => {
      for (const name of ["b.csv", "c.csv", "d.csv"]) rmSync(join(folder, name));
      spawnSync("mkfifo", [join(folder, "b.csv")]);
      symlinkSync(join(folder, "a.csv"), join(folder, "c.csv"));
    };
    expect(judged(between).rows).toEqual([
      ["a.csv", "used", null],
      ["b.csv", "set-aside", "file-not-regular"],
      ["c.csv", "set-aside", "file-unreadable"],
      ["d.csv", "set-aside", "file-unreadable"],
    ]);
  }, 5000);

  test("a file and a folder that may not be read are said, without the path of this machine", () => {
    mkdirSync(join(folder, "closed"));
    put("closed/a.csv");
    put("secret.csv");
    put("sheet.csv");
    chmodSync(join(folder, "closed"), 0);
    chmodSync(join(folder, "secret.csv"), 0);
    const entries = asPlainUser(() => inputFiles(folder));
    expect(entries.map(({ file, fault }) => [file, fault?.code ?? null])).toEqual([
      ["closed", "folder-unreadable"],
      ["secret.csv", null],
      ["sheet.csv", null],
    ]);
    const [closed, secret] = asPlainUser(() =>
      entries.map((entry) => readInputFile(folder, entry, noSiteConfig).setAside),
    );
    chmodSync(join(folder, "closed"), 0o755);
    expect(closed?.text).toBe(
      "the folder can't be listed, and nothing in it was read (EACCES: permission denied)",
    );
    expect(secret?.text).toBe("set aside: the file can't be read (EACCES: permission denied)");
  });

  test("a file that is larger than any report is not read", () => {
    put("large.dcm");
    truncateSync(join(folder, "large.dcm"), 256 * 1024 * 1024 + 1);
    expect(judged().rows).toEqual([["large.dcm", "set-aside", "file-too-large"]]);
  });

  test("a folder that is not there is one entry", () => {
    const gone = inputFiles(join(folder, "gone"));
    expect(gone.map(({ file, fault }) => [file, fault?.code])).toEqual([
      [".", "folder-unreadable"],
    ]);
  });
});
