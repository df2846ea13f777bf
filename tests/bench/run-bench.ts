/*
 * npm run bench -- read: speed, beside other programs on the same files.
 * npm run bench -- calibration: how often intervals and answers of growth hold for invented series of known growth.
 */
import { benchCalibration } from "./calibration.ts";
import { benchReading } from "./read-reports.ts";

const benches = new Map([
  ["read", benchReading],
  ["calibration", benchCalibration],
]);
const [name = ""] = process.argv.slice(2);
const bench = benches.get(name);
if (bench) bench((line) => process.stdout.write(`${line}\n`));
else {
  process.stderr.write(`npm run bench -- ${[...benches.keys()].join(" | ")}\n`);
  process.exitCode = 2;
}
