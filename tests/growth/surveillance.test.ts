import { describe, expect, test } from "vitest";
import type { PatientCase } from "../../src/cases/patient-case.ts";
import { surveillance } from "../../src/growth/surveillance.ts";
import { loadSchedules } from "../../src/guidelines/load-schedules.ts";
import type { Schedule } from "../../src/guidelines/schedule.ts";
import { asOf } from "../guidelines/invented-case.ts";
import { bandRows, caseOf, people, repair, scheduleRows } from "./surveillance-rows.ts";

const schedules = loadSchedules();

function scheduleOf(id: string): Schedule {
  const found = schedules.find((one) => one.id === id);
  if (!found) throw new Error(`no schedule ${id}`);
  return found;
}

function judge(id: string, patientCase: PatientCase, day = asOf) {
  const [found] = surveillance(patientCase, [scheduleOf(id)], { asOf: day }).schedules;
  if (!found) throw new Error(`${id} gave nothing`);
  return found;
}

const withFacts = (one: PatientCase, facts: Partial<PatientCase["facts"]>): PatientCase => ({
  ...one,
  facts: { ...one.facts, ...facts },
});

test("every schedule has its row", () => {
  expect(scheduleRows.map(({ schedule }) => schedule).toSorted()).toEqual(
    schedules.map(({ id }) => id),
  );
  const bySize = schedules.filter(({ size }) => size?.kind === "diameter");
  const withBands = new Set(bandRows.map(({ schedule }) => schedule));
  const onlyIf = bySize.filter(({ population }) => population.onlyIf !== undefined);
  expect([...withBands, ...onlyIf.map(({ id }) => id)].toSorted()).toEqual(
    bySize.map(({ id }) => id),
  );
});

describe.each(scheduleRows)("$schedule", ({ schedule, person, exam, due, notFor, fact }) => {
  test(`is due: ${due}`, () => {
    const found = judge(schedule, caseOf(person, exam));
    if (due === "only if") {
      const { onlyIf } = scheduleOf(schedule).population;
      expect(found).toMatchObject({ outcome: "not-assessable", missing: onlyIf, due: null });
      expect(found.sentence).toBe(`Used only if someone states: ${onlyIf?.join("; ")}.`);
      return;
    }
    const [earliest, latest = earliest] = due.split(" ");
    expect(found).toMatchObject({
      outcome: "applies",
      missing: [],
      due: due === "done" ? null : { earliest, latest },
    });
  });

  test(`is not for ${notFor}`, () => {
    const found = judge(schedule, caseOf(notFor, exam));
    expect(found).toMatchObject({ outcome: "does-not-apply", missing: [], due: null });
  });

  test(`can't be judged without ${fact}`, () => {
    const found = judge(schedule, caseOf(person, exam, fact));
    expect(found).toMatchObject({ outcome: "not-assessable", due: null });
    expect(found.missing).toContain(fact);
    expect(found.sentence).toContain(fact);
  });
});

test.each(bandRows)("$schedule: $mm mm $outcome", (row) => {
  const { schedule, person, modalityAndPlace, mm, outcome } = row;
  const found = judge(schedule, caseOf(person, `${modalityAndPlace} ${mm} 2025-01-20`));
  expect(found.outcome).toBe(outcome);
  if (outcome === "does-not-apply") expect(found.sentence).toContain(`is ${mm} mm on 2025-01-20`);
});

/** 2.3 cm/m2 is 41.62 mm at the 1.81 m2 of 170 cm and 70 kg. */
test.each([
  [41.6, "does-not-apply"],
  [41.7, "applies"],
])("an index of Turner syndrome at %d mm %s", (mm, outcome) => {
  const one = caseOf("turner", `MR zone-0 ${mm} 2025-01-20`);
  expect(judge("acc-aha-2022-turner-size-index-above-2-3", one).outcome).toBe(outcome);
});

