import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { loadRules, rulesDigest } from "../../src/guidelines/load-rules.ts";
import { printedLimit } from "../../src/guidelines/printed-limit.ts";
import { hasLimit, type Rule } from "../../src/guidelines/rule.ts";

const invented = `id: invented-2026-descending-55-mm
title: An invented criterion
source:
  body: Invented
  year: 2026
  where: page 1
recommendation: null
population: {}
places:
  regions: [descending]
check:
  kind: diameter
  operator: ">="
  value: 55
  unit: mm
  printed: "55 mm"
says: Nothing.
checked:
  how: from-memory
`;

const anySize = invented
  .replace("{}", "{ diagnosis: [arch aneurysm], symptoms: any }")
  .replace(/^check:\n(?: .*\n)+/m, "check:\n  kind: any-size\n");

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "rules-"));
});
afterEach(() => rmSync(folder, { recursive: true }));

function write(name: string, text: string): void {
  mkdirSync(join(folder, "invented-2026"), { recursive: true });
  writeFileSync(join(folder, "invented-2026", name), text);
}

describe("a folder of rules", () => {
  test("is read through its folders and sorted by id", () => {
    write("invented-2026-descending-55-mm.yaml", invented);
    write("another.yaml", invented.replace(/^id: .*$/m, "id: another"));
    expect(loadRules(folder).map(({ id }) => id)).toEqual([
      "another",
      "invented-2026-descending-55-mm",
    ]);
  });

  test("a criterion that holds at any size has no limit", () => {
    write("invented-2026-descending-55-mm.yaml", anySize);
    expect(loadRules(folder)).toMatchObject([
      { check: { kind: "any-size" }, population: { symptoms: "any" } },
    ]);
  });

  const name = "invented-2026-descending-55-mm.yaml";
  test.each([
    ["no citation", invented.replace(/^source:(\n {2}.*)+\n/m, ""), /line 1 source/],
    ["no place in the source", invented.replace("  where: page 1\n", ""), /line 3 source\.where/],
    ["an empty place in the source", invented.replace("page 1", '""'), /line 6 source\.where/],
    ["an unknown key", invented.replace("says:", "advice:"), /line 17 advice/],
    ["an unknown region", invented.replace("descending]", "aorta]"), /line 10 places\.regions/],
    ["no region", invented.replace("regions: [descending]", "ids: [nowhere]"), /line 10 .*no such/],
    ["an unknown cause", invented.replace("{}", "{ aetiology: [age] }"), /line 8 population/],
    ["a wrong unit", invented.replace("unit: mm", "unit: cm/m"), /line 15 check\.unit/],
    [
      "a limit beside any size",
      invented.replace("kind: diameter", "kind: any-size"),
      /line 13 check\.operator: operator is not a key here/,
    ],
    [
      "any size without a diagnosis",
      anySize.replace(/^population:.*$/m, "population: {}"),
      /small sizes/,
    ],
    ["a limit from above without a diagnosis", invented.replace(">=", "<"), /small sizes/],
    [
      "a limit from above of a band",
      invented.replace(">=", "<").replace("unit: mm", "unit: mm\n  below: 60"),
      /line 13 check\.operator: only a diameter/,
    ],
    ["unknown symptoms", anySize.replace("symptoms: any", "symptoms: [ache]"), /line 8 population/],
    [
      "a growth check without period",
      invented.replace("diameter", "growth-over-period"),
      /line 11 check.periodMonths: is missing/,
    ],
    [
      "a comparison that only a site can make",
      invented.replace("how: from-memory", "how: site"),
      /does not load/,
    ],
    [
      "another name than its id",
      invented.replace("id: inv", "id: Inv"),
      /not the name of the file/,
    ],
  ])("does not load with %s", (_, text, message) => {
    write(name, text);
    expect(() => loadRules(folder)).toThrow(message);
    expect(() => loadRules(folder)).toThrow(name);
  });

  test("does not load with the same id twice", () => {
    write(name, invented);
    mkdirSync(join(folder, "other"));
    writeFileSync(join(folder, "other", name), invented);
    expect(() => loadRules(folder)).toThrow("has the same id");
  });
});

describe("the digest of rules", () => {
  const rules = loadRules();
  const [first, ...others] = rules;
  if (!first) throw new Error("no rules");

  test("is twelve hex digits and does not depend on order", () => {
    expect(rulesDigest(rules)).toMatch(/^[0-9a-f]{12}$/);
    expect(rulesDigest(rules.toReversed())).toBe(rulesDigest(rules));
    const reversedKeys = Object.fromEntries(Object.entries(first).toReversed()) as Rule;
    expect(rulesDigest([reversedKeys, ...others])).toBe(rulesDigest(rules));
  });

  test("changes with any value", () => {
    const changed: Rule = { ...first, says: `${first.says} And more.` };
    expect(rulesDigest([changed, ...others])).not.toBe(rulesDigest(rules));
  });
});

describe("the rules that ship", () => {
  const rules = loadRules();

  test("a recalled rule never claims a confirmed class or level", () => {
    for (const { id, checked, recommendation } of rules) {
      if (checked.how === "from-memory") expect(recommendation?.confirmed, id).not.toBe(true);
    }
  });

  test("an id says body and year", () => {
    for (const { id, source } of rules) {
      const start = `${source.body.toLowerCase().replace("/", "-")}-${source.year}-`;
      expect(id.startsWith(start), id).toBe(true);
    }
  });

  test("a limit is the printed number, in its unit or ten times or a tenth of it", () => {
    for (const { id, check } of rules.filter(hasLimit)) {
      const printed = printedLimit(check.printed, check.unit);
      expect(printed, `${id}: ${check.printed}`).toBeCloseTo(check.value, 9);
    }
  });
});
