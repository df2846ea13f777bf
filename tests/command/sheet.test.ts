import { mkdirSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { blankSheet, type BlankSheetKind } from "../../src/batch/blank-sheet.ts";
import { csvText } from "../../src/batch/csv-text.ts";
import { jsonText } from "../../src/batch/write-output.ts";
import { buildCases } from "../../src/cases/build-cases.ts";
import { findingStates, type FindingId } from "../../src/cases/vocabulary.ts";
import { runCommandLine } from "../../src/cli/command-line.ts";
import { sheet } from "../../src/cli/verbs/sheet.ts";
import { worklistOf } from "../../src/planning/worklists/completeness.ts";
import { type Procedure, procedures } from "../../src/planning/worklists/worklists.ts";
import { csvRecords, withUnixLines } from "../../src/readers/csv/csv-file.ts";
import { readFile } from "../../src/readers/read-file.ts";
import { sampleCaseRow, sampleOptions } from "../cases/sample-documents.ts";
import { sampleBatch, samplePatientRow } from "../report/sample-batch.ts";
import { samplePlan } from "../report/sample-plan.ts";
import { newFolder, runProgram } from "./run-program.ts";

type Row = Record<string, string>;

/** The rows of a sheet by heading. */
function rowsOf(text: string): { headings: string[]; rows: Row[] } {
  const read = csvRecords(withUnixLines(text), { delimiter: "," });
  if (!("records" in read)) throw new Error("the sheet can't be read");
  const [head, ...records] = read.records.map(({ cells }) => [...cells]);
  const headings = head ?? [];
  return {
    headings,
    rows: records.map((cells) =>
      Object.fromEntries(headings.map((heading, index) => [heading, cells[index] ?? ""])),
    ),
  };
}

/** The sheet with its rows changed, as a file. */
function changed(text: string, change: (row: Row) => Row[]): Buffer {
  const { headings, rows } = rowsOf(text);
  const cells = rows.flatMap(change).map((row) => headings.map((heading) => row[heading] ?? ""));
  return Buffer.from(csvText(headings, cells));
}

/** Invented numbers that no check of plausibility doubts, by quantity words of a sheet. */
function inventedValue({ quantity = "", place = "" }: Row): string {
  if (quantity === "diameter") return /^(left|right) .* artery$/.test(place) ? "7" : "20";
  return (
    { perimeter: "63", area: "310", radius: "50", angle: "30", tortuosity: "1.3" }[quantity] ?? "60"
  );
}

const exam = { patient_id: "P1", exam_date: "2026-01-12" };
const fillMeasurement = (row: Row): Row[] => [
  { ...row, ...exam, value: inventedValue(row), gated: "yes", modality: "CT" },
];
const fillFinding = (row: Row): Row[] => [
  {
    ...row,
    ...exam,
    place: row["place"] || "zone 4",
    state: findingStates[row["finding"] as FindingId][0],
  },
];

/** Where landmarks stand on the invented centrelines, in mm. */
const landmarksMm: Row = {
  "sinotubular junction": "0",
  "innominate artery, proximal edge": "70",
  "innominate artery, distal edge": "80",
  "left common carotid artery, proximal edge": "84",
  "left common carotid artery, distal edge": "92",
  "left subclavian artery, proximal edge": "98",
  "left subclavian artery, distal edge": "108",
  "proximal descending aorta, 2 cm distal to the left subclavian": "128",
  "mid-descending aorta": "220",
  "coeliac artery, proximal edge": "330",
  "aortic bifurcation": "0",
  "right common femoral artery": "200",
  "left common femoral artery": "200",
};

/** Landmarks get their distance; the row between two of them becomes one for every 10 mm along the vessel. */
function fillStation(row: Row): Row[] {
  const mark = [row["mark"], row["mark_edge"]].filter(Boolean).join(", ");
  const end = row["vessel"] === "aorta" ? 330 : 200;
  const distances =
    mark === ""
      ? Array.from({ length: end / 10 + 1 }, (_, index) => `${index * 10}`)
      : [landmarksMm[mark] ?? ""];
  return distances.map((distance) => ({
    ...row,
    ...exam,
    distance_mm: distance,
    wall: "native",
    max_diameter_mm: "20.5",
    min_diameter_mm: "19.5",
    perimeter_mm: "63",
    area_mm2: "313",
    thrombus_arc_deg: "0",
    thrombus_mm: "",
    calcium_arc_deg: "0",
    x_mm: "1",
    y_mm: "2",
    z_mm: distance,
    axes: "LPS",
    patient_position: "HFS",
  }));
}

const fill: Record<BlankSheetKind, (row: Row) => Row[]> = {
  measurements: fillMeasurement,
  findings: fillFinding,
  centreline: fillStation,
};
const kindsOf: Record<BlankSheetKind, string> = {
  measurements: "measurement sheet",
  findings: "finding sheet",
  centreline: "centreline sheet",
};

/** What only other arches have is left out: an invented patient has one arch. */
const usual = ({ items }: Procedure) => items.filter(({ onlyWith }) => onlyWith.length === 0);

describe.each(procedures.map((procedure) => [procedure.id, procedure] as const))(
  "the sheets of %s",
  (_, procedure) => {
    test("have a row for every item of their kind", () => {
      const forms = procedure.items.map(({ form }) => form);
      for (const kind of ["measurements", "findings"] as const) {
        const { rows } = rowsOf(blankSheet(kind, procedure.items, null));
        expect(rows.length).toBe(forms.filter((form) => form === kind).length);
        for (const row of rows) expect(row["comment"]).toMatch(/for: \S/);
      }
      const { rows } = rowsOf(blankSheet("centreline", procedure.items, null));
      const said = rows.map(({ mark, mark_edge: edge, comment }) => `${mark}|${edge}|${comment}`);
      for (const item of procedure.items) {
        if (item.form === "mark") {
          const { place, edge } = item.mark;
          expect(said.some((row) => row.startsWith(`${place.label}|${edge ?? ""}|`))).toBe(true);
        }
        if (item.form === "stretch") {
          const own = rows.filter(
            ({ vessel, lumen }) => vessel === item.vessel && lumen === item.lumen,
          );
          for (const column of item.columns) {
            expect(own.some(({ comment }) => comment?.includes(column))).toBe(true);
          }
        }
      }
    });

    test("filled in they are read without a word, and nothing is missing any more", () => {
      const items = usual(procedure);
      const files = (Object.keys(fill) as BlankSheetKind[]).flatMap((kind) => {
        const text = blankSheet(kind, items, "P1");
        return rowsOf(text).rows.length === 0
          ? []
          : [{ kind, read: readFile(changed(text, fill[kind]), `${kind}.csv`) }];
      });
      for (const { kind, read } of files) {
        expect(read.kind).toBe(kindsOf[kind]);
        expect(read.setAside).toBeNull();
        expect(read.messages).toEqual([]);
      }
      const row = sampleCaseRow({
        issuer: null,
        birthDate: "1960-01-01",
        diagnosis: "type B dissection",
        onsetDate: "2025-11-01",
        archVariant: "usual",
        aetiology: "degenerative",
        priorRepair: "none",
      });
      const documents = files.flatMap(({ read }) => read.documents);
      const { cases } = buildCases(documents, [{ row, night: 1 }], sampleOptions);
      const [patientCase] = cases;
      if (!patientCase) throw new Error("the invented case was not built");
      expect(patientCase.messages.filter(({ severity }) => severity === "error")).toEqual([]);
      const basis = { asOf: "2026-01-15", isDissected: true, archVariants: [] };
      const { missing } = worklistOf(procedure, patientCase, basis);
      expect(missing.map(({ what, lacks }) => `${what}; ${lacks}`)).toEqual([]);
    });

    test("left blank a row is refused for its empty cell and for nothing else", () => {
      for (const kind of Object.keys(fill) as BlankSheetKind[]) {
        const text = blankSheet(kind, procedure.items, "P1");
        if (rowsOf(text).rows.length === 0) continue;
        const seen = (row: Row): Row[] => [{ ...row, ...exam, place: row["place"] || "zone 4" }];
        const read = readFile(changed(text, seen), "blank.csv");
        expect(read.setAside).toBeNull();
        const refused = read.documents.flatMap(({ readings, findings, stations }) => [
          ...[...readings, ...findings].map((one) => one.refused?.code),
          ...stations.map((one) => one.refused?.code),
        ]);
        expect(refused.length).toBe(rowsOf(text).rows.length);
        expect(new Set(refused)).toEqual(new Set(["csv-cell-missing"]));
      }
    });
  },
);

describe("the verb", () => {
  const out = newFolder();
  const known = samplePlan.measurements[0];
  if (!known) throw new Error("the sample has no measurement");
  beforeAll(() => {
    const row = samplePatientRow(1, { id: samplePlan.patient.id, key: samplePlan.patient.key });
    writeFileSync(join(out, "batch.json"), jsonText({ ...sampleBatch, patients: [row] }));
    const folder = join(out, "patients", samplePlan.patient.key);
    mkdirSync(folder, { recursive: true });
    writeFileSync(join(folder, "plan.json"), jsonText(samplePlan));
  });
  afterAll(() => rmSync(out, { recursive: true }));

  async function run(...words: string[]): Promise<{ exitCode: number; out: string; err: string }> {
    const [printed, said]: string[][] = [[], []];
    const terminal = {
      print: (line: string) => void printed?.push(line),
      complain: (line: string) => void said?.push(line),
      progress: () => {},
    };
    const exitCode = await runCommandLine(["sheet", ...words], [sheet], terminal);
    return { exitCode, out: printed?.join("\n") ?? "", err: said?.join("\n") ?? "" };
  }

  test("prints the sheet alone to standard output, and what else is needed to standard error", () => {
    const { exitCode, out: text, err } = runProgram("sheet", "--for", "zone 2");
    expect(exitCode).toBe(0);
    expect(text.split("\r\n")[0]).toBe(
      "patient_id,exam_date,place,quantity,statistic,lumen,edge,value,unit,gated,modality,reader,comment",
    );
    expect(text).toContain(
      ',,zone 2,sound length along the inner curve,,,,,mm,,,,"from edge to edge',
    );
    expect(err).toContain('aortic-packet sheet --for "zone 2" --kind findings');
    expect(err).toContain('aortic-packet sheet --for "zone 2" --kind centreline');
    expect(err).toContain("on the case sheet: diagnosis, onset_date, prior_repair");
  }, 30_000);

  test.each(["zone-2", "Zone 2", "zone_2"])("%s is zone 2", async (words) => {
    const { exitCode, out: text } = await run("--for", words);
    expect([exitCode, text]).toEqual([0, (await run("--for", "zone 2")).out]);
  });

  test.each([
    [["--for", "zoen 2"], 'no procedure "zoen 2"; did you mean "zone 2"?'],
    [["--for", "frozen elefant trunk"], 'did you mean "frozen elephant trunk"?'],
    [["--for", "something else altogether"], "they are zone 0, zone 1"],
    [["--for", "zone 2", "--kind", "finding"], "did you mean findings?"],
    [[], "Missing required argument: for"],
  ])("%s ends with 2 and says: %s", async (words, said) => {
    const { exitCode, err, out: text } = await run(...words);
    expect([exitCode, text]).toEqual([2, ""]);
    expect(err).toContain(said);
  });

  test("for a patient it has only what is missing, with the patient and no date", async () => {
    const patient = samplePlan.patient.id;
    const whole = rowsOf((await run("--for", "follow-up")).out).rows;
    const {
      exitCode,
      out: text,
      err,
    } = await run("--for", "follow-up", "--patient", patient, "--out", out);
    const own = rowsOf(text).rows;
    expect(exitCode).toBe(0);
    expect(own.length).toBeLessThan(whole.length);
    expect(new Set(own.map(({ patient_id: id, exam_date: date }) => `${id}|${date}`))).toEqual(
      new Set([`${patient}|`]),
    );
    const places = own.map(({ place }) => place);
    expect(places).not.toContain(known.place.label);
    expect(err).toContain(`measurements: ${own.length} items of "follow-up"`);
  });

  test("as JSON: the worklist, and with a patient what is missing of it", async () => {
    const list = JSON.parse((await run("--for", "access", "--json")).out) as { items: unknown[] };
    expect(list).toMatchObject({ procedure: "access", label: "way in from the groin" });
    expect(list.items.length).toBe(procedures.find(({ id }) => id === "access")?.items.length);
    const own = await run(
      "--for",
      "access",
      "--patient",
      samplePlan.patient.id,
      "--out",
      out,
      "--json",
    );
    const { missing, patient } = JSON.parse(own.out) as { missing: object[]; patient: string };
    expect(patient).toBe(samplePlan.patient.id);
    expect(missing[0]).toMatchObject({ state: "not measured", date: null, opensAlone: 0 });
  });

  test("an unknown patient ends with 1, an output folder without a run with 2", async () => {
    const unknown = await run("--for", "access", "--patient", "NOBODY", "--out", out);
    expect([unknown.exitCode, unknown.out]).toEqual([1, ""]);
    expect(unknown.err).toContain("no report of patient NOBODY in this output folder");
    const nowhere = await run("--for", "access", "--patient", "NOBODY", "--out", join(out, "none"));
    expect(nowhere.exitCode).toBe(2);
  });

  test("a patient ID that a spreadsheet would run as a formula is escaped", () => {
    const [item] = procedures[2]?.items.filter(({ form }) => form === "measurements") ?? [];
    if (!item) throw new Error("no item");
    expect(blankSheet("measurements", [item], "=1+1")).toContain("'=1+1,");
  });

  test("help has an example, and the shell completes procedures and kinds", () => {
    const help = runProgram("sheet", "--help");
    expect(help.exitCode).toBe(0);
    expect(help.out).toContain('aortic-packet sheet --for "zone 2" --patient DEMO-001');
    const completed = runProgram("--get-yargs-completions", "aortic-packet", "sheet", "--for", "");
    expect(completed.out.split("\n")).toContain("frozen-elephant-trunk");
  }, 30_000);
});
