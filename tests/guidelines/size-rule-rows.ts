import { type Outcome, outcomes } from "../../src/guidelines/rule.ts";
import { type FactName, type PatientName, patients, withoutFact } from "./patients.ts";
import { columnsOf, oneOf } from "./text-table.ts";

/** A size criterion with sizes around its limit; diameters in mm. Below the limit the outcome is always not-met. */
export interface SizeRuleRow {
  rule: string;
  patient: PatientName;
  place: string;
  below: number;
  on: number;
  above: number;
  outcomeOn: Outcome;
  outcomeAbove: Outcome;
  /** A patient of whom the criterion does not speak. */
  notFor: PatientName;
  /** A fact without which it can't be judged. */
  fact: FactName;
}

/**
 * Every size criterion, typed by hand and not made from the rule files: rule, patient, place, diameters just below, on
 * and just above the limit, outcomes on and above it, a patient it is not for, a fact it needs. Limits of indices are
 * diameters of a patient of 170 cm and 70 kg.
 */
const table = `
acc-aha-2022-ascending-55-mm                                         sporadic           mid-ascending            54.9  55                  55.1  met             met             bicuspid          aetiology
acc-aha-2022-ascending-50-mm-experienced-team                        sporadic           sinuses-of-valsalva      49.9  50                  50.1  not-assessable  not-assessable  marfan            aetiology
acc-aha-2022-ascending-area-height-10                                sporadic           mid-ascending            46.5  46.52426491681278   46.6  not-assessable  not-assessable  tgfbr1            aetiology
acc-aha-2022-ascending-size-index-3-08                               sporadic           mid-ascending            55.7  55.739000294        55.8  not-assessable  not-assessable  turner            diagnosis
acc-aha-2022-ascending-height-index-3-21                             sporadic           mid-ascending            54.5  54.57               54.6  not-assessable  not-assessable  acta2             diagnosis
acc-aha-2022-ascending-45-mm-with-valve-surgery                      sporadicValve      mid-ascending            44.9  45                  45.1  not-assessable  not-assessable  sporadicHeart     considered operation
acc-aha-2022-ascending-50-mm-with-valve-surgery                      sporadicValve      mid-ascending            49.9  50                  50.1  met             met             sporadic          considered operation
acc-aha-2022-ascending-50-mm-with-other-cardiac-surgery              sporadicHeart      mid-ascending            49.9  50                  50.1  met             met             sporadicValve     considered operation
acc-aha-2022-bicuspid-55-mm                                          bicuspid           mid-ascending            54.9  55                  55.1  met             met             sporadic          aetiology
acc-aha-2022-bicuspid-area-height-10                                 bicuspid           sinuses-of-valsalva      46.5  46.52426491681278   46.6  not-assessable  not-assessable  marfan            aetiology
acc-aha-2022-bicuspid-50-to-54-mm-with-risk-factor                   bicuspid           mid-ascending            49.9  50                  54.9  not-assessable  not-assessable  sporadic          diagnosis
acc-aha-2022-bicuspid-50-to-54-mm-low-risk                           bicuspid           mid-ascending            49.9  50                  54.9  not-assessable  not-assessable  sporadic          aetiology
acc-aha-2022-bicuspid-45-mm-with-valve-surgery                       bicuspidValve      sinuses-of-valsalva      44.9  45                  45.1  not-assessable  not-assessable  bicuspid          considered operation
acc-aha-2022-marfan-root-50-mm                                       marfan             sinuses-of-valsalva      49.9  50                  50.1  met             met             sporadic          aetiology
acc-aha-2022-marfan-root-45-mm-with-risk-feature                     marfan             sinuses-of-valsalva      44.9  45                  45.1  not-assessable  not-assessable  tgfbr1            aetiology
acc-aha-2022-marfan-root-area-height-10                              marfan             sinuses-of-valsalva      46.5  46.52426491681278   46.6  not-assessable  not-assessable  bicuspid          aetiology
acc-aha-2022-marfan-arch-descending-abdominal-50-mm                  marfan             zone-9                   49.9  50                  50.1  met             met             marfanTypeA       diagnosis
acc-aha-2022-loeys-dietz-tgfbr1-45-mm                                tgfbr1             sinuses-of-valsalva      44.9  45                  45.1  met             met             tgfbr2            aetiology
acc-aha-2022-loeys-dietz-tgfbr1-40-mm-with-high-risk-feature         tgfbr1             mid-ascending            39.9  40                  40.1  not-assessable  not-assessable  tgfbr2            aetiology
acc-aha-2022-loeys-dietz-tgfbr2-45-mm                                tgfbr2             sinuses-of-valsalva      44.9  45                  45.1  met             met             tgfbr1            aetiology
acc-aha-2022-loeys-dietz-tgfbr2-40-mm-with-high-risk-feature         tgfbr2             mid-ascending            39.9  40                  40.1  not-assessable  not-assessable  smad3             aetiology
acc-aha-2022-loeys-dietz-smad3-45-mm                                 smad3              mid-ascending            44.9  45                  45.1  met             met             tgfb2             aetiology
acc-aha-2022-loeys-dietz-tgfb2-45-mm                                 tgfb2              mid-ascending            44.9  45                  45.1  met             met             tgfbr2            aetiology
acc-aha-2022-loeys-dietz-tgfb3-50-mm                                 tgfb3              mid-ascending            49.9  50                  50.1  met             met             tgfb2             aetiology
acc-aha-2022-loeys-dietz-arch-descending-abdominal-45-mm             smad3              mid-arch                 44.9  45                  45.1  met             met             tgfb2             diagnosis
acc-aha-2022-turner-size-index-2-5-with-risk-factor                  turner             mid-ascending            45.2  45.242695043831176  45.3  not-assessable  not-assessable  turnerChild       birth date
acc-aha-2022-turner-size-index-2-5-without-risk-factor               turner             sinuses-of-valsalva      45.2  45.242695043831176  45.3  not-assessable  not-assessable  sporadic          birth date
acc-aha-2022-heritable-no-gene-50-mm                                 noGene             mid-ascending            49.9  50                  50.1  met             met             acta2             aetiology
acc-aha-2022-heritable-no-gene-45-mm-with-risk-feature               noGene             mid-ascending            44.9  45                  45.1  not-assessable  not-assessable  sporadic          aetiology
acc-aha-2022-acta2-45-mm                                             acta2              mid-ascending            44.9  45                  45.1  met             met             noGene            aetiology
acc-aha-2022-acta2-42-mm-with-risk-feature                           acta2              sinuses-of-valsalva      41.9  42                  44.9  not-assessable  not-assessable  marfan            aetiology
acc-aha-2022-arch-55-mm                                              sporadic           mid-arch                 54.9  55                  55.1  not-assessable  not-assessable  chronicB          diagnosis
acc-aha-2022-descending-55-mm                                        sporadic           zone-4                   54.9  55                  55.1  met             met             thoracoAbdominal  aetiology
acc-aha-2022-thoraco-abdominal-60-mm                                 thoracoAbdominal   zone-6                   59.9  60                  60.1  met             met             man               diagnosis
acc-aha-2022-thoraco-abdominal-55-mm-experienced-team                thoracoAbdominal   zone-5                   54.9  55                  55.1  not-assessable  not-assessable  man               aetiology
acc-aha-2022-abdominal-men-55-mm                                     man                zone-9                   54.9  55                  55.1  met             met             woman             sex
acc-aha-2022-abdominal-women-50-mm                                   woman              zone-9                   49.9  50                  50.1  met             met             man               sex
acc-aha-2022-chronic-dissection-55-mm                                chronicB           zone-4                   54.9  55                  55.1  met             met             acuteB            onset date
esc-2024-ascending-55-mm                                             sporadic           sinuses-of-valsalva      54.9  55                  55.1  met             met             bicuspid          aetiology
esc-2024-tubular-ascending-52-mm-low-risk                            sporadic           mid-ascending            51.9  52                  52.1  not-met         not-assessable  bicuspid          aetiology
esc-2024-ascending-50-mm-with-risk-factor                            sporadic           mid-ascending            49.9  50                  50.1  not-assessable  not-assessable  typeA             diagnosis
esc-2024-ascending-45-mm-with-valve-surgery-low-risk                 sporadicValve      mid-ascending            44.9  45                  45.1  not-assessable  not-assessable  bicuspidValve     considered operation
esc-2024-ascending-50-mm-with-valve-surgery                          sporadicValve      sinuses-of-valsalva      49.9  50                  50.1  met             met             sporadic          considered operation
esc-2024-ascending-50-mm-with-other-cardiac-surgery                  sporadicHeart      mid-ascending            49.9  50                  50.1  met             met             sporadicValve     considered operation
esc-2024-bicuspid-55-mm                                              bicuspid           mid-ascending            54.9  55                  55.1  met             met             sporadic          aetiology
esc-2024-bicuspid-root-phenotype-50-mm                               bicuspid           sinuses-of-valsalva      49.9  50                  50.1  not-assessable  not-assessable  sporadic          aetiology
esc-2024-bicuspid-ascending-52-mm-low-risk                           bicuspid           mid-ascending            51.9  52                  52.1  not-met         not-assessable  sporadic          aetiology
esc-2024-bicuspid-ascending-50-mm-with-risk-factor                   bicuspid           mid-ascending            49.9  50                  50.1  not-assessable  not-assessable  marfan            aetiology
esc-2024-bicuspid-45-mm-with-valve-surgery                           bicuspidValve      mid-ascending            44.9  45                  45.1  met             met             bicuspid          considered operation
esc-2024-arch-55-mm                                                  sporadic           mid-arch                 54.9  55                  55.1  not-assessable  not-assessable  typeA             diagnosis
esc-2024-proximal-arch-50-mm-with-ascending-repair                   sporadicAscending  proximal-arch            49.9  50                  50.1  not-met         met             sporadicValve     considered operation
esc-2024-arch-45-mm-with-ascending-repair                            sporadicAscending  mid-arch                 44.9  45                  45.1  not-met         not-assessable  sporadic          considered operation
esc-2024-descending-55-mm                                            sporadic           zone-4                   54.9  55                  55.1  met             met             marfan            aetiology
esc-2024-thoraco-abdominal-60-mm                                     thoracoAbdominal   zone-7                   59.9  60                  60.1  met             met             man               diagnosis
esc-2024-thoraco-abdominal-55-mm-with-high-risk-feature              thoracoAbdominal   thoraco-abdominal-aorta  54.9  55                  55.1  not-assessable  not-assessable  man               aetiology
esc-2024-abdominal-men-55-mm                                         man                zone-9                   54.9  55                  55.1  met             met             woman             sex
esc-2024-abdominal-women-50-mm                                       woman              abdominal-aorta          49.9  50                  50.1  met             met             man               sex
esc-2024-abdominal-saccular-45-mm                                    man                zone-8                   44.9  45                  45.1  not-assessable  not-assessable  thoracoAbdominal  diagnosis
esc-2024-chronic-type-b-60-mm                                        chronicB           zone-4                   59.9  60                  60.1  not-assessable  not-assessable  typeA             onset date
esc-2024-chronic-type-b-55-mm                                        chronicB           zone-5                   54.9  55                  55.1  not-assessable  not-assessable  acuteB            diagnosis
esc-2024-marfan-root-50-mm                                           marfan             sinuses-of-valsalva      49.9  50                  50.1  met             met             noGene            aetiology
esc-2024-marfan-root-45-mm-with-risk-factor                          marfan             sinuses-of-valsalva      44.9  45                  45.1  not-assessable  not-assessable  sporadic          aetiology
esc-2024-marfan-beyond-root-50-mm                                    marfan             mid-ascending            49.9  50                  50.1  met             met             marfanTypeA       aetiology
esc-2024-marfan-root-45-mm-before-pregnancy                          marfanWoman        sinuses-of-valsalva      44.9  45                  45.1  not-met         not-assessable  marfan            sex
esc-2024-loeys-dietz-root-45-mm                                      tgfb3              sinuses-of-valsalva      44.9  45                  45.1  not-met         met             marfan            aetiology
esc-2024-loeys-dietz-root-40-mm-with-high-risk-feature               smad3              sinuses-of-valsalva      39.9  40                  40.1  not-assessable  not-assessable  acta2             aetiology
esc-2024-acta2-root-45-mm                                            acta2              sinuses-of-valsalva      44.9  45                  45.1  met             met             noGene            aetiology
esc-2024-turner-size-index-2-3-with-risk-factor                      turner             mid-ascending            41.6  41.62327944032468   41.7  not-met         not-assessable  turnerChild       birth date
esc-2024-turner-height-index-2-3-with-risk-factor                    turner             mid-ascending            39    39.1                39.2  not-met         not-assessable  turnerChild       birth date
esc-2024-turner-size-index-2-5-without-risk-factor                   turner             mid-ascending            45.2  45.242695043831176  45.3  not-met         not-assessable  turnerChild       aetiology
esc-2024-turner-height-index-2-5-without-risk-factor                 turner             sinuses-of-valsalva      42.4  42.5                42.6  not-met         not-assessable  sporadic          birth date
esc-eacts-2025-ascending-45-mm-with-valve-surgery                    bicuspidValve      mid-ascending            44.9  45                  45.1  not-assessable  not-assessable  bicuspid          considered operation
svs-2018-abdominal-fusiform-55-mm                                    woman              zone-9                   54.9  55                  55.1  not-assessable  not-assessable  thoracoAbdominal  diagnosis
svs-2018-abdominal-women-50-to-54-mm                                 woman              zone-9                   49.9  50                  54.9  met             met             man               sex
eacts-sts-2024-ascending-55-mm                                       bicuspid           mid-ascending            54.9  55                  55.1  met             met             marfan            aetiology
eacts-sts-2024-root-phenotype-50-mm-low-risk                         sporadic           sinuses-of-valsalva      49.9  50                  50.1  not-assessable  not-assessable  bicuspid          aetiology
eacts-sts-2024-ascending-phenotype-52-mm-low-risk                    sporadic           mid-ascending            51.9  52                  52.1  not-met         not-assessable  marfan            aetiology
eacts-sts-2024-ascending-50-mm-with-risk-factor                      sporadic           mid-ascending            49.9  50                  50.1  not-assessable  not-assessable  bicuspid          diagnosis
eacts-sts-2024-bicuspid-root-phenotype-50-mm                         bicuspid           sinuses-of-valsalva      49.9  50                  50.1  not-assessable  not-assessable  sporadic          aetiology
eacts-sts-2024-bicuspid-ascending-50-mm-with-risk-factor             bicuspid           mid-ascending            49.9  50                  50.1  not-assessable  not-assessable  sporadic          aetiology
eacts-sts-2024-ascending-45-mm-with-valve-surgery                    sporadicValve      mid-ascending            44.9  45                  45.1  met             met             sporadicHeart     considered operation
eacts-sts-2024-ascending-50-mm-with-other-cardiac-surgery            sporadicHeart      sinuses-of-valsalva      49.9  50                  50.1  met             met             sporadicValve     considered operation
eacts-sts-2024-arch-55-mm                                            sporadic           aortic-arch              54.9  55                  55.1  not-assessable  not-assessable  typeA             diagnosis
eacts-sts-2024-descending-55-mm                                      bicuspid           zone-4                   54.9  55                  55.1  met             met             marfan            aetiology
eacts-sts-2024-thoraco-abdominal-55-mm                               thoracoAbdominal   zone-8                   54.9  55                  55.1  met             met             man               diagnosis
eacts-sts-2024-chronic-dissection-55-mm                              chronicB           zone-4                   54.9  55                  55.1  met             met             acuteB            onset date
eacts-sts-2024-chronic-dissection-50-mm-staged-plan                  chronicB           zone-4                   49.9  50                  50.1  not-met         not-assessable  acuteB            onset date
eacts-sts-2024-marfan-root-50-mm                                     marfan             sinuses-of-valsalva      49.9  50                  50.1  met             met             sporadic          aetiology
eacts-sts-2024-marfan-root-45-mm-with-risk-feature                   marfan             sinuses-of-valsalva      44.9  45                  45.1  not-assessable  not-assessable  noGene            aetiology
eacts-sts-2024-loeys-dietz-tgfbr-45-mm                               tgfbr2             mid-ascending            44.9  45                  45.1  met             met             smad3             aetiology
eacts-sts-2024-loeys-dietz-tgfbr-40-mm-with-risk-feature             tgfbr1             mid-ascending            39.9  40                  40.1  not-assessable  not-assessable  smad3             aetiology
eacts-sts-2024-loeys-dietz-smad3-tgfb2-45-mm                         tgfb2              mid-ascending            44.9  45                  45.1  met             met             tgfb3             aetiology
eacts-sts-2024-loeys-dietz-tgfb3-50-mm                               tgfb3              mid-ascending            49.9  50                  50.1  met             met             tgfb2             aetiology
eacts-sts-2024-acta2-45-mm                                           acta2              mid-ascending            44.9  45                  45.1  met             met             noGene            aetiology
eacts-sts-2024-acta2-42-mm-with-risk-feature                         acta2              mid-ascending            41.9  42                  42.1  not-assessable  not-assessable  marfan            aetiology
esc-2024-marfan-root-40-to-45-mm-before-pregnancy                    marfanWoman        sinuses-of-valsalva      39.9  40                  45    not-assessable  not-assessable  marfan            sex
esc-2025-marfan-root-45-mm-before-pregnancy                          marfanWoman        sinuses-of-valsalva      44.9  45                  45.1  not-met         not-assessable  marfan            sex
esc-2025-marfan-root-40-to-45-mm-with-risk-factor-before-pregnancy   marfanWoman        sinuses-of-valsalva      39.9  40                  45    not-assessable  not-assessable  noGeneWoman       aetiology
esc-2025-loeys-dietz-tgfbr-45-mm-before-pregnancy                    tgfbr2Woman        mid-ascending            44.9  45                  45.1  not-assessable  not-assessable  tgfbr2            sex
esc-2025-loeys-dietz-tgfbr-40-mm-before-pregnancy                    tgfbr2Woman        sinuses-of-valsalva      39.9  40                  40.1  not-assessable  not-assessable  tgfb3Woman        aetiology
esc-2025-loeys-dietz-tgfb-smad-45-mm-before-pregnancy                tgfb3Woman         mid-ascending            44.9  45                  45.1  not-assessable  not-assessable  tgfbr2Woman       aetiology
esc-2025-heritable-gene-45-mm-before-pregnancy                       mylkWoman          mid-ascending            44.9  45                  45.1  not-assessable  not-assessable  myh11             sex
esc-2025-heritable-no-gene-50-mm-before-pregnancy                    noGeneWoman        mid-ascending            49.9  50                  50.1  not-assessable  not-assessable  mylkWoman         aetiology
esc-2025-heritable-no-gene-45-mm-with-risk-factor-before-pregnancy   noGeneWoman        sinuses-of-valsalva      44.9  45                  45.1  not-assessable  not-assessable  noGene            diagnosis
esc-2025-nonsyndromic-40-to-44-mm-before-pregnancy                   mylkWoman          mid-ascending            39.9  40                  44.9  not-assessable  not-assessable  marfanWoman       aetiology
esc-2025-heritable-arch-descending-abdominal-50-mm-before-pregnancy  mylkWoman          zone-4                   49.9  50                  50.1  not-assessable  not-assessable  bicuspidWoman     aetiology
esc-2025-bicuspid-50-mm-before-pregnancy                             bicuspidWoman      mid-ascending            49.9  50                  50.1  not-assessable  not-assessable  bicuspid          sex
esc-2025-bicuspid-45-mm-with-risk-factor-before-pregnancy            bicuspidWoman      sinuses-of-valsalva      44.9  45                  45.1  not-assessable  not-assessable  noGeneWoman       aetiology
esc-2025-turner-size-index-2-5-before-pregnancy                      turner             mid-ascending            45.2  45.242695043831176  45.3  not-assessable  not-assessable  marfanWoman       aetiology
esc-2025-turner-height-index-2-5-before-pregnancy                    turner             sinuses-of-valsalva      42.4  42.5                42.6  not-assessable  not-assessable  marfanWoman       aetiology
esc-eacts-2025-ascending-55-mm                                       bicuspid           mid-ascending            54.9  55                  55.1  met             met             marfan            aetiology
esc-eacts-2025-ascending-50-mm-with-risk-factor                      sporadic           sinuses-of-valsalva      49.9  50                  50.1  not-assessable  not-assessable  noGene            diagnosis
aats-2018-bicuspid-55-mm                                             bicuspid           mid-ascending            54.9  55                  55.1  met             met             sporadic          aetiology
aats-2018-bicuspid-50-mm-with-risk-factor                            bicuspid           sinuses-of-valsalva      49.9  50                  50.1  not-assessable  not-assessable  sporadic          aetiology
aats-2018-bicuspid-50-mm-low-risk                                    bicuspid           mid-ascending            49.9  50                  50.1  not-assessable  not-assessable  marfan            diagnosis
aats-2018-bicuspid-area-height-10                                    bicuspid           mid-ascending            46.5  46.52426491681278   46.6  not-met         met             sporadic          aetiology
aats-2018-bicuspid-45-mm-with-valve-surgery                          bicuspidValve      mid-ascending            44.9  45                  45.1  met             met             bicuspid          considered operation
svs-2021-descending-55-mm                                            sporadic           zone-4                   54.9  55                  55.1  not-met         not-assessable  marfan            aetiology
nice-2020-abdominal-55-mm                                            woman              zone-9                   54.9  55                  55.1  not-assessable  not-assessable  thoracoAbdominal  diagnosis
nice-2020-abdominal-55-mm-referral                                   man                zone-9                   54.9  55                  55.1  not-assessable  not-assessable  chronicB          diagnosis
esvs-2024-abdominal-men-55-mm                                        man                zone-9                   54.9  55                  55.1  met             met             woman             sex
esvs-2024-abdominal-women-50-mm                                      woman              abdominal-aorta          49.9  50                  50.1  met             met             man               sex
esvs-2024-iliac-40-mm                                                man                zone-10-left             39.9  40                  40.1  met             met             chronicB          diagnosis
acc-aha-2022-prkg1-42-mm                                             prkg1              mid-ascending            41.9  42                  42.1  met             met             acta2             aetiology
acc-aha-2022-myh11-mylk-lox-45-mm                                    myh11              mid-ascending            44.9  45                  45.1  met             met             prkg1             aetiology
acc-aha-2022-heritable-no-gene-45-mm-with-other-cardiac-surgery      noGeneHeart        mid-ascending            44.9  45                  45.1  not-assessable  not-assessable  noGene            considered operation
eacts-sts-2024-prkg1-42-mm                                           prkg1              sinuses-of-valsalva      41.9  42                  42.1  met             met             myh11             aetiology
eacts-sts-2024-prkg1-40-mm-with-risk-feature                         prkg1              mid-ascending            39.9  40                  40.1  not-assessable  not-assessable  acta2             aetiology
eacts-sts-2024-myh11-45-mm                                           myh11              mid-ascending            44.9  45                  45.1  met             met             prkg1             aetiology
eacts-sts-2024-loeys-dietz-smad2-45-mm                               smad2              mid-ascending            44.9  45                  45.1  met             met             smad3             aetiology
`;

