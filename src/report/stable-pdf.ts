/** A PDF date of a calendar date, midnight UTC, as long as the one that the browser writes. */
function pdfDate(asOf: string): string {
  return `D:${asOf.replaceAll("-", "")}000000+00'00'`;
}

/**
 * Takes the hour of printing and the browser's running numbers out of a PDF, so that the same page gives the same bytes:
 * both dates become `asOf` (YYYY-MM-DD), and the ids of structure elements are numbered from 1 in their own order.
 * Every replacement has the length of what it replaces, so the cross-reference table stays right.
 */
export function stablePdf(pdf: Uint8Array, asOf: string): Uint8Array {
  const text = Buffer.from(pdf.buffer, pdf.byteOffset, pdf.byteLength).toString("latin1");
  const dated = text.replaceAll(
    /\/(CreationDate|ModDate) \(D:\d{14}\+00'00'\)/g,
    (_, name: string) => `/${name} (${pdfDate(asOf)})`,
  );
  const ids = [...new Set(dated.match(/\(node\d{8}\)/g) ?? [])].toSorted();
  const renumbered = new Map(
    ids.map((id, index) => [id, `(node${String(index + 1).padStart(8, "0")})`]),
  );
  const stable = dated.replaceAll(/\(node\d{8}\)/g, (id) => renumbered.get(id) ?? id);
  return Buffer.from(stable, "latin1");
}
