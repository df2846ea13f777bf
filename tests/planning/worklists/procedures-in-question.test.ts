import { expect, test } from "vitest";
import { consideredOperations } from "../../../src/cases/vocabulary.ts";
import { proceduresInQuestion } from "../../../src/planning/worklists/procedures-in-question.ts";
import { dissectionCase } from "../../cases/sample-dissection.ts";

const asked = (considered: string[] | null): string[] =>
  proceduresInQuestion(dissectionCase({ considered })).map(({ id }) => id);

test.each([
  [null, []],
  [[], []],
  [["aortic valve surgery"], []],
  [["ascending repair"], ["open arch"]],
  [
    ["descending repair"],
    ["zone 2", "zone 3", "zone 4", "open descending", "access", "distal landing"],
  ],
  [
    ["thoraco-abdominal repair", "aortic valve surgery"],
    ["zone 3", "zone 4", "open descending", "access", "distal landing"],
  ],
])("with %j considered the worklists are %j", (considered, expected) => {
  expect(asked(considered)).toEqual(expected);
});

test("every way that is named has its worklist", () => {
  expect(asked(["arch repair"])).toEqual([
    "zone 0",
    "zone 1",
    "zone 2",
    "hybrid type I",
    "hybrid type II",
    "frozen elephant trunk",
    "open arch",
    "access",
    "distal landing",
  ]);
  expect(consideredOperations).toContain("arch repair");
});
