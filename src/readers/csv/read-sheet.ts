import type { SheetConventions } from "../../site/sheet-settings.ts";
import type { ReadFile } from "../reading.ts";
import { readCaseSheet } from "./case-sheet.ts";
import { readCentrelineSheet } from "./centreline-sheet.ts";
import { readFindingSheet } from "./finding-sheet.ts";
import { fileKindOf } from "./layout.ts";
import { readMeasurementSheet } from "./measurement-sheet.ts";
import { readMeetingList } from "./meeting-list.ts";
import { openSheet } from "./sheet.ts";
import { readerMessage } from "../messages.ts";

/** Reads a CSV file of any kind that this program knows or the site declares. */
export function readSheet(
  bytes: Uint8Array,
  file: string,
  sha256: string,
  conventions: SheetConventions,
): ReadFile {
  const empty = {
    file,
    sha256,
    documents: [],
    caseRows: [],
    meetingRows: [],
    setAside: null,
    messages: [],
  };
  const sheet = openSheet(bytes, { file, sha256 }, conventions);
  if ("setAside" in sheet) {
    const { setAside, layout } = sheet;
    const kind = layout ? fileKindOf(layout) : "unreadable";
    return { ...empty, kind: kind === "graft inventory" ? "not for this program" : kind, setAside };
  }
  const kind = fileKindOf(sheet.layout);
  if (kind === "graft inventory") {
    const setAside = readerMessage("csv-inventory-in-inbox", { file, sha256, at: null });
    return { ...empty, kind: "not for this program", setAside };
  }
  if (sheet.rows.length === 0) {
    const setAside = readerMessage("csv-without-rows", { file, sha256, at: null });
    return { ...empty, kind, setAside, messages: sheet.messages };
  }
  const read = {
    "measurement sheet": readMeasurementSheet,
    "finding sheet": readFindingSheet,
    "centreline sheet": readCentrelineSheet,
    "case sheet": readCaseSheet,
    "meeting list": readMeetingList,
  }[kind](sheet);
  return { ...empty, kind, ...read, messages: [...sheet.messages, ...read.messages] };
}
