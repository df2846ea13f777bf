import fc from "fast-check";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { summaryHtml } from "../../../src/report/pages/summary-page.ts";
import { openPrinter, type Printer } from "../../../src/report/pdf-printer.ts";
import type { Plan } from "../../../src/report/plan.ts";
import { htmlText } from "../html-text.ts";
import { pageCount } from "../page-count.ts";
import { samplePlan } from "../sample-plan.ts";
import { stuffedPlan } from "../stuffed-plan.ts";

const papers = ["A4", "Letter"] as const;
let printer: Printer;
beforeAll(async () => {
  printer = await openPrinter({ pages: 2 });
}, 60_000);
afterAll(async () => printer.close());

async function pagesOf(plan: Plan, paper: "A4" | "Letter"): Promise<number> {
  return pageCount(await printer.print(summaryHtml(plan, { paper }), { asOf: plan.asOf }));
}

const emptyPlan: Plan = {
  ...samplePlan,
  exams: [],
  measurements: [],
  growth: [],
  assessments: [],
  disagreements: [],
  missing: [],
  prompts: [],
};

describe("one sheet", () => {
  test.each(papers)(
    "the sample, the stuffed and the empty plan print on one sheet of %s",
    async (paper) => {
      for (const plan of [samplePlan, stuffedPlan, emptyPlan])
        expect(await pagesOf(plan, paper)).toBe(1);
    },
  );

  test("so does any part of the stuffed plan", { timeout: 120_000 }, async () => {
    const share = fc.nat({ max: 100 });
    const cut = <Item>(items: Item[], percent: number): Item[] =>
      items.slice(0, Math.ceil((items.length * percent) / 100));
    const parts = fc.tuple(share, share, share, share, share, share, fc.constantFrom(...papers));
    await fc.assert(
      fc.asyncProperty(parts, async ([exams, numbers, growth, criteria, missing, words, paper]) => {
        const { patient } = stuffedPlan;
        const text = (value: string | null): string | null =>
          value === null ? null : cut(Array.from(value), words).join("");
        const plan: Plan = {
          ...stuffedPlan,
          patient: {
            ...patient,
            name: text(patient.name),
            diagnosis: text(patient.diagnosis),
            priorRepair: text(patient.priorRepair),
            question: text(patient.question),
          },
          exams: cut(stuffedPlan.exams, exams),
          measurements: cut(stuffedPlan.measurements, numbers),
          growth: cut(stuffedPlan.growth, growth),
          assessments: cut(stuffedPlan.assessments, criteria),
          disagreements: cut(stuffedPlan.disagreements, missing),
          missing: cut(stuffedPlan.missing, missing),
          prompts: cut(stuffedPlan.prompts, criteria),
        };
        expect(await pagesOf(plan, paper)).toBe(1);
      }),
      { numRuns: 25 },
    );
  });

  test("no letter on it is smaller than 9 points", () => {
    const html = summaryHtml(stuffedPlan);
    const sizes = [...html.matchAll(/font-size(?:="|: ?)([\d.]+)(?:pt|")/g)].map(([, size]) =>
      Number(size),
    );
    expect(sizes.length).toBeGreaterThan(50);
    expect(Math.min(...sizes)).toBeGreaterThanOrEqual(9);
    const shorthand = [...html.matchAll(/font: ?[^;]*?([\d.]+)pt/g)].map(([, size]) =>
      Number(size),
    );
    expect(Math.min(...shorthand)).toBeGreaterThanOrEqual(9);
  });
});

describe("what stands on it", () => {
  const text = htmlText(summaryHtml(samplePlan));

  test("criteria with place, value, error, limit and source, the rest counted", () => {
    expect(text).toContain(
      "met Mid-descending aorta 57.4 mm (± 3.9) 5.5 cm or more Northbody 2022",
    );
    expect(text).toContain("not met Mid-descending aorta 57.4 mm (± 3.9) 60 mm Southbody 2024*");
    expect(text).toContain("can't be judged Mid-descending aorta missing: height 3.21 cm/m");
    expect(text).toContain("and 1 more criterion in the plan report: 1 not applicable");
    expect(text).toContain("* not confirmed against the source.");
  });

  test("the series that decide, most decisive first", () => {
    const order = ["Proximal descending aorta: exceeds", "Mid-descending aorta: cannot tell"];
    const places = order.map((words) => text.indexOf(words));
    expect(places[0]).toBeGreaterThan(0);
    expect(places[1]).toBeGreaterThan(places[0] ?? Infinity);
  });

  test("missing, differing sources and questions", () => {
    expect(text).toContain("Missing height; sound length of zone 2; diameter of zone 3");
    expect(text).toContain("Sources differ Mid-descending aorta: met after Northbody 2022");
    expect(text).toContain("Is there a final report of the exam of 2026-01-12? (imaging lab)");
  });

  test("at most nine criteria; what does not fit is counted, and named as being in the plan report", () => {
    const html = summaryHtml(stuffedPlan);
    expect(html.match(/<span class="outcome">/g)).toHaveLength(9);
    const stuffed = htmlText(html);
    expect(stuffed).toContain(
      "and 27 more criteria in the plan report: 9 not met, 9 can't be judged, 9 failed",
    );
    expect(stuffed).toMatch(/and 39 more in the plan report/);
    expect(stuffed).toContain("(in full in the plan report)");
  });
});
