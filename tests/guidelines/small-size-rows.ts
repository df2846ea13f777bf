import { type FactName, type PatientName, patients, withoutFact } from "./patients.ts";
import { columnsOf, oneOf } from "./text-table.ts";

/** A criterion that holds at any size. */
export interface AnySizeRow {
  rule: string;
  patient: PatientName;
  /** The part that it names. */
  place: string;
  /** What the rule that ships makes of this patient. */
  expected: string;
  /** A patient of whom the criterion does not speak. */
  notFor: PatientName;
  /** A fact without which it can't be judged. */
  fact: FactName;
}

/** A criterion for sizes below a limit; diameters in mm. On and above the limit it is never met. */
export interface BelowRow extends AnySizeRow {
  below: number;
  on: number;
  above: number;
}

/** Every criterion that holds at any size, typed by hand and not made from the rule files. */
const anySizeTable = `
acc-aha-2022-ascending-any-size-with-symptoms     rootSymptoms   ascending-aorta  met at ascending-aorta                     archSymptoms         symptoms
acc-aha-2022-arch-any-size-with-symptoms          archSymptoms   aortic-arch      not-assessable at aortic-arch, open        archWithoutSymptoms  symptoms
acc-aha-2022-abdominal-any-size-with-symptoms     abdominalPain  abdominal-aorta  met at abdominal-aorta                     archSymptoms         symptoms
acc-aha-2022-abdominal-saccular-any-size          man            abdominal-aorta  not-assessable, missing saccular aneurysm  chronicB             diagnosis
svs-2018-abdominal-any-size-with-pain             abdominalPain  abdominal-aorta  met at abdominal-aorta                     abdominalEmbolism    symptoms
svs-2018-abdominal-saccular-any-size              woman          abdominal-aorta  not-assessable, missing saccular aneurysm  thoracoAbdominal     diagnosis
nice-2020-abdominal-any-size-with-symptoms        abdominalPain  abdominal-aorta  met at abdominal-aorta                     chronicB             symptoms
esc-2024-arch-any-size-with-recurrent-chest-pain  archChestPain  aortic-arch      not-assessable at aortic-arch, open        archSymptoms         symptoms
eacts-sts-2024-arch-any-size-with-symptoms        archSymptoms   aortic-arch      met at aortic-arch                         abdominalPain        symptoms
`;

/** Every criterion for sizes below a limit: the columns above, and diameters just below, on and just above the limit. */
const belowTable = `
acc-aha-2022-descending-below-55-mm-with-risk-factor          descendingWoman        zone-4  met at zone-4                   thoracoAbdominal  diagnosis  54.9  55  55.1
acc-aha-2022-thoraco-abdominal-below-55-mm-with-risk-factor   thoracoAbdominalWoman  zone-6  met at zone-6                   descendingWoman   aetiology  54.9  55  55.1
esc-2024-descending-below-55-mm-with-high-risk-feature        descendingMan          zone-4  not-assessable at zone-4, open  descendingMarfan  aetiology  54.9  55  55.1
eacts-sts-2024-descending-below-55-mm-with-high-risk-feature  descendingMan          zone-5  not-assessable at zone-5, open  man               diagnosis  54.9  55  55.1
`;

function anySizeRow(columns: string[]): AnySizeRow {
  const [rule = "", patient, place = "", expected = "", notFor, fact] = columns;
  return {
    rule,
    patient: oneOf(patients, patient),
    place,
    expected,
    notFor: oneOf(patients, notFor),
    fact: oneOf(withoutFact, fact),
  };
}

export const anySizeRows = columnsOf(anySizeTable).map(anySizeRow);
export const belowRows = columnsOf(belowTable).map((columns): BelowRow => {
  const [below, on, above] = columns.slice(6).map(Number);
  if (below === undefined || on === undefined || above === undefined) {
    throw new Error(`three sizes are missing: ${columns[0]}`);
  }
  return { ...anySizeRow(columns), below, on, above };
});
