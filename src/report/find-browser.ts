import { existsSync, globSync } from "node:fs";
import { homedir } from "node:os";
import { delimiter, join } from "node:path";
import { bundledBrowser } from "./bundled-browser.ts";

/** A browser to print with. */
export interface FoundBrowser {
  executable: string;
  /** Folder of shared libraries to start it with; null where the machine's own are used. */
  libraries: string | null;
}

const commands = [
  "google-chrome-stable",
  "google-chrome",
  "chromium",
  "chromium-browser",
  "microsoft-edge-stable",
  "microsoft-edge",
];

const programFiles = [process.env["ProgramFiles"], process.env["ProgramFiles(x86)"]].filter(
  (folder) => folder !== undefined,
);

const fixedPlaces: Partial<Record<NodeJS.Platform, string[]>> = {
  darwin: [
    "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
    "/Applications/Chromium.app/Contents/MacOS/Chromium",
    "/Applications/Microsoft Edge.app/Contents/MacOS/Microsoft Edge",
  ],
  win32: programFiles.flatMap((folder) => [
    join(folder, "Google", "Chrome", "Application", "chrome.exe"),
    join(folder, "Microsoft", "Edge", "Application", "msedge.exe"),
  ]),
};

function installedBrowser(): string | null {
  const folders = (process.env["PATH"] ?? "").split(delimiter);
  const onPath = folders.flatMap((folder) => commands.map((command) => join(folder, command)));
  const places = [...(fixedPlaces[process.platform] ?? []), ...onPath];
  return places.find((place) => existsSync(place)) ?? null;
}

/** Newest of the browsers that puppeteer's own installer has put into its cache. */
function downloadedBrowser(): string | null {
  const cache = process.env["PUPPETEER_CACHE_DIR"] ?? join(homedir(), ".cache", "puppeteer");
  const names = "{chrome-headless-shell,chrome,chrome.exe,chrome-headless-shell.exe}";
  const found = globSync(`{chrome-headless-shell,chrome}/*/*/${names}`, { cwd: cache });
  const newest = found.toSorted().at(-1);
  return newest === undefined ? null : join(cache, newest);
}

/** Thrown where no browser can be found; the text says what to do. */
export class NoBrowser extends Error {}

/** Looks for a browser: AORTIC_PACKET_BROWSER, the optional package, an installed one, puppeteer's own. */
export async function findBrowser(): Promise<FoundBrowser> {
  const named = process.env["AORTIC_PACKET_BROWSER"];
  if (named !== undefined) {
    if (!existsSync(named))
      throw new NoBrowser(`AORTIC_PACKET_BROWSER names ${named}, which does not exist.`);
    return { executable: named, libraries: null };
  }
  const bundled = await bundledBrowser();
  if (bundled !== null) return bundled;
  const executable = installedBrowser() ?? downloadedBrowser();
  if (executable !== null) return { executable, libraries: null };
  throw new NoBrowser(
    "No browser was found to print with. Install Chrome, Chromium or Edge, or the package @sparticuz/chromium " +
      "(64-bit Linux), or set AORTIC_PACKET_BROWSER to the browser's path.",
  );
}
