import { buildDictionary } from "../../src/anatomy/dictionary.ts";
import { sheetCentrelines } from "../../src/cases/centrelines.ts";
import { type DrawnMeasurement, drawnCentrelines } from "../../src/cases/drawn-centrelines.ts";
import { understandFinding } from "../../src/cases/findings.ts";
import { measure } from "../../src/cases/measure.ts";
import type { Exam } from "../../src/cases/patient-case.ts";
import { drawnRings } from "../../src/cases/rings.ts";
import { placeStations } from "../../src/cases/stations.ts";
import type { Message } from "../../src/message.ts";
import { readFile } from "../../src/readers/read-file.ts";
import type { StatedExam, StatedStation } from "../../src/readers/reading.ts";

const dictionary = buildDictionary({ codes: {}, words: {} });

export type FuzzOutcome = "used" | "skipped" | "set aside";

/**
 * Reads any bytes as the program does and understands every number and finding. Throws where the program fails, and
 * where a file is neither used nor set aside with a reason, a number neither measured nor left out with a reason.
 */
export function judgeInput(bytes: Uint8Array): FuzzOutcome {
  const read = readFile(bytes, "fuzz.bin");
  read.messages.forEach(expectMessage);
  for (const reading of read.documents.flatMap(({ readings }) => readings)) {
    const { measurement, messages } = measure(reading, "exam", dictionary);
    messages.forEach(expectMessage);
    if (measurement === null && messages.length === 0) throw new Error("left out without a reason");
    if (measurement && !(measurement.value > 0 && Number.isFinite(measurement.value))) {
      throw new Error(`the value ${measurement.value} is none`);
    }
    if (measurement && reading.graphic) expectFigure({ measurement, figure: reading.graphic });
  }
  for (const stated of read.documents.flatMap(({ findings }) => findings)) {
    const { message } = understandFinding(stated, "exam", dictionary);
    if (message) expectMessage(message);
  }
  for (const { exam, stations } of read.documents) expectStations(stations, exam);
  const parts = read.documents.length + read.caseRows.length + read.meetingRows.length;
  if (read.setAside) {
    expectMessage(read.setAside);
    if (parts > 0) throw new Error("set aside and used");
    return read.kind === "not for this program" ? "skipped" : "set aside";
  }
  if (parts === 0 && read.messages.length === 0) {
    throw new Error("neither used nor set aside");
  }
  return "used";
}

function expectMessage({ code, text, remedy }: Message): void {
  if (text === "" || remedy === "") throw new Error(`message ${code} says nothing`);
}

/** Puts the sections together as a case does: each finite, with sizes over 0, and left out only with a reason. */
function expectStations(stations: readonly StatedStation[], exam: StatedExam): void {
  const { placed, messages } = placeStations(stations, dictionary);
  messages.forEach(expectMessage);
  if (placed.length < stations.length && messages.length === 0) {
    throw new Error("a section left out without a reason");
  }
  const { centrelines, messages: ofLines } = sheetCentrelines(
    stations,
    { ...exam, key: "exam", reportState: [] },
    { dictionary, bySite: nowhere },
  );
  ofLines.forEach(expectMessage);
  for (const { distanceMm, maximumMm, point } of centrelines.flatMap((one) => one.stations)) {
    const numbers = [distanceMm, maximumMm ?? 1, ...(point ?? [])];
    if (!numbers.every(Number.isFinite) || (maximumMm ?? 1) <= 0) {
      throw new Error(`a section of ${JSON.stringify(numbers)}`);
    }
  }
}

/** Makes a line and a ring of a figure, as far as it is one: all coordinates finite, or a reason. */
function expectFigure(drawn: DrawnMeasurement): void {
  const exam: Exam = { ...unknownExam, key: drawn.measurement.exam };
  const lines = drawnCentrelines([drawn], exam, { bySite: nowhere, ofSheets: [] });
  const { rings, messages } = drawnRings([drawn], exam, nowhere);
  [...lines.messages, ...messages].forEach(expectMessage);
  const stations = lines.centrelines.flatMap((one) => one.stations);
  const numbers = [
    ...stations.flatMap(({ distanceMm, point }) => [distanceMm, ...(point ?? [])]),
    ...rings.flatMap(({ centre, axis }) => [...centre, ...axis]),
  ];
  if (!numbers.every(Number.isFinite)) throw new Error("a figure of no finite size");
}

const nowhere = { patientPosition: null, positionBy: null };
const unknownExam = {
  studyUid: null,
  imagingDate: "2024-01-05",
  imagingDateOrigin: "study date",
  modality: null,
  gated: null,
  reportState: [],
};
