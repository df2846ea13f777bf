import { execFileSync } from "node:child_process";
import type { OutsideNumber } from "./pydicom.ts";

/** The numbers that dsrdump prints: `NUM:(,,"Diameter")="41.25" (mm,UCUM,"millimeter")`, or `=empty (…)`. */
export function numbersByDsrdump(file: string): OutsideNumber[] {
  const printed = execFileSync("dsrdump", ["-q", "+U8", "+Pf", file], { encoding: "utf8" });
  const pattern = /NUM:\(,,"([^"]*)"\)=(?:"([^"]*)" \(([^,]*),([^,\][]*)|empty)/g;
  return [...printed.matchAll(pattern)].map(([, concept = "", value, unit, scheme]) => ({
    concept,
    value: value ?? null,
    unit: unit ?? null,
    scheme: scheme ?? null,
  }));
}

interface XmlElement {
  name: string;
  children: XmlElement[];
  text: string;
}

/** The numbers of the XML that dsr2xml makes of a report, in document order. */
export function numbersByDsr2xml(file: string): OutsideNumber[] {
  const xml = execFileSync("dsr2xml", ["-q", "+U8", file], { encoding: "utf8" });
  return elementsNamed(treeOf(xml), "num").map((number) => ({
    concept: textAt(number, "concept", "meaning"),
    value: textAt(number, "value"),
    unit: textAt(number, "unit", "value"),
    scheme: textAt(number, "unit", "scheme", "designator"),
  }));
}

const entities: Record<string, string> = { lt: "<", gt: ">", amp: "&", quot: '"', apos: "'" };

/** A tree of the elements of well-formed XML; attributes are passed over. */
function treeOf(xml: string): XmlElement {
  const root: XmlElement = { name: "", children: [], text: "" };
  const open = [root];
  for (const [, close, name = "", empty, text = ""] of xml.matchAll(
    /<(\/?)([\w-]+)[^<>]*?(\/?)>|<[?!][^<>]*>|([^<>]+)/g,
  )) {
    const parent = open.at(-1) ?? root;
    if (close) open.pop();
    else if (name) {
      const element = { name, children: [], text: "" };
      parent.children.push(element);
      if (!empty) open.push(element);
    } else
      parent.text += text.replaceAll(/&(\w+);/g, (_, entity: string) => entities[entity] ?? "?");
  }
  return root;
}

const elementsNamed = (element: XmlElement, name: string): XmlElement[] => [
  ...(element.name === name ? [element] : []),
  ...element.children.flatMap((child) => elementsNamed(child, name)),
];

/** The text at a path of first children; null where the path ends early or the text is empty. */
function textAt(element: XmlElement, ...path: string[]): string | null {
  const [name, ...rest] = path;
  if (name === undefined) return element.text.trim() || null;
  const child = element.children.find((candidate) => candidate.name === name);
  return child ? textAt(child, ...rest) : null;
}
