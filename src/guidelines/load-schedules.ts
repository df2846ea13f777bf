import { fileURLToPath } from "node:url";
import { loadCitedFiles } from "./cited-files.ts";
import { type Schedule, scheduleSchema } from "./schedule.ts";

const shipped = fileURLToPath(new URL("schedules/", import.meta.url));

/**
 * All surveillance schedules below a folder, sorted by id; without an argument those that ship with the program. A
 * file that does not fit the schema, is not named like its id or repeats an id throws, with file and line.
 */
export function loadSchedules(folder: string = shipped): Schedule[] {
  return loadCitedFiles(folder, scheduleSchema);
}
