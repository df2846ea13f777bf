import { rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { runCommandLine } from "../../src/cli/command-line.ts";
import { rules as verb } from "../../src/cli/verbs/rules.ts";
import { loadRules, rulesDigest } from "../../src/guidelines/load-rules.ts";
import { loadSchedules } from "../../src/guidelines/load-schedules.ts";
import { newFolder } from "./run-program.ts";

const confirmed = "acc-aha-2022-descending-55-mm";
const corrected = "acc-aha-2022-thoraco-abdominal-60-mm";
const hidden = "eacts-sts-2024-descending-55-mm";
const decisions = `rules:
  - rule: ${confirmed}
    decision: confirm
    against: invented page 1
    by: aortic team
    date: 2026-02-01
  - rule: ${corrected}
    decision: correct
    against: invented page 2
    value: 61
    printed: 6.1 cm
    by: aortic team
    date: 2026-02-02
  - rule: ${hidden}
    decision: hide
    reason: not used here
    by: aortic team
    date: 2026-02-03
`;

const folder = newFolder();
const site = join(folder, "site.yaml");
const broken = join(folder, "broken.yaml");
beforeAll(() => {
  writeFileSync(site, decisions);
  writeFileSync(broken, decisions.replace(hidden, hidden.replace("descending", "decsending")));
});
afterAll(() => rmSync(folder, { recursive: true }));

/** The verb in this process, from the words of the command line. */
async function runProgram(...words: string[]) {
  const lines = { out: "", err: "" };
  const exitCode = await runCommandLine(words, [verb], {
    print: (line) => (lines.out += `${line}\n`),
    complain: (line) => (lines.err += `${line}\n`),
    progress: () => undefined,
  });
  return { exitCode, ...lines };
}

const shippedDigest = rulesDigest([...loadRules(), ...loadSchedules()]);

/** The lines under a heading, up to the next empty one. */
function under(out: string, heading: string): string[] {
  const [, part = ""] = out.split(`\n${heading} (`);
  return part.split("\n\n")[0]?.trimEnd().split("\n").slice(1) ?? [];
}
const idsOf = (lines: string[]): string[] => lines.map((line) => line.trim().split(":")[0] ?? "");

describe("rules", () => {
  test("without a site file lists those from memory first, then those that were seen", async () => {
    const { exitCode, out } = await runProgram("rules");
    expect(exitCode).toBe(0);
    const rules = loadRules();
    const idsHow = (how: string) =>
      rules.filter(({ checked }) => checked.how === how).map(({ id }) => id);
    expect(out.split("\n").slice(0, 2)).toEqual([
      `${rules.length} criteria`,
      `digest with the surveillance schedules, as pages print it: ${shippedDigest}`,
    ]);
    const headings = [...out.matchAll(/^(\S.*) \((\d+)\):$/gm)].map(([, words]) => words);
    expect(headings).toEqual(["not confirmed against the source", "confirmed against the source"]);
    expect(idsOf(under(out, headings[0] ?? ""))).toEqual(idsHow("from-memory"));
    expect(idsOf(under(out, headings[1] ?? ""))).toEqual(idsHow("seen"));
  });

  test("with a site file shows what the site compared and what it hides, by whom and when", async () => {
    const { exitCode, out } = await runProgram("rules", "--config", site);
    expect(exitCode).toBe(0);
    expect(out.split("\n")[0]).toContain(", 1 hidden by the site");
    expect(under(out, "compared by the site")).toEqual([
      `  ${confirmed}: >= 5.5 cm (ACC/AHA 2022, section 6.5.3); confirmed by aortic team on 2026-02-01`,
      expect.stringMatching(
        /^ {2}acc-aha-2022-thoraco-abdominal-60-mm: >= 6\.1 cm \(.*\); corrected by aortic team on 2026-02-02 \(was >= 6\.0 cm from memory\)$/,
      ),
    ]);
    expect(under(out, "hidden by the site, not evaluated")).toEqual([
      expect.stringMatching(
        /^ {2}eacts-sts-2024-descending-55-mm: .*; hidden by aortic team on 2026-02-03: not used here$/,
      ),
    ]);
    const open = idsOf(under(out, "not confirmed against the source"));
    for (const id of [confirmed, corrected, hidden]) expect(open).not.toContain(id);
  });

  test.each([
    [confirmed, "checked against: invented page 1, confirmed by aortic team on 2026-02-01"],
    [corrected, "limit: diameter >= 61 mm, printed as 6.1 cm"],
    [hidden, "hidden by aortic team on 2026-02-03: not used here; it is not evaluated"],
  ])("%s in full: %s", async (id, words) => {
    expect((await runProgram("rules", id, "--config", site)).out).toContain(words);
  });

  test.each([
    ["svs-2018-abdominal-women-50-to-54-mm", "limit: diameter >= 50 and below 55 mm"],
    ["esc-2024-descending-growth-5-mm-in-6-months", ">= 5 mm in 6 months, printed as"],
    [confirmed, "from memory: not confirmed against the source"],
  ])("%s as it ships: %s", async (id, words) => {
    expect((await runProgram("rules", id)).out).toContain(words);
  });

  test("as JSON: rules in force, the hidden ones with the decision, one rule alone", async () => {
    const { out } = await runProgram("rules", "--json", "--config", site);
    const list = JSON.parse(out) as {
      digest: string;
      rules: { id: string; checked: { how: string } }[];
      hidden: unknown[];
    };
    const shipped = loadRules();
    expect(list.digest).toMatch(/^[0-9a-f]{12}$/);
    expect(list.digest).not.toBe(shippedDigest);
    expect(list.rules.map(({ id }) => id)).toEqual(
      shipped.map(({ id }) => id).filter((id) => id !== hidden),
    );
    expect(list.rules.find(({ id }) => id === confirmed)?.checked).toEqual({
      how: "site",
      decision: "confirmed",
      against: "invented page 1",
      by: "aortic team",
      date: "2026-02-01",
      was: null,
    });
    const row = {
      id: hidden,
      hidden: { by: "aortic team", date: "2026-02-03", reason: "not used here" },
    };
    expect(list.hidden).toMatchObject([row]);
    const one = await runProgram("rules", hidden, "--json", "--config", site);
    expect(JSON.parse(one.out)).toMatchObject(row);
  });

  test("a decision about no criterion stops with its line and the nearest id", async () => {
    const { exitCode, err } = await runProgram("rules", "--config", broken);
    expect(exitCode).toBe(2);
    expect(err).toContain(
      `broken.yaml, line 14: site file, rules: there is no criterion eacts-sts-2024-decsending-55-mm; did you mean ${hidden}?`,
    );
  });
});
