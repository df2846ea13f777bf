/**
 * Printed pages against programs that were not written here: poppler's pdfinfo, pdftotext and pdffonts, and qpdf
 * (Debian packages poppler-utils and qpdf). What makes a PDF tagged, and what its fonts, outline and destinations are,
 * is theirs to say.
 */
import { execFileSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import { planHtml } from "../../src/report/pages/plan-page.ts";
import { summaryHtml } from "../../src/report/pages/summary-page.ts";
import { destinationPages } from "../../src/report/pdf-destinations.ts";
import { openPrinter, type Printer } from "../../src/report/pdf-printer.ts";
import { printPacket } from "../../src/report/print-packet.ts";
import { textWidthPt } from "../../src/report/text-width.ts";
import { samplePacket } from "../report/sample-batch.ts";
import { samplePlan } from "../report/sample-plan.ts";
import { stuffedPlan } from "../report/stuffed-plan.ts";
import { describeWithTools } from "./outside-tools.ts";

const run = (tool: string, ...options: string[]): string =>
  execFileSync(tool, options, { encoding: "utf8", maxBuffer: 1 << 28 });

interface Outline {
  title: string;
  destpageposfrom1: number;
  kids: Outline[];
}

/** Titles with pages, as `qpdf --json` lists them, indented by depth. */
function outlineOf(file: string): { title: string; page: number; depth: number }[] {
  const { outlines } = JSON.parse(run("qpdf", "--json", "--json-key=outlines", file)) as {
    outlines: Outline[];
  };
  const flat = (
    items: Outline[],
    depth: number,
  ): { title: string; page: number; depth: number }[] =>
    items.flatMap(({ title, destpageposfrom1: page, kids }) => [
      { title, page, depth },
      ...flat(kids, depth + 1),
    ]);
  return flat(outlines, 0);
}

describeWithTools(["pdfinfo", "pdftotext", "pdffonts", "qpdf"], "printed pages", () => {
  const folder = mkdtempSync(join(tmpdir(), "pdf-test-"));
  const file = (name: string): string => join(folder, `${name}.pdf`);
  const asOf = samplePlan.asOf;
  let printer: Printer;
  let packet: Uint8Array;

  beforeAll(async () => {
    printer = await openPrinter({ pages: 2 });
    packet = (await printPacket(printer, samplePacket)).pdf;
    const pages: Record<string, string> = {
      plan: planHtml(samplePlan),
      summary: summaryHtml(samplePlan),
      letter: summaryHtml(stuffedPlan, { paper: "Letter" }),
    };
    for (const [name, html] of Object.entries(pages))
      writeFileSync(file(name), await printer.print(html, { asOf }));
    writeFileSync(file("packet"), packet);
  }, 120_000);
  afterAll(async () => {
    await printer.close();
    rmSync(folder, { recursive: true });
  });

  const names = ["plan", "summary", "letter", "packet"];

  test.each(names)("%s is tagged, titled, dated, without scripts", (name) => {
    const info = run("pdfinfo", "-isodates", file(name));
    expect(info).toMatch(/^Tagged: +yes$/m);
    expect(info).toMatch(/^JavaScript: +no$/m);
    expect(info).toMatch(/^Title: +(?:Plan report|Summary|Planning meeting) /m);
    expect(info).toMatch(/^CreationDate: +2026-01-14T00:00:00Z$/m);
    expect(info).toMatch(/^ModDate: +2026-01-14T00:00:00Z$/m);
  });

  test("sheets are of the size asked for, summaries one page long", () => {
    const summary = run("pdfinfo", file("summary"));
    expect(summary).toMatch(/^Pages: +1$/m);
    expect(summary).toMatch(/^Page size: .*\(A4\)$/m);
    const letter = run("pdfinfo", file("letter"));
    expect(letter).toMatch(/^Pages: +1$/m);
    expect(letter).toMatch(/^Page size: .*\(letter\)$/m);
  });

  test.each(names)("%s is sound to qpdf", (name) => {
    expect(run("qpdf", "--check", file(name))).toContain(
      "No syntax or stream encoding errors found",
    );
  });

  test.each(names)("%s has its fonts inside, and no other than its own", (name) => {
    const rows = run("pdffonts", file(name)).trim().split("\n").slice(2);
    expect(rows).toHaveLength(2);
    for (const row of rows) expect(row).toMatch(/IBMPlexSans-(?:Regular|SemiBold) .* yes yes yes /);
  });

  test("the structure tree reads in the order of the page, tables have heads, drawings have words", () => {
    const tree = run("pdfinfo", "-struct", file("plan"));
    for (const element of ["H1", "H2", "H3", "Table", "TH", "Figure", "L "])
      expect(tree, element).toMatch(new RegExp(`^ +${element}`, "m"));
    expect(tree).toContain("/Scope /Column");
    const words = run("pdfinfo", "-struct-text", file("plan"));
    const sections = [...words.matchAll(/^( +)H2 .*\n((?:\1 +.*\n)+)/gm)].map(([, , inside = ""]) =>
      [...inside.matchAll(/"([^"\n]*[A-Za-z][^"\n]*)"\n/g)].map(([, text]) => text).join(" "),
    );
    expect(sections).toEqual([
      "Findings",
      "Exams and sizes",
      "The aorta as it is",
      "Growth",
      "Criteria",
      "Next imaging by published schedules",
      "Missing, and questions",
      "Options at a glance",
      "Measurements and where they stand",
      "Set aside and remarks",
      "Sources and cautions",
    ]);
    const objects = run("qpdf", "--json", "--json-key=qpdf", file("plan"));
    const alternatives = [...objects.matchAll(/"\/Alt": "u:([^"]*)/g)].map(([, alt = ""]) => alt);
    expect(alternatives).toHaveLength(1 + samplePlan.growth.length);
    expect(alternatives[0]).toContain("Sinuses of Valsalva: 38.4 mm (±");
  });

  test("every page says which it is, who it is about, and the caution", () => {
    const pages = run("pdftotext", "-layout", file("plan"), "-").split("\f").slice(0, -1);
    expect(pages.length).toBeGreaterThan(4);
    for (const [index, page] of pages.entries()) {
      expect(page).toContain(`Page ${index + 1} of ${pages.length}`);
      expect(page).toContain("Testperson Alpha");
      expect(page).toContain("does not replace, the judgement of licensed clinicians");
      expect(page).toContain("aortic-packet 0.1.0 · rules 3fa2b1c9d83f · as of 2026-01-14");
    }
  });

  test("bookmarks lead to every section of a plan report", () => {
    const outline = outlineOf(file("plan"));
    expect(outline[0]).toMatchObject({ depth: 0, page: 1 });
    expect(outline[0]?.title).toContain("Testperson Alpha");
    const sections = outline.filter(({ depth }) => depth === 1).map(({ title }) => title);
    expect(sections).toHaveLength(11);
    expect(sections[0]).toContain("Findings");
    expect(sections.at(-1)).toContain("Sources and cautions");
  });

  test("the packet's contents name the pages on which pdftotext finds each part", () => {
    const pages = run("pdftotext", "-layout", file("packet"), "-").split("\f").slice(0, -1);
    const [cover = ""] = pages;
    for (const { order, plan, patientId } of samplePacket.cases) {
      const name = plan?.patient.name ?? patientId;
      const line = cover.split("\n").find((row) => row.includes(name) && /\d+$/.test(row.trim()));
      const page = Number(/(\d+)$/.exec(line?.trim() ?? "")?.[1]);
      const divider = pages[page - 1] ?? "";
      expect(divider).toContain(`Case ${order} ·`);
      expect(divider).toContain("Presents");
      for (const [, number, part] of divider.matchAll(
        /Page (\d+) +(Summary|Plan report|Decision sheet)/g,
      )) {
        const heads = {
          Summary: "Summary as of",
          "Plan report": "Plan report as of",
          "Decision sheet": "Options considered",
        };
        expect(pages[Number(number) - 1]).toContain(heads[part as keyof typeof heads]);
        expect(pages[Number(number) - 1]).toContain(name);
      }
      expect([...divider.matchAll(/Page \d+ +[SPD]/g)]).toHaveLength(plan ? 3 : 1);
    }
    expect(cover).toMatch(new RegExp(`Files, sources and cautions +${pages.length}\n`));
    expect(pages.at(-1)).toContain("Files behind these reports");
  });

  test("our reading of destinations is poppler's, and bookmarks lead to the same pages", () => {
    const listed = run("pdfinfo", "-dests", file("packet"))
      .split("\n")
      .flatMap((line): [string, number][] => {
        const row = /^ *(\d+) .*"([^"]+)"$/.exec(line);
        return row?.[2] ? [[row[2], Number(row[1])]] : [];
      });
    expect(listed.length).toBeGreaterThan(8);
    expect([...destinationPages(packet)].toSorted()).toEqual(listed.toSorted());
    const cases = outlineOf(file("packet")).filter(({ title }) => /TEST-000\d/.test(title));
    expect(cases.map(({ page }) => page)).toEqual(
      ["case-1", "case-2", "case-3"].map((id) => destinationPages(packet).get(id)),
    );
  });

  test("the same packet gives the same bytes", { timeout: 60_000 }, async () => {
    const again = await printPacket(printer, samplePacket);
    expect(Buffer.from(again.pdf).equals(Buffer.from(packet))).toBe(true);
  });

  test("words are as wide in print as we reckon", () => {
    const html = run("pdftotext", "-bbox", file("summary"), "-");
    const words = [...html.matchAll(/xMin="([\d.]+)".* xMax="([\d.]+)".*>([A-Za-z]{6,})<\/word>/g)];
    expect(words.length).toBeGreaterThan(60);
    for (const [, left, right, word = ""] of words) {
      const printed = Number(right) - Number(left);
      const reckoned = [400, 600].map((weight) => textWidthPt(word, 9, weight as 400 | 600));
      const nearest = Math.min(...reckoned.map((width) => Math.abs(width / printed - 1)));
      if (printed / word.length > 7) continue;
      expect(nearest, word).toBeLessThan(0.03);
    }
  });
});
