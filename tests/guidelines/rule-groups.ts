/**
 * Of whom and of which places the rules speak, typed by hand and not made from the rule files: a line with the places,
 * the causes and diagnoses asked for and the diagnoses excluded, then the rules of which it is true.
 */
export const ruleGroups = `
places root, ascending | causes degenerative | diagnoses any | not type A dissection
  acc-aha-2022-ascending-55-mm
  acc-aha-2022-ascending-50-mm-experienced-team
  acc-aha-2022-ascending-area-height-10
  acc-aha-2022-ascending-size-index-3-08
  acc-aha-2022-ascending-height-index-3-21
  acc-aha-2022-ascending-growth-5-mm-in-1-year
  acc-aha-2022-ascending-growth-3-mm-in-2-years
  esc-2024-ascending-55-mm
  esc-2024-ascending-50-mm-with-risk-factor
  esc-2024-ascending-45-mm-with-valve-surgery-low-risk
  esc-2024-ascending-50-mm-with-valve-surgery
  esc-2024-ascending-50-mm-with-other-cardiac-surgery
  esc-2024-ascending-growth-3-mm-in-1-year
places ascending | causes degenerative | diagnoses any | not type A dissection
  acc-aha-2022-ascending-45-mm-with-valve-surgery
  acc-aha-2022-ascending-50-mm-with-valve-surgery
  acc-aha-2022-ascending-50-mm-with-other-cardiac-surgery
  esc-2024-tubular-ascending-52-mm-low-risk
  eacts-sts-2024-ascending-50-mm-with-risk-factor
places root | causes degenerative | diagnoses any | not type A dissection
  eacts-sts-2024-root-phenotype-50-mm-low-risk
places root, ascending | causes bicuspid valve | diagnoses any | not type A dissection
  acc-aha-2022-bicuspid-55-mm
  acc-aha-2022-bicuspid-area-height-10
  acc-aha-2022-bicuspid-50-to-54-mm-with-risk-factor
  acc-aha-2022-bicuspid-50-to-54-mm-low-risk
  acc-aha-2022-bicuspid-45-mm-with-valve-surgery
  acc-aha-2022-bicuspid-growth-3-mm-in-1-year
  esc-2024-bicuspid-55-mm
  esc-2024-bicuspid-45-mm-with-valve-surgery
  esc-2025-bicuspid-50-mm-before-pregnancy
  esc-2025-bicuspid-45-mm-with-risk-factor-before-pregnancy
  aats-2018-bicuspid-55-mm
  aats-2018-bicuspid-50-mm-with-risk-factor
  aats-2018-bicuspid-50-mm-low-risk
  aats-2018-bicuspid-area-height-10
places ascending | causes bicuspid valve | diagnoses any | not type A dissection
  esc-2024-bicuspid-ascending-52-mm-low-risk
  esc-2024-bicuspid-ascending-50-mm-with-risk-factor
  esc-2024-bicuspid-growth-3-mm-in-1-year
  eacts-sts-2024-bicuspid-ascending-50-mm-with-risk-factor
  eacts-sts-2024-bicuspid-growth-3-mm-in-1-year
  aats-2018-bicuspid-45-mm-with-valve-surgery
places root | causes bicuspid valve | diagnoses any | not type A dissection
  esc-2024-bicuspid-root-phenotype-50-mm
  eacts-sts-2024-bicuspid-root-phenotype-50-mm
places root, ascending | causes degenerative, bicuspid valve | diagnoses any | not type A dissection
  eacts-sts-2024-ascending-55-mm
  eacts-sts-2024-ascending-45-mm-with-valve-surgery
  eacts-sts-2024-ascending-50-mm-with-other-cardiac-surgery
  esc-eacts-2025-ascending-45-mm-with-valve-surgery
  esc-eacts-2025-ascending-55-mm
  esc-eacts-2025-ascending-50-mm-with-risk-factor
places ascending | causes degenerative, bicuspid valve | diagnoses any | not type A dissection
  eacts-sts-2024-ascending-phenotype-52-mm-low-risk
places root | causes Marfan | diagnoses any | not type A dissection
  acc-aha-2022-marfan-root-50-mm
  acc-aha-2022-marfan-root-45-mm-with-risk-feature
  acc-aha-2022-marfan-root-area-height-10
  esc-2024-marfan-root-50-mm
  esc-2024-marfan-root-45-mm-with-risk-factor
  esc-2024-marfan-root-45-mm-before-pregnancy
  esc-2024-marfan-root-growth-3-mm-in-1-year
  eacts-sts-2024-marfan-root-50-mm
  eacts-sts-2024-marfan-root-45-mm-with-risk-feature
  esc-2024-marfan-root-40-to-45-mm-before-pregnancy
  esc-2025-marfan-root-45-mm-before-pregnancy
  esc-2025-marfan-root-40-to-45-mm-with-risk-factor-before-pregnancy
places arch, descending, abdominal | causes Marfan | diagnoses any | not type A dissection, type B dissection
  acc-aha-2022-marfan-arch-descending-abdominal-50-mm
places ascending, arch, descending, abdominal | causes Marfan | diagnoses any | not type A dissection, type B dissection
  esc-2024-marfan-beyond-root-50-mm
places root, ascending | causes Loeys-Dietz TGFBR1 | diagnoses any | not type A dissection
  acc-aha-2022-loeys-dietz-tgfbr1-45-mm
  acc-aha-2022-loeys-dietz-tgfbr1-40-mm-with-high-risk-feature
places root, ascending | causes Loeys-Dietz TGFBR2 | diagnoses any | not type A dissection
  acc-aha-2022-loeys-dietz-tgfbr2-45-mm
  acc-aha-2022-loeys-dietz-tgfbr2-40-mm-with-high-risk-feature
places root, ascending | causes Loeys-Dietz TGFBR1, Loeys-Dietz TGFBR2 | diagnoses any | not type A dissection
  acc-aha-2022-loeys-dietz-growth-3-mm-in-1-year
  eacts-sts-2024-loeys-dietz-tgfbr-45-mm
  eacts-sts-2024-loeys-dietz-tgfbr-40-mm-with-risk-feature
  esc-2025-loeys-dietz-tgfbr-45-mm-before-pregnancy
  esc-2025-loeys-dietz-tgfbr-40-mm-before-pregnancy
places root, ascending | causes Loeys-Dietz SMAD3 | diagnoses any | not type A dissection
  acc-aha-2022-loeys-dietz-smad3-45-mm
places root, ascending | causes Loeys-Dietz TGFB2 | diagnoses any | not type A dissection
  acc-aha-2022-loeys-dietz-tgfb2-45-mm
places root, ascending | causes Loeys-Dietz SMAD3, Loeys-Dietz TGFB2 | diagnoses any | not type A dissection
  eacts-sts-2024-loeys-dietz-smad3-tgfb2-45-mm
places root, ascending | causes Loeys-Dietz TGFB3 | diagnoses any | not type A dissection
  acc-aha-2022-loeys-dietz-tgfb3-50-mm
  eacts-sts-2024-loeys-dietz-tgfb3-50-mm
places arch, descending, abdominal | causes Loeys-Dietz TGFBR1, Loeys-Dietz TGFBR2, Loeys-Dietz SMAD3 | diagnoses any | not type A dissection, type B dissection
  acc-aha-2022-loeys-dietz-arch-descending-abdominal-45-mm
places root | causes Loeys-Dietz TGFBR1, Loeys-Dietz TGFBR2, Loeys-Dietz SMAD2, Loeys-Dietz SMAD3, Loeys-Dietz TGFB2, Loeys-Dietz TGFB3 | diagnoses any | not type A dissection
  esc-2024-loeys-dietz-root-45-mm
  esc-2024-loeys-dietz-root-40-mm-with-high-risk-feature
places root, ascending | causes Marfan, Loeys-Dietz TGFBR1, Loeys-Dietz TGFBR2, Loeys-Dietz SMAD2, Loeys-Dietz SMAD3, Loeys-Dietz TGFB2, Loeys-Dietz TGFB3, heritable, no gene found, ACTA2, PRKG1, MYH11, MYLK, LOX | diagnoses any | not type A dissection
  acc-aha-2022-heritable-growth-3-mm-in-1-year
places root, ascending | causes Turner | diagnoses any | not type A dissection
  acc-aha-2022-turner-size-index-2-5-with-risk-factor
  acc-aha-2022-turner-size-index-2-5-without-risk-factor
  esc-2024-turner-size-index-2-3-with-risk-factor
  esc-2024-turner-height-index-2-3-with-risk-factor
  esc-2024-turner-size-index-2-5-without-risk-factor
  esc-2024-turner-height-index-2-5-without-risk-factor
  esc-2025-turner-size-index-2-5-before-pregnancy
  esc-2025-turner-height-index-2-5-before-pregnancy
places root, ascending | causes heritable, no gene found | diagnoses any | not type A dissection
  acc-aha-2022-heritable-no-gene-50-mm
  acc-aha-2022-heritable-no-gene-45-mm-with-risk-feature
  esc-2025-heritable-no-gene-50-mm-before-pregnancy
  esc-2025-heritable-no-gene-45-mm-with-risk-factor-before-pregnancy
  acc-aha-2022-heritable-no-gene-45-mm-with-other-cardiac-surgery
places root, ascending | causes ACTA2 | diagnoses any | not type A dissection
  acc-aha-2022-acta2-45-mm
  acc-aha-2022-acta2-42-mm-with-risk-feature
  eacts-sts-2024-acta2-45-mm
  eacts-sts-2024-acta2-42-mm-with-risk-feature
places root | causes ACTA2 | diagnoses any | not type A dissection
  esc-2024-acta2-root-45-mm
places arch | causes any | diagnoses any | not type A dissection, type B dissection
  acc-aha-2022-arch-55-mm
  esc-2024-arch-55-mm
  eacts-sts-2024-arch-55-mm
  esc-2024-arch-growth-3-mm-in-1-year
places arch | causes any | diagnoses any | not type A dissection
  esc-2024-arch-45-mm-with-ascending-repair
places proximal-arch, zone-1 | causes any | diagnoses any | not type A dissection
  esc-2024-proximal-arch-50-mm-with-ascending-repair
places descending | causes degenerative | diagnoses any | not type A dissection, type B dissection, thoraco-abdominal aneurysm
  acc-aha-2022-descending-55-mm
  acc-aha-2022-descending-growth-5-mm-in-1-year
places descending | causes degenerative, bicuspid valve | diagnoses any | not type A dissection, type B dissection, thoraco-abdominal aneurysm
  esc-2024-descending-55-mm
  esc-2024-descending-growth-10-mm-in-1-year
  esc-2024-descending-growth-5-mm-in-6-months
  eacts-sts-2024-descending-55-mm
  svs-2021-descending-55-mm
places thoraco-abdominal | causes degenerative | diagnoses thoraco-abdominal aneurysm | not type A dissection, type B dissection
  acc-aha-2022-thoraco-abdominal-60-mm
  acc-aha-2022-thoraco-abdominal-55-mm-experienced-team
  acc-aha-2022-thoraco-abdominal-below-55-mm-with-risk-factor
  esc-2024-thoraco-abdominal-60-mm
  esc-2024-thoraco-abdominal-55-mm-with-high-risk-feature
  eacts-sts-2024-thoraco-abdominal-55-mm
  esc-2024-thoraco-abdominal-growth-10-mm-in-1-year
  esc-2024-thoraco-abdominal-growth-5-mm-in-6-months
places abdominal | causes any | diagnoses any | not type A dissection, type B dissection, thoraco-abdominal aneurysm
  acc-aha-2022-abdominal-men-55-mm
  acc-aha-2022-abdominal-women-50-mm
  acc-aha-2022-abdominal-growth-5-mm-in-6-months
  esc-2024-abdominal-men-55-mm
  esc-2024-abdominal-women-50-mm
  esc-2024-abdominal-saccular-45-mm
  esc-2024-abdominal-growth-5-mm-in-6-months
  esc-2024-abdominal-growth-10-mm-in-1-year
  svs-2018-abdominal-fusiform-55-mm
  svs-2018-abdominal-women-50-to-54-mm
  nice-2020-abdominal-55-mm
  nice-2020-abdominal-55-mm-referral
  nice-2020-abdominal-growth-10-mm-in-1-year
  esvs-2024-abdominal-men-55-mm
  esvs-2024-abdominal-women-50-mm
  esvs-2024-abdominal-growth-10-mm-in-1-year
places root, ascending | causes degenerative | diagnoses root aneurysm, ascending aneurysm | not type A dissection
  acc-aha-2022-ascending-any-size-with-symptoms
places arch | causes any | diagnoses arch aneurysm | not type A dissection, type B dissection
  acc-aha-2022-arch-any-size-with-symptoms
  esc-2024-arch-any-size-with-recurrent-chest-pain
  eacts-sts-2024-arch-any-size-with-symptoms
places abdominal | causes any | diagnoses abdominal aneurysm | not type A dissection, type B dissection, thoraco-abdominal aneurysm
  acc-aha-2022-abdominal-any-size-with-symptoms
  acc-aha-2022-abdominal-saccular-any-size
  svs-2018-abdominal-any-size-with-pain
  svs-2018-abdominal-saccular-any-size
  nice-2020-abdominal-any-size-with-symptoms
places descending | causes any | diagnoses descending thoracic aneurysm | not type A dissection, type B dissection, thoraco-abdominal aneurysm
  acc-aha-2022-descending-below-55-mm-with-risk-factor
places descending | causes degenerative, bicuspid valve | diagnoses descending thoracic aneurysm | not type A dissection, type B dissection, thoraco-abdominal aneurysm
  esc-2024-descending-below-55-mm-with-high-risk-feature
  eacts-sts-2024-descending-below-55-mm-with-high-risk-feature
places arch, descending | causes any | diagnoses type A dissection, type B dissection | not none
  acc-aha-2022-chronic-dissection-55-mm
places descending | causes any | diagnoses type B dissection | not none
  esc-2024-chronic-type-b-60-mm
  esc-2024-chronic-type-b-55-mm
  eacts-sts-2024-chronic-dissection-55-mm
  eacts-sts-2024-chronic-dissection-50-mm-staged-plan
places root, ascending | causes Loeys-Dietz TGFB2, Loeys-Dietz TGFB3, Loeys-Dietz SMAD2, Loeys-Dietz SMAD3 | diagnoses any | not type A dissection
  esc-2025-loeys-dietz-tgfb-smad-45-mm-before-pregnancy
places root, ascending | causes MYH11, ACTA2, PRKG1, MYLK | diagnoses any | not type A dissection
  esc-2025-heritable-gene-45-mm-before-pregnancy
places root, ascending | causes heritable, no gene found, ACTA2, PRKG1, MYH11, MYLK, LOX | diagnoses any | not type A dissection
  esc-2025-nonsyndromic-40-to-44-mm-before-pregnancy
places arch, descending, abdominal | causes Marfan, Loeys-Dietz TGFBR1, Loeys-Dietz TGFBR2, Loeys-Dietz SMAD2, Loeys-Dietz SMAD3, Loeys-Dietz TGFB2, Loeys-Dietz TGFB3, heritable, no gene found, ACTA2, PRKG1, MYH11, MYLK, LOX | diagnoses any | not type A dissection, type B dissection
  esc-2025-heritable-arch-descending-abdominal-50-mm-before-pregnancy
places iliac | causes any | diagnoses any | not type A dissection, type B dissection
  esvs-2024-iliac-40-mm
places root, ascending | causes PRKG1 | diagnoses any | not type A dissection
  acc-aha-2022-prkg1-42-mm
  eacts-sts-2024-prkg1-42-mm
  eacts-sts-2024-prkg1-40-mm-with-risk-feature
places root, ascending | causes MYH11, MYLK, LOX | diagnoses any | not type A dissection
  acc-aha-2022-myh11-mylk-lox-45-mm
places root, ascending | causes MYH11 | diagnoses any | not type A dissection
  eacts-sts-2024-myh11-45-mm
places root, ascending | causes Loeys-Dietz SMAD2 | diagnoses any | not type A dissection
  eacts-sts-2024-loeys-dietz-smad2-45-mm
`;

