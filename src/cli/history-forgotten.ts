import { join } from "node:path";
import { filesOf, type HeldPatient } from "../history/held-patients.ts";
import { remainsOf } from "../history/remains.ts";
import type { SiteConfig } from "../site/site-config.ts";
import { counted } from "./history-list.ts";
import type { Terminal, VerbArguments } from "./verb.ts";

/** What the telling of a removal stands on; `patients` are all of the history before it. */
interface Told {
  args: VerbArguments;
  terminal: Terminal;
  site: SiteConfig;
  patients: HeldPatient[];
}

/** What was or would be removed, and what still holds the patient after that. */
export function sayForgotten(
  patient: HeldPatient,
  isRemoved: boolean,
  { args, terminal, site, patients }: Told,
): void {
  const { id, issuer, key, parts, shared } = patient;
  const out = args.text("out");
  const names = filesOf(patient);
  const goes = names.filter(({ sha256 }) => !shared.has(sha256)).map(({ name }) => name);
  const kept = names.filter(({ sha256 }) => shared.has(sha256)).map(({ name }) => name);
  const documents = parts.filter(({ document }) => document !== null).length;
  const caseRows = parts.length - documents;
  const remains = remainsOf(out, patient, site);
  const others = patients.filter((other) => other.id === id && other.key !== key).map(nameOf);
  if (args.json) {
    const removed = { documents, caseRows, files: goes, sharedFiles: kept };
    terminal.print(
      JSON.stringify(
        { patient: { id, issuer, key }, isRemoved, removed, remains, others },
        null,
        2,
      ),
    );
    return;
  }
  const print = (heading: string, lines: string[]): void => {
    if (lines.length === 0) return;
    terminal.print(heading);
    for (const line of lines) terminal.print(`  ${line}`);
  };
  const inOut = (names: string[]): string[] => names.map((name) => join(out, name));
  const what = isRemoved ? "removed from the history" : "would be removed from the history";
  terminal.print(`patient ${nameOf(patient)}, key ${key}`);
  terminal.print(`${what}: ${counted(documents, "document")}, ${counted(caseRows, "case row")}`);
  print("files that go with them:", goes);
  print("files of which the name stays, because they hold other patients too:", kept);
  print("held under the same ID and not touched (--config names the site's issuer):", others);
  print("reports, which the next run takes away:", inOut(remains.reports));
  print("lists of all patients, which the next run writes anew:", inOut(remains.lists));
  print(
    "name the patient or may hold their data, and stay until you delete them:",
    inOut(remains.stay),
  );
  terminal.print(
    "Files that are dropped again are read as new: take this patient's files and rows out of the input folder first.",
  );
  terminal.print(
    "Exports, backups, refused files that do not spell the ID, and copies of the disk are not looked at.",
  );
  if (!isRemoved) terminal.print("Nothing was removed; add --yes to remove it.");
}

/** "P1, issuer LAB". */
export const nameOf = ({ id, issuer }: HeldPatient): string =>
  issuer === null ? `${id}, no issuer` : `${id}, issuer ${issuer}`;
