/**
 * The limits of the rules marked as seen, against a second transcription: typed from notes made while reading the
 * printed sources, apart from the rule files.
 *
 * Sources, each read as text of the document or of its publisher's own summary:
 * - ACC/AHA 2022 aortic disease guideline (doi 10.1161/CIR.0000000000001106): pocket edition, pages 32, 34, 35, 49;
 *   Table 11 as printed in Circulation 2022;146:e334; AHA "Top Things to Know", 2 November 2022; ACC key perspectives,
 *   part 2. The last two print limits without class or level.
 * - ESC 2024 guideline on peripheral arterial and aortic diseases (doi 10.1093/eurheartj/ehae179), recommendation
 *   tables by number and page.
 * - ESC/EACTS 2025 guideline on valvular heart disease (doi 10.1093/eurheartj/ehaf194), pdf pages 26 and 28.
 * - ESC 2025 guideline on cardiovascular disease and pregnancy (doi 10.1093/eurheartj/ehaf193), pdf pages 42 and 43.
 * - AATS 2018 consensus on bicuspid aortopathy: only its 45 mm, as a peer-reviewed paper quotes it.
 * - NICE NG156 (2020), recommendation 1.1.5: the limit of a referral; NICE prints no class.
 * - SVS 2018 guideline on abdominal aortic aneurysm (doi 10.1016/j.jvs.2017.10.044), list of recommendations.
 *
 * Columns: rule; sign and limit as printed, "any size" where the recommendation names none; limit in mm or in cm/m2, cm/m, cm2/m; class; level ("-" where the source
 * seen does not print it, "none" where there is no recommendation); words by which the source names the place.
 */
import { expect, test } from "vitest";
import { loadRules } from "../../src/guidelines/load-rules.ts";
import { columnsOf } from "../guidelines/text-table.ts";

