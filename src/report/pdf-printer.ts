import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import puppeteer, { type Browser, type Page } from "puppeteer-core";
import { findBrowser, type FoundBrowser } from "./find-browser.ts";
import { stablePdf } from "./stable-pdf.ts";

/** Prints HTML documents of this program to PDF. */
export interface Printer {
  /** The page's own CSS says paper and margins. The same HTML and date (YYYY-MM-DD) give the same bytes. */
  print(html: string, options: { asOf: string }): Promise<Uint8Array>;
  /** Ends the browser and removes its profile. */
  close(): Promise<void>;
}

interface OpenBrowser {
  browser: Browser;
  profile: string;
}

const defaultTimeoutMs = 60_000;

async function launch(
  { executable, libraries }: FoundBrowser,
  timeoutMs: number,
): Promise<OpenBrowser> {
  const profile = await mkdtemp(join(tmpdir(), "aortic-packet-browser-"));
  const isRoot = process.getuid?.() === 0;
  const ownLibraries = [libraries, process.env["LD_LIBRARY_PATH"]].filter((path) => path != null);
  try {
    const browser = await puppeteer.launch({
      executablePath: executable,
      headless: libraries === null ? true : "shell",
      userDataDir: profile,
      pipe: true,
      timeout: timeoutMs,
      env: {
        ...process.env,
        ...(libraries === null ? {} : { LD_LIBRARY_PATH: ownLibraries.join(":") }),
      },
      args: [
        "--font-render-hinting=none",
        "--host-resolver-rules=MAP * ~NOTFOUND",
        ...(isRoot ? ["--no-sandbox"] : []),
      ],
    });
    return { browser, profile };
  } catch (error) {
    await rm(profile, { recursive: true, force: true });
    throw error;
  }
}

async function closeBrowser({ browser, profile }: OpenBrowser): Promise<void> {
  await browser.close();
  await rm(profile, { recursive: true, force: true, maxRetries: 5 });
}

/** A page without scripts and without a network. */
async function openPage(browser: Browser, timeoutMs: number): Promise<Page> {
  const page = await browser.newPage();
  page.setDefaultTimeout(timeoutMs);
  await page.setJavaScriptEnabled(false);
  await page.setOfflineMode(true);
  return page;
}

/**
 * Opens a browser with a pool of reused pages. A page that fails or takes longer than `timeoutMs` is thrown away, and a
 * browser that has ended is started again for the next print. Throws where no browser is found or it does not start.
 */
export async function openPrinter({
  pages = 2,
  timeoutMs = defaultTimeoutMs,
}: { pages?: number; timeoutMs?: number } = {}): Promise<Printer> {
  const found = await findBrowser();
  let open = launch(found, timeoutMs);
  await open;
  const idle: Page[] = [];
  const waiting: (() => void)[] = [];
  let free = pages;

  const takeTurn = async (): Promise<void> => {
    if (free > 0) free--;
    else await new Promise<void>((resolve) => waiting.push(resolve));
  };
  const passTurn = (): void => {
    const next = waiting.shift();
    if (next) next();
    else free++;
  };
  const runningBrowser = async (): Promise<Browser> => {
    const current = await open;
    if (current.browser.connected) return current.browser;
    idle.length = 0;
    open = closeBrowser(current).then(() => launch(found, timeoutMs));
    return (await open).browser;
  };

  return {
    async print(html, { asOf }) {
      await takeTurn();
      try {
        const browser = await runningBrowser();
        const page = idle.pop() ?? (await openPage(browser, timeoutMs));
        try {
          await page.setContent(html, { timeout: timeoutMs });
          const pdf = await page.pdf({
            preferCSSPageSize: true,
            printBackground: true,
            tagged: true,
            outline: true,
            timeout: timeoutMs,
          });
          idle.push(page);
          return stablePdf(pdf, asOf);
        } catch (error) {
          await page.close().catch(() => undefined);
          throw error;
        }
      } finally {
        passTurn();
      }
    },
    async close() {
      await closeBrowser(await open);
    },
  };
}
