import { packetHtml, type Packet } from "./pages/packet-page.ts";
import type { Paper } from "./paper.ts";
import { destinationPages } from "./pdf-destinations.ts";
import type { Printer } from "./pdf-printer.ts";

/**
 * Prints a packet twice: the first print tells on which page each part starts, the second carries these numbers in its
 * contents. The numbers have room of their own, so they move nothing; that is checked.
 */
export async function printPacket(
  printer: Printer,
  packet: Packet,
  { paper = "A4" }: { paper?: Paper } = {},
): Promise<{ html: string; pdf: Uint8Array }> {
  const first = await printer.print(packetHtml(packet, { paper }), { asOf: packet.asOf });
  const pages = destinationPages(first);
  const html = packetHtml(packet, { paper, pages });
  const pdf = await printer.print(html, { asOf: packet.asOf });
  for (const [id, page] of destinationPages(pdf)) {
    if (pages.get(id) !== page) throw new Error(`page numbers of the packet moved at ${id}`);
  }
  return { html, pdf };
}
