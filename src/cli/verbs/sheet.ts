import { findPlan } from "../../batch/reports.ts";
import { blankSheet, type BlankSheetKind, blankSheetKinds } from "../../batch/blank-sheet.ts";
import { nearestWord } from "../../data-file.ts";
import { type MissingItem, worklistOf } from "../../planning/worklists/completeness.ts";
import {
  calculatorLabel,
  type Procedure,
  procedures,
  type WorkItem,
} from "../../planning/worklists/worklists.ts";
import { measuredCaseOf, worklistBasisOf } from "../../report/measured-case.ts";
import { planWorklist } from "../../report/worklist-schema.ts";
import { lastRun, outOption } from "../inputs.ts";
import { CannotStart, type Verb, type VerbArguments } from "../verb.ts";

const kinds = Object.keys(blankSheetKinds) as BlankSheetKind[];

/** Words of the command line that name a procedure: its own, or with hyphens for spaces. */
const wordsOf = (id: string): string => id.toLowerCase().replaceAll(/[\s_-]+/g, "-");
const procedureWords = procedures.map(({ id }) => wordsOf(id));

/** A blank sheet of what a procedure needs measured, or of what one patient lacks of it. */
export const sheet: Verb = {
  name: "sheet",
  describe: "a blank sheet of what a procedure needs measured, or of what one patient lacks of it",
  positionals: [],
  options: {
    for: {
      describe: `the procedure: ${procedures.map(({ id }) => id).join(", ")}`,
      type: "string",
      required: true,
      words: procedureWords,
    },
    kind: {
      describe: `which sheet: ${kinds.join(", ")}`,
      type: "string",
      default: "measurements",
      words: kinds,
    },
    patient: { describe: "patient ID, or the patient's key: only what is missing", type: "string" },
    out: outOption,
  },
  example: 'aortic-packet sheet --for "zone 2" --patient DEMO-001 > measurements.csv',
  run: async (args, terminal) => {
    const procedure = procedureOf(args.text("for"));
    const kind = kindOf(args.text("kind"));
    const patient = args.optionalText("patient");
    if (patient === null) {
      if (args.json) terminal.print(JSON.stringify(procedureJson(procedure), null, 2));
      else {
        terminal.print(blankSheet(kind, procedure.items, null).trimEnd());
        sayRest(procedure.items, { kind, procedure, args }, terminal.complain);
      }
      return 0;
    }
    const out = args.text("out");
    lastRun(out);
    const found = findPlan(out, patient);
    if ("failure" in found) {
      terminal.complain(`${found.failure.text}. ${found.failure.remedy}`);
      return 1;
    }
    const { plan } = found;
    const worklist = worklistOf(procedure, measuredCaseOf(plan), worklistBasisOf(plan));
    if (args.json) {
      const own = { patient: plan.patient.id, ...planWorklist(worklist) };
      terminal.print(JSON.stringify(own, null, 2));
      return 0;
    }
    const missing = worklist.missing.map(({ item }: MissingItem) => item);
    terminal.print(blankSheet(kind, missing, plan.patient.id).trimEnd());
    sayRest(missing, { kind, procedure, args }, terminal.complain);
    return 0;
  },
};

function procedureOf(given: string): Procedure {
  const words = wordsOf(given);
  const found = procedures.find(({ id }) => wordsOf(id) === words);
  if (found) return found;
  const nearest = procedures.find(({ id }) => wordsOf(id) === nearestWord(words, procedureWords));
  const hint = nearest
    ? `did you mean "${nearest.id}"?`
    : `they are ${procedures.map(({ id }) => id).join(", ")}`;
  throw new CannotStart(`--for: no procedure "${given}"; ${hint}`);
}

function kindOf(given: string): BlankSheetKind {
  const found = kinds.find((kind) => kind === given.toLowerCase());
  if (found) return found;
  const nearest = nearestWord(given, kinds);
  const hint = nearest === null ? `they are ${kinds.join(", ")}` : `did you mean ${nearest}?`;
  throw new CannotStart(`--kind: no kind "${given}"; ${hint}`);
}

/** Says what the procedure needs besides this sheet, and how to get it. */
function sayRest(
  items: readonly WorkItem[],
  { kind, procedure, args }: { kind: BlankSheetKind; procedure: Procedure; args: VerbArguments },
  say: (line: string) => void,
): void {
  const countOf = (one: BlankSheetKind): number =>
    items.filter(({ form }) => blankSheetKinds[one].some((own) => own === form)).length;
  const patient = args.optionalText("patient");
  const out = args.text("out");
  const ofPatient =
    patient === null ? "" : ` --patient "${patient}"${out === "out" ? "" : ` --out "${out}"`}`;
  say(`${kind}: ${countOf(kind)} items of "${procedure.id}"`);
  for (const other of kinds.filter((one) => one !== kind && countOf(one) > 0)) {
    const command = `sheet --for "${procedure.id}" --kind ${other}${ofPatient}`;
    say(`also needed, ${other}: ${countOf(other)} items; aortic-packet ${command}`);
  }
  for (const [form, where] of [
    ["case", "on the case sheet"],
    ["exam", "of the exam"],
  ] as const) {
    const asked = items.filter((item) => item.form === form).map(({ asked: what }) => what);
    if (asked.length > 0) say(`also needed, ${where}: ${asked.join(", ")}`);
  }
}

/** A worklist without a patient, for machines. */
function procedureJson({ id, label, items, basis }: Procedure) {
  return {
    procedure: id,
    label,
    items: items.map(({ form, asked, where, decides, note }) => ({
      form,
      what: asked,
      where,
      why: decides.map(calculatorLabel),
      note,
    })),
    basis,
  };
}
