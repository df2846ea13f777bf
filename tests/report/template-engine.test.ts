import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { afterEach, describe, expect, test, vi } from "vitest";
import { followUpList } from "../../src/batch/follow-up-output.ts";
import { followUpHtml } from "../../src/report/pages/follow-up-page.ts";
import { indexHtml } from "../../src/report/pages/index-page.ts";
import { packetHtml } from "../../src/report/pages/packet-page.ts";
import { optionsHtml } from "../../src/report/pages/options-page.ts";
import { planHtml } from "../../src/report/pages/plan-page.ts";
import { summaryHtml } from "../../src/report/pages/summary-page.ts";
import * as engine from "../../src/report/template-engine.ts";
import { sampleBatch, samplePacket } from "./sample-batch.ts";
import { noSiteConfig } from "../../src/site/site-config.ts";
import { samplePlan } from "./sample-plan.ts";
import { stuffedPlan } from "./stuffed-plan.ts";
import { missingPaths } from "./template-paths.ts";

vi.mock("../../src/report/template-engine.ts", { spy: true });

const folders: string[] = [];
afterEach(() => {
  for (const folder of folders.splice(0)) rmSync(folder, { recursive: true });
});

function templatesOf(files: Record<string, string>): URL {
  const folder = mkdtempSync(join(tmpdir(), "templates-"));
  folders.push(folder);
  mkdirSync(join(folder, "partials"));
  for (const [name, text] of Object.entries(files)) writeFileSync(join(folder, name), text);
  return pathToFileURL(`${folder}/`);
}

const load = (files: Record<string, string>) => engine.loadTemplates(templatesOf(files));

describe("loading", () => {
  test("a template that does not compile throws at once", () => {
    expect(() => load({ "a.hbs": "{{#if x}}open" })).toThrow();
  });

  test("so does a partial that is not there, in a branch that may never be taken", () => {
    const files = { "a.hbs": "{{#if x}}{{> gone}}{{/if}}" };
    expect(() => load(files)).toThrow("template a: no partial gone");
  });

  test("so does a helper that is not there", () => {
    expect(() => load({ "a.hbs": "{{#if x}}{{shout y}}{{/if}}" })).toThrow("shout");
  });
});

describe("filling", () => {
  test.each(["{{x}}", "{{#if x}}1{{/if}}", "{{#each x}}1{{/each}}", "{{x.y}}"])(
    "%s of a view without x throws",
    (text) => {
      expect(() => load({ "a.hbs": text })("a", {})).toThrow();
    },
  );

  test("null is absent, and an empty list takes the other branch", () => {
    const text = "[{{x}}]{{#if x}}1{{else}}2{{/if}}{{#each y}}3{{else}}4{{/each}}";
    expect(load({ "a.hbs": text })("a", { x: null, y: [] })).toBe("[]24");
  });

  test("text is escaped, also in a partial", () => {
    const files = { "a.hbs": "{{> p x}}", "partials/p.hbs": '<b title="{{y}}">{{y}}</b>' };
    const hostile = "\"><script>alert('&')</script>";
    const html = load(files)("a", { x: { y: hostile } });
    expect(html).not.toContain("<script");
    expect(html).toContain("&quot;&gt;&lt;script&gt;alert(&#x27;&amp;&#x27;)&lt;/script&gt;");
  });

  test("a template that is not there throws", () => {
    expect(() => load({})("a", {})).toThrow("no template a");
  });
});

describe("the templates of this program", () => {
  const root = new URL("../../templates/", import.meta.url);
  const read = (folder: URL): [string, string][] =>
    readdirSync(folder)
      .filter((file) => file.endsWith(".hbs"))
      .map((file) => [file.replace(".hbs", ""), readFileSync(new URL(file, folder), "utf8")]);
  const texts = new Map([...read(root), ...read(new URL("partials/", root))]);

  test("every path in every template is in the view of the samples", () => {
    const emptied = { ...stuffedPlan, measurements: [], growth: [], assessments: [], options: [] };
    planHtml(samplePlan);
    planHtml(stuffedPlan);
    planHtml(emptied);
    for (const plan of [samplePlan, stuffedPlan, emptied]) optionsHtml(plan);
    summaryHtml(samplePlan);
    packetHtml(samplePacket);
    indexHtml(sampleBatch);
    followUpHtml(followUpList(sampleBatch, [samplePlan], noSiteConfig.followUp), {
      software: samplePlan.software,
    });
    const seen = new Set<string>();
    const rendered = vi.mocked(engine.renderTemplate).mock.calls;
    expect(rendered.length).toBeGreaterThanOrEqual(12);
    for (const [name, view] of rendered) expect(missingPaths(name, view, texts, seen)).toEqual([]);
    expect([...seen].toSorted()).toEqual([...texts.keys()].toSorted());
  });

  test("the check finds a path that is not in the view, in either branch", () => {
    const wrong = new Map([
      ["a", "{{#if x}}{{gone}}{{else}}{{#each y}}{{z}}{{w}}{{/each}}{{/if}}"],
    ]);
    const found = missingPaths("a", { x: null, y: [{ z: 1 }] }, wrong, new Set());
    expect(found).toEqual(["a: gone", "a: w"]);
  });

  test("only one partial writes without escaping", () => {
    const raw = [...texts].filter(([, text]) => /\{\{\{|\{\{&/.test(text)).map(([name]) => name);
    expect(raw).toEqual(["raw"]);
  });

  test("no line ends in a space, and every tag that opens in a template closes in it", () => {
    const neverClosed = new Set(["meta", "col", "input", "br"]);
    for (const [name, text] of texts) {
      expect(text, name).not.toMatch(/[ \t]$/m);
      const named = (pattern: RegExp): string[] =>
        [...text.matchAll(pattern)]
          .map(([, tag = ""]) => tag)
          .filter((tag) => !neverClosed.has(tag));
      const opened = named(/<([a-z][a-z0-9]*|\{\{[^}]*\}\})/g);
      const closed = named(/<\/([a-z][a-z0-9]*|\{\{[^}]*\}\})/g);
      expect(closed.toSorted(), name).toEqual(opened.toSorted());
    }
  });
});
