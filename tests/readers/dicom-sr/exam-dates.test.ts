import { describe, expect, test } from "vitest";
import {
  codeItem,
  coded,
  container,
  contentItem,
  dateItem,
  type Elements,
  imageItem,
  names,
  referenceItem,
  sequence,
  text,
} from "../../../fixtures/content-items.ts";
import { diameterItem, group, invented, messageCodes, readContent } from "./invented-report.ts";

const ctImage = "1.2.840.10008.5.1.4.1.1.2";
const image = (uid: string, ...context: Elements[]) => imageItem("CONTAINS", ctImage, uid, context);
const acquired = (date: string) => dateItem("HAS ACQ CONTEXT", names.acquisitionDate, date);
const studied = (date: string) => dateItem("HAS ACQ CONTEXT", names.studyDate, date);
const modality = (value: string) =>
  codeItem("HAS ACQ CONTEXT", names.modality, coded("DCM", value, value));
const library = (...items: Elements[]) =>
  container(names.imageLibrary, [container(names.imageLibraryGroup, items)]);
const evidence = (studyUid: string, ...uids: string[]) => ({
  "0040A375": sequence({
    "0020000D": text("UI", studyUid),
    "00081115": sequence({
      "00081199": sequence(...uids.map((uid) => ({ "00081155": text("UI", uid) }))),
    }),
  }),
});
const measured = group(diameterItem("42"));
const examsOf = (content: Elements[], header: Elements = {}) =>
  readContent(content, header).documents.map(({ exam }) => exam);
const datesOf = (content: Elements[], header: Elements = {}) =>
  examsOf(content, header).map((exam) => [exam.imagingDate, exam.imagingDateOrigin]);

describe("the imaging date, in this order", () => {
  test("acquisition date of the image library", () => {
    const content = [library(studied("20240101"), acquired("20240102"), image("2.25.1")), measured];
    expect(datesOf(content)).toEqual([["2024-01-02", "acquisition date"]]);
    expect(messageCodes(readContent(content))).toEqual([]);
  });

  test("an acquisition date and time, and the old way to write a date", () => {
    const dateTime = contentItem(
      "HAS ACQ CONTEXT",
      "DATETIME",
      coded("DCM", "130884", "Acquisition DateTime"),
      { "0040A120": text("DT", "20240102235900.5+0100") },
    );
    expect(datesOf([library(dateTime, image("2.25.1")), measured])).toEqual([
      ["2024-01-02", "acquisition date"],
    ]);
    expect(datesOf([library(acquired("2024.01.02")), measured])).toEqual([
      ["2024-01-02", "acquisition date"],
    ]);
  });

  test("study date of the image library, told in a note", () => {
    const content = [library(studied("20240101"), image("2.25.1")), measured];
    expect(datesOf(content)).toEqual([["2024-01-01", "study date"]]);
    expect(messageCodes(readContent(content))).toEqual(["imaging-date-from-study"]);
  });

  test("study date of the report, where it lies in the study of its images or names none", () => {
    expect(datesOf([measured])).toEqual([["2024-01-05", "study date"]]);
    expect(datesOf([measured], evidence(invented.studyUid, "2.25.1"))).toHaveLength(1);
  });

  test("none where the report lies in another study than its images", () => {
    const file = readContent([measured], evidence("2.25.99", "2.25.1"));
    expect(file.documents).toEqual([]);
    expect(messageCodes(file)).toEqual(["report-without-usable-numbers", "imaging-date-unknown"]);
    expect(file.messages[0]?.data).toEqual({ count: 1 });
  });

  test("none from a day that the calendar does not have, and never the content date", () => {
    for (const date of ["20230230", "2024", ""]) {
      const file = readContent([measured], { "00080020": text("DA", date) });
      expect(messageCodes(file)).toContain("imaging-date-unknown");
    }
  });
});

describe("images of several days", () => {
  const twoDays = library(
    image("2.25.1", acquired("20220101")),
    image("2.25.2", acquired("20240102")),
  );
  const drawnOn = (uid: string): Elements =>
    contentItem("INFERRED FROM", "SCOORD", null, {}, [imageItem("SELECTED FROM", ctImage, uid)]);

  test("a number belongs to the image that it was measured on", () => {
    const content = [
      twoDays,
      group(diameterItem("40", [drawnOn("2.25.1")]), diameterItem("42", [drawnOn("2.25.2")])),
      group(imageItem("CONTAINS", ctImage, "2.25.1"), diameterItem("41")),
      group(diameterItem("43", [referenceItem("INFERRED FROM", [1, 1, 1, 2])])),
    ];
    const file = readContent(content);
    const values = file.documents.map(({ exam, readings }) => [
      exam.imagingDate,
      readings.map(({ valueText }) => valueText),
    ]);
    expect(values).toEqual([
      ["2022-01-01", ["40", "41"]],
      ["2024-01-02", ["42", "43"]],
    ]);
  });

  test("a number that names no image can't be dated; the others still can", () => {
    const file = readContent([twoDays, measured, group(diameterItem("40", [drawnOn("2.25.1")]))]);
    expect(file.documents).toHaveLength(1);
    expect(messageCodes(file)).toEqual(["imaging-date-ambiguous"]);
  });

  test("two acquisition days of one study are dated by the study", () => {
    const overMidnight = library(
      studied("20240101"),
      image("2.25.1", acquired("20240101")),
      image("2.25.2", acquired("20240102")),
    );
    expect(datesOf([overMidnight, measured])).toEqual([["2024-01-01", "study date"]]);
  });
});

describe("study and modality of the examination", () => {
  test("the study of the images, where the library dates them", () => {
    const content = [library(acquired("20240102"), image("2.25.1")), measured];
    expect(examsOf(content, evidence("2.25.99", "2.25.1"))[0]?.studyUid).toBe("2.25.99");
    expect(examsOf(content)[0]?.studyUid).toBe(invented.studyUid);
  });

  test("the modality of the library where it is one", () => {
    const ofImages = (...modalities: string[]) =>
      examsOf([
        library(
          acquired("20240102"),
          ...modalities.map((value, index) => image(`2.25.${index}`, modality(value))),
        ),
        measured,
      ])[0]?.modality;
    expect(ofImages("CT", "CT")).toBe("CT");
    expect(ofImages("CT", "MR")).toBeNull();
    expect(examsOf([measured])[0]?.modality).toBeNull();
  });
});
