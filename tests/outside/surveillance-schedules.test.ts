/**
 * The surveillance schedules marked as seen, against a second transcription: typed from notes made while reading the
 * printed sources, apart from the schedule files.
 *
 * Sources, each read as text of the document or of its publisher's own summary:
 * - ACC/AHA 2022 aortic disease guideline, pocket edition, pages 31 and 35.
 * - ESC 2024 guideline on peripheral arterial and aortic diseases, recommendation tables by number and page; of
 *   Figure 24 only the labels.
 * - ESC/EACTS 2025 guideline on valvular heart disease, pdf page 28.
 * - SVS 2018 guideline on abdominal aortic aneurysm, list of recommendations; the line from 5.0 cm was cut off after it.
 * - AATS 2018 consensus on bicuspid aortopathy, J Thorac Cardiovasc Surg 2018;156:e41-e74, Table 4.
 *
 * Columns: schedule; class and level ("none" where the source prints none); size in mm as printed, with < and > for ends
 * left out ("all" where no size is asked); months: fixed ones, then "every n", "until n"; n-m is any time between, and
 * 0-n within n; what it counts from; whether all of it was seen; words by which the source names the place; doi.
 */
import { expect, test } from "vitest";
import { loadSchedules } from "../../src/guidelines/load-schedules.ts";
import type { MonthSpan, Schedule } from "../../src/guidelines/schedule.ts";
import { columnsOf } from "../guidelines/text-table.ts";

