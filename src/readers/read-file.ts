import { createHash } from "node:crypto";
import { noSiteConfig } from "../site/site-config.ts";
import type { SheetConventions } from "../site/sheet-settings.ts";
import { readSheet } from "./csv/read-sheet.ts";
import { looksLikeDicom, readStructuredReport } from "./dicom-sr/read-structured-report.ts";
import { readerMessage } from "./messages.ts";
import type { ReadFile } from "./reading.ts";

/** SHA-256 of the bytes, lower-case hex. */
export function sha256Of(bytes: Uint8Array): string {
  return createHash("sha256").update(bytes).digest("hex");
}

/** Reads one input file of any kind. What it is, is told by its content, never by its name; sheets by what the site declares of them. */
export function readFile(
  bytes: Uint8Array,
  file: string,
  conventions: SheetConventions = noSiteConfig,
): ReadFile {
  const sha256 = sha256Of(bytes);
  if (bytes.length === 0) {
    const setAside = readerMessage("file-empty", { file, sha256, at: null });
    return {
      file,
      sha256,
      kind: "unreadable",
      documents: [],
      caseRows: [],
      meetingRows: [],
      setAside,
      messages: [],
    };
  }
  return looksLikeDicom(bytes)
    ? readStructuredReport(bytes, file, sha256)
    : readSheet(bytes, file, sha256, conventions);
}
