import type { BatchSummary } from "../batch-summary.ts";
import { cautions } from "../cautions.ts";
import { renderDocument } from "../document.ts";
import { formatCount } from "../format.ts";
import type { Message } from "../../message.ts";
import type { PacketDepth } from "../../readers/reading.ts";
import type { Paper } from "../paper.ts";
import type { Plan } from "../plan.ts";
import { sourceRows } from "./criteria-view.ts";
import { optionsView } from "./options-page.ts";
import { hasOptions } from "./options-view.ts";
import { planView } from "./plan-view.ts";
import { messageRow } from "./provenance-view.ts";
import { summaryView } from "./summary-view.ts";
import { patientId, patientName } from "./title-block.ts";

/** One row of the meeting list with the report that was found for it. */
export interface PacketCase {
  /** As the meeting list says it. */
  order: string | number;
  patientId: string;
  presenterRole: string | null;
  question: string | null;
  depth: PacketDepth;
  plan: Plan | null;
  /** Why there is no report; null where there is one. */
  failure: Message | null;
}

/** Everything that a meeting packet is printed from. */
export interface Packet {
  asOf: string;
  meetingDate: string;
  software: Plan["software"];
  cases: PacketCase[];
  files: BatchSummary["files"];
  messages: Message[];
}

/** Page numbers by the id of what starts there. */
export type PageNumbers = ReadonlyMap<string, number>;

const lastPageId = "last-page";
const ruledLines = { options: 6, decision: 3, reasons: 5, dissent: 3, tasks: 5, review: 1 };
const lines = (count: number): number[] => Array.from({ length: count }, (_, index) => index + 1);

const caseId = (index: number): string => `case-${index + 1}`;

function caseName({ plan, patientId: id }: PacketCase): string {
  return plan === null ? id : `${patientName(plan)} · ${patientId(plan)}`;
}

function runningHead(one: PacketCase): string {
  return `Case ${one.order} · ${caseName(one)}`;
}

function caseView(one: PacketCase, index: number, paper: Paper, pageOf: (id: string) => string) {
  const id = caseId(index);
  const { plan, failure, depth } = one;
  const setting = {
    paper,
    idPrefix: `${id}-`,
    titleTag: "h3",
    sectionTag: "h4",
    itemTag: "h5",
  } as const;
  const report = depth === "summary" ? null : plan;
  const options =
    report !== null && depth === "options" && hasOptions(report)
      ? optionsView(report, { ...setting, idPrefix: `${id}-options-` })
      : null;
  const parts = [
    ...(plan === null ? [] : [{ id: `${id}-summary`, title: "Summary" }]),
    ...(report === null ? [] : [{ id: `${id}-plan`, title: "Plan report" }]),
    ...(options === null ? [] : [{ id: `${id}-options`, title: "Options" }]),
    { id: `${id}-decision`, title: "Decision sheet" },
  ];
  return {
    id,
    page: pageOf(id),
    pageClass: `page-${id}`,
    order: String(one.order),
    name: caseName(one),
    presenter: one.presenterRole ?? "not stated",
    question: one.question ?? plan?.patient.question ?? "No question is stated.",
    failure: failure && messageRow(failure),
    parts: parts.map((part) => ({ id: part.id, title: part.title, page: pageOf(part.id) })),
    plan: report && planView(report, setting),
    summary: plan && summaryView(plan, setting),
    options,
    ruled: Object.fromEntries(
      Object.entries(ruledLines).map(([key, count]) => [key, lines(count)]),
    ),
  };
}

/** The files that the packet's reports stand on; the rest of the batch is counted. */
function filesView({ cases, files }: Packet) {
  const named = new Set(
    cases.flatMap(({ plan }) => [
      ...(plan?.measurements ?? []).map(({ source }) => source.file),
      ...(plan?.findings ?? []).map(({ source }) => source.file),
      ...(plan?.centrelines ?? []).flatMap(({ stations }) =>
        stations.map(({ source }) => source.file),
      ),
      ...(plan?.messages ?? []).flatMap(({ place }) => (place === null ? [] : [place.file])),
    ]),
  );
  const shown = files.filter(({ file }) => named.has(file));
  const setAside = files.filter(({ outcome }) => outcome === "set-aside").length;
  return {
    files: shown.map(({ file, kind, outcome, placed, leftOut, reason }) => ({
      file,
      kind,
      outcome: outcome.replaceAll("-", " "),
      placed: String(placed),
      leftOut: String(leftOut),
      reason: reason?.text ?? "",
    })),
    filesNote: `The batch saw ${formatCount(files.length, "file")}; ${setAside} set aside.`,
  };
}

function packetView(packet: Packet, paper: Paper, pages: PageNumbers | null) {
  const pageOf = (id: string): string => (pages === null ? "" : String(pages.get(id) ?? ""));
  const cases = packet.cases.map((one, index) => caseView(one, index, paper, pageOf));
  const assessments = packet.cases.flatMap(({ plan }) => plan?.assessments ?? []);
  return {
    meetingDate: packet.meetingDate,
    asOf: packet.asOf,
    caseCount: formatCount(packet.cases.length, "case"),
    cases,
    lastPage: { id: lastPageId, page: pageOf(lastPageId) },
    ...filesView(packet),
    messages: packet.messages.map(messageRow),
    sources: sourceRows({ assessments }),
    software: `${packet.software.name} ${packet.software.version}`,
    rulesDigest: packet.software.rulesDigest,
    cautions: [...cautions],
  };
}

/**
 * The packet of a meeting as a whole HTML document. Page numbers in the contents come from a first print
 * (`printPacket`); without them their places stay empty.
 */
export function packetHtml(
  packet: Packet,
  { paper = "A4", pages = null }: { paper?: Paper; pages?: PageNumbers | null } = {},
): string {
  const title = `Planning meeting ${packet.meetingDate}`;
  return renderDocument("packet-page", packetView(packet, paper, pages), {
    title,
    paper,
    orientation: "portrait",
    asOf: packet.asOf,
    software: packet.software,
    runningHead: title,
    namedPages: packet.cases.map((one, index) => ({
      name: caseId(index),
      runningHead: runningHead(one),
    })),
    script: null,
  });
}