const transcription = `
acc-aha-2022-turner-child                              1 C-LD  all      every 60                      last exam   part  page 35                10.1161/CIR.0000000000001106
acc-aha-2022-turner-adult                              1 C-LD  all      every 120                     last exam   part  page 35                10.1161/CIR.0000000000001106
acc-aha-2022-turner-size-index-above-2-3               1 C-EO  >2.3     every 12                      last exam   all   page 35                10.1161/CIR.0000000000001106
acc-aha-2022-marfan-tte                                1 C-EO  all      6 every 12                    first exam  all   page 31                10.1161/CIR.0000000000001106
acc-aha-2022-marfan-after-root-replacement             1 C-LD  all      every 12 until 24 every 24    repair      all   page 31                10.1161/CIR.0000000000001106
acc-aha-2022-marfan-abdominal-after-root-replacement   2a C-LD  all     every 36-60                   repair      all   page 31                10.1161/CIR.0000000000001106
esc-2024-after-open-thoracic-repair                    I B     all      0-1 12 24 every 60            repair      all   Table 43, page 3618    10.1093/eurheartj/ehae179
esc-2024-after-thoracic-stent-graft-aneurysm           I B     all      1 12 every 12 until 60 every 60  repair   all   Table 43, page 3618    10.1093/eurheartj/ehae179
esc-2024-sac-growth-after-stent-graft                  IIa C   all      every 6-12                    last exam   all   Table 43, page 3618    10.1093/eurheartj/ehae179
esc-2024-after-thoracic-stent-graft-acute-syndrome     I B     all      1 6 12 every 12 until 60 every 24  repair  all  Table 54, page 3637    10.1093/eurheartj/ehae179
esc-2024-medical-type-b-or-haematoma                   I C     all      1 3 6 12 every 12             onset       all   Table 54, page 3637    10.1093/eurheartj/ehae179
esc-2024-medical-ulcer                                 I C     all      1 every 6                     onset       all   Table 54, page 3637    10.1093/eurheartj/ehae179
esc-2024-after-open-surgery-acute-syndrome             IIa B   all      0-6 12 every 12               repair      all   Table 54, page 3637    10.1093/eurheartj/ehae179
esc-2024-no-patent-false-lumen-3-years                 IIa C   all      every 24-36                   last exam   all   Table 54, page 3637    10.1093/eurheartj/ehae179
esc-2024-abnormality-after-stent-graft-acute-syndrome  IIa C   all      every 3-6                     last exam   all   Table 54, page 3637    10.1093/eurheartj/ehae179
esc-2024-ascending-men-40-to-44-mm                     none    40-<45   12 every 24-36                first exam  part  Figure 24, page 3608   10.1093/eurheartj/ehae179
esc-2024-ascending-women-36-to-44-mm                   none    36-<45   12 every 24-36                first exam  part  Figure 24, page 3608   10.1093/eurheartj/ehae179
esc-2024-ascending-45-to-49-mm                         none    45-<50   every 12                      last exam   part  Figure 24, page 3608   10.1093/eurheartj/ehae179
esc-2024-ascending-50-to-54-mm                         none    50-<55   every 6                       last exam   part  Figure 24, page 3608   10.1093/eurheartj/ehae179
esc-2024-thoracic-aneurysm-stable                      IIa C   all      every 12                      last exam   all   Table 35, page 3607    10.1093/eurheartj/ehae179
esc-2024-arch-or-descending-50-to-55-mm                none    50-55    every 6                       last exam   all   section 9.2.2.4        10.1093/eurheartj/ehae179
esc-2024-bicuspid-above-40-mm                          I C     >40      12 every 24-36                first exam  all   Table 68               10.1093/eurheartj/ehae179
esc-2024-abdominal-men-50-to-55-mm                     I B     50-55    every 6                       last exam   all   Table 36, page 3609    10.1093/eurheartj/ehae179
esc-2024-abdominal-women-45-to-50-mm                   I B     45-50    every 6                       last exam   all   Table 36, page 3609    10.1093/eurheartj/ehae179
esc-2024-abdominal-30-to-40-mm                         IIa B   30-<40   every 36                      last exam   all   Table 36, page 3609    10.1093/eurheartj/ehae179
esc-2024-abdominal-women-40-to-45-mm                   IIa B   40-<45   every 12                      last exam   all   Table 36, page 3609    10.1093/eurheartj/ehae179
esc-2024-abdominal-men-40-to-50-mm                     IIa B   40-<50   every 12                      last exam   all   Table 36, page 3609    10.1093/eurheartj/ehae179
esc-2024-abdominal-25-to-30-mm                         IIa C   25-<30   every 48                      last exam   all   Table 36, page 3609    10.1093/eurheartj/ehae179
esc-2024-after-open-abdominal-repair                   I A     all      0-12 every 60                 repair      all   Table 43, page 3618    10.1093/eurheartj/ehae179
esc-2024-after-abdominal-stent-graft-ct                I A     all      1 12 every 60                 repair      all   Table 43, page 3618    10.1093/eurheartj/ehae179
esc-2024-after-abdominal-stent-graft-ultrasound        I A     all      1 12 every 12                 repair      all   Table 43, page 3618    10.1093/eurheartj/ehae179
esc-2024-after-abdominal-stent-graft-low-risk          IIa B   all      12 every 24                   repair      all   Table 43, page 3618    10.1093/eurheartj/ehae179
esc-2024-marfan-root-below-45-mm                       I C     <45      every 12                      last exam   all   Table 60, page 3642    10.1093/eurheartj/ehae179
esc-2024-marfan-root-below-45-mm-with-risk-factor      I C     <45      every 6                       last exam   all   Table 60, page 3642    10.1093/eurheartj/ehae179
esc-2024-marfan-root-45-mm                             I C     45-      every 6-12                    last exam   all   Table 60, page 3642    10.1093/eurheartj/ehae179
esc-2024-marfan-whole-aorta                            I C     all      every 36-60                   first exam  all   Table 60, page 3642    10.1093/eurheartj/ehae179
esc-2024-marfan-after-root-replacement                 I C     all      every 36                      repair      all   Table 60, page 3642    10.1093/eurheartj/ehae179
esc-2024-loeys-dietz-tte                               I C     all      every 6-12                    last exam   all   Table 65               10.1093/eurheartj/ehae179
esc-2024-loeys-dietz-head-to-pelvis                    I C     all      every 12-36                   first exam  all   Table 65               10.1093/eurheartj/ehae179
esc-2024-acta2-tte                                     I C     all      every 12                      last exam   all   Table 67               10.1093/eurheartj/ehae179
esc-2024-acta2-ct                                      I C     all      every 36-60                   last exam   all   Table 67               10.1093/eurheartj/ehae179
esc-eacts-2025-regurgitation-above-45-mm               none    >45      6 every 12                    first exam  all   pdf page 28            10.1093/eurheartj/ehaf194
svs-2018-abdominal-25-to-30-mm                         2 C     >25-<30  every 120                     last exam   all   list of recommendations  10.1016/j.jvs.2017.10.044
svs-2018-abdominal-30-to-39-mm                         2 C     30-<40   every 36                      last exam   all   list of recommendations  10.1016/j.jvs.2017.10.044
svs-2018-abdominal-40-to-49-mm                         2 C     40-<50   every 12                      last exam   all   list of recommendations  10.1016/j.jvs.2017.10.044
svs-2018-abdominal-50-to-54-mm                         2 C     50-<55   every 6                       last exam   part  list of recommendations  10.1016/j.jvs.2017.10.044
aats-2018-bicuspid-normal-size                         I C     <40      every 36-60                   last exam   part  Table 4                10.1016/j.jtcvs.2017.10.161
aats-2018-bicuspid-40-to-49-mm                         I C     40-<50   12 every 24-36                first exam  all   Table 4                10.1016/j.jtcvs.2017.10.161
aats-2018-bicuspid-50-to-54-mm                         I C     50-<55   every 12                      last exam   all   Table 4                10.1016/j.jtcvs.2017.10.161
`;

