import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { container, type Elements, names } from "../../fixtures/content-items.ts";
import { type Intake, takeIn } from "../../src/batch/intake.ts";
import { writeSetAside } from "../../src/batch/set-aside.ts";
import { History } from "../../src/history/history.ts";
import { sha256Of } from "../../src/readers/read-file.ts";
import type { IdentityDecision } from "../../src/site/identity-decisions.ts";
import { noSiteConfig } from "../../src/site/site-config.ts";
import { reportBytes } from "../readers/dicom-sr/invented-report.ts";

let base = "";
let history = new History(":memory:");
beforeEach(() => {
  base = mkdtempSync(join(tmpdir(), "set-aside-"));
  for (const name of ["inbox", "out"]) mkdirSync(join(base, name));
  history = new History(":memory:");
});
afterEach(() => {
  history.close();
  rmSync(base, { recursive: true });
});

const put = (name: string, content: string | Uint8Array): void =>
  writeFileSync(join(base, "inbox", name), content);

async function night(identities: IdentityDecision[] = []): Promise<Intake> {
  const site = { ...noSiteConfig, identities };
  const [folder, out] = [join(base, "inbox"), join(base, "out")];
  const intake = takeIn(folder, history, { asOf: "2026-01-15", site, onFile: () => {} });
  await writeSetAside(out, folder, intake);
  history.addNight(intake.night, "2026-01-15");
  return intake;
}

const asideNames = (): string[] =>
  existsSync(join(base, "out/set-aside"))
    ? readdirSync(join(base, "out/set-aside")).toSorted()
    : [];
const reasonOf = (content: string): string =>
  readFileSync(join(base, "out/set-aside", `${stemOf(content)}.reason.txt`), "utf8");
const stemOf = (content: string): string =>
  sha256Of(new TextEncoder().encode(content)).slice(0, 16);

const heading = "patient_id,exam_date,place,quantity,value,unit\n";
const good = `${heading}TEST-1,2024-01-10,aortic arch,diameter,50,mm\n`;
const people = "patient_id,name,birth_date\n";
const ada = `${people}TEST-1,Ada Invented,1950-01-02\n`;
const eva = `${people}TEST-1,Eva Invented,1950-01-02\n`;
const evaLeftOut: IdentityDecision = {
  patientId: "TEST-1",
  issuer: null,
  by: "imaging lab",
  date: "2026-01-15",
  same: null,
  apart: null,
  leaveOut: [{ name: "Invented, Eva" }],
};

