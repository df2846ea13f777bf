import { placeById } from "../../src/anatomy/places.ts";
import type { Assessment } from "../../src/guidelines/assessment.ts";

/** An invented size criterion, judged on a place and not met. */
export function sampleAssessment({
  placeId = "mid-ascending",
  limitMm,
  operator = ">=",
  below = null,
  unit = "mm",
  valueMm = 46,
  rule = `rule-${limitMm}`,
  body = "BODY",
  outcome = "not-met",
}: {
  placeId?: string | null;
  /** Null for any size. */
  limitMm: number | null;
  operator?: NonNullable<Assessment["limit"]>["operator"];
  below?: number | null;
  unit?: string;
  valueMm?: number;
  rule?: string;
  body?: string;
  outcome?: Assessment["outcome"];
}): Assessment {
  return {
    rule,
    title: "invented",
    source: { body, year: 2020, where: "nowhere", doi: null },
    recommendation: null,
    confirmed: false,
    checkedAgainst: null,
    limit:
      limitMm === null ? null : { operator, value: limitMm, below, unit, printed: `${limitMm}` },
    says: "nothing",
    outcome,
    about: placeId === null ? null : placeById(placeId),
    used: [],
    value: placeId === null ? null : { value: valueMm, low: null, high: null, unit },
    spansLimit: false,
    missing: [],
    reason: "invented",
  };
}
