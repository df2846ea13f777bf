import { expect, test } from "vitest";
import { familyEventsIn } from "../../src/cases/family-history.ts";

test.each([
  [null, null],
  ["", null],
  ["none", []],
  [" None known ", []],
  ["negative", []],
  ["father, dissection", ["aortic dissection"]],
  [
    "Aortic dissection (mother, age 41); sudden death of the brother",
    ["aortic dissection", "sudden death"],
  ],
  ["sister: aortic aneurysm", ["aortic aneurysm"]],
  ["aneurysm and aortic event", ["aortic aneurysm", "aortic event"]],
  ["father", null],
  ["no dissection", null],
  ["dissection?", null],
  ["non-dissection", null],
  ["cerebral aneurysm", null],
  ["dissection of the carotid artery", null],
  ["father, dissection; brother unknown", null],
  ["none; dissection", null],
  ["dissections", null],
])("%j: %j", (cell, expected) => {
  expect(familyEventsIn(cell)).toEqual(expected);
});
