// Sources: the program dsrdump of DCMTK (Debian package dcmtk), and the reader of the npm package dcmjs. None of their
// code takes part in the reading tested here. Names of elements: DICOM PS3.6; their meaning: PS3.3, C.18.9 (3D Spatial
// Coordinates Macro), where Graphic Data (0070,0022) has the value representation FL, 32-bit floats (PS3.5, 6.2).
import { execFileSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, expect, test } from "vitest";
import { coded, type Elements, text } from "../../fixtures/content-items.ts";
import {
  type ReportedDocument,
  writeStructuredReport,
} from "../../fixtures/structured-report-writer.ts";
import { type DcmjsDataSet, DicomMessage } from "../../src/readers/dicom-sr/data-dictionary.ts";
import {
  ascending,
  diameter,
  invented,
  millimetre,
  read,
  readingsOf,
} from "../readers/dicom-sr/invented-report.ts";
import { describeWithTools } from "./outside-tools.ts";

const folder = mkdtempSync(join(tmpdir(), "centreline-points-"));
afterAll(() => rmSync(folder, { recursive: true }));

/** A bend of 24 points whose coordinates no 32-bit float holds exactly. */
const bend = Array.from({ length: 24 }, (_, index): [number, number, number] => [
  -40 * Math.cos(index / 8),
  -12.345678901 + index / 7,
  1000 / 3 + 40 * Math.sin(index / 8),
]);
/** One point at the end of each axis of an ellipse: the major one, then the minor one (PS3.3, C.18.9.1.2). */
const ellipse: [number, number, number][] = [
  [-15.1, 0, 7.3],
  [15.1, 0, 7.3],
  [0, -12.7, 7.3],
  [0, 12.7, 7.3],
];
const figures = [
  { graphicType: "POLYLINE", points: bend },
  { graphicType: "ELLIPSE", points: ellipse },
  { graphicType: "POLYGON", points: [...bend.slice(0, 3), ...bend.slice(0, 1)] },
];
const report: ReportedDocument = {
  ...invented,
  groups: [
    {
      trackingIdentifier: "figures in space",
      trackingUid: "2.25.2001",
      findingSite: ascending,
      numbers: figures.map((figure, index) => ({
        concept: index === 0 ? coded("SCT", "410668003", "Length") : diameter,
        value: "41.5",
        unit: millimetre,
        figure,
      })),
    },
  ],
};

/** What our reader makes of the report: graphic type and points of every number. */
const ours = (bytes: Uint8Array) =>
  readingsOf(read(bytes)).map(({ graphic }) => ({
    graphicType: graphic?.graphicType ?? null,
    points: graphic?.points ?? [],
  }));
const stored = figures.map(({ graphicType, points }) => ({
  graphicType,
  points: points.map((point) => point.map(Math.fround)),
}));

/** All SCOORD3D items of a data set as dcmjs reads it, in document order. */
function figuresByDcmjs(dataSet: DcmjsDataSet): { graphicType: unknown; numbers: unknown[] }[] {
  const own =
    dataSet["0040A040"]?.Value?.[0] === "SCOORD3D"
      ? [
          {
            graphicType: dataSet["00700023"]?.Value?.[0],
            numbers: dataSet["00700022"]?.Value ?? [],
          },
        ]
      : [];
  const children = (dataSet["0040A730"]?.Value ?? []) as DcmjsDataSet[];
  return [...own, ...children.flatMap(figuresByDcmjs)];
}

test.each(["explicit", "implicit"] as const)(
  "figures written with dcmjs, %s, are read as 32-bit floats hold them, and as dcmjs reads them",
  (transferSyntax) => {
    const bytes = writeStructuredReport(report, transferSyntax);
    expect(ours(bytes)).toEqual(stored);
    const { dict } = DicomMessage.readFile(new Uint8Array(bytes).buffer);
    expect(figuresByDcmjs(dict)).toEqual(
      stored.map(({ graphicType, points }) => ({ graphicType, numbers: points.flat() })),
    );
  },
);

/** `SCOORD3D:=(POLYLINE,,1/2/3,4/5/6)` of dsrdump, with all coordinates (`+Pl`). */
function figuresByDsrdump(file: string): { graphicType: string; points: number[][] }[] {
  const printed = execFileSync("dsrdump", ["-q", "+U8", "+Pl", file], { encoding: "utf8" });
  return [...printed.matchAll(/SCOORD3D:[^=]*=\(([A-Z]+),[^,]*,([^)]*)\)/g)].map(
    ([, graphicType = "", list = ""]) => ({
      graphicType,
      points: list.split(",").map((point) => point.split("/").map(Number)),
    }),
  );
}

describeWithTools(["dsrdump"], "figures in space as DCMTK reads them", () => {
  test.each(["explicit", "implicit"] as const)("%s: same types, same points", (transferSyntax) => {
    // The class that allows figures in space: Comprehensive 3D SR (PS3.3, A.35.13).
    const comprehensive3d: Elements = { "00080016": text("UI", "1.2.840.10008.5.1.4.1.1.88.34") };
    const bytes = writeStructuredReport(report, transferSyntax, comprehensive3d);
    const file = join(folder, `${transferSyntax}.dcm`);
    writeFileSync(file, bytes);
    const outside = figuresByDsrdump(file);
    expect(outside.map(({ graphicType }) => graphicType)).toEqual(
      stored.map(({ graphicType }) => graphicType),
    );
    // dsrdump prints nine significant digits, from which a 32-bit float is the nearest one again (IEEE 754).
    expect(
      outside.map(({ graphicType, points }) => ({
        graphicType,
        points: points.map((point) => point.map(Math.fround)),
      })),
    ).toEqual(ours(bytes));
  });
});
