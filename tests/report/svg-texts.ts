import type { Box } from "../../src/report/charts/spread-labels.ts";
import { textWidthPt } from "../../src/report/text-width.ts";

/** A text of a drawing with the rectangle that its letters fill, in points. */
export interface SvgText extends Box {
  text: string;
}

const entities: Record<string, string> = {
  "&amp;": "&",
  "&lt;": "<",
  "&gt;": ">",
  "&quot;": '"',
  "&#39;": "'",
};

/** The text that an escaped one stands for. */
export const unescaped = (text: string): string =>
  text.replaceAll(/&(?:amp|lt|gt|quot|#39);/g, (entity) => entities[entity] ?? entity);

const attribute = (tag: string, name: string): string | null =>
  new RegExp(` ${name}="([^"]*)"`).exec(tag)?.[1] ?? null;

/** Every `text` element of an SVG with its box: cap height above the base line, a small part below. */
export function svgTexts(svg: string): SvgText[] {
  return [...svg.matchAll(/(<text[^>]*>)([^<]*)<\/text>/g)].map(([, tag = "", content = ""]) => {
    const text = unescaped(content);
    const size = Number(attribute(tag, "font-size"));
    const width = textWidthPt(text, size, attribute(tag, "font-weight") === "600" ? 600 : 400);
    const x = Number(attribute(tag, "x"));
    const y = Number(attribute(tag, "y"));
    const before = { start: 0, middle: width / 2, end: width };
    const left = x - before[(attribute(tag, "text-anchor") ?? "start") as keyof typeof before];
    return { text, left, right: left + width, top: y - size * 0.7, bottom: y + size * 0.2 };
  });
}

/** Title and description of a drawing, unescaped. */
export function alternativeText(svg: string): string {
  const part = (name: string): string =>
    unescaped(new RegExp(`<${name} [^>]*>([^<]*)</${name}>`).exec(svg)?.[1] ?? "");
  return `${part("title")} ${part("desc")}`;
}
