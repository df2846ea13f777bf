import { createServer, type Server } from "node:http";
import { mkdtempSync, readdirSync, rmSync } from "node:fs";
import { type AddressInfo } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, afterEach, beforeAll, describe, expect, test, vi } from "vitest";
import { openPrinter, type Printer } from "../../src/report/pdf-printer.ts";
import { planHtml } from "../../src/report/pages/plan-page.ts";
import { samplePlan } from "./sample-plan.ts";

const asOf = "2026-01-14";

describe("printing", () => {
  let printer: Printer;
  let server: Server;
  let requests = 0;
  beforeAll(async () => {
    printer = await openPrinter({ pages: 2 });
    server = createServer((_, response) => {
      requests++;
      response.end();
    });
    await new Promise<void>((resolve) => server.listen(0, "127.0.0.1", resolve));
  }, 60_000);
  afterAll(async () => {
    await printer.close();
    server.close();
  });

  test(
    "the same page gives the same bytes, on either page of the pool and after others",
    { timeout: 60_000 },
    async () => {
      const html = planHtml(samplePlan);
      const prints = await Promise.all(
        [html, "<p>other</p>", html, "<table><tr><th>a</th><td>b</td></tr></table>", html].map(
          (page) => printer.print(page, { asOf }),
        ),
      );
      const [first, , second, , third] = prints.map((pdf) => Buffer.from(pdf));
      expect(first?.equals(second ?? Buffer.alloc(0))).toBe(true);
      expect(first?.equals(third ?? Buffer.alloc(0))).toBe(true);
      expect(first?.toString("latin1")).toContain("/CreationDate (D:20260114000000+00'00')");
    },
  );

  test("a page that asks for the network gets nothing", async () => {
    const { port } = server.address() as AddressInfo;
    const url = `http://127.0.0.1:${port}/x`;
    const html = `<link rel="stylesheet" href="${url}"><img src="${url}"><iframe src="${url}"></iframe>
      <style>@font-face{font-family:x;src:url(${url})}body{font-family:x;background:url(${url})}</style>
      <script src="${url}"></script><p>text</p>`;
    await printer.print(html, { asOf });
    expect(requests).toBe(0);
    await fetch(url);
    expect(requests).toBe(1);
  });

  test("scripts do not run", async () => {
    const pdf = await printer.print(
      `<title>before</title><p>x</p><script>document.title = "after"</script>`,
      { asOf },
    );
    expect(Buffer.from(pdf).toString("latin1")).toContain("/Title (before)");
  });
});

describe("the browser", () => {
  afterEach(() => vi.unstubAllEnvs());

  test("leaves no profile behind", { timeout: 60_000 }, async () => {
    const folder = mkdtempSync(join(tmpdir(), "printer-test-"));
    vi.stubEnv("TMPDIR", folder);
    const printer = await openPrinter({ pages: 1 });
    expect(
      readdirSync(folder).filter((name) => name.startsWith("aortic-packet-browser-")),
    ).toHaveLength(1);
    await printer.print("<p>x</p>", { asOf });
    await printer.close();
    expect(readdirSync(folder)).toEqual([]);
    rmSync(folder, { recursive: true });
  });

  test("a page that takes too long fails alone; the next prints", { timeout: 60_000 }, async () => {
    const printer = await openPrinter({ pages: 1, timeoutMs: 5000 });
    const endless = `<style>@page{size:1in 1in}</style>${"<p>invented</p>".repeat(400_000)}`;
    await expect(printer.print(endless, { asOf })).rejects.toThrow(/timed? ?out/i);
    const pdf = await printer.print("<title>next</title><p>x</p>", { asOf });
    expect(Buffer.from(pdf).toString("latin1")).toContain("/Title (next)");
    await printer.close();
  });

  test("one that is named and is not there is said so", async () => {
    vi.stubEnv("AORTIC_PACKET_BROWSER", "/nowhere/browser");
    await expect(openPrinter()).rejects.toThrow(
      "AORTIC_PACKET_BROWSER names /nowhere/browser, which does not exist.",
    );
  });
});
