/** Text of a sheet, and how its bytes were understood. */
export interface DecodedText {
  text: string;
  encoding: "UTF-8" | "UTF-16LE" | "UTF-16BE" | "Windows-1252";
}

/**
 * Decodes the bytes of a sheet: by byte-order mark where there is one, else as strict UTF-8, else as
 * Windows-1252 (which accepts every byte, so the caller says that it was used).
 */
export function decodeText(bytes: Uint8Array): DecodedText {
  if (bytes[0] === 0xff && bytes[1] === 0xfe) {
    return { text: new TextDecoder("utf-16le").decode(bytes), encoding: "UTF-16LE" };
  }
  if (bytes[0] === 0xfe && bytes[1] === 0xff) {
    return { text: new TextDecoder("utf-16be").decode(bytes), encoding: "UTF-16BE" };
  }
  try {
    return { text: new TextDecoder("utf-8", { fatal: true }).decode(bytes), encoding: "UTF-8" };
  } catch {
    return { text: new TextDecoder("windows-1252").decode(bytes), encoding: "Windows-1252" };
  }
}
