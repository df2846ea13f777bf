import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import puppeteer, { type Browser, type Page } from "puppeteer-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type { BatchSummary } from "../../../src/report/batch-summary.ts";
import { findBrowser } from "../../../src/report/find-browser.ts";
import { indexHtml } from "../../../src/report/pages/index-page.ts";
import { htmlText } from "../html-text.ts";
import { sampleBatch, samplePatientRow } from "../sample-batch.ts";

const html = indexHtml(sampleBatch);

describe("without a script", () => {
  const text = htmlText(html);

  test("every patient stands with last exam, size, counts, what is missing and links", () => {
    expect(text).toContain(
      "3 patients, 1 with something new, 1 without a report. Files: 1 used, 1 set aside.",
    );
    expect(text).toContain(
      "Testperson Alpha TEST-0001 (Invented Hospital) 2026-01-12 new mid-descending aorta: 57.4 mm, outer edge, 2026-01-12 exceeds at 1 place 10 2 3 height summary PDF plan report PDF",
    );
    expect(text).toContain("height; weight; onset date; and 1 more");
    expect(html).toContain('href="patients/k0001/summary.html"');
  });

  test("a patient without a report says why and links to nothing", () => {
    expect(text).toContain("no report: Two files disagree on the birth date of TEST-0002.");
    expect(html).not.toContain("patients/k0002/");
  });

  test("files set aside stand with reason, place and remedy", () => {
    expect(text).toContain(
      "reports/invented-beta.dcm structured report set aside Two files disagree on the birth date of TEST-0002. identity-conflict reports/invented-beta.dcm Correct one of them and drop it again.",
    );
  });

  test("the controls are hidden until a script can serve them", () => {
    expect(html).toContain('<form class="controls" hidden role="search">');
  });
});

describe("in a browser", () => {
  let browser: Browser;
  let page: Page;
  let folder: string;
  beforeAll(async () => {
    const { executable, libraries } = await findBrowser();
    folder = mkdtempSync(join(tmpdir(), "index-page-"));
    browser = await puppeteer.launch({
      executablePath: executable,
      headless: libraries === null ? true : "shell",
      args: process.getuid?.() === 0 ? ["--no-sandbox"] : [],
      env: { ...process.env, ...(libraries === null ? {} : { LD_LIBRARY_PATH: libraries }) },
    });
    page = await browser.newPage();
  }, 60_000);
  afterAll(async () => {
    await browser.close();
    rmSync(folder, { recursive: true });
  });

  async function show(batch: BatchSummary): Promise<void> {
    const file = join(folder, "index.html");
    writeFileSync(file, indexHtml(batch));
    await page.goto(pathToFileURL(file).href);
  }

  /** First line of each row that is shown. */
  const shownRows = (): Promise<string[]> =>
    page.$$eval("table.patients tbody tr:not([hidden]) th", (cells) =>
      cells.map((cell) => cell.firstChild?.textContent ?? ""),
    );

  test("search and filter hide what does not match, by keyboard alone", async () => {
    await show(sampleBatch);
    await page.keyboard.press("Tab");
    await page.keyboard.type("gamma");
    expect(await shownRows()).toEqual(["Testperson Gamma"]);
    expect(await page.$eval("output", (output) => output.value)).toBe("1 of 3 shown");
    await page.keyboard.press("Escape");
    await page.select("select", "failed");
    expect(await shownRows()).toEqual(["name not stated"]);
  });

  test("a column sorts by number up and down, patients without a report below", async () => {
    await show(sampleBatch);
    const met = await page.$("thead th:nth-child(6) button");
    await met?.focus();
    await page.keyboard.press("Enter");
    expect(await shownRows()).toEqual(["name not stated", "Testperson Gamma", "Testperson Alpha"]);
    await page.keyboard.press("Enter");
    expect(await shownRows()).toEqual(["Testperson Alpha", "Testperson Gamma", "name not stated"]);
    expect(
      await page.$eval("thead th:nth-child(6)", (cell) => cell.getAttribute("aria-sort")),
    ).toBe("descending");
  });

  test("keyboard focus is visible", async () => {
    await show(sampleBatch);
    await page.keyboard.press("Tab");
    const style = await page.$eval("input", (input) =>
      input.computedStyleMap().get("outline-style")?.toString(),
    );
    expect(style).toBe("solid");
  });

  test("it follows a dark colour scheme", async () => {
    await page.emulateMediaFeatures([{ name: "prefers-color-scheme", value: "dark" }]);
    await show(sampleBatch);
    const background = await page.$eval("body", (body) =>
      body.computedStyleMap().get("background-color")?.toString(),
    );
    expect(background).toBe("rgb(20, 25, 31)");
    await page.emulateMediaFeatures([]);
  });

  test(
    "with 5,000 patients a search answers within half a second",
    { timeout: 60_000 },
    async () => {
      const patients = Array.from({ length: 5000 }, (_, index) => samplePatientRow(index));
      await show({ ...sampleBatch, patients });
      await page.focus("input");
      const start = performance.now();
      await page.keyboard.type("4321");
      expect(await shownRows()).toEqual(["Testperson 4321"]);
      expect((performance.now() - start) / 4).toBeLessThan(500);
    },
  );
});
