/** Byte offsets of the objects of a PDF by object number, from its cross-reference table. Source: ISO 32000-1, 7.5.4. */
function objectOffsets(text: string): Map<number, number> {
  const offsets = new Map<number, number>();
  const start = Number(/startxref\s+(\d+)/.exec(text.slice(-200))?.[1]);
  const table = /^xref\s+0 (\d+)\s+/.exec(text.slice(start, start + 60));
  if (!table) throw new Error("the PDF has no plain cross-reference table");
  const entries = start + table[0].length;
  for (let number = 0; number < Number(table[1]); number++) {
    const entry = text.slice(entries + number * 20, entries + number * 20 + 18);
    if (entry.endsWith("n")) offsets.set(number, Number(entry.slice(0, 10)));
  }
  return offsets;
}

/** Page numbers (from 1) by the name of each destination in a PDF that the browser wrote. */
export function destinationPages(pdf: Uint8Array): Map<string, number> {
  const text = Buffer.from(pdf.buffer, pdf.byteOffset, pdf.byteLength).toString("latin1");
  const offsets = objectOffsets(text);
  const object = (number: number): string => {
    const offset = offsets.get(number);
    if (offset === undefined) throw new Error(`the PDF has no object ${number}`);
    return text.slice(offset, text.indexOf("endobj", offset));
  };
  const reference = (source: string, key: string): number => {
    const found = new RegExp(`/${key} (\\d+) 0 R`).exec(source)?.[1];
    if (found === undefined) throw new Error(`the PDF names no ${key}`);
    return Number(found);
  };
  const pages: number[] = [];
  const walk = (number: number): void => {
    const kids = /\/Kids \[([^\]]*)\]/.exec(object(number))?.[1];
    if (kids === undefined) pages.push(number);
    else for (const [, kid] of kids.matchAll(/(\d+) 0 R/g)) walk(Number(kid));
  };
  const catalog = object(reference(text.slice(text.lastIndexOf("trailer")), "Root"));
  walk(reference(catalog, "Pages"));
  const destinations = new Map<string, number>();
  if (!catalog.includes("/Dests ")) return destinations;
  const list = object(reference(catalog, "Dests"));
  for (const [, name = "", page] of list.matchAll(/\/([^\s/[\]]+) \[(\d+) 0 R/g))
    destinations.set(name, pages.indexOf(Number(page)) + 1);
  return destinations;
}
