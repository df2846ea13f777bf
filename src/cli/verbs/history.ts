import { existsSync, rmSync, statSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { buildDictionary } from "../../anatomy/dictionary.ts";
import { jsonText } from "../../batch/write-output.ts";
import { exportOf } from "../../history/export-patient.ts";
import { findPatient, findPatients, heldPatients } from "../../history/held-patients.ts";
import { type HeldPart, History } from "../../history/history.ts";
import { HistoryFault } from "../../history/history-fault.ts";
import { openToWrite } from "../../history/open-to-write.ts";
import { standings } from "../../history/standing.ts";
import type { Message } from "../../message.ts";
import { configOption, outOption, siteConfig } from "../inputs.ts";
import {
  CannotStart,
  type ExitCode,
  type Terminal,
  type Verb,
  type VerbArguments,
} from "../verb.ts";
import { nameOf, sayForgotten } from "../history-forgotten.ts";
import { counted, overviewOf, printOverview, printPatient } from "../history-list.ts";

/** The actions of the verb, each with the options that it takes besides `--out` and `--config`. */
const actions: Record<string, { options: readonly string[]; run: Action }> = {
  list: { options: ["patient", "issuer"], run: list },
  export: { options: ["patient", "issuer", "to"], run: exportPatient },
  forget: { options: ["patient", "issuer", "yes"], run: forget },
  backup: { options: ["to"], run: backup },
};

type Action = (path: string, args: VerbArguments, terminal: Terminal) => ExitCode;

/** What is kept from night to night. */
export const history: Verb = {
  name: "history",
  describe:
    "what is kept of each patient from night to night: list, export or forget it, or copy all",
  positionals: [{ name: "action", describe: Object.keys(actions).join(", "), required: true }],
  options: {
    patient: { describe: "patient ID, or the patient's key", type: "string" },
    issuer: { describe: "issuer of the patient ID, where several use it", type: "string" },
    to: {
      describe: "export: new file, or folder; backup: new file; nothing is overwritten",
      type: "string",
    },
    yes: { describe: "forget: remove it; without it is only said what would go", type: "boolean" },
    out: outOption,
    config: configOption,
  },
  example: "aortic-packet history list --patient DEMO-001 --config site.yaml",
  run: async (args, terminal) => {
    const name = args.text("action");
    const action = Object.hasOwn(actions, name) ? actions[name] : undefined;
    if (!action) {
      const known = Object.keys(actions).join(", ");
      throw new CannotStart(`history ${name}: there is only ${known}`);
    }
    for (const option of ["patient", "issuer", "to", "yes"]) {
      const isGiven = option === "yes" ? args.flag(option) : args.optionalText(option) !== null;
      if (isGiven && !action.options.includes(option)) {
        throw new CannotStart(`history ${name} takes no --${option}`);
      }
    }
    const out = args.text("out");
    const path = join(out, "history.sqlite");
    if (!existsSync(path)) throw new CannotStart(`--out: there is no history in ${out} yet`);
    try {
      return action.run(path, args, terminal);
    } catch (error) {
      throw error instanceof HistoryFault ? new CannotStart(error.message) : error;
    }
  },
};

function list(path: string, args: VerbArguments, terminal: Terminal): ExitCode {
  const site = siteConfig(args);
  const parts = readHoldings(path);
  const wanted = wantedOf(args);
  const result = findPatients(heldPatients(parts, site.issuer), wanted);
  if ("failure" in result) return notFound(result.failure, terminal);
  const overviews = result.found.map(overviewOf);
  if (wanted.patient === null) {
    if (args.json) terminal.print(JSON.stringify({ patients: overviews }, null, 2));
    else printOverview(overviews, terminal);
    return 0;
  }
  const basis = {
    standing: standings(parts, site),
    dictionary: buildDictionary(site),
  };
  printPatient(result.found, basis, { terminal, json: args.json });
  return 0;
}

function exportPatient(path: string, args: VerbArguments, terminal: Terminal): ExitCode {
  const { issuer } = siteConfig(args);
  const wanted = { ...wantedOf(args), patient: args.text("patient") };
  const to = args.text("to");
  const result = findPatient(heldPatients(readHoldings(path), issuer), wanted);
  if ("failure" in result) return notFound(result.failure, terminal);
  const isFolder = existsSync(to) && statSync(to).isDirectory();
  const file = isFolder ? join(to, `${result.one.key}.history.json`) : to;
  const content = exportOf(result.one);
  makeNew(file, () => {
    writeFileSync(file, jsonText(content), { flag: "wx", mode: 0o600 });
  });
  if (args.json) terminal.print(JSON.stringify({ file, files: content.files.length }, null, 2));
  else {
    terminal.print(`${counted(content.files.length, "file")} of patient ${nameOf(result.one)}`);
    terminal.print(file);
  }
  return 0;
}

function backup(path: string, args: VerbArguments, terminal: Terminal): ExitCode {
  const to = args.text("to");
  const store = new History(path, { readOnly: true, check: "full" });
  try {
    makeNew(to, () => store.copyTo(to));
  } finally {
    store.close();
  }
  terminal.print(args.json ? JSON.stringify({ file: to }, null, 2) : to);
  return 0;
}

/** Makes a new file; what can't be made ends the work and leaves nothing half-written. */
function makeNew(file: string, make: () => void): void {
  if (existsSync(file)) throw new CannotStart(`--to: ${file} is there already`);
  try {
    make();
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== "EEXIST") rmSync(file, { force: true });
    throw new CannotStart(`--to: ${(error as Error).message}`);
  }
}

function forget(path: string, args: VerbArguments, terminal: Terminal): ExitCode {
  const site = siteConfig(args);
  const wanted = { ...wantedOf(args), patient: args.text("patient") };
  const isMeant = args.flag("yes");
  if (!isMeant) {
    const patients = heldPatients(readHoldings(path), site.issuer);
    const result = findPatient(patients, wanted);
    if ("failure" in result) return notFound(result.failure, terminal);
    sayForgotten(result.one, false, { args, terminal, site, patients });
    return 0;
  }
  const store = openToWrite(path, "full");
  try {
    for (const { text } of store.notes) terminal.complain(text);
    const patients = heldPatients(store.history.holdings(), site.issuer);
    const result = findPatient(patients, wanted);
    if ("failure" in result) return notFound(result.failure, terminal);
    const { id, parts } = result.one;
    const issuers = [...new Set(parts.map(({ stated }) => stated.issuer))];
    store.history.forget({ id, issuers });
    sayForgotten(result.one, true, { args, terminal, site, patients });
    return 0;
  } finally {
    store.close();
  }
}

function readHoldings(path: string): HeldPart[] {
  const store = new History(path, { readOnly: true, check: "full" });
  try {
    return store.holdings();
  } finally {
    store.close();
  }
}

const wantedOf = (args: VerbArguments) => ({
  patient: args.optionalText("patient"),
  issuer: args.optionalText("issuer"),
});

function notFound({ text, remedy }: Message, terminal: Terminal): ExitCode {
  terminal.complain(`${text}. ${remedy}`);
  return 1;
}
