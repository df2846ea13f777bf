import { type FactName, type PatientName, patients, withoutFact } from "./patients.ts";
import { columnsOf, oneOf } from "./text-table.ts";

/** A growth criterion with growth around its limit in mm per period. Below the limit it is never met, above it always. */
export interface GrowthRuleRow {
  rule: string;
  kind: string;
  months: number;
  patient: PatientName;
  below: number;
  on: number;
  above: number;
  /** "met" or "below". */
  answerOn: string;
  /** A patient of whom the criterion does not speak. */
  notFor: PatientName;
  /** A fact without which it can't be judged. */
  fact: FactName;
}

/**
 * Every growth criterion, typed by hand and not made from the rule files: rule, kind, months of the period, patient,
 * growth just below, on and just above the limit, answer on it, a patient it is not for, a fact it needs.
 */
const table = `
acc-aha-2022-ascending-growth-5-mm-in-1-year        growth-over-period     12  sporadic          4.9  5   5.1   met    marfan            aetiology
acc-aha-2022-ascending-growth-3-mm-in-2-years       growth-in-two-periods  12  sporadic          2.9  3   3.1   met    bicuspid          aetiology
acc-aha-2022-bicuspid-growth-3-mm-in-1-year         growth-over-period     12  bicuspid          2.9  3   3.1   met    sporadic          aetiology
acc-aha-2022-loeys-dietz-growth-3-mm-in-1-year      growth-over-period     12  tgfbr2            2.9  3   3.1   below  smad3             aetiology
acc-aha-2022-heritable-growth-3-mm-in-1-year        growth-over-period     12  noGene            2.9  3   3.1   met    sporadic          aetiology
acc-aha-2022-descending-growth-5-mm-in-1-year       growth-over-period     12  sporadic          4.9  5   5.1   met    thoracoAbdominal  diagnosis
acc-aha-2022-abdominal-growth-5-mm-in-6-months      growth-over-period     6   woman             4.9  5   5.1   met    thoracoAbdominal  diagnosis
esc-2024-ascending-growth-3-mm-in-1-year            growth-over-period     12  sporadic          2.9  3   3.1   met    bicuspid          aetiology
esc-2024-bicuspid-growth-3-mm-in-1-year             growth-over-period     12  bicuspid          2.9  3   3.1   met    sporadic          aetiology
esc-2024-descending-growth-10-mm-in-1-year          growth-over-period     12  sporadic          9.9  10  10.1  met    marfan            aetiology
esc-2024-descending-growth-5-mm-in-6-months         growth-over-period     6   bicuspid          4.9  5   5.1   met    chronicB          diagnosis
esc-2024-abdominal-growth-5-mm-in-6-months          growth-over-period     6   man               4.9  5   5.1   met    chronicB          diagnosis
esc-2024-abdominal-growth-10-mm-in-1-year           growth-over-period     12  woman             9.9  10  10.1  met    thoracoAbdominal  diagnosis
esc-2024-arch-growth-3-mm-in-1-year                 growth-over-period     12  man               2.9  3   3.1   met    chronicB          diagnosis
esc-2024-marfan-root-growth-3-mm-in-1-year          growth-over-period     12  marfan            2.9  3   3.1   met    marfanTypeA       aetiology
eacts-sts-2024-bicuspid-growth-3-mm-in-1-year       growth-over-period     12  bicuspid          2.9  3   3.1   below  sporadic          aetiology
esc-2024-thoraco-abdominal-growth-10-mm-in-1-year   growth-over-period     12  thoracoAbdominal  9.9  10  10.1  met    man               diagnosis
esc-2024-thoraco-abdominal-growth-5-mm-in-6-months  growth-over-period     6   thoracoAbdominal  4.9  5   5.1   met    man               aetiology
nice-2020-abdominal-growth-10-mm-in-1-year          growth-over-period     12  woman             9.9  10  10.1  below  thoracoAbdominal  diagnosis
esvs-2024-abdominal-growth-10-mm-in-1-year          growth-over-period     12  man               9.9  10  10.1  met    chronicB          diagnosis
`;

export const growthRuleRows = columnsOf(table).map((columns): GrowthRuleRow => {
  const [rule = "", kind = "", months, patient, below, on, above, answerOn = "", notFor, fact] =
    columns;
  return {
    rule,
    kind,
    months: Number(months),
    patient: oneOf(patients, patient),
    below: Number(below),
    on: Number(on),
    above: Number(above),
    answerOn,
    notFor: oneOf(patients, notFor),
    fact: oneOf(withoutFact, fact),
  };
});