const transcription = `
acc-aha-2022-ascending-50-mm-experienced-team                        >= 5.0 cm                                  50   -     -     item 4
acc-aha-2022-ascending-growth-5-mm-in-1-year                         >= 0.5 cm in 1 year                        5    -     -     item 6
acc-aha-2022-ascending-growth-3-mm-in-2-years                        >= 0.3 cm per year in 2 consecutive years  3    -     -     item 6
acc-aha-2022-heritable-growth-3-mm-in-1-year                         >= 0.3 cm in 1 year                        3    none  none  item 6
acc-aha-2022-marfan-root-50-mm                                       >= 5.0 cm                                  50   1     B-NR  page 32
acc-aha-2022-marfan-root-45-mm-with-risk-feature                     >= 4.5 cm                                  45   2a    B-NR  page 32
acc-aha-2022-marfan-root-area-height-10                              >= 10 cm2/m                                10   2a    C-LD  page 32
acc-aha-2022-marfan-arch-descending-abdominal-50-mm                  >= 5.0 cm                                  50   2a    C-EO  page 32
acc-aha-2022-loeys-dietz-tgfbr1-45-mm                                >= 4.5 cm                                  45   1     C-LD  Table 11
acc-aha-2022-loeys-dietz-tgfbr2-45-mm                                >= 4.5 cm                                  45   1     C-LD  Table 11
acc-aha-2022-loeys-dietz-tgfbr1-40-mm-with-high-risk-feature         >= 4.0 cm                                  40   2b    C-EO  Table 11
acc-aha-2022-loeys-dietz-tgfbr2-40-mm-with-high-risk-feature         >= 4.0 cm                                  40   2a    C-LD  Table 11
acc-aha-2022-loeys-dietz-smad3-45-mm                                 >= 4.5 cm                                  45   2a    C-EO  Table 11
acc-aha-2022-loeys-dietz-tgfb2-45-mm                                 >= 4.5 cm                                  45   2b    C-EO  Table 11
acc-aha-2022-loeys-dietz-tgfb3-50-mm                                 >= 5.0 cm                                  50   2b    C-EO  Table 11
acc-aha-2022-loeys-dietz-arch-descending-abdominal-45-mm             >= 4.5 cm                                  45   2b    C-EO  page 34
acc-aha-2022-loeys-dietz-growth-3-mm-in-1-year                       > 0.3 cm per year                          3    none  none  Table 11
acc-aha-2022-turner-size-index-2-5-with-risk-factor                  >= 2.5 cm/m2                               2.5  2a    C-LD  page 35
acc-aha-2022-turner-size-index-2-5-without-risk-factor               >= 2.5 cm/m2                               2.5  2b    C-EO  page 35
acc-aha-2022-heritable-no-gene-50-mm                                 >= 5.0 cm                                  50   -     -     key perspectives
acc-aha-2022-heritable-no-gene-45-mm-with-risk-feature               >= 4.5 cm                                  45   -     -     key perspectives
acc-aha-2022-arch-55-mm                                              >= 5.5 cm                                  55   2a    B-NR  page 49
esc-2024-ascending-55-mm                                             >= 55 mm                                   55   I     B     Table 38, page 3611
esc-2024-tubular-ascending-52-mm-low-risk                            > 52 mm                                    52   IIa   B     Table 38, page 3611
esc-2024-ascending-50-mm-with-risk-factor                            >= 50 mm                                   50   IIb   B     Table 38, page 3611
esc-2024-ascending-45-mm-with-valve-surgery-low-risk                 >= 45 mm                                   45   IIa   B     Table 38, page 3611
esc-2024-ascending-50-mm-with-valve-surgery                          >= 50 mm                                   50   IIa   B     Table 38, page 3611
esc-2024-ascending-50-mm-with-other-cardiac-surgery                  >= 50 mm                                   50   IIa   C     Table 38, page 3611
esc-2024-ascending-growth-3-mm-in-1-year                             >= 3 mm per year                           3    IIb   B     Table 38, page 3611
esc-2024-bicuspid-55-mm                                              >= 55 mm                                   55   I     B     Table 68, page 3647
esc-2024-bicuspid-root-phenotype-50-mm                               >= 50 mm                                   50   I     B     Table 68, page 3647
esc-2024-bicuspid-ascending-52-mm-low-risk                           > 52 mm                                    52   IIa   B     Table 68, page 3647
esc-2024-bicuspid-ascending-50-mm-with-risk-factor                   >= 50 mm                                   50   IIa   C     Table 68, page 3648
esc-2024-bicuspid-45-mm-with-valve-surgery                           >= 45 mm                                   45   IIa   C     Table 68, page 3648
esc-2024-bicuspid-growth-3-mm-in-1-year                              >= 3 mm per year                           3    IIa   C     Table 68, note g
esc-2024-arch-55-mm                                                  >= 55 mm                                   55   IIa   B     Table 39, page 3612
esc-2024-proximal-arch-50-mm-with-ascending-repair                   > 50 mm                                    50   IIa   C     Table 39, page 3612
esc-2024-arch-45-mm-with-ascending-repair                            > 45 mm                                    45   IIb   C     Table 39, page 3612
esc-2024-descending-55-mm                                            >= 55 mm                                   55   I     B     Table 40, page 3613
esc-2024-descending-growth-10-mm-in-1-year                           >= 10 mm per year                          10   IIb   B     section 9.2.5.3.1
esc-2024-descending-growth-5-mm-in-6-months                          >= 5 mm in 6 months                        5    IIb   B     section 9.2.5.3.1
esc-2024-thoraco-abdominal-60-mm                                     >= 60 mm                                   60   I     B     Table 40, page 3613
esc-2024-thoraco-abdominal-55-mm-with-high-risk-feature              >= 55 mm                                   55   IIa   B     Table 40, page 3613
esc-2024-abdominal-men-55-mm                                         >= 55 mm                                   55   I     A     Table 41, page 3615
esc-2024-abdominal-women-50-mm                                       >= 50 mm                                   50   I     A     Table 41, page 3615
esc-2024-abdominal-saccular-45-mm                                    >= 45 mm                                   45   IIb   C     Table 41, page 3615
esc-2024-abdominal-growth-5-mm-in-6-months                           >= 5 mm in 6 months                        5    IIb   C     Table 41, page 3615
esc-2024-abdominal-growth-10-mm-in-1-year                            >= 10 mm per year                          10   IIb   C     Table 41, page 3615
esc-2024-chronic-type-b-60-mm                                        >= 60 mm                                   60   I     B     Table 50, page 3629
esc-2024-chronic-type-b-55-mm                                        >= 55 mm                                   55   IIa   C     Table 50, page 3629
esc-2024-marfan-root-50-mm                                           >= 50 mm                                   50   I     B     Table 62, page 3642
esc-2024-marfan-root-45-mm-with-risk-factor                          >= 45 mm                                   45   IIa   C     Table 62, page 3642
esc-2024-marfan-beyond-root-50-mm                                    >= 50 mm                                   50   IIa   C     Table 62, page 3642
esc-2024-marfan-root-growth-3-mm-in-1-year                           >= 3 mm per year                           3    IIa   C     Table 62, page 3642
esc-2024-marfan-root-45-mm-before-pregnancy                          > 45 mm                                    45   I     C     Table 63
esc-2024-loeys-dietz-root-45-mm                                      > 45 mm                                    45   IIa   C     Table 66, page 3644
esc-2024-loeys-dietz-root-40-mm-with-high-risk-feature               >= 40 mm                                   40   none  none  section 10.1.4.1, page 3643
esc-2024-acta2-root-45-mm                                            >= 45 mm                                   45   IIa   C     Table 67, page 3645
esc-2024-turner-size-index-2-3-with-risk-factor                      > 23 mm/m2                                 2.3  IIa   C     Table 58, page 3640
esc-2024-turner-height-index-2-3-with-risk-factor                    > 23 mm/m                                  2.3  IIa   C     Table 58, page 3640
esc-2024-turner-size-index-2-5-without-risk-factor                   > 25 mm/m2                                 2.5  IIb   C     Table 58, page 3640
esc-2024-turner-height-index-2-5-without-risk-factor                 > 25 mm/m                                  2.5  IIb   C     Table 58, page 3640
esc-eacts-2025-ascending-45-mm-with-valve-surgery                    >= 45 mm                                   45   IIa   C     pdf page 28
svs-2018-abdominal-fusiform-55-mm                                    >= 5.5 cm                                  55   1     A     decision to treat
acc-aha-2022-arch-any-size-with-symptoms                             any size                                   -    1     C-EO  page 49
esc-2024-arch-any-size-with-recurrent-chest-pain                     any size                                   -    I     C     Table 39, page 3612
esc-2024-descending-below-55-mm-with-high-risk-feature               < 55 mm                                    55   IIb   B     Table 40, page 3613
svs-2018-abdominal-any-size-with-pain                                any size                                   -    1     C     decision to treat
svs-2018-abdominal-saccular-any-size                                 any size                                   -    2     C     decision to treat
svs-2018-abdominal-women-50-to-54-mm                                 >= 5.0 to 5.4 cm                           50   2     B     decision to treat
esc-2024-marfan-root-40-to-45-mm-before-pregnancy                    >= 40 to 45 mm                             40   IIb   C     Table 63
esc-2025-marfan-root-45-mm-before-pregnancy                          > 45 mm                                    45   I     C     pdf pages 42 and 43
esc-2025-loeys-dietz-tgfbr-45-mm-before-pregnancy                    >= 45 mm                                   45   I     C     pdf pages 42 and 43
esc-2025-heritable-gene-45-mm-before-pregnancy                       >= 45 mm                                   45   I     C     pdf pages 42 and 43
esc-2025-bicuspid-50-mm-before-pregnancy                             >= 50 mm                                   50   I     C     pdf pages 42 and 43
esc-2025-heritable-no-gene-50-mm-before-pregnancy                    >= 50 mm                                   50   I     C     pdf pages 42 and 43
esc-2025-heritable-arch-descending-abdominal-50-mm-before-pregnancy  >= 50 mm                                   50   IIa   C     pdf pages 42 and 43
esc-2025-loeys-dietz-tgfb-smad-45-mm-before-pregnancy                >= 45 mm                                   45   IIa   C     pdf pages 42 and 43
esc-2025-bicuspid-45-mm-with-risk-factor-before-pregnancy            >= 45 mm                                   45   IIa   C     pdf pages 42 and 43
esc-2025-heritable-no-gene-45-mm-with-risk-factor-before-pregnancy   >= 45 mm                                   45   IIa   C     pdf pages 42 and 43
esc-2025-marfan-root-40-to-45-mm-with-risk-factor-before-pregnancy   >= 40 to 45 mm                             40   IIb   C     pdf pages 42 and 43
esc-2025-loeys-dietz-tgfbr-40-mm-before-pregnancy                    >= 40 mm                                   40   IIb   C     pdf pages 42 and 43
esc-2025-nonsyndromic-40-to-44-mm-before-pregnancy                   >= 40 to 44 mm                             40   IIb   C     pdf pages 42 and 43
esc-2025-turner-size-index-2-5-before-pregnancy                      >= 25 mm/m2                                2.5  none  none  section 8.2
esc-2025-turner-height-index-2-5-before-pregnancy                    >= 25 mm/m                                 2.5  none  none  section 8.2
esc-eacts-2025-ascending-55-mm                                       >= 55 mm                                   55   none  none  pdf page 26
esc-eacts-2025-ascending-50-mm-with-risk-factor                      >= 50 mm                                   50   none  none  pdf page 26
aats-2018-bicuspid-45-mm-with-valve-surgery                          >= 45 mm                                   45   IIa   B     s-0040-1722197
nice-2020-abdominal-55-mm-referral                                   >= 5.5 cm                                  55   none  none  recommendation 1.1.5
`;