const rows = columnsOf(transcription).map(
  ([
    schedule = "",
    grade = "",
    size = "",
    due = "",
    from = "",
    how = "",
    where = "",
    doi = "",
  ]) => ({
    schedule,
    grade,
    size,
    due,
    from,
    how: how === "part" ? "in-part" : "seen",
    where,
    doi,
  }),
);
const seen = loadSchedules().filter(({ checked }) => checked.how !== "from-memory");
const scheduleOf = (id: string): Schedule => {
  const found = seen.find((one) => one.id === id);
  if (!found) throw new Error(`${id} is not marked as seen`);
  return found;
};

test("the transcription holds every schedule marked as seen, and no other", () => {
  expect(rows.map(({ schedule }) => schedule).toSorted()).toEqual(seen.map(({ id }) => id));
});

test.each(rows)("$schedule", ({ schedule, grade, size, due, from, how, where, doi }) => {
  const found = scheduleOf(schedule);
  expect(gradeWords(found.recommendation)).toBe(grade);
  expect(sizeWords(found.size)).toBe(size);
  expect(dueWords(found.due)).toBe(due);
  expect(found.start.from).toBe(from);
  expect(found.checked.how).toBe(how);
  expect(found.source.where).toContain(where);
  expect(found.source.doi).toBe(doi);
});

/** ESC 2024, Recommendation Tables 43 (page 3618) and 54 (page 3637): the part after 5 years is IIa, B in both. */
test.each([
  ["esc-2024-after-thoracic-stent-graft-aneurysm"],
  ["esc-2024-after-thoracic-stent-graft-acute-syndrome"],
])("the last part of %s has its own grade", (id) => {
  expect(gradeWords(scheduleOf(id).due.phases.at(-1)?.recommendation ?? null)).toBe("IIa B");
});

/** Same sources: patients and kinds of imaging. */
test.each([
  ["esc-2024-abdominal-men-50-to-55-mm", { sex: ["M"] }, "imaging"],
  ["esc-2024-abdominal-women-45-to-50-mm", { sex: ["F"] }, "imaging"],
  ["esc-2024-abdominal-women-40-to-45-mm", { sex: ["F"] }, "imaging"],
  ["esc-2024-abdominal-men-40-to-50-mm", { sex: ["M"] }, "imaging"],
  ["esc-2024-ascending-women-36-to-44-mm", { sex: ["F"] }, "TTE"],
  ["esc-2024-ascending-men-40-to-44-mm", { sex: ["M"] }, "TTE"],
  ["esc-2024-marfan-root-below-45-mm", { aetiology: ["Marfan"] }, "TTE"],
  ["esc-2024-marfan-after-root-replacement", { aetiology: ["Marfan"] }, "CMR or CT"],
  ["esc-2024-loeys-dietz-head-to-pelvis", {}, "CMR or CT from head to pelvis"],
  ["esc-2024-after-abdominal-stent-graft-ct", {}, "CT or CMR"],
  ["acc-aha-2022-marfan-after-root-replacement", { aetiology: ["Marfan"] }, "MR or CT"],
  ["acc-aha-2022-turner-adult", { aetiology: ["Turner"] }, "TTE or MR"],
  ["aats-2018-bicuspid-50-to-54-mm", { aetiology: ["bicuspid valve"] }, "imaging"],
])("%s speaks of %o: %s", (id, population, words) => {
  expect(scheduleOf(id).population).toMatchObject(population);
  expect(scheduleOf(id).imaging.words).toBe(words);
});

function gradeWords(recommendation: Schedule["recommendation"]): string {
  return recommendation === null
    ? "none"
    : `${recommendation.class ?? "-"} ${recommendation.level ?? "-"}`;
}

function sizeWords(size: Schedule["size"]): string {
  if (size === undefined) return "all";
  const { above, atLeast, below, atMost } = size;
  const start = above === undefined ? (atLeast ?? "") : `>${above}`;
  const end = below === undefined ? (atMost ?? "") : `<${below}`;
  return end === "" && above !== undefined
    ? `${start}`
    : `${start}${start === "" ? "" : "-"}${end}`;
}

function dueWords({ at, phases }: Schedule["due"]): string {
  const words = (months: MonthSpan): string =>
    typeof months === "number" ? String(months) : `${months.from}-${months.to}`;
  const later = phases.flatMap(({ every, until }) => [
    `every ${words(every)}`,
    ...(until === undefined ? [] : [`until ${until}`]),
  ]);
  return [...at.map(words), ...later].join(" ");
}
