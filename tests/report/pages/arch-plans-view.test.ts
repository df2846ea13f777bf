import { cpSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { afterAll, describe, expect, test } from "vitest";
import { z } from "zod";
import { archPlanSchema } from "../../../src/report/arch-plan-schema.ts";
import { archPlansView } from "../../../src/report/pages/arch-plans-view.ts";
import { outcomeWord } from "../../../src/report/outcome-mark.ts";
import { loadTemplates } from "../../../src/report/template-engine.ts";
import type { ArchPlanCase } from "../../planning/arch-plans/arch-plan-case.ts";
import { plansOf } from "../../planning/arch-plans/arch-plan-case.ts";
import { htmlText } from "../html-text.ts";

const folder = mkdtempSync(join(tmpdir(), "arch-plans-"));
afterAll(() => rmSync(folder, { recursive: true }));
cpSync("templates/partials", join(folder, "partials"), { recursive: true });
writeFileSync(join(folder, "page.hbs"), "{{> arch-plans}}");
const render = loadTemplates(pathToFileURL(`${folder}/`));

const parsed = (held: ArchPlanCase) => z.array(archPlanSchema).parse(plansOf(held));
const htmlOf = (held: ArchPlanCase): string =>
  render("page", { ...archPlansView(parsed(held)), sectionTag: "h2", itemTag: "h3" });

const rich: ArchPlanCase = {
  facts: { aetiology: "Marfan", archVariants: null },
  readings: [{ place: "zone-0", mm: 36 }],
  findings: [["left-common-carotid-artery", "patency", "narrowed"]],
};

const count = (text: string, words: string): number => text.split(words).length - 1;

/** Each condition with the outcome that it stands under. */
const conditionsOf = (held: ArchPlanCase) =>
  archPlansView(parsed(held)).archConditions.flatMap(({ mark, rows }) =>
    rows.map((row) => ({ ...row, outcome: mark.word })),
  );

describe("the view of the arch plans", () => {
  test("every plan has one row, lettered in the order given, which is no ranking", () => {
    const plans = parsed(rich);
    const { archWays } = archPlansView(plans);
    const rows = archWays.flatMap(({ ways }) => ways);
    expect(rows.map(({ letter }) => letter).join("")).toBe("ABCDEFGHIJKL");
    expect(rows.map(({ label }) => label.toLowerCase())).toEqual(
      plans.map(({ label }) => label.toLowerCase()),
    );
    const html = htmlOf(rich);
    expect(html.match(/<th scope="row">[A-L] /g)).toHaveLength(12);
    expect(htmlText(html)).toContain("The order is no ranking.");
  });

  test("a condition stands once under its outcome in words, with error, limit held and ways", () => {
    const conditions = conditionsOf(rich);
    const labelled = (words: string) => conditions.filter(({ label }) => label.includes(words));
    expect(labelled("Left common carotid artery, the donor")).toMatchObject([
      {
        outcome: "not met",
        ways: "C, D",
        found: "Left common carotid artery narrowed on 2026-03-02.",
      },
    ]);
    expect(labelled("Native ascending aorta under 37 mm")).toMatchObject([
      {
        ways: "F",
        found: "36.0 mm, zone 0, 2026-03-02 (±\u00a02.0). The interval holds the limit.",
      },
    ]);
    expect(labelled("Landing in the ascending aorta longer than 30 mm")).toMatchObject([
      { outcome: "can't be judged", ways: "F" },
    ]);
    const text = htmlText(htmlOf(rich));
    expect(text).toMatch(
      /not met\s+1\s+Left common carotid artery, the donor, open and not narrowed/,
    );
  });

  test("what can't be judged names what is missing, and what was found all the same", () => {
    const found = (held: ArchPlanCase, words: string) =>
      conditionsOf(held).find(({ label }) => label.includes(words))?.found;
    expect(found(rich, "Innominate and right common carotid artery, the donors")).toBe(
      "Unknown: patency of the innominate artery; patency of the right common carotid artery.",
    );
    const half: ArchPlanCase = {
      findings: [["right-common-carotid-artery", "patency", "patent"]],
    };
    expect(found(half, "Innominate and right common carotid artery, the donors")).toBe(
      "Innominate artery not stated; right common carotid artery patent on 2026-03-02. Unknown: patency of the innominate artery.",
    );
    const [first] = parsed(rich);
    const requirement = parsed(rich)[2]?.requirements[0];
    if (!first || !requirement) throw new Error("no requirement");
    const differ = {
      ...requirement,
      outcome: "not-assessable" as const,
      reason: "It supplies a dialysis access.",
      missing: ["what hangs on it (readers differ)"],
    };
    const view = archPlansView([{ ...first, requirements: [differ] }]);
    expect(view.archConditions[0]?.rows[0]?.found).toBe(
      "It supplies a dialysis access. Unknown: what hangs on it (readers differ).",
    );
  });

  test("each way names every requirement by its number under the right outcome", () => {
    const plans = parsed(rich);
    const conditions = conditionsOf(rich);
    const ways = archPlansView(plans).archWays.flatMap((group) => group.ways);
    plans.forEach(({ requirements }, place) => {
      const named = (ways[place]?.outcomes ?? []).flatMap(({ mark, numbers }) =>
        numbers.split(", ").map((number) => {
          const row = conditions.find((condition) => condition.number === Number(number));
          return `${mark.word}: ${row?.label}, ${row?.outcome}`.toLowerCase();
        }),
      );
      const wanted = requirements.map(({ outcome, label }) => {
        const word = outcomeWord(outcome);
        return `${word}: ${label}, ${word}`.toLowerCase();
      });
      expect(named.toSorted()).toEqual(wanted.toSorted());
    });
  });

  test("all that is missing, asked, advised and published of any plan is on the page", () => {
    const plans = parsed(rich);
    const text = htmlText(htmlOf(rich)).replaceAll("&#x3D;", "=").toLowerCase();
    const said = plans.flatMap(({ missing, questions, advice, facts, requirements }) => [
      ...missing,
      ...questions.flatMap((row) => [row.text, row.answeredBy]),
      ...advice.flatMap((row) => [row.text, row.strength ?? "not shown", row.source]),
      ...facts.flatMap((row) => [row.text, row.source]),
      ...requirements.map(({ source }) => source),
    ]);
    expect(said.length).toBeGreaterThan(100);
    const lost = said.filter((words) => !text.includes(words.toLowerCase()));
    expect([...new Set(lost)]).toEqual([]);
  });

  test("advice names body, year, strength, whether it was confirmed, and of which ways", () => {
    const { archAdvice, archPlanSources } = archPlansView(parsed(rich));
    expect(archAdvice.map(({ ways }) => ways)).toEqual(["C to G"]);
    const rows = archAdvice[0]?.rows ?? [];
    const esc = rows.find(({ who }) => who === "ESC 2024");
    expect(esc).toMatchObject({ strength: "I B", confirmed: "yes" });
    expect(archPlanSources.find(({ note }) => note === esc?.note)?.text).toContain(
      "Recommendation Table 40",
    );
    const acc = rows.find(({ who }) => who === "ACC/AHA 2022");
    expect(acc?.confirmed).toBe("no");
    expect(rows.filter(({ who }) => who === "SVS 2009")).toHaveLength(3);
  });

  test("each note stands in the one list of sources once, and the list has no other", () => {
    const view = archPlansView(parsed(rich));
    const used = [
      ...view.archWays.flatMap(({ refeeding }) => refeeding.flatMap(({ note }) => note ?? [])),
      ...conditionsOf(rich).map(({ note }) => note),
      ...view.archAdvice.flatMap(({ rows }) => rows.map(({ note }) => note)),
      ...view.archPublished.flatMap(({ facts }) => facts.map(({ note }) => note)),
    ];
    const listed = view.archPlanSources.map(({ note }) => note);
    expect([...new Set(used)].toSorted((a, b) => a - b)).toEqual(listed);
    expect(new Set(view.archPlanSources.map(({ text }) => text)).size).toBe(listed.length);
  });

  test("what several plans share is printed once", () => {
    const text = htmlText(htmlOf(rich));
    expect(count(text, "Age 66 on 2026-06-01")).toBe(1);
    expect(count(text, "Left common carotid artery narrowed on 2026-03-02. By: findings")).toBe(1);
    expect(count(text, "The arch is not stated; this stands on the usual arch.")).toBe(1);
    expect(count(text, "count this patient as young")).toBe(1);
    expect(count(text, "When is the second stage, and who watches")).toBe(1);
    expect(count(text, "joined to the arch graft by open surgery")).toBe(1);
    expect(count(text, "common practice without a source")).toBe(1);
  });

  test("ways that cover and re-feed the same stand under one sentence", () => {
    const { archWays } = archPlansView(parsed(rich));
    const letters = archWays.map(({ ways }) => ways.map(({ letter }) => letter).join(""));
    expect(letters).toEqual(["AB", "C", "D", "EFG", "HIJK", "L"]);
    expect(archWays[4]?.refeeding.map(({ text }) => text)).toEqual([
      "Innominate artery, left common carotid artery and left subclavian artery, joined to the arch graft by open surgery",
    ]);
  });

  test("branches that are not known are said beside those that are, with the reason once", () => {
    const view = archPlansView(parsed({ facts: { archVariants: ["right arch"] } }));
    const covers = (letter: string) =>
      view.archWays.find(({ ways }) => ways.some((way) => way.letter === letter))?.covers;
    expect(covers("B")).toBe("No arch branch, as far as the arch is known (see above)");
    expect(view.archPlanAssumptions).toHaveLength(1);
    expect(view.archPlanAssumptions[0]).toContain("not defined for this arch");
    expect(covers("L")).toBe("No branch by a fabric that lands in the arch");
    expect(archPlansView(parsed({})).archPlanAssumptions).toEqual([]);
  });

  test("a published fact that was not confirmed says so, once", () => {
    const facts = archPlansView(parsed(rich)).archPublished.flatMap((group) => group.facts);
    expect(facts.some(({ text }) => /Zones 2 and 3 are the landings most used/.test(text))).toBe(
      true,
    );
    expect(facts.some(({ text }) => text.includes("not confirmed"))).toBe(false);
    const [first] = parsed(rich);
    if (!first) throw new Error("no plan");
    const digest = {
      of: "publication",
      text: "Invented.",
      source: "digest",
      confirmed: false,
    } as const;
    const marked = archPlansView([{ ...first, facts: [digest] }]).archPublished;
    expect(marked[0]?.facts[0]?.text).toBe("Invented. (not confirmed against the source)");
  });

  test("what is missing beside every condition is said with its ways", () => {
    const plans = parsed(rich).map((plan) => ({
      ...plan,
      missing: [...plan.missing, "invented gap"],
    }));
    expect(archPlansView(plans).archUnknown).toContainEqual({
      ways: "A to L",
      text: "invented gap",
    });
  });

  test("no plan is said so", () => {
    const html = render("page", { ...archPlansView([]), sectionTag: "h2", itemTag: "h3" });
    expect(htmlText(html)).toContain("No arch plan was computed.");
  });
});
