import { join } from "node:path";
import { findPlan } from "../../batch/reports.ts";
import { lastRun, outOption } from "../inputs.ts";
import { largestDiameter } from "../../report/largest-diameter.ts";
import type { Verb } from "../verb.ts";
import { hasOptions } from "../../report/pages/options-view.ts";

/** The one page of one patient, as files and as lines. */
export const summary: Verb = {
  name: "summary",
  describe: "the one page of one patient: what is large, what grows, what a criterion says",
  positionals: [],
  options: {
    patient: { describe: "patient ID, or the patient's key", type: "string", required: true },
    out: outOption,
  },
  example: "aortic-packet summary --patient DEMO-001",
  run: async (args, terminal) => {
    const out = args.text("out");
    lastRun(out);
    const found = findPlan(out, args.text("patient"));
    if ("failure" in found) {
      terminal.complain(`${found.failure.text}. ${found.failure.remedy}`);
      return 1;
    }
    const { plan } = found;
    const names = ["summary.pdf", "summary.html", "plan.pdf", "plan.json"];
    if (hasOptions(plan)) names.push("options.pdf");
    const files = names.map((name) => join(out, "patients", plan.patient.key, name));
    if (args.json) {
      const { patient, exams, growth, assessments, missing } = plan;
      terminal.print(
        JSON.stringify(
          { patient, lastExam: exams.at(-1), growth, assessments, missing, files },
          null,
          2,
        ),
      );
      return 0;
    }
    const { patient, growth, assessments, missing, cautions } = plan;
    terminal.print(`${patient.id} ${patient.name ?? ""}, ${patient.ageYears ?? "?"} years`);
    terminal.print(`question: ${patient.question ?? "none stated"}`);
    terminal.print(
      `largest: ${largestDiameter(plan)?.sentence ?? "no aortic diameter in the last exam"}`,
    );
    for (const { sentence } of growth) terminal.print(`growth: ${sentence}`);
    for (const { outcome, title, source, reason } of assessments) {
      if (outcome !== "met") continue;
      terminal.print(`met: ${title} (${source.body} ${source.year}). ${reason}`);
    }
    for (const { what } of missing.slice(0, 5)) terminal.print(`missing: ${what}`);
    for (const file of files) terminal.print(file);
    terminal.print(cautions[0] ?? "");
    return 0;
  },
};
