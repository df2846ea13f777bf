import { cpSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { sizing, type SizingInput } from "../../src/planning/sizing/sizing.ts";
import type { SizingSection } from "../../src/planning/sizing/sizing-section.ts";
import { sizingsView } from "../../src/report/pages/sizings-view.ts";
import type { Plan } from "../../src/report/plan.ts";
import { loadTemplates } from "../../src/report/template-engine.ts";
import {
  aneurysmInput,
  dissectionInput,
  round,
  row,
  section,
} from "../planning/sizing/sizing-samples.ts";
import { htmlText } from "./html-text.ts";

const folder = mkdtempSync(join(tmpdir(), "sizings-"));
for (const name of ["sizings.hbs", "outcome.hbs", "raw.hbs"]) {
  cpSync(join("templates/partials", name), join(folder, "partials", name));
}
writeFileSync(join(folder, "page.hbs"), "{{> sizings}}");
const render = loadTemplates(pathToFileURL(`${folder}/`));
rmSync(folder, { recursive: true });

type Sizings = Plan["sizings"];
/** The section as HTML. */
export const htmlOf = (sizings: Sizings): string =>
  render("page", { ...sizingsView({ sizings }), sectionTag: "h2", itemTag: "h3" }).replaceAll(
    "&#x3D;",
    "=",
  );
/** What a reader of the section reads. */
export const textOf = (sizings: Sizings): string => htmlText(htmlOf(sizings));
/** How often the words stand in the text. */
export const count = (text: string, words: string): number => text.split(words).length - 1;

/** One sizing of a plan. */
export const pair = (
  fromZone: string,
  toZone: string | null,
  input: SizingInput,
): Sizings[number] => ({
  fromZone,
  toZone,
  sizing: sizing(input),
});

const oval = (place: string, maximumMm: number, minimumMm: number): SizingSection =>
  section({ place, maximumMm, minimumMm, errorMm: 0.8, distanceMm: 70 });
export const inventory = [
  row("G01", 28, 28, 100),
  row("G02", 30, 30),
  row("G03", 34, 32),
  row("G04", 36, 32),
  row("G05", 38, 34, 200),
];
const proximal = {
  2: oval("invented place two", 33, 31),
  3: oval("invented place three", 31, 28.5),
};
const distal = { 4: oval("invented place four", 29, 28), 5: oval("invented place five", 28, 26) };
const coverage = { leastMm: 132, mostMm: 161 };

/** Two proximal zones with two distal ones, and one without. */
export const aneurysms: Sizings = [
  pair("0", null, aneurysmInput({ proximal: [round(35)], distal: [], coverage: null, inventory })),
  ...([2, 3] as const).flatMap((from) =>
    ([4, 5] as const).map((to) =>
      pair(
        `${from}`,
        `${to}`,
        aneurysmInput({
          proximal: [proximal[from]],
          distal: [distal[to]],
          coverage: { leastMm: coverage.leastMm + to, mostMm: coverage.mostMm + to },
          inventory,
        }),
      ),
    ),
  ),
];

const trueLumenAt = (place: string, perimeterMm: number, areaMm2: number): SizingSection[] => [
  section({ place, lumen: "true", perimeterMm, areaMm2, errorMm: 0.7 }),
  round(36, { place, used: ["M2"], errorMm: 0.7 }),
];
/** Two distal zones in the true lumen, one of them from two proximal zones. */
export const dissections: Sizings = [
  ["2", "4", 31, trueLumenAt("invented place four", 75, 350)],
  ["2", "5", 31, trueLumenAt("invented place five", 69.04, 282.7)],
  ["3", "5", 30, trueLumenAt("invented place five", 69.04, 282.7)],
].map(([from, to, mm, sections]) =>
  pair(
    from as string,
    to as string,
    dissectionInput({
      proximal: [round(mm as number, { errorMm: 0.7 })],
      distal: sections as SizingSection[],
      inventory,
    }),
  ),
);

/** A number as a page prints it, worked out here on its own. */
export const one = (value: number): string =>
  value
    .toFixed(1)
    .replace(/^-(?=.*[1-9])/, "\u2212")
    .replace(/^-/, "");