describe("setting aside", () => {
  test("each refused file is copied, not moved, beside its reason with what to do", async () => {
    const bad = "this is no sheet";
    put("bad.csv", bad);
    put("good.csv", good);
    await night();
    const stem = stemOf(bad);
    expect(asideNames()).toEqual([`${stem}.csv`, `${stem}.reason.txt`]);
    expect(readFileSync(join(base, "out/set-aside", `${stem}.csv`), "utf8")).toBe(bad);
    expect(readdirSync(join(base, "inbox")).toSorted()).toEqual(["bad.csv", "good.csv"]);
    expect(reasonOf(bad)).toMatch(
      /^File: bad\.csv\nSHA-256: [0-9a-f]{64}\n\nwarning: set aside: .*\n {2}code: file-not-recognised\n {2}at: bad\.csv\n {2}what to do: .+\n$/,
    );
  });

  test("a copy keeps no ending that could be a name", async () => {
    for (const name of ["Report.Invented-Ada", "scan.DCM", "plain", ".csv.Ada", "a.c/../sv"]) {
      if (!name.startsWith(".") && !name.includes("/")) put(name, `nothing in ${name}`);
    }
    await night();
    const endings = asideNames().map((name) => name.slice(16));
    expect(new Set(endings)).toEqual(new Set([".bin", ".dcm", ".reason.txt"]));
    expect(asideNames().join(" ")).not.toMatch(/invented|ada/i);
  });

  test("two files with the same bytes are one copy, and its reason names both", async () => {
    put("a.csv", "no sheet");
    put("b.csv", "no sheet");
    await night();
    expect(asideNames()).toHaveLength(2);
    expect(reasonOf("no sheet")).toContain("File: a.csv\nFile: b.csv\n");
  });

  test("a file without readable bytes has a reason and no copy", async () => {
    symlinkSync(join(base, "out"), join(base, "inbox/link.dcm"));
    await night();
    const [name = "", ...others] = asideNames();
    expect(others).toEqual([]);
    const text = readFileSync(join(base, "out/set-aside", name), "utf8");
    expect(text).toContain("File: link.dcm\nThere is no copy");
    expect(text).toContain("code: file-not-regular");
  });

  test("a sheet of which a part is refused is used, and the refused row is said with its place", async () => {
    put("sheet.csv", `${good}TEST-1,2024-01-10,elbow,diameter,9,mm\n`);
    const { files } = await night();
    expect(files[0]?.row).toMatchObject({ outcome: "used", placed: 1, leftOut: 1 });
    expect(files[0]?.details[0]?.place?.at).toBe("record 3, line 3, column value");
    expect(asideNames()).toEqual([]);
  });

  test("a cell that is not understood is said with its place, and the rest of its row is used", async () => {
    put("people.csv", "patient_id,name,sex\nTEST-1,Ada Invented,woman\n");
    const { files } = await night();
    expect(files[0]?.row.outcome).toBe("used");
    expect(files[0]?.details.map(({ code, place }) => [code, place?.at])).toEqual([
      ["csv-choice-not-understood", "record 2, line 2, column sex"],
    ]);
    expect(history.caseRows()[0]?.row).toMatchObject({ name: "Ada Invented", sex: null });
  });

  test("reports without end are set aside with the limit that they exceed", async () => {
    let deep = container(names.measurementGroup, []);
    for (let depth = 0; depth < 300; depth++) deep = container(names.measurementGroup, [deep]);
    put("deep.dcm", reportBytes([deep]));
    const items = Array.from({ length: 200_001 }, (): Elements => ({}));
    put("many.dcm", reportBytes([], { "00081115": { vr: "SQ", Value: items } }));
    const { files } = await night();
    expect(files.map(({ row }) => [row.outcome, row.reason?.code])).toEqual([
      ["set-aside", "report-too-deep"],
      ["set-aside", "report-too-many"],
    ]);
  });

  test("a sheet of which every number is refused is set aside with the reason of each", async () => {
    const sheet = `${heading}TEST-1,2024-01-10,elbow,diameter,9,mm\nTEST-1,2024-01-10,knee,diameter,9,mm\n`;
    put("sheet.csv", sheet);
    const { files } = await night();
    expect(files[0]?.row.outcome).toBe("set-aside");
    expect(reasonOf(sheet)).toContain('"elbow"');
    expect(reasonOf(sheet)).toContain('"knee"');
  });

  test("all files of a patient in conflict are set aside, those read before too, until the site decides", async () => {
    put("numbers.csv", good);
    put("ada.csv", ada);
    await night();
    expect(asideNames()).toEqual([]);
    put("eva.csv", eva);
    const second = await night();
    expect(second.files.map(({ row }) => [row.file, row.outcome])).toEqual([
      ["ada.csv", "set-aside"],
      ["eva.csv", "set-aside"],
      ["numbers.csv", "set-aside"],
    ]);
    expect(asideNames()).toHaveLength(6);
    expect(reasonOf(eva)).toContain(
      "the name differs between files: Ada Invented (ada.csv), Eva Invented (eva.csv)",
    );
    const third = await night();
    expect(third.files.map(({ row }) => row.outcome)).toEqual([
      "set-aside",
      "set-aside",
      "set-aside",
    ]);
    const fourth = await night([evaLeftOut]);
    expect(fourth.files.map(({ row }) => [row.outcome, row.reason?.code])).toEqual([
      ["already-known", "file-already-known"],
      ["skipped", "file-left-out-by-site"],
      ["already-known", "file-already-known"],
    ]);
    expect(asideNames(), "copies of what is used now are gone").toEqual([
      `${stemOf(eva)}.csv`,
      `${stemOf(eva)}.reason.txt`,
    ]);
  });

  test("a wrong file that was never used is withdrawn by taking it out of the folder, and that is said", async () => {
    put("numbers.csv", good);
    put("ada.csv", ada);
    put("eva.csv", eva);
    await night();
    rmSync(join(base, "inbox/eva.csv"));
    const { cases, messages } = await night();
    expect(cases[0]?.patient.name).toBe("Ada Invented");
    expect(messages.map(({ code, place }) => [code, place?.file])).toEqual([
      ["file-withdrawn", "eva.csv"],
    ]);
    expect(history.caseRows().map(({ row }) => row.name)).toEqual(["Ada Invented"]);
    put("eva.csv", eva);
    expect((await night()).cases, "it can come again").toEqual([]);
  });

  test("a file that was used before is not withdrawn by its absence", async () => {
    put("numbers.csv", good);
    put("ada.csv", ada);
    await night();
    put("eva.csv", eva);
    await night();
    rmSync(join(base, "inbox/ada.csv"));
    expect((await night()).cases).toEqual([]);
  });

  test("nothing is withdrawn on a night on which a part of the folder can't be read", async () => {
    put("numbers.csv", good);
    put("ada.csv", ada);
    put("eva.csv", eva);
    await night();
    rmSync(join(base, "inbox/eva.csv"));
    symlinkSync(join(base, "out"), join(base, "inbox/eva.csv"));
    expect((await night()).cases).toEqual([]);
    rmSync(join(base, "inbox/eva.csv"));
    expect((await night()).cases).toHaveLength(1);
  });

  test("reports that contradict each other about which is in force are set aside", async () => {
    const demo = "fixtures/demo/inbox/reports/placeholder-ines-2026-01-05.dcm";
    const bytes = readFileSync(demo);
    writeFileSync(join(base, "inbox/a.dcm"), bytes);
    bytes.write("Fictive^Reader".slice(0, 13), bytes.indexOf("Madeup^Reader"));
    writeFileSync(join(base, "inbox/b.dcm"), bytes);
    const { files, failed } = await night();
    expect(failed[0]?.failure.code).toBe("report-copies-differ");
    for (const { row } of files) {
      expect([row.outcome, row.reason?.code, row.placed]).toEqual([
        "set-aside",
        "file-versions-contradict",
        0,
      ]);
    }
  });

  test("a file that answers to no person is set aside while the site's other files are used", async () => {
    put("ada.csv", ada);
    put("eva.csv", eva);
    put("numbers.csv", good);
    const apart = [
      { as: "A", name: "Ada Invented" },
      { as: "E", name: "Eva Invented" },
    ];
    const { files } = await night([{ ...evaLeftOut, leaveOut: [], apart }]);
    expect(files.map(({ row }) => [row.outcome, row.reason?.code ?? null])).toEqual([
      ["used", null],
      ["used", null],
      ["set-aside", "file-identity-undecided"],
    ]);
  });
});