const rows = columnsOf(transcription).map(
  ([rule = "", limit = "", value, recommendedClass = "", level = "", where = ""]) => ({
    rule,
    limit,
    value: value === "-" ? null : Number(value),
    recommendedClass,
    level,
    where,
  }),
);
const seen = loadRules().filter(({ checked }) => checked.how === "seen");

test("the transcription holds every rule marked as seen, and no other", () => {
  expect(rows.map(({ rule }) => rule).toSorted()).toEqual(seen.map(({ id }) => id));
});

test.each(rows)("$rule", ({ rule, limit, value, recommendedClass, level, where }) => {
  const found = seen.find(({ id }) => id === rule);
  if (found?.checked.how !== "seen") throw new Error(`${rule} is not marked as seen`);
  const { check, recommendation, checked } = found;
  if (check.kind === "any-size")
    expect({ limit, value }).toEqual({ limit: "any size", value: null });
  else {
    expect(`${check.operator} ${check.printed}`).toBe(limit);
    expect(check.value).toBe(value);
  }
  expect(checked.against).toContain(where);
  if (recommendedClass === "none") expect(recommendation).toBeNull();
  else if (recommendedClass === "-") expect(recommendation?.confirmed).toBe(false);
  else expect(recommendation).toEqual({ class: recommendedClass, level, confirmed: true });
});

