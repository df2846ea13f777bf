import { readFileSync } from "node:fs";
import type { BatchSummary } from "../batch-summary.ts";
import { renderDocument } from "../document.ts";
import { formatCount } from "../format.ts";
import { outcomeMark } from "../outcome-mark.ts";
import type { Paper } from "../paper.ts";
import { messageRow } from "./provenance-view.ts";

const script = readFileSync(new URL("../../../templates/index-page.js", import.meta.url), "utf8");

type Patient = BatchSummary["patients"][number];

const missingShown = 3;

function missingText({ missing }: Patient): string {
  const rest = missing.length - missingShown;
  const shown = missing.slice(0, missingShown).join("; ");
  return rest > 0 ? `${shown}; and ${rest} more` : shown;
}

function patientRow(patient: Patient) {
  const { key, id, issuer, name, outcome, failure, changed, lastExam, largest } = patient;
  const isReported = outcome === "reported";
  /** Words that the filters of the page look for. */
  const tags = [
    changed ? "changed" : "",
    isReported ? "" : "failed",
    patient.growthExceeds > 0 ? "grows" : "",
    patient.met > 0 ? "met" : "",
    patient.missing.length > 0 ? "missing" : "",
  ];
  const link = (file: string): string => `patients/${key}/${file}`;
  return {
    name: name ?? "name not stated",
    id: issuer === null ? id : `${id} (${issuer})`,
    tags: tags.filter((tag) => tag !== "").join(" "),
    lastExam: lastExam ?? "",
    changed: changed ? "new" : "",
    largest: largest ?? "",
    growth:
      patient.growthExceeds === 0
        ? ""
        : `exceeds at ${formatCount(patient.growthExceeds, "place")}`,
    growthCount: String(patient.growthExceeds),
    met: String(patient.met),
    notMet: String(patient.notMet),
    notAssessable: String(patient.notAssessable),
    missing: missingText(patient),
    missingCount: String(patient.missing.length),
    failure: failure === null ? null : messageRow(failure),
    links: isReported
      ? [
          { text: "summary", html: link("summary.html"), pdf: link("summary.pdf") },
          { text: "plan report", html: link("plan.html"), pdf: link("plan.pdf") },
          ...(patient.hasOptions
            ? [{ text: "options", html: link("options.html"), pdf: link("options.pdf") }]
            : []),
        ]
      : [],
  };
}

const fileOutcomes = {
  used: "used",
  "already-known": "already known",
  "set-aside": "set aside",
  skipped: "skipped",
};

function filesView({ files }: BatchSummary) {
  const outcomes = Object.entries(fileOutcomes);
  const counts = outcomes.flatMap(([outcome, words]) => {
    const count = files.filter((file) => file.outcome === outcome).length;
    return count === 0 ? [] : [`${count} ${words}`];
  });
  const notUsed = files.flatMap(({ file, kind, outcome, reason }) =>
    reason === null
      ? []
      : [{ file, kind, outcome: fileOutcomes[outcome], reason: messageRow(reason) }],
  );
  return { fileCounts: counts.join(", ") || "none", notUsed };
}

function indexView(batch: BatchSummary) {
  const { patients, asOf, messages } = batch;
  const failed = patients.filter(({ outcome }) => outcome === "failed").length;
  const changed = patients.filter((patient) => patient.changed).length;
  return {
    asOf,
    counts: `${formatCount(patients.length, "patient")}, ${changed} with something new, ${failed} without a report`,
    patients: patients.map(patientRow),
    marks: {
      met: outcomeMark("met"),
      notMet: outcomeMark("not-met"),
      notAssessable: outcomeMark("not-assessable"),
    },
    ...filesView(batch),
    messages: messages.map(messageRow),
  };
}

/** The list of all patients and files of a run, for a browser: a plain table that a small script makes sortable and searchable. */
export function indexHtml(batch: BatchSummary, { paper = "A4" }: { paper?: Paper } = {}): string {
  const title = `Aortic reports as of ${batch.asOf}`;
  return renderDocument("index-page", indexView(batch), {
    title,
    paper,
    orientation: "landscape",
    asOf: batch.asOf,
    software: batch.software,
    runningHead: title,
    namedPages: [],
    script,
  });
}