describe("after a stent graft for aneurysm (ESC 2024: 1, 12, yearly to 60 months, then every 60)", () => {
  const id = "esc-2024-after-thoracic-stent-graft-aneurysm";
  const due = (...dates: string[]) =>
    judge(
      id,
      caseOf("thoracicStentGraft", dates.map((date) => `CT zone-4 40 ${date}`).join(", ")),
      "2031-06-01",
    ).due?.latest;

  test.each([
    ["no exam", [], "2024-02-29"],
    ["an exam before the repair", ["2024-01-30"], "2024-02-29"],
    ["an exam on the day of the repair", ["2024-01-31"], "2024-02-29"],
    ["one as near to the repair as to 1 month", ["2024-02-14"], "2024-02-29"],
    ["one nearer to 1 month", ["2024-02-15"], "2025-01-31"],
    ["one nearer to 1 month than to 12", ["2024-08-15"], "2025-01-31"],
    ["one nearer to 12 months than to 1", ["2024-08-16"], "2026-01-31"],
    ["a missed 1 month and one at 12", ["2025-02-10"], "2026-01-31"],
    ["one at 4 years", ["2028-01-31"], "2029-01-31"],
    ["one at 5 years", ["2029-01-20"], "2034-01-20"],
    ["one at 6 years", ["2030-02-28"], "2035-02-28"],
    ["all in any order", ["2026-01-31", "2024-02-28", "2025-01-31"], "2027-01-31"],
  ])("%s", (_, dates, expected) => {
    expect(due(...dates)).toBe(expected);
  });

  test("the later part has its own class and condition", () => {
    const early = judge(id, caseOf("thoracicStentGraft", "CT zone-4 40 2024-02-28"));
    expect(early).toMatchObject({ recommendation: { class: "I" }, statements: [] });
    const yearly = judge(id, caseOf("thoracicStentGraft", "CT zone-4 40 2025-02-28"));
    expect(yearly).toMatchObject({
      recommendation: { class: "I" },
      statements: ["no abnormality"],
    });
    const late = judge(id, caseOf("thoracicStentGraft", "CT zone-4 40 2029-02-28"), "2029-06-01");
    expect(late).toMatchObject({
      recommendation: { class: "IIa", level: "B", confirmed: true },
      statements: ["no complication in 5 years"],
    });
    expect(late.sentence).toBe(
      "CT of the thoracic aorta due 2034-02-28 (5 years after the last such exam); the last such exam was on " +
        "2029-02-28. It holds only while: no complication in 5 years.",
    );
  });

  test.each([
    ["2025-01-30", null, ""],
    ["2025-01-31", 0, ""],
    ["2025-02-01", 1, ", overdue by 1 day;"],
    ["2025-03-02", 30, ", overdue by 30 days;"],
  ])("on %s it is overdue by %s", (day, overdueDays, words) => {
    const found = judge(id, caseOf("thoracicStentGraft", "CT zone-4 40 2024-02-28"), day);
    expect(found.overdueDays).toBe(overdueDays);
    expect(found.sentence).toContain(words);
    expect(found.sentence.includes("overdue")).toBe(words !== "");
  });
});

describe("imaging of another kind since the day that was due", () => {
  const id = "esc-2024-loeys-dietz-tte";
  const ultrasound = caseOf("loeysDietz", "US aortic-root 40 2025-01-20");
  const withCt = (place: string, date: string): PatientCase => {
    const ct = caseOf("loeysDietz", `CT ${place} 41 ${date}`);
    return {
      ...ultrasound,
      exams: [...ultrasound.exams, ...ct.exams],
      measurements: [...ultrasound.measurements, ...ct.measurements],
    };
  };

  test.each([
    ["aortic-root", "2025-07-20", "2025-07-20"],
    ["aortic-root", "2025-07-19", null],
    ["zone-9", "2025-12-01", null],
  ])("a CT of %s on %s is told as %s, and the date stands", (place, date, told) => {
    const found = judge(id, withCt(place, date));
    expect(found.due).toEqual({ earliest: "2025-07-20", latest: "2026-01-20" });
    expect(found.otherExamSince).toBe(told);
    expect(found.overdueDays).toBe(judge(id, ultrasound).overdueDays);
  });

  test("what was imaged another way comes after what was not", () => {
    const ids = ["esc-2024-loeys-dietz-tte", "esc-2024-loeys-dietz-head-to-pelvis"];
    const { next } = surveillance(withCt("aortic-root", "2025-12-01"), ids.map(scheduleOf), {
      asOf,
    });
    expect(next.due.map(({ otherExamSince }) => otherExamSince).at(-1)).toBe("2025-12-01");
  });
});

