import { createHash } from "node:crypto";
import { codeKey, type Dictionary, qualifierMeaning } from "../anatomy/dictionary.ts";
import { interpret } from "../anatomy/interpret.ts";
import { formatTerm } from "../anatomy/term.ts";
import type { Message } from "../message.ts";
import { parseDecimal } from "../quantities/decimal.ts";
import { quantities } from "../quantities/measured-quantity.ts";
import { dimensionOf, storedUnit, toStoredUnit, ucumFromSheet } from "../quantities/unit.ts";
import type { Reading } from "../readers/reading.ts";
import { sizeDoubt } from "./doubtful-size.ts";
import { caseMessage } from "./messages.ts";
import type { Measurement } from "./patient-case.ts";

/** Qualifiers under which a printed value still is a value (value out of range, indeterminate). */
const doubtfulQualifiers = new Set(["DCM:114009", "DCM:114011"]);

/**
 * Turns a reading into a measurement: understood, placed, strictly parsed, converted to the stored unit.
 * A reading that can't be becomes a message that names the word, code or value in the way.
 */
export function measure(
  reading: Reading,
  exam: string,
  dictionary: Dictionary,
): { measurement: Measurement; messages: Message[] } | { measurement: null; messages: Message[] } {
  const number = describe(reading);
  const refuse = (
    code: Parameters<typeof caseMessage>[0],
    data: Record<string, string | number> = {},
  ) => ({ measurement: null, messages: [caseMessage(code, reading.source, { number, ...data })] });

  if (reading.refused) return { measurement: null, messages: [reading.refused] };
  const qualifier = reading.qualifier;
  const why = qualifier?.code ? (qualifierMeaning(qualifier.code) ?? qualifier.words) : "";
  if (reading.valueText === null) {
    return refuse("value-missing", { why: why || "the report gives no reason" });
  }
  if (qualifier?.code && !doubtfulQualifiers.has(codeKey(qualifier.code))) {
    return refuse("value-qualified", { why });
  }
  const meaning = interpret(reading.terms, dictionary);
  if ("problem" in meaning) return refuse(meaning.problem, meaning.data);
  const decimal = parseDecimal(reading.valueText);
  if (!decimal) return refuse("value-not-a-number", { met: `"${reading.valueText}"` });
  const { unit } = reading;
  if (unit === null) return refuse("unit-not-stated");
  const ucum = unit.code === null ? ucumFromSheet(unit.words) : ucumOfCode(unit.code);
  const dimension = ucum === null ? null : dimensionOf(ucum);
  const expected = quantities[meaning.quantity].dimension;
  if (ucum === null || dimension !== expected) {
    return refuse("unit-not-physical", { met: formatTerm(unit), expected });
  }
  const value = toStoredUnit(decimal, ucum);
  const asWritten = `${reading.valueAsWritten ?? decimal.text} ${ucum}`;
  if (value <= 0) return refuse("value-not-positive", { met: asWritten });
  const messages: Message[] = [];
  const doubt = sizeDoubt(meaning, decimal, ucum, asWritten);
  if (doubt?.other) {
    return refuse("value-of-another-unit", { met: doubt.met, other: doubt.other });
  }
  if (doubt)
    messages.push(caseMessage("value-doubtful", reading.source, { number, met: doubt.met }));
  const measurement: Measurement = {
    key: measurementKey(reading),
    exam,
    ...meaning,
    value,
    unit: storedUnit[expected],
    asWritten,
    derivedFrom: [],
    source: reading.source,
    reader: reading.reader,
    comment: reading.comment,
  };
  return { measurement, messages };
}

const ucumOfCode = (code: { scheme: string; value: string }): string | null =>
  code.scheme === "UCUM" && dimensionOf(code.value) !== null ? code.value : null;

/** "Diameter at Ascending aorta" in the source's own words, for messages. */
function describe(reading: Reading): string {
  const place = reading.terms.places.find(({ terms }) => terms.length > 0)?.terms[0];
  const what = reading.terms.quantity.words || "number";
  return place ? `${what} at ${place.words}` : what;
}

/** The same bytes give the same key: "M" and eight hex digits of file digest and place in the file. */
function measurementKey({ source }: Reading): string {
  const digest = createHash("sha256").update(`${source.sha256}\n${source.at}`).digest("hex");
  return `M${digest.slice(0, 8)}`;
}