/**
 * The further conditions: the rule, how many factors of which one is enough, and what must all be true. Listed from the
 * rule files and read through against the criteria.
 */
export const ruleStatements = `
aats-2018-bicuspid-50-mm-low-risk                                    0  low predicted surgical risk
aats-2018-bicuspid-50-mm-with-risk-factor                            0  a risk factor that the source names
acc-aha-2022-abdominal-saccular-any-size                             0  saccular aneurysm
acc-aha-2022-acta2-42-mm-with-risk-feature                           0  a feature that raises the risk of dissection
acc-aha-2022-arch-55-mm                                              0  isolated arch aneurysm + no symptoms from the aneurysm + low predicted surgical risk
acc-aha-2022-arch-any-size-with-symptoms                             0  low or intermediate surgical risk
acc-aha-2022-ascending-45-mm-with-valve-surgery                      0  experienced surgeons in a multidisciplinary aortic team
acc-aha-2022-ascending-50-mm-experienced-team                        0  experienced surgeons in a multidisciplinary aortic team
acc-aha-2022-ascending-area-height-10                                0  height more than 1 SD above or below the mean + experienced surgeons in a multidisciplinary aortic team
acc-aha-2022-ascending-height-index-3-21                             0  no symptoms from the aneurysm + experienced surgeons in a multidisciplinary aortic team
acc-aha-2022-ascending-size-index-3-08                               0  no symptoms from the aneurysm + experienced surgeons in a multidisciplinary aortic team
acc-aha-2022-bicuspid-45-mm-with-valve-surgery                       0  experienced surgeons in a multidisciplinary aortic team
acc-aha-2022-bicuspid-50-to-54-mm-low-risk                           0  low predicted surgical risk + experienced surgeons in a multidisciplinary aortic team + no risk factor for dissection beside the valve
acc-aha-2022-bicuspid-50-to-54-mm-with-risk-factor                   4  experienced surgeons in a multidisciplinary aortic team
acc-aha-2022-bicuspid-area-height-10                                 0  experienced surgeons in a multidisciplinary aortic team
acc-aha-2022-descending-below-55-mm-with-risk-factor                 6  -
acc-aha-2022-heritable-no-gene-45-mm-with-other-cardiac-surgery      0  experienced surgeons in a multidisciplinary aortic team
acc-aha-2022-heritable-no-gene-45-mm-with-risk-feature               3  -
acc-aha-2022-loeys-dietz-tgfbr1-40-mm-with-high-risk-feature         4  -
acc-aha-2022-loeys-dietz-tgfbr2-40-mm-with-high-risk-feature         5  -
acc-aha-2022-marfan-root-45-mm-with-risk-feature                     4  experienced surgeons in a multidisciplinary aortic team
acc-aha-2022-marfan-root-area-height-10                              0  experienced surgeons in a multidisciplinary aortic team
acc-aha-2022-thoraco-abdominal-55-mm-experienced-team                0  experienced surgeons in a multidisciplinary aortic team
acc-aha-2022-thoraco-abdominal-below-55-mm-with-risk-factor          5  -
acc-aha-2022-turner-size-index-2-5-with-risk-factor                  3  -
acc-aha-2022-turner-size-index-2-5-without-risk-factor               0  no coarctation, bicuspid valve or hypertension
eacts-sts-2024-acta2-42-mm-with-risk-feature                         0  a risk feature that the source names
eacts-sts-2024-arch-55-mm                                            0  isolated arch aneurysm + no symptoms from the aneurysm
eacts-sts-2024-ascending-50-mm-with-risk-factor                      0  low predicted surgical risk + a risk factor that the source names
eacts-sts-2024-ascending-phenotype-52-mm-low-risk                    0  ascending phenotype + low predicted surgical risk
eacts-sts-2024-bicuspid-ascending-50-mm-with-risk-factor             7  -
eacts-sts-2024-bicuspid-root-phenotype-50-mm                         0  root phenotype
eacts-sts-2024-chronic-dissection-50-mm-staged-plan                  0  part of a repair in several planned steps
eacts-sts-2024-descending-below-55-mm-with-high-risk-feature         0  a high-risk feature that the source names
eacts-sts-2024-loeys-dietz-tgfbr-40-mm-with-risk-feature             0  a risk feature that the source names
eacts-sts-2024-marfan-root-45-mm-with-risk-feature                   0  a risk feature that the source names
eacts-sts-2024-prkg1-40-mm-with-risk-feature                         0  a risk feature that the source names
eacts-sts-2024-root-phenotype-50-mm-low-risk                         0  root phenotype + low predicted surgical risk
esc-2024-abdominal-saccular-45-mm                                    0  saccular aneurysm
esc-2024-arch-45-mm-with-ascending-repair                            0  centre experienced in arch surgery
esc-2024-arch-55-mm                                                  0  isolated arch aneurysm + no symptoms from the aneurysm + low predicted surgical risk
esc-2024-arch-any-size-with-recurrent-chest-pain                     0  low or intermediate surgical risk
esc-2024-ascending-45-mm-with-valve-surgery-low-risk                 0  low predicted surgical risk
esc-2024-ascending-50-mm-with-risk-factor                            8  low predicted surgical risk
esc-2024-bicuspid-ascending-50-mm-with-risk-factor                   9  ascending phenotype: tubular ascending aorta wider than the sinuses + low predicted surgical risk
esc-2024-bicuspid-ascending-52-mm-low-risk                           0  ascending phenotype: tubular ascending aorta wider than the sinuses + low predicted surgical risk
esc-2024-bicuspid-root-phenotype-50-mm                               0  root phenotype: sinuses wider than the tubular ascending aorta
esc-2024-chronic-type-b-55-mm                                        0  low procedural risk
esc-2024-chronic-type-b-60-mm                                        0  reasonable surgical risk
esc-2024-descending-below-55-mm-with-high-risk-feature               3  -
esc-2024-loeys-dietz-root-40-mm-with-high-risk-feature               0  features of high risk
esc-2024-marfan-root-40-to-45-mm-before-pregnancy                    0  wish for pregnancy
esc-2024-marfan-root-45-mm-before-pregnancy                          0  wish for pregnancy
esc-2024-marfan-root-45-mm-with-risk-factor                          3  -
esc-2024-thoraco-abdominal-55-mm-with-high-risk-feature              0  features of high rupture risk + very low surgical risk + experienced surgeons in a multidisciplinary aortic team
esc-2024-tubular-ascending-52-mm-low-risk                            0  low predicted surgical risk
esc-2024-turner-height-index-2-3-with-risk-factor                    5  -
esc-2024-turner-height-index-2-5-without-risk-factor                 0  no bicuspid valve, elongated transverse arch, coarctation or uncontrolled hypertension
esc-2024-turner-size-index-2-3-with-risk-factor                      5  -
esc-2024-turner-size-index-2-5-without-risk-factor                   0  no bicuspid valve, elongated transverse arch, coarctation or uncontrolled hypertension
esc-2025-bicuspid-45-mm-with-risk-factor-before-pregnancy            2  wish for pregnancy
esc-2025-bicuspid-50-mm-before-pregnancy                             0  wish for pregnancy
esc-2025-heritable-arch-descending-abdominal-50-mm-before-pregnancy  0  wish for pregnancy
esc-2025-heritable-gene-45-mm-before-pregnancy                       0  wish for pregnancy
esc-2025-heritable-no-gene-45-mm-with-risk-factor-before-pregnancy   3  wish for pregnancy
esc-2025-heritable-no-gene-50-mm-before-pregnancy                    0  wish for pregnancy
esc-2025-loeys-dietz-tgfb-smad-45-mm-before-pregnancy                0  wish for pregnancy
esc-2025-loeys-dietz-tgfbr-40-mm-before-pregnancy                    0  wish for pregnancy
esc-2025-loeys-dietz-tgfbr-45-mm-before-pregnancy                    0  wish for pregnancy
esc-2025-marfan-root-40-to-45-mm-with-risk-factor-before-pregnancy   2  wish for pregnancy
esc-2025-marfan-root-45-mm-before-pregnancy                          0  wish for pregnancy
esc-2025-nonsyndromic-40-to-44-mm-before-pregnancy                   0  wish for pregnancy + variant, family history or growth speak for it
esc-2025-turner-height-index-2-5-before-pregnancy                    0  wish for pregnancy
esc-2025-turner-size-index-2-5-before-pregnancy                      0  wish for pregnancy
esc-eacts-2025-ascending-45-mm-with-valve-surgery                    0  low predicted surgical risk
esc-eacts-2025-ascending-50-mm-with-risk-factor                      0  additional risk factors + low predicted surgical risk + experienced centre
nice-2020-abdominal-55-mm                                            0  largest antero-posterior diameter, inner edge to inner edge, by ultrasound
nice-2020-abdominal-55-mm-referral                                   0  no symptoms from the aneurysm + largest antero-posterior diameter, inner edge to inner edge, by ultrasound
nice-2020-abdominal-growth-10-mm-in-1-year                           0  aneurysm above 4.0 cm + largest antero-posterior diameter, inner edge to inner edge, by ultrasound
svs-2018-abdominal-fusiform-55-mm                                    0  fusiform aneurysm + low or acceptable surgical risk
svs-2018-abdominal-saccular-any-size                                 0  saccular aneurysm
svs-2021-descending-55-mm                                            0  anatomy of low risk + patient of low risk
`;