/** Same sources: the sexes, genes, planned operations and upper ends that the rows above do not hold. */
test.each([
  ["esc-2024-abdominal-men-55-mm", { sex: ["M"] }],
  ["esc-2024-abdominal-women-50-mm", { sex: ["F"] }],
  ["svs-2018-abdominal-women-50-to-54-mm", { sex: ["F"] }],
  ["esc-2024-marfan-root-45-mm-before-pregnancy", { sex: ["F"] }],
  ["acc-aha-2022-turner-size-index-2-5-with-risk-factor", { ageYears: { atLeast: 15 } }],
  ["esc-2024-turner-size-index-2-3-with-risk-factor", { ageYears: { atLeast: 15 } }],
  ["esc-2024-chronic-type-b-60-mm", { daysSinceOnsetAbove: 90 }],
  [
    "acc-aha-2022-loeys-dietz-arch-descending-abdominal-45-mm",
    { aetiology: ["Loeys-Dietz TGFBR1", "Loeys-Dietz TGFBR2", "Loeys-Dietz SMAD3"] },
  ],
  [
    "acc-aha-2022-loeys-dietz-growth-3-mm-in-1-year",
    { aetiology: ["Loeys-Dietz TGFBR1", "Loeys-Dietz TGFBR2"] },
  ],
  [
    "esc-2025-heritable-gene-45-mm-before-pregnancy",
    { aetiology: ["MYH11", "ACTA2", "PRKG1", "MYLK"], sex: ["F"] },
  ],
  ["esc-2025-marfan-root-40-to-45-mm-with-risk-factor-before-pregnancy", { sex: ["F"] }],
  ["acc-aha-2022-arch-any-size-with-symptoms", { symptoms: "any" }],
  [
    "esc-2024-arch-any-size-with-recurrent-chest-pain",
    { symptoms: ["recurrent chest pain without other cause"] },
  ],
  ["svs-2018-abdominal-any-size-with-pain", { symptoms: ["pain attributable to the aorta"] }],
  ["esc-2024-proximal-arch-50-mm-with-ascending-repair", { considered: ["ascending repair"] }],
])("%s speaks of %o", (rule, population) => {
  expect(seen.find(({ id }) => id === rule)?.population).toMatchObject(population);
});

test("the tables of risk factors are whole", () => {
  const factorsOf = (rule: string) =>
    seen.find(({ id }) => id === rule)?.population.statementsAnyOf?.length;
  // Recommendation Table 38 lists eight factors; Table 68 nine; Table 62 three; Table 58 four and the wish for pregnancy.
  expect(factorsOf("esc-2024-ascending-50-mm-with-risk-factor")).toBe(8);
  expect(factorsOf("esc-2024-bicuspid-ascending-50-mm-with-risk-factor")).toBe(9);
  expect(factorsOf("esc-2024-marfan-root-45-mm-with-risk-factor")).toBe(3);
  expect(factorsOf("esc-2024-turner-size-index-2-3-with-risk-factor")).toBe(5);
});
