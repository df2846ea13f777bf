// Compared with: the program dcmdump of DCMTK (Debian package dcmtk) and the npm package dicom-parser, on the same files.
import { execFileSync, spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import dicomParser, { type DataSet } from "dicom-parser";
import { benchReport, numbersInReport } from "../../fixtures/bench-reports.ts";
import { buildDictionary } from "../../src/anatomy/dictionary.ts";
import { measure } from "../../src/cases/measure.ts";
import { readFile } from "../../src/readers/read-file.ts";

/** One way to read the files; `numbers` is how many it found, to show that it did the work. */
interface Contender {
  name: string;
  read: (paths: string[]) => { numbers: number };
}

const dictionary = buildDictionary({ codes: {}, words: {} });
const thisProgram = "this program: read and place";
const total = (counts: number[]): number => counts.reduce((sum, count) => sum + count, 0);

function placed(path: string): number {
  const { documents } = readFile(readFileSync(path), path);
  const readings = documents.flatMap((document) => document.readings);
  return readings.filter((reading) => measure(reading, "exam", dictionary).measurement).length;
}

function valuesIn(dataSet: DataSet): number {
  const inItems = Object.values(dataSet.elements).flatMap(({ items = [] }) =>
    items.map((item) => (item.dataSet ? valuesIn(item.dataSet) : 0)),
  );
  return total(inItems) + (dataSet.elements["x0040a30a"] ? 1 : 0);
}

const contenders: Contender[] = [
  { name: thisProgram, read: (paths) => ({ numbers: total(paths.map(placed)) }) },
  {
    name: "dicom-parser: parse the bytes",
    read: (paths) => ({
      numbers: total(paths.map((path) => valuesIn(dicomParser.parseDicom(readFileSync(path))))),
    }),
  },
  {
    // Its text is thrown away unread, which is the cheapest that printing can be.
    name: "dcmdump: print, one process",
    read: (paths) => {
      execFileSync("dcmdump", ["-q", ...paths], { stdio: "ignore" });
      return { numbers: Number.NaN };
    },
  },
];

/** Milliseconds a file for each contender and round; the contenders take turns in every round. */
function timesOf(paths: string[], { warmUp, rounds }: { warmUp: number; rounds: number }) {
  const times = new Map(contenders.map(({ name }) => [name, [] as number[]]));
  for (let round = -warmUp; round < rounds; round++) {
    for (const { name, read } of contenders) {
      const start = performance.now();
      const { numbers } = read(paths);
      const ms = (performance.now() - start) / paths.length;
      if (numbers !== numbersInReport * paths.length && !Number.isNaN(numbers)) {
        throw new Error(`${name} found ${numbers} numbers`);
      }
      if (round >= 0) times.get(name)?.push(ms);
    }
  }
  return times;
}

/** Times the reading of structured reports and prints a table. Nothing is judged: machines differ. */
export function benchReading(print: (line: string) => void): void {
  if (spawnSync("dcmdump", ["--version"]).status !== 0) {
    throw new Error("dcmdump is not installed (Debian package dcmtk)");
  }
  const folder = mkdtempSync(join(tmpdir(), "bench-"));
  try {
    const files = Array.from({ length: 40 }, (_, report) => benchReport(report));
    const paths = files.map((bytes, report) => {
      const path = join(folder, `${report}.dcm`);
      writeFileSync(path, bytes);
      return path;
    });
    const kilobytes = (total(files.map((bytes) => bytes.length)) / files.length / 1000).toFixed(0);
    const rounds = 15;
    print(`${files.length} reports of ${numbersInReport} numbers, ${kilobytes} kB each`);
    print(`${rounds} rounds after 3 to warm up, the contenders in turn in every round`);
    const times = timesOf(paths, { warmUp: 3, rounds });
    printTable(times, print);
  } finally {
    rmSync(folder, { recursive: true });
  }
}

const at = (sorted: number[], share: number): number =>
  sorted[Math.round((sorted.length - 1) * share)] ?? Number.NaN;

function printTable(times: Map<string, number[]>, print: (line: string) => void): void {
  const ownMedian = at(
    (times.get(thisProgram) ?? []).toSorted((a, b) => a - b),
    0.5,
  );
  const row = (name: string, ...cells: string[]) =>
    print(name.padEnd(32) + cells.map((cell) => cell.padStart(12)).join(""));
  row("ms per report", "median", "fastest", "slowest", "to ours");
  for (const [name, measured] of times) {
    const sorted = measured.toSorted((a, b) => a - b);
    const [median, fastest, slowest] = [0.5, 0, 1].map((share) => at(sorted, share)) as [
      number,
      number,
      number,
    ];
    const cells = [median, fastest, slowest].map((ms) => ms.toFixed(2));
    row(name, ...cells, `${(median / ownMedian).toFixed(1)} x`);
  }
}
