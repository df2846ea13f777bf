import { readFileSync } from "node:fs";
import type { Plan } from "./plan.ts";
import { fontFaces } from "./fonts.ts";
import { paperSize, type Paper } from "./paper.ts";
import { renderTemplate } from "./template-engine.ts";

const stylesheet = readFileSync(new URL("../../templates/page.css", import.meta.url), "utf8");

/** A page of its own layout with a running head, used by elements of the class `page-NAME`. */
export interface NamedPage {
  name: string;
  runningHead: string;
}

export interface DocumentFrame {
  title: string;
  paper: Paper;
  orientation: "portrait" | "landscape";
  asOf: string;
  software: Plan["software"];
  /** Printed at the head of every page but the first. */
  runningHead: string;
  namedPages: NamedPage[];
  /** Script text that enhances a page in a browser; null for pages that are printed. */
  script: string | null;
}

/** Stands at the foot of every page. */
export const footerCaution =
  "Supports, and does not replace, the judgement of licensed clinicians and local protocols.";

/** "aortic-packet 0.1.0 · rules 3fa2b1c9d83f · as of 2026-01-14". */
export function provenanceLine(software: Plan["software"], asOf: string): string {
  const digest = software.rulesDigest.slice(0, 12);
  return `${software.name} ${software.version} · rules ${digest} · as of ${asOf}`;
}

/** A string for CSS: every character that could end it is written as its number. */
export function cssString(text: string): string {
  const safe = Array.from(text.replaceAll(/\s+/g, " ")).map((character) => {
    if (/[\p{L}\p{N} .,:()/-]/u.test(character)) return character;
    return `\\${(character.codePointAt(0) ?? 0).toString(16)} `;
  });
  return `"${safe.join("")}"`;
}

const headBox = (runningHead: string): string => `@top-left{content:${cssString(runningHead)}}`;

function pageRules({
  paper,
  asOf,
  software,
  runningHead,
  namedPages,
  orientation,
}: DocumentFrame): string {
  const { topPt, sidePt, bottomPt } = paperSize(paper);
  const foot = `${cssString(footerCaution)} "\\a " ${cssString(provenanceLine(software, asOf))}`;
  return [
    `@page{size:${paper} ${orientation};margin:${topPt}pt ${sidePt}pt ${bottomPt}pt;`,
    `${headBox(runningHead)}@bottom-left{content:${foot}}`,
    `@bottom-right{content:"Page " counter(page) " of " counter(pages)}}`,
    `@page:first{@top-left{content:none}}`,
    ...namedPages.map(
      ({ name, runningHead: head }) => `@page ${name}{${headBox(head)}}.page-${name}{page:${name}}`,
    ),
  ].join("");
}

/** The font has no letters for these; the spellings say the same on every machine. */
const spelled: Readonly<Record<string, string>> = {
  "\u2264": "&lt;=",
  "\u2265": "&gt;=",
  "\u2192": "-&gt;",
  "\u2248": "~",
};

function withFontLetters(html: string): string {
  return html.replaceAll(/[\u2264\u2265\u2192\u2248]/g, (sign) => spelled[sign] ?? sign);
}

/** Fills a page template and wraps it as a whole HTML document that needs nothing from outside. */
export function renderDocument(template: string, view: object, frame: DocumentFrame): string {
  const body = withFontLetters(renderTemplate(template, view));
  const css = [fontFaces(body + frame.title), pageRules(frame), stylesheet].join("\n");
  const isScripted = frame.script !== null;
  return renderTemplate("document", {
    title: frame.title,
    policy: `default-src 'none'; style-src 'unsafe-inline'; font-src data:${isScripted ? "; script-src 'unsafe-inline'" : ""}`,
    css: { markup: css },
    body: { markup: body },
    caution: footerCaution,
    provenance: provenanceLine(frame.software, frame.asOf),
    script: isScripted ? { markup: frame.script } : null,
  });
}