const outcomeSet = Object.fromEntries(outcomes.map((outcome) => [outcome, true])) as Record<
  Outcome,
  true
>;

export const sizeRuleRows = columnsOf(table).map((columns): SizeRuleRow => {
  const [rule = "", patient, place = "", below, on, above, outcomeOn, outcomeAbove, notFor, fact] =
    columns;
  return {
    rule,
    patient: oneOf(patients, patient),
    place,
    below: Number(below),
    on: Number(on),
    above: Number(above),
    outcomeOn: oneOf(outcomeSet, outcomeOn),
    outcomeAbove: oneOf(outcomeSet, outcomeAbove),
    notFor: oneOf(patients, notFor),
    fact: oneOf(withoutFact, fact),
  };
});

/** Where a printed band ends, in mm: the first tenth of a millimetre that is beyond it. Typed by hand. */
export const bandEnds: Readonly<Record<string, number>> = {
  "acc-aha-2022-bicuspid-50-to-54-mm-with-risk-factor": 55,
  "acc-aha-2022-bicuspid-50-to-54-mm-low-risk": 55,
  "acc-aha-2022-acta2-42-mm-with-risk-feature": 45,
  "svs-2018-abdominal-women-50-to-54-mm": 55,
  "esc-2024-marfan-root-40-to-45-mm-before-pregnancy": 45.1,
  "esc-2025-marfan-root-40-to-45-mm-with-risk-factor-before-pregnancy": 45.1,
  "esc-2025-nonsyndromic-40-to-44-mm-before-pregnancy": 45,
};
