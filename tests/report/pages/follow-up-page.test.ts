import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import puppeteer, { type Browser, type Page } from "puppeteer-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { findBrowser } from "../../../src/report/find-browser.ts";
import { followUpRows } from "../../../src/report/follow-up.ts";
import { followUpHtml } from "../../../src/report/pages/follow-up-page.ts";
import { noSiteConfig } from "../../../src/site/site-config.ts";
import { htmlText } from "../html-text.ts";
import { quietPlan, sampleDue, surveillanceOf } from "../sample-follow-up.ts";
import { samplePlan } from "../sample-plan.ts";

const settings = { asOf: "2026-01-14", ...noSiteConfig.followUp };
const named = (id: string, name: string, due: ReturnType<typeof sampleDue>[]) => {
  const plan = quietPlan(id, { surveillance: surveillanceOf(due) });
  return { ...plan, patient: { ...plan.patient, name } };
};
const plans = [
  {
    ...samplePlan,
    surveillance: surveillanceOf([
      sampleDue("2026-01-10", "2026-01-10", { confirmed: false }),
      sampleDue("2025-10-06", "2025-10-06", { imaging: "TTE", statements: ["size stable"] }),
      sampleDue("2027-01-01"),
    ]),
  },
  named("TEST-0002", "Testperson Beta", [sampleDue("2026-01-12")]),
  named("TEST-0003", "Testperson Gamma", []),
];
const list = {
  ...settings,
  rows: followUpRows(plans, settings),
  notListed: [
    { key: "k4", id: "TEST-0004", issuer: null, name: null, reason: "two files <disagree>" },
  ],
};
const { software } = samplePlan;
const html = followUpHtml(list, { software });

describe("without a script", () => {
  const text = htmlText(html);

  test("every date that has passed stands with kind, source and condition, later ones are counted", () => {
    expect(text).toContain(
      "Testperson Alpha TEST-0001 (Invented Hospital) 2026-01-12 CT under 1 month ago 2026-01-10 CT of descending aorta (Northbody 2022*) 2025-10-06 TTE of descending aorta (Northbody 2022), holds if size stable 1 further date 4 ",
    );
  });

  test("growth, sizes met and sizes near their limit have columns of their own", () => {
    expect(text).toContain(
      "proximal descending aorta 4.0 mm per year, exceeds 3 mm per year (Northbody 2022) cannot be told at 1 place 57.4 mm at mid-descending aorta: Size of the descending thoracic aorta (Northbody 2022) nearing: 57.4 mm at mid-descending aorta, limit 60 mm (Southbody 2024*) summary plan report",
    );
    expect(html).toContain('href="patients/k3y0000invented0/plan.html"');
  });

  test("a patient with nothing due stands with that", () => {
    expect(text).toContain(
      "Testperson Gamma TEST-0003 (Invented Hospital) 2026-01-12 CT under 1 month ago nothing due by the schedules on file summary",
    );
  });

  test("the head says the order, the thresholds and what the list does not know", () => {
    expect(text).toContain(
      "3 patients. overdue: 2; due now: 0; growth exceeds a limit: 1; a size criterion met: 1;",
    );
    expect(text).toContain("It ranks nobody");
    expect(text).toContain("more than 24 months. Near a limit: 5 mm or less below it");
    expect(text).toContain("Both are common practice without a published source.");
    expect(text).toContain("* not confirmed against the source.");
    expect(text).toContain("does not know of exams, deaths or follow-up elsewhere");
  });

  test("patients without a report are named, text is escaped", () => {
    expect(text).toContain("name not stated TEST-0004 two files <disagree>");
    expect(html).not.toContain("<disagree>");
    expect(htmlText(followUpHtml({ ...list, notListed: [] }, { software }))).toContain(
      "Every patient has a report.",
    );
  });

  test("it is one table: every row has a head and as many cells as there are columns", () => {
    const [, table = ""] = html.split('<table class="patients follow-up">');
    const [head = "", ...rows] = (table.split("</table>")[0] ?? "").split("<tr").slice(1);
    const columns = head.match(/<th scope="col"/g)?.length;
    expect(rows).toHaveLength(3);
    for (const row of rows) {
      expect(row.match(/<th scope="row"/g)).toHaveLength(1);
      expect(row.match(/<t[dh][ >]/g)).toHaveLength(columns ?? 0);
    }
    expect(html).toContain('<form class="controls" hidden role="search">');
  });

  test("an empty list says so", () => {
    const empty = followUpHtml({ ...list, rows: [] }, { software });
    expect(htmlText(empty)).toContain("No patient.");
  });
});

describe("in a browser", () => {
  let browser: Browser;
  let page: Page;
  const folder = mkdtempSync(join(tmpdir(), "follow-up-page-"));
  beforeAll(async () => {
    const { executable, libraries } = await findBrowser();
    browser = await puppeteer.launch({
      executablePath: executable,
      headless: libraries === null ? true : "shell",
      args: process.getuid?.() === 0 ? ["--no-sandbox"] : [],
      env: { ...process.env, ...(libraries === null ? {} : { LD_LIBRARY_PATH: libraries }) },
    });
    page = await browser.newPage();
    const file = join(folder, "follow-up.html");
    writeFileSync(file, html);
    await page.goto(pathToFileURL(file).href);
  }, 60_000);
  afterAll(async () => {
    await browser.close();
    rmSync(folder, { recursive: true });
  });

  const shownRows = (): Promise<string[]> =>
    page.$$eval("table.patients tbody tr:not([hidden]) th", (cells) =>
      cells.map((cell) => cell.firstChild?.textContent ?? ""),
    );
  const sortBy = async (column: number): Promise<void> => {
    const button = await page.$(`thead th:nth-child(${column}) button`);
    await button?.focus();
    await page.keyboard.press("Enter");
  };

  test.each([
    ["overdue", ["Testperson Alpha", "Testperson Beta"]],
    ["growing", ["Testperson Alpha"]],
    ["untold", []],
    ["", ["Testperson Alpha", "Testperson Beta", "Testperson Gamma"]],
  ])("the filter %j shows %j", async (tag, names) => {
    await page.select("select", tag);
    expect(await shownRows()).toEqual(names);
  });

  test("due dates sort by keyboard, patients without one behind them; days overdue sort as numbers", async () => {
    await sortBy(3);
    expect(await shownRows()).toEqual(["Testperson Alpha", "Testperson Beta", "Testperson Gamma"]);
    await sortBy(4);
    expect(await shownRows()).toEqual(["Testperson Gamma", "Testperson Beta", "Testperson Alpha"]);
  });

  test("nothing is wider than the sheet in landscape", async () => {
    await page.emulateMediaType("print");
    await page.setViewport({ width: 1027, height: 700 });
    const right = await page.$eval(
      "table.patients",
      (table) => table.getBoundingClientRect().right,
    );
    expect(right).toBeLessThanOrEqual(1027);
    await page.emulateMediaType();
  });
});
