/** Number of pages of a PDF that the browser wrote: its objects of type Page. */
export function pageCount(pdf: Uint8Array): number {
  const text = Buffer.from(pdf).toString("latin1");
  return text.match(/\/Type \/Page\n/g)?.length ?? 0;
}
