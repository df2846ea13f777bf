/* Measures speed, beside other programs on the same files: npm run bench -- read */
import { benchReading } from "./read-reports.ts";

const benches = new Map([["read", benchReading]]);
const [name = ""] = process.argv.slice(2);
const bench = benches.get(name);
if (bench) bench((line) => process.stdout.write(`${line}\n`));
else {
  process.stderr.write(`npm run bench -- ${[...benches.keys()].join(" | ")}\n`);
  process.exitCode = 2;
}
