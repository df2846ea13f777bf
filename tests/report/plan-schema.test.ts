import { readFileSync, writeFileSync } from "node:fs";
import { expect, test } from "vitest";
import { planJsonSchema } from "../../src/report/plan.ts";

test("the published schema is the one that reports are checked against", () => {
  const path = "src/report/plan.schema.json";
  const text = `${JSON.stringify(planJsonSchema(), null, 2)}\n`;
  if (process.env["UPDATE_GOLDEN"]) writeFileSync(path, text);
  expect(JSON.parse(readFileSync(path, "utf8"))).toEqual(JSON.parse(text));
});
