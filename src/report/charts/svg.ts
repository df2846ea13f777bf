/** Attributes of an element; null leaves one out. */
export type SvgAttributes = Record<string, string | number | null>;

const escapes: Readonly<Record<string, string>> = {
  "&": "&amp;",
  "<": "&lt;",
  ">": "&gt;",
  '"': "&quot;",
  "'": "&#39;",
};

/** Text for SVG content or an attribute. */
export function escapeXml(text: string): string {
  return text.replaceAll(/[&<>"']/g, (character) => escapes[character] ?? character);
}

/** A coordinate as printed: two decimals, no negative zero. */
export function coordinate(value: number): string {
  const rounded = Math.round(value * 100) / 100;
  return String(rounded === 0 ? 0 : rounded);
}

/** One element; `content` is SVG, not text. */
export function element(name: string, attributes: SvgAttributes, ...content: string[]): string {
  const written = Object.entries(attributes)
    .filter(([, value]) => value !== null)
    .map(([key, value]) => {
      const text = typeof value === "number" ? coordinate(value) : escapeXml(String(value));
      return ` ${key}="${text}"`;
    });
  const head = `<${name}${written.join("")}`;
  return content.length === 0 ? `${head}/>` : `${head}>${content.join("")}</${name}>`;
}

/** Polyline through points as path data. */
export function linePath(points: readonly (readonly [number, number])[]): string {
  return points
    .map(([x, y], index) => `${index === 0 ? "M" : "L"}${coordinate(x)} ${coordinate(y)}`)
    .join("");
}

export interface SvgText {
  x: number;
  y: number;
  text: string;
  anchor?: "start" | "middle" | "end";
  weight?: 400 | 600;
  className?: string;
}

/** Size of every letter in a drawing, in points. */
export const labelSizePt = 9;
/** From one line of a label to the next, in points. */
export const labelLinePt = 10.8;
/** Highest and lowest part of a letter from the base line, in points. */
export const labelAscentPt = 7.2;
export const labelDescentPt = 2.2;

/** One line of text with its base line at `y`. */
export function label({ x, y, text, anchor, weight, className }: SvgText): string {
  const attributes: SvgAttributes = {
    x,
    y,
    "font-size": labelSizePt,
    "text-anchor": anchor === undefined || anchor === "start" ? null : anchor,
    "font-weight": weight === undefined || weight === 400 ? null : weight,
    class: className ?? null,
  };
  return element("text", attributes, escapeXml(text));
}

export interface Drawing {
  /** Unique on the page: the alternative text is found by it. */
  id: string;
  widthPt: number;
  heightPt: number;
  title: string;
  /** The same facts as the drawing shows, in sentences. */
  description: string;
}

/** A drawing in points with its alternative text. */
export function drawing(frame: Drawing, ...content: string[]): string {
  const { id, widthPt, heightPt, title, description } = frame;
  return element(
    "svg",
    {
      xmlns: "http://www.w3.org/2000/svg",
      role: "img",
      "aria-labelledby": `${id}-title ${id}-text`,
      width: `${coordinate(widthPt)}pt`,
      height: `${coordinate(heightPt)}pt`,
      viewBox: `0 0 ${coordinate(widthPt)} ${coordinate(heightPt)}`,
    },
    element("title", { id: `${id}-title` }, escapeXml(title)),
    element("desc", { id: `${id}-text` }, escapeXml(description)),
    ...content,
  );
}

/** A polyline with a class of the stylesheet. */
export function line(points: readonly (readonly [number, number])[], className: string): string {
  return element("path", { d: linePath(points), class: className });
}
