/** Text of a sheet, and how its bytes were understood. */
export interface DecodedText {
  text: string;
  encoding: "UTF-8" | "UTF-16LE" | "UTF-16BE" | "Windows-1252";
}

/**
 * Decodes the bytes of a sheet: by byte-order mark where there is one, else as strict UTF-8, else as
 * Windows-1252 (the caller says that it was used). Null for what is no text: broken UTF-16, control characters other
 * than tab and line ends, bytes that Windows-1252 does not define.
 */
export function decodeText(bytes: Uint8Array): DecodedText | null {
  const marked = markedEncoding(bytes);
  const decoded = marked
    ? decodeAs(bytes, marked)
    : (decodeAs(bytes, "UTF-8") ?? decodeAs(bytes, "Windows-1252"));
  // oxlint-disable-next-line no-control-regex
  const hasControls = /[\u0000-\u0008\u000B\u000C\u000E-\u001F\u007F-\u009F]/;
  return decoded === null || hasControls.test(decoded.text) ? null : decoded;
}

function markedEncoding([first, second]: Uint8Array): "UTF-16LE" | "UTF-16BE" | null {
  if (first === 0xff && second === 0xfe) return "UTF-16LE";
  return first === 0xfe && second === 0xff ? "UTF-16BE" : null;
}

function decodeAs(bytes: Uint8Array, encoding: DecodedText["encoding"]): DecodedText | null {
  try {
    return { text: new TextDecoder(encoding, { fatal: true }).decode(bytes), encoding };
  } catch {
    return null;
  }
}