describe("which exams count", () => {
  const stentGraft = "esc-2024-after-abdominal-stent-graft-ct";
  const lastOf = (id: string, one: PatientCase) => judge(id, one).lastExam?.date;

  test.each([
    ["CT zone-9", "2025-01-20"],
    ["MR zone-9", "2025-01-20"],
    ["US zone-9", undefined],
    ["XA zone-9", undefined],
    ["CT zone-4", undefined],
    ["CT at-coeliac-origin", undefined],
    ["CT thoracic-aorta", undefined],
    ["CT thoraco-abdominal-aorta", "2025-01-20"],
    ["CT coeliac-artery", undefined],
  ])("%s for CT of the abdominal aorta", (what, date) => {
    expect(lastOf(stentGraft, caseOf("abdominalStentGraft", `${what} 30 2025-01-20`))).toBe(date);
  });

  test.each([
    ["CT zone-4", undefined],
    ["CT zone-9", undefined],
    ["CT zone-4+zone-9", "2025-01-20"],
    ["CT thoraco-abdominal-aorta", "2025-01-20"],
  ])("%s for the whole aorta", (what, date) => {
    const one = caseOf("marfan", `${what} 30 2025-01-20`);
    expect(lastOf("esc-2024-marfan-whole-aorta", one)).toBe(date);
  });

  test("chest and abdomen on one day are one", () => {
    const one = caseOf("marfan", "CT zone-4+zone-9 30 2025-01-20");
    const [exam] = one.exams;
    if (!exam) throw new Error("no exam");
    const split: PatientCase = {
      ...one,
      exams: [exam, { ...exam, key: "second" }],
      measurements: one.measurements.map((reading, index) =>
        index === 0 ? reading : { ...reading, exam: "second" },
      ),
    };
    expect(judge("esc-2024-marfan-whole-aorta", split).lastExam).toEqual({
      date: "2025-01-20",
      exams: ["2025-01-20", "second"],
      modalities: ["CT"],
    });
  });

  test("an ultrasound for TTE, and no CT", () => {
    const found = judge(
      "esc-2024-marfan-root-below-45-mm",
      caseOf("marfan", "CT aortic-root 40 2025-01-20"),
    );
    expect(found).toMatchObject({
      outcome: "not-assessable",
      missing: ["an exam to count from: TTE, aortic root"],
    });
  });

  test("one without modality leaves the date open, unless an exam that counts is later", () => {
    const person = "abdominalStentGraft";
    expect(
      judge(stentGraft, caseOf(person, "CT zone-9 50 2025-01-20, ? zone-9 50 2026-01-20")),
    ).toMatchObject({
      outcome: "not-assessable",
      missing: ["modality of the exam of 2026-01-20"],
      due: null,
    });
    const later = caseOf(person, "? zone-9 50 2024-06-20, CT zone-9 50 2025-01-20");
    expect(judge(stentGraft, later).outcome).toBe("applies");
  });

  test("one without modality counts where the source names none", () => {
    const one = caseOf("abdominal", "? zone-9 35 2025-01-20");
    expect(judge("svs-2018-abdominal-30-to-39-mm", one).lastExam).toMatchObject({ modalities: [] });
  });

  test("none after the day of the report", () => {
    const one = caseOf("abdominal", "CT zone-9 35 2025-01-20, CT zone-9 45 2026-06-02");
    expect(judge("svs-2018-abdominal-30-to-39-mm", one)).toMatchObject({
      lastExam: { date: "2025-01-20" },
      due: { latest: "2028-01-20" },
    });
  });
});

