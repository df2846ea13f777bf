import { describe, expect, test } from "vitest";
import { parseSiteConfig } from "../../src/site/site-config.ts";

const decided = "identities:\n  - patientId: P1\n    by: imaging lab\n    date: 2026-01-15\n";
const parse = (text: string) => parseSiteConfig(`${decided}${text}`, "site.yaml");

describe("identities in the site file", () => {
  test("one person, several persons and files to leave out are understood", () => {
    const { site, messages } = parse(`    same:
      birthDate: { stands: 1950-01-02, also: [1950-02-01] }
    leaveOut: [{ sha256: 0123456789abcdef }]
  - patientId: "0012"
    issuer: LAB
    by: imaging lab
    date: 2026-01-15
    apart:
      - { as: A, birthDate: 1950-01-02 }
      - { as: B, sex: M, name: "Invented, Bruno" }
`);
    expect(messages).toEqual([]);
    expect(site?.identities).toEqual([
      {
        patientId: "P1",
        issuer: null,
        by: "imaging lab",
        date: "2026-01-15",
        same: { birthDate: { stands: "1950-01-02", also: ["1950-02-01"] } },
        apart: null,
        leaveOut: [{ sha256: "0123456789abcdef" }],
      },
      {
        patientId: "0012",
        issuer: "LAB",
        by: "imaging lab",
        date: "2026-01-15",
        same: null,
        apart: [
          { as: "A", birthDate: "1950-01-02" },
          { as: "B", sex: "M", name: "Invented, Bruno" },
        ],
        leaveOut: [],
      },
    ]);
  });

  test.each([
    ["nothing decided", "", "line 2", "decide one of"],
    [
      "one person and several persons at once",
      "    same: { sex: { stands: F, also: [M] } }\n    apart: [{ as: A, sex: F }, { as: B, sex: M }]\n",
      "line 2",
      "decide one of",
    ],
    [
      "an aspect without a value to accept",
      "    same: { sex: { stands: F, also: [] } }\n",
      "line 5",
      "",
    ],
    ["one person by nothing", "    same: {}\n", "line 5", "say which of"],
    ["a single person of several", "    apart: [{ as: A, sex: F }]\n", "line 5", "two persons"],
    [
      "a person told by nothing",
      "    apart: [{ as: A }, { as: B, sex: F }]\n",
      "line 5",
      "at least one",
    ],
    ["files told by nothing", "    leaveOut:\n      - {}\n", "line 6", "at least one"],
    [
      "a day that does not exist",
      "    leaveOut: [{ birthDate: 1950-02-30 }]\n",
      "line 5",
      "YYYY-MM-DD",
    ],
    ["a short digest", "    leaveOut: [{ sha256: 0123abc }]\n", "line 5", "16 hexadecimal"],
    [
      "a digest that YAML takes for a number",
      "    leaveOut: [{ sha256: 1234567890123456 }]\n",
      "line 5",
      "",
    ],
    ["a mistyped aspect", "    leaveOut: [{ birthday: 1950-02-03 }]\n", "line 5", "birthday"],
    [
      "two decisions on one patient ID",
      "    leaveOut: [{ sex: F }]\n  - { patientId: P1, by: lab, date: 2026-01-16, leaveOut: [{ sex: M }] }\n",
      "line 6",
      "decided twice",
    ],
  ])("%s is refused with its line", (_, text, at, words) => {
    const { site, messages } = parse(text);
    expect(site).toBeNull();
    expect(messages[0]?.code).toBe("site-file-mistake");
    expect(messages[0]?.place?.at).toBe(at);
    expect(messages[0]?.text).toContain(words);
  });
});
