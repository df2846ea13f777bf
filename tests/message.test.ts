import { describe, expect, test } from "vitest";
import { formatPlace, messageMaker } from "../src/message.ts";

const make = messageMaker({
  "cup-empty": { severity: "warning", text: "{cup} is empty", remedy: "Fill {cup}." },
});

describe("messageMaker", () => {
  test("fills text and remedy and keeps the data", () => {
    expect(make("cup-empty", null, { cup: "the blue one" })).toEqual({
      code: "cup-empty",
      severity: "warning",
      place: null,
      data: { cup: "the blue one" },
      text: "the blue one is empty",
      remedy: "Fill the blue one.",
    });
  });

  test("refuses a placeholder without a value", () => {
    expect(() => make("cup-empty", null)).toThrow("no value for {cup}");
  });
});

test("formatPlace names the file and the place in it", () => {
  expect(formatPlace({ file: "a.csv", sha256: null, at: "record 2, line 2" })).toBe(
    "a.csv, record 2, line 2",
  );
  expect(formatPlace({ file: "a.csv", sha256: null, at: null })).toBe("a.csv");
});