describe("a repair that is only partly described", () => {
  const id = "acc-aha-2022-after-thoracic-stent-graft";
  const known = repair("stent graft", "3", "4");
  const judged = (...priorRepairs: (typeof known)[]) =>
    judge(id, withFacts(caseOf("thoracicStentGraft", "CT zone-4 40 2025-01-20"), { priorRepairs }));

  test.each([
    ["no day", { date: "2024-01" }, 'date of the repair "invented stent graft" to the day'],
    ["no date", { date: null }, 'date of the repair "invented stent graft" to the day'],
    ["no zones", { zones: null }, 'zones of the repair "invented stent graft"'],
    ["no kind", { kinds: [] }, 'kind of the repair "invented stent graft"'],
  ])("with %s", (_, gap, missing) => {
    expect(judged({ ...known, ...gap })).toMatchObject({
      outcome: "not-assessable",
      missing: [missing],
      due: null,
    });
  });

  test("does not matter where it is surely earlier, or of another part or kind", () => {
    const { date } = known;
    expect(judged(known, { ...known, date: "2023" }).start?.date).toBe(date);
    expect(judged(known, { ...known, date: "2023", kinds: [] }).start?.date).toBe(date);
    expect(judged(known, { ...known, date: null, zones: ["9"] }).start?.date).toBe(date);
    expect(judged(known, { ...known, date: null, kinds: ["graft"] }).start?.date).toBe(date);
    expect(judged(known, { ...known, date: "2024" }).outcome).toBe("not-assessable");
  });

  test("the latest repair is the start, and one to come is none", () => {
    expect(judged(known, { ...known, date: "2025-11-03" })).toMatchObject({
      start: { event: "repair", date: "2025-11-03" },
      due: { latest: "2025-12-03" },
    });
    expect(judged({ ...known, date: "2026-06-02" }).outcome).toBe("does-not-apply");
  });

  test("a thoracic stent graft that ends above the renal arteries is none of the abdominal aorta", () => {
    const abdominal = (...zones: string[]) =>
      judge(
        "esc-2024-after-abdominal-stent-graft-ct",
        withFacts(caseOf("abdominal", "CT zone-9 40 2025-01-20"), {
          priorRepairs: [repair("stent graft", ...zones)],
        }),
      ).outcome;
    expect(abdominal("4", "5", "6", "7")).toBe("does-not-apply");
    expect(abdominal("5", "6", "7", "8")).toBe("applies");
    expect(abdominal("7")).toBe("applies");
    expect(abdominal("10-left")).toBe("does-not-apply");
  });

  test("zones that are not stated leave open whether the aorta is unrepaired", () => {
    const unclear = withFacts(caseOf("abdominal", "CT zone-9 35 2025-01-20"), {
      priorRepairs: [{ ...known, zones: null }],
    });
    expect(judge("svs-2018-abdominal-30-to-39-mm", unclear).missing).toEqual([
      'zones of the repair "invented stent graft"',
    ]);
    const valve = withFacts(unclear, { priorRepairs: [{ ...known, kinds: ["valve"], zones: [] }] });
    expect(judge("svs-2018-abdominal-30-to-39-mm", valve).outcome).toBe("applies");
  });
});

describe("the size that decides", () => {
  const id = "svs-2018-abdominal-40-to-49-mm";

  test("is the largest of the latest exam of the part", () => {
    const one = caseOf(
      "abdominal",
      "CT zone-9 52 2024-01-20, CT zone-9+zone-8 44 2025-01-20, CT zone-4 60 2026-01-20",
    );
    expect(judge(id, one)).toMatchObject({ outcome: "applies", due: { latest: "2026-01-20" } });
  });

  test("is missing without a diameter", () => {
    expect(judge(id, caseOf("abdominal", "CT zone-4 44 2025-01-20")).missing).toContain(
      "largest diameter: abdominal aorta",
    );
  });

  test("is open where readings of the exam lie on both sides of a limit", () => {
    const one = caseOf("abdominal", "CT zone-9+zone-9 44 2025-01-20");
    const differing = (value: number) => ({
      ...one,
      measurements: one.measurements.map((reading, index) =>
        index === 0 ? reading : { ...reading, value },
      ),
    });
    expect(judge(id, differing(51)).missing).toEqual([
      "which reading is right (abdominal aorta, on 2025-01-20): 44 or 51 mm",
    ]);
    expect(judge(id, differing(46)).outcome).toBe("applies");
  });

  test("needs a known lumen unless the diagnosis is known and no dissection", () => {
    const one = caseOf("marfan", "US aortic-root 40 2025-01-20");
    const unstated = one.measurements.map((reading) => ({
      ...reading,
      lumen: "unstated" as const,
    }));
    const root = "esc-2024-marfan-root-below-45-mm";
    expect(judge(root, { ...one, measurements: unstated }).outcome).toBe("applies");
    const inDissection = withFacts({ ...one, measurements: unstated }, { diagnoses: null });
    expect(judge(root, inDissection).missing).toEqual([
      "which lumen was measured (aortic root, 2025-01-20)",
    ]);
  });
});

