import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { packetHtml } from "../../../src/report/pages/packet-page.ts";
import { destinationPages } from "../../../src/report/pdf-destinations.ts";
import { openPrinter, type Printer } from "../../../src/report/pdf-printer.ts";
import { printPacket } from "../../../src/report/print-packet.ts";
import { htmlText } from "../html-text.ts";
import { pageCount } from "../page-count.ts";
import { samplePacket } from "../sample-batch.ts";

describe("packet", () => {
  const html = packetHtml(samplePacket);
  const text = htmlText(html);

  test("the cover names the meeting, the cases in order and who presents", () => {
    expect(text).toContain("2026-01-15 3 cases, as of 2026-01-14");
    const contents = text.slice(text.indexOf("Contents"), text.indexOf("Files, sources"));
    expect(contents).toContain("1 Testperson Alpha · TEST-0001 (Invented Hospital)");
    expect(contents).toContain("Where could a repair land? vascular surgery");
    expect(contents).toContain("3 Testperson Gamma");
  });

  test("a case without a report appears with the reason, and has its decision sheet", () => {
    expect(text).toContain("no report: Two files disagree on the birth date of TEST-0002.");
    expect(text).toContain("Case 2 · TEST-0002 Options considered");
    expect(text.match(/Options considered/g)).toHaveLength(3);
  });

  test("the meeting's question stands on the divider, the case sheet's on the report", () => {
    expect(text).toContain("Question Where could a repair land? Presents vascular surgery");
    expect(text).toContain("Does the descending aorta grow, and where could a repair land?");
  });

  test("only files behind these reports are listed; the batch is counted", () => {
    const end = text.slice(text.indexOf("Files behind these reports"));
    expect(end).toContain("The batch saw 2 files; 1 set aside.");
    expect(end).toContain("sheets/invented-2026-01-12.csv measurement sheet used 14 1");
    expect(end).not.toContain("reports/invented-beta.dcm structured report");
  });

  test("ids are unique although reports repeat", () => {
    const ids = [...html.matchAll(/ id="([^"]*)"/g)].map(([, id]) => id);
    expect(ids.length).toBeGreaterThan(20);
    expect(new Set(ids).size).toBe(ids.length);
  });

  test.each([
    ["summary", ["summary"]],
    ["plan report", ["summary", "plan"]],
    ["options", ["summary", "plan", "options"]],
  ] as const)("at depth %s a case has the parts %j", (depth, parts) => {
    const [first] = samplePacket.cases;
    if (!first) throw new Error("the sample has no case");
    const page = packetHtml({ ...samplePacket, cases: [{ ...first, depth }] });
    const found = ["summary", "plan", "options"].filter((part) =>
      page.includes(` id="case-1-${part}"`),
    );
    expect(found).toEqual(parts);
    for (const part of ["summary", "plan", "options"])
      expect(page.includes(`href="#case-1-${part}"`)).toBe(found.includes(part));
  });

  test("a hostile name can't leave the running head's CSS string", () => {
    const packet = structuredClone(samplePacket);
    const name = `"} body { display: none } </style><script>1</script>\\`;
    for (const one of packet.cases) if (one.plan) one.plan.patient.name = name;
    const page = packetHtml(packet);
    expect(page).not.toContain("<script");
    expect(page.match(/<\/style>/g)).toHaveLength(1);
    expect(page).not.toContain(`"} body`);
  });
});

describe("printed packet", () => {
  let printer: Printer;
  beforeAll(async () => {
    printer = await openPrinter({ pages: 1 });
  }, 60_000);
  afterAll(async () => printer.close());

  test("the contents carry the page on which each part starts", { timeout: 60_000 }, async () => {
    const { html, pdf } = await printPacket(printer, samplePacket);
    const pages = destinationPages(pdf);
    expect(pages.get("case-1")).toBe(2);
    expect(pages.get("case-1-summary")).toBe(3);
    expect(pages.get("case-1-plan")).toBe(4);
    expect(pages.get("last-page")).toBe(pageCount(pdf));
    const contents = htmlText(html.slice(html.indexOf('class="contents"')));
    for (const id of ["case-1", "case-2", "case-3"]) {
      const row = new RegExp(
        `<a href="#${id}">[\\s\\S]*?<td class="contents-page">(\\d+)</td>`,
      ).exec(html);
      expect(Number(row?.[1]), id).toBe(pages.get(id));
    }
    expect(contents).toContain(`Files, sources and cautions ${pageCount(pdf)}`);
    const again = await printPacket(printer, samplePacket);
    expect(Buffer.from(again.pdf).equals(Buffer.from(pdf))).toBe(true);
  });

  test("a packet without a case prints a cover and a last page", async () => {
    const { pdf } = await printPacket(printer, { ...samplePacket, cases: [] });
    expect(pageCount(pdf)).toBe(2);
  });
});
