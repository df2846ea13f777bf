/** A PDF date of a calendar date, midnight UTC, as long as the one that the browser writes. */
function pdfDate(asOf: string): string {
  return `D:${asOf.replaceAll("-", "")}000000+00'00'`;
}

/** Ids of structure elements by their new ids: numbered from 1 in the order in which the elements stand in the file. */
function newIds(text: string): Map<string, string> {
  const ids = new Set([...text.matchAll(/\/ID \((node\d{8})\)/g)].map(([, id = ""]) => id));
  return new Map(
    [...ids].map((id, index) => [id, `node${String(index + 1).padStart(8, "0")}`] as const),
  );
}

/** Puts the entries of the tree of ids in order again (ISO 32000-1, 7.9.6 asks for it). */
function sortIdTree(text: string): string {
  return text.replaceAll(
    /\/Limits \[\(node\d{8}\) \(node\d{8}\)\]\n\/Names \[([^\]]*)\]/g,
    (_, names: string) => {
      const entries = (names.match(/\(node\d{8}\) \d+ 0 R/g) ?? []).toSorted();
      const [first = "", last = ""] = [entries.at(0), entries.at(-1)].map((one) =>
        one?.slice(0, "(node00000000)".length),
      );
      return `/Limits [${first} ${last}]\n/Names [${entries.join(" ")}]`;
    },
  );
}

/**
 * Takes the hour of printing and the browser's running numbers out of a PDF, so that the same page gives the same bytes:
 * both dates become `asOf` (YYYY-MM-DD), and the ids of structure elements are numbered in their order in the file.
 * Every replacement has the length of what it replaces, so the cross-reference table stays right.
 */
export function stablePdf(pdf: Uint8Array, asOf: string): Uint8Array {
  const text = Buffer.from(pdf.buffer, pdf.byteOffset, pdf.byteLength).toString("latin1");
  const dated = text.replaceAll(
    /\/(CreationDate|ModDate) \(D:\d{14}\+00'00'\)/g,
    (_, name: string) => `/${name} (${pdfDate(asOf)})`,
  );
  const ids = newIds(dated);
  const numbered = dated.replaceAll(
    /\((node\d{8})\)/g,
    (_, id: string) => `(${ids.get(id) ?? id})`,
  );
  const stable = Buffer.from(sortIdTree(numbered), "latin1");
  if (stable.length !== pdf.length) throw new Error("the PDF changed its length");
  return stable;
}
