import { describe, expect, test } from "vitest";
import { planHtml } from "../../../src/report/pages/plan-page.ts";
import { type Plan, planSchema } from "../../../src/report/plan.ts";
import { htmlText } from "../html-text.ts";
import { samplePlan } from "../sample-plan.ts";
import { stuffedPlan } from "../stuffed-plan.ts";

const html = planHtml(samplePlan);
const text = htmlText(html);

const emptyPlan: Plan = {
  ...samplePlan,
  exams: [],
  measurements: [],
  growth: [],
  assessments: [],
  disagreements: [],
  options: [],
  worklists: [],
  missing: [],
  prompts: [],
  messages: [],
};

describe("plan report", () => {
  test("the samples are plans", () => {
    for (const plan of [samplePlan, stuffedPlan, emptyPlan])
      expect(planSchema.parse(plan)).toEqual(plan);
  });

  test("the reading order: who, question, what is large, grows, criteria, missing, options, where numbers stand", () => {
    const order = [
      "Plan report as of 2026-01-14",
      "Testperson Alpha",
      "TEST-0001 (Invented Hospital)",
      "1957-05-02, 68 years",
      "Does the descending aorta grow, and where could a repair land?",
      "Largest Descending thoracic aorta: 58.0 mm, maximum, outer edge, 2026-01-12.",
      "Growth Proximal descending aorta: exceeds 3 mm per year (Northbody 2022)",
      "Criteria 1 met, 4 not met, 1 can't be judged, 1 failed, 1 not applicable.",
      "Sources differ",
      "Missing Most decisive first: height",
      "Exams and sizes",
      "Proximal descending aorta: 12.5 mm more",
      "Size of the descending thoracic aorta",
      "Can't be judged without it",
      "Options at a glance",
      "Measurements and where they stand",
      "Set aside and remarks",
      "Sources and cautions",
    ];
    let at = 0;
    for (const words of order) {
      const found = text.indexOf(words, at);
      expect(found, words).toBeGreaterThanOrEqual(at);
      at = found;
    }
  });

  test("every measurement stands with its text in the file, its place there and its key", () => {
    for (const { key, asWritten, value, source } of samplePlan.measurements) {
      expect(text).toContain(key);
      expect(text).toContain(`${value.toFixed(1)} mm ${asWritten}`);
      expect(text).toContain(source.file);
      expect(text).toContain(source.at);
    }
  });

  test("every criterion that applies stands with its title, the decisive ones with limit and rule", () => {
    for (const { rule, title, limit, outcome, spansLimit } of samplePlan.assessments) {
      if (outcome === "not-applicable") continue;
      expect(text).toContain(title);
      if (outcome === "not-assessable") continue;
      expect(text).toContain(limit?.printed);
      if (outcome === "met" || spansLimit) expect(text).toContain(`Rule ${rule}.`);
    }
  });

  test("a value or class that is recalled carries its mark, a compared one does not", () => {
    const rows = html.split("<tbody>").map(htmlText);
    const unconfirmed = rows.find((row) => row.includes("Rule invented-south-descending."));
    expect(unconfirmed).toContain("value not confirmed against the source");
    const confirmed = rows.find((row) => row.includes("Rule invented-north-descending."));
    expect(confirmed).not.toContain("not confirmed");
    const recalledClass = structuredClone(samplePlan);
    for (const one of recalledClass.assessments)
      one.recommendation = { class: "1", level: null, confirmed: false };
    expect(htmlText(planHtml(recalledClass))).toContain(
      "class and level not confirmed against the source",
    );
  });

  test("every outcome has its word beside its mark", () => {
    const marks = [...html.matchAll(/<span class="outcome"><svg[^>]*>.*?<\/svg> ([^<]+)<\/span>/g)];
    const words = new Set(marks.map(([, word]) => word));
    expect([...words].toSorted()).toEqual([
      "failed",
      "fails",
      "holds",
      "met",
      "not for this",
      "not met",
      "unknown",
    ]);
  });

  test("every zone stands in one table with its conditions, and where the rest is to be read", () => {
    const options = text.slice(
      text.indexOf("Options at a glance"),
      text.indexOf("Measurements and"),
    );
    expect(options).toContain("Condition Zone 0 Zone 1 Zone 2 Zone 3 Zone 4");
    // Worked in the sample: zone 2 begins at 68 mm, the last sound section is at 110 mm.
    expect(options).toMatch(/Diameter under 40 mm .*holds 31\.5 mm/);
    expect(options).toContain("What stands behind each cell is in the options of this patient");
  });

  test("sections without data say so in a line", () => {
    const empty = htmlText(planHtml(emptyPlan));
    for (const words of [
      "No exam of this patient is known.",
      "No number of this patient could be placed.",
      "No place was measured at two exams.",
      "No criterion in force is met or stands at its limit.",
      "Nothing that a criterion or an option asks for is missing.",
      "no options are laid out",
      "Nothing was set aside.",
    ])
      expect(empty).toContain(words);
  });

  test("hostile text is text", () => {
    const hostile = `</style></title><script>alert("1")</script><img src=x onerror='1'>`;
    const plan = structuredClone(samplePlan);
    plan.patient.name = hostile;
    plan.patient.id = hostile;
    plan.patient.question = hostile;
    for (const one of plan.measurements) {
      one.comment = hostile;
      one.source.file = hostile;
      one.place.label = hostile;
    }
    for (const one of plan.assessments) one.title = hostile;
    const page = planHtml(plan);
    expect(page).not.toContain("<script");
    expect(page).not.toContain("<img");
    expect(page.match(/<style>/g)).toHaveLength(1);
    expect(page.match(/<\/style>/g)).toHaveLength(1);
    expect(page.match(/<\/title>/g)?.length).toBe(page.match(/<title[ >]/g)?.length);
    expect(htmlText(page)).toContain(`alert("1")`);
  });

  test("the page needs nothing from outside and runs no script", () => {
    const [, policy = ""] = /Content-Security-Policy" content="([^"]*)"/.exec(html) ?? [];
    expect(policy.replaceAll("&#x27;", "'")).toBe(
      "default-src 'none'; style-src 'unsafe-inline'; font-src data:",
    );
    expect(html).not.toMatch(/(?:src|href)=["']?(?:https?:|\/\/)|url\((?!data:)/);
    expect(html).not.toContain("<script");
    expect(html).toMatch(/^<!doctype html>\n<html lang="en">/);
    expect(html.length).toBeLessThan(250_000);
  });

  test("ids are unique", () => {
    const ids = [...html.matchAll(/ id="([^"]*)"/g)].map(([, id]) => id);
    expect(new Set(ids).size).toBe(ids.length);
  });

  test("signs that the font lacks are spelled, so that they look alike everywhere", () => {
    const plan = structuredClone(samplePlan);
    plan.patient.question = "Is it ≥ 55 mm?";
    expect(htmlText(planHtml(plan))).toContain("Is it >= 55 mm?");
  });

  test("letters beyond Latin bring their fonts with them", () => {
    const plan = structuredClone(samplePlan);
    plan.patient.name = "Ελένη Łucja Жанна";
    expect(planHtml(plan).match(/@font-face/g)).toHaveLength(8);
    expect(html.match(/@font-face/g)).toHaveLength(2);
  });

  test("it never calls anything normal, safe or recommended", () => {
    expect(text).not.toMatch(/\b(?:normal|safe|safely|recommended|we recommend)\b/i);
  });

  test("the sheet is as asked", () => {
    expect(html).toContain("@page{size:A4 portrait");
    expect(planHtml(samplePlan, { paper: "Letter" })).toContain("@page{size:Letter portrait");
  });
});
