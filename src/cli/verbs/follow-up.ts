import { readFollowUp } from "../../batch/follow-up-output.ts";
import {
  type FollowUpList,
  type FollowUpRow,
  followUpTags,
  type FollowUpTag,
} from "../../report/follow-up.ts";
import { windowWords } from "../../growth/next-imaging.ts";
import { configOption, lastRun, outOption, siteConfig } from "../inputs.ts";
import type { Terminal, Verb } from "../verb.ts";

const filters: readonly FollowUpTag[] = ["overdue", "growing", "near", "lost"];

/** Who is due, grows, nears a limit or was not seen for long, of all patients of the last run. */
export const followUp: Verb = {
  name: "follow-up",
  describe:
    "the follow-up list of the last run: what is due or overdue, what grows, what nears a limit",
  positionals: [],
  options: {
    overdue: { describe: "only patients with imaging overdue", type: "boolean" },
    growing: { describe: "only patients with growth beyond a limit", type: "boolean" },
    near: {
      describe: "only patients with a size that meets, reaches or nears a limit",
      type: "boolean",
    },
    lost: {
      describe: "only patients without an exam for long; of several filters any one is enough",
      type: "boolean",
    },
    out: outOption,
    config: configOption,
  },
  example: "aortic-packet follow-up --overdue --lost",
  run: async (args, terminal) => {
    const out = args.text("out");
    const list = readFollowUp(out, lastRun(out), siteConfig(args).followUp);
    const wanted = filters.filter((tag) => args.flag(tag));
    const rows = list.rows.filter(
      (row) => wanted.length === 0 || followUpTags(row).some((tag) => wanted.includes(tag)),
    );
    if (args.json) terminal.print(JSON.stringify({ ...list, rows }, null, 2));
    else printList({ ...list, rows }, list.rows.length, terminal);
    return 0;
  },
};

const headings = ["patient", "last exam", "due", "overdue, days", "why"];

function printList(
  { asOf, rows, notListed, lostAfterMonths, nearLimitMm }: FollowUpList,
  all: number,
  terminal: Terminal,
): void {
  const lines = rows.flatMap(linesOf);
  const widths = headings.map((heading, column) =>
    Math.max(heading.length, ...lines.map((cells) => cells[column]?.length ?? 0)),
  );
  const print = (cells: readonly string[]): void => {
    const padded = cells.map((cell, column) => cell.padEnd(widths[column] ?? 0));
    terminal.print(padded.join("  ").trimEnd());
  };
  terminal.print(`follow-up list as of ${asOf}: ${rows.length} of ${all} patients`);
  print(headings);
  for (const cells of lines) print(cells);
  for (const { id, reason } of notListed) terminal.print(`patient ${id}: no report: ${reason}`);
  terminal.print(
    `near: ${nearLimitMm} mm or less below a limit; no exam for long: more than ${lostAfterMonths} months (common practice, no published source)`,
  );
  terminal.print(
    "[not confirmed]: not confirmed against the source; projections carry no such mark",
  );
  terminal.print("An exam that is not on file here is not known to the list.");
}

/** One line for each reason, the other columns on the first alone. */
function linesOf({ id, lastExam, due: [next], overdueDays, reasons }: FollowUpRow): string[][] {
  const first = [
    id,
    lastExam?.date ?? "none",
    next ? windowWords(next) : "none",
    overdueDays === null || overdueDays === 0 ? "" : String(overdueDays),
  ];
  return reasons.map((reason, index) => [...(index === 0 ? first : first.map(() => "")), reason]);
}
