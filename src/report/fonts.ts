import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { z } from "zod";

const require = createRequire(import.meta.url);
const packageName = "@fontsource/ibm-plex-sans";

/** The two weights that pages use. */
export const fontWeights = [400, 600] as const;
export type FontWeight = (typeof fontWeights)[number];

const subsetNames = [
  "latin",
  "latin-ext",
  "greek",
  "cyrillic",
  "cyrillic-ext",
  "vietnamese",
] as const;
export type FontSubset = (typeof subsetNames)[number];

const rangesFile = z.record(z.enum(subsetNames), z.string());
const ranges = rangesFile.parse(
  JSON.parse(readFileSync(require.resolve(`${packageName}/unicode.json`), "utf8")),
);

const parseRange = (text: string): [number, number] => {
  const [from = "", to = from] = text.replace("U+", "").split("-");
  return [Number.parseInt(from, 16), Number.parseInt(to, 16)];
};

/** Subsets with the code points that each covers, in the order in which a character is looked up. */
export const fontSubsets = subsetNames.map((name) => ({
  name,
  covers: ranges[name].split(",").map(parseRange),
}));

/** The bytes of one font file of the package. */
export function fontFile(subset: FontSubset, weight: FontWeight, format: "woff" | "woff2"): Buffer {
  const file = `files/ibm-plex-sans-${subset}-${weight}-normal.${format}`;
  return readFileSync(require.resolve(`${packageName}/${file}`));
}

const faces = new Map<FontSubset, string>();

function facesOf(subset: FontSubset): string {
  const known = faces.get(subset);
  if (known !== undefined) return known;
  const rules = fontWeights.map((weight) => {
    const data = fontFile(subset, weight, "woff2").toString("base64");
    return (
      `@font-face{font-family:"IBM Plex Sans";font-weight:${weight};` +
      `src:url(data:font/woff2;base64,${data}) format("woff2");unicode-range:${ranges[subset]}}`
    );
  });
  const css = rules.join("\n");
  faces.set(subset, css);
  return css;
}

/** The subset that holds a character; null where the font has no such letter. */
export function subsetOf(codePoint: number): FontSubset | null {
  const holds = ({ covers }: { covers: [number, number][] }): boolean =>
    covers.some(([from, to]) => codePoint >= from && codePoint <= to);
  return fontSubsets.find(holds)?.name ?? null;
}

/**
 * The `@font-face` rules, with the fonts inside them, that a text needs: the Latin letters always,
 * others where a character asks for them. Font: IBM Plex Sans, SIL Open Font License 1.1.
 */
export function fontFaces(text: string): string {
  const needed = new Set<FontSubset>(["latin"]);
  for (const character of new Set(text)) {
    const subset = subsetOf(character.codePointAt(0) ?? 0);
    if (subset !== null) needed.add(subset);
  }
  return subsetNames
    .filter((name) => needed.has(name))
    .map(facesOf)
    .join("\n");
}