test.each([
  ["aneurysm", "not-assessable"],
  ["coarctation", "does-not-apply"],
])("a bare %s is %s for a thoracic aneurysm", (diagnosis, outcome) => {
  const one = withFacts(caseOf("descending", "CT zone-4 45 2025-01-20"), {
    diagnoses: [diagnosis],
  });
  expect(judge("esc-2024-thoracic-aneurysm-stable", one).outcome).toBe(outcome);
});

describe("what is due next", () => {
  test("stands by date with every body, as JSON", () => {
    const one = caseOf("thoracicStentGraft", "CT zone-4 40 2025-01-20");
    const found = surveillance(one, schedules, { asOf });
    expect(found.next.due.map(({ latest, schedule }) => [latest, schedule])).toEqual([
      ["2026-01-20", "acc-aha-2022-after-thoracic-stent-graft"],
      ["2026-01-31", "eacts-sts-2024-after-thoracic-stent-graft"],
      ["2026-01-31", "esc-2024-after-thoracic-stent-graft-aneurysm"],
    ]);
    expect(found.next.earliest).toMatchObject({ body: "ACC/AHA", year: 2022, confirmed: false });
    expect(found.next.sentence).toBe(
      "Next imaging by published schedules: 2026-01-20: CT (ACC/AHA 2022, not confirmed against the source); " +
        "2026-01-31: CT (EACTS/STS 2024, not confirmed against the source; ESC 2024). Not judged for want of " +
        "facts: 16 more.",
    );
    expect(JSON.parse(JSON.stringify(found))).toEqual(found);
    expect(surveillance(one, schedules.toReversed(), { asOf })).toEqual(found);
  });

  test("says that no schedule applies", () => {
    const small = "CT zone-0+zone-4+zone-9 20 2025-01-20";
    const one = withFacts(caseOf("abdominal", small), { diagnoses: [] });
    expect(surveillance(one, schedules, { asOf }).next).toEqual({
      due: [],
      earliest: null,
      missing: [],
      sentence: "No published schedule on file speaks of this patient.",
    });
  });

  test("says that it can't be told, with what is missing", () => {
    const one = withFacts(caseOf("medicalB", "CT zone-4 40 2025-01-20"), { onsetDate: null });
    const { next } = surveillance(one, [scheduleOf("esc-2024-medical-type-b-or-haematoma")], {
      asOf,
    });
    expect(next).toMatchObject({ due: [], earliest: null, missing: ["onset date"] });
    expect(next.sentence).toBe("When imaging is due can't be told; missing: onset date.");
  });

  test("says that all printed dates are done", () => {
    const one = caseOf("abdominalStentGraft", "CT zone-9 50 2025-01-20");
    const { next } = surveillance(one, [scheduleOf("svs-2018-after-abdominal-stent-graft-ct")], {
      asOf,
    });
    expect(next).toMatchObject({ due: [], earliest: null });
    expect(next.sentence).toMatch(/^All dates of the schedules that apply are done/);
  });

  test("a patient of whom nothing is known gets no date", () => {
    const facts = Object.fromEntries(
      Object.keys(people.medicalB.facts).map((fact) => [fact, null]),
    );
    const one = withFacts(caseOf("medicalB", "CT zone-4 40 2025-01-20"), {
      ...facts,
      aetiology: null,
    });
    const unknown = { ...one, patient: { ...one.patient, sex: null, birthDate: null } };
    const found = surveillance(unknown, schedules, { asOf });
    expect(found.next.due).toEqual([]);
    expect(found.next.missing).toContain("diagnosis");
    expect(found.schedules.filter(({ outcome }) => outcome === "applies")).toEqual([]);
  });
});
