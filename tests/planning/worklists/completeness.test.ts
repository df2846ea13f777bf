import { describe, expect, test } from "vitest";
import { placeById } from "../../../src/anatomy/places.ts";
import { archOf } from "../../../src/cases/arch.ts";
import type { PatientCase } from "../../../src/cases/patient-case.ts";
import {
  missingOf,
  type Worklist,
  worklistOf,
} from "../../../src/planning/worklists/completeness.ts";
import type { WorklistBasis } from "../../../src/planning/worklists/what-is-measured.ts";
import {
  type Procedure,
  procedures,
  type WorkItem,
} from "../../../src/planning/worklists/worklists.ts";
import {
  blankCase,
  examDay,
  sampleExam,
  sampleLine,
  sampleStation,
  stretchStations,
  withItem,
} from "./fill-worklist.ts";

test("what a result lacks that has its size comes first, then what most results lack", () => {
  const results = [
    { name: "a", missing: ["diagnosis"], isNear: false },
    { name: "b", missing: ["diagnosis", "height"], isNear: false },
    { name: "c", missing: ["surgical risk"], isNear: true },
    { name: "c", missing: ["surgical risk"], isNear: true },
  ];
  expect(missingOf(results)).toEqual([
    { what: "surgical risk", decides: ["c"] },
    { what: "diagnosis", decides: ["a", "b"] },
    { what: "height", decides: ["b"] },
  ]);
});

const basisOf = (patientCase: PatientCase, rest: Partial<WorklistBasis> = {}): WorklistBasis => ({
  asOf: "2026-01-15",
  isDissected: patientCase.facts.diagnoses === null ? null : true,
  archVariants: archOf(patientCase).variants,
  ...rest,
});
const procedureOf = (id: string): Procedure => {
  const found = procedures.find((one) => one.id === id);
  if (!found) throw new Error(`no procedure ${id}`);
  return found;
};
const itemOf = (procedure: string, id: string): WorkItem => {
  const found = procedureOf(procedure).items.find((one) => one.id === id);
  if (!found) throw new Error(`${procedure} has no item ${id}`);
  return found;
};
const stateOf = (list: Worklist, id: string) => list.items.find(({ item }) => item.id === id);

/** An item that may be anywhere is seen in zone 4. */
const placed = (item: WorkItem): WorkItem =>
  item.form === "findings" && item.place === null ? { ...item, place: placeById("zone-4") } : item;

describe("an invented patient, measured step by step in the order of the list", () => {
  test.each(procedures.map((procedure) => [procedure.id, procedure] as const))(
    "%s: each step takes its item off, nothing comes back, and at the end nothing is missing",
    (_, procedure) => {
      let patientCase = blankCase();
      let before = worklistOf(procedure, patientCase, basisOf(patientCase));
      expect(before.missing.length).toBeGreaterThan(0);
      for (let step = 0; before.missing.length > 0; step++) {
        expect(step).toBeLessThan(procedure.items.length);
        const [first] = before.missing;
        if (!first) throw new Error("no first item");
        patientCase = withItem(patientCase, placed(first.item));
        const after = worklistOf(procedure, patientCase, basisOf(patientCase));
        const ids = new Set(before.missing.map(({ item }) => item.id));
        for (const { item } of after.missing) expect(ids).toContain(item.id);
        expect(after.missing.map(({ item }) => item.id)).not.toContain(first.item.id);
        before = after;
      }
      for (const { state, item } of before.items) {
        expect(["measured", "not needed here"], item.id).toContain(state);
      }
    },
  );
});

describe("the order of what is missing", () => {
  const item = (id: string, decides: string[]): WorkItem => ({
    ...itemOf("access", "right access, way"),
    id,
    decides,
    unless: [],
  });
  // Four calculators: views lacks "a" alone; brain lacks "b" and "c"; cord and wall lack "b", "c" and "d".
  const procedure: Procedure = {
    id: "invented",
    label: "invented",
    basis: [],
    items: [
      item("d", ["cord", "wall"]),
      item("c", ["brain", "cord", "wall"]),
      item("a", ["views"]),
      item("b", ["brain", "cord", "wall"]),
    ],
  };
  const order = (openChecks?: Record<string, number>) => {
    const patientCase = blankCase();
    const basis = {
      ...basisOf(patientCase),
      ...(openChecks ? { openChecksOf: () => openChecks } : {}),
    };
    return worklistOf(procedure, patientCase, basis).missing.map(
      ({ item: { id }, opens, opensAlone }) => [id, opens, opensAlone],
    );
  };

  test("first what is the last thing that a check lacks, then what most lack, then the worklist's order", () => {
    expect(order()).toEqual([
      ["a", 1, 1],
      ["c", 3, 0],
      ["b", 3, 0],
      ["d", 2, 0],
    ]);
  });

  test("a calculator weighs as much as it has checks that can't be judged", () => {
    expect(order({ views: 0, cord: 4, wall: 2, brain: 1 })).toEqual([
      ["c", 7, 0],
      ["b", 7, 0],
      ["d", 6, 0],
      ["a", 0, 0],
    ]);
  });
});

describe("whether an item is measured", () => {
  const zoneTwo = procedureOf("zone 2");
  const largest = itemOf("zone 2", "zone-2, largest diameter, inner");
  const listOf = (patientCase: PatientCase, rest: Partial<WorklistBasis> = {}) =>
    worklistOf(zoneTwo, patientCase, basisOf(patientCase, { isDissected: false, ...rest }));

  test("it has the key and the date of what it was found in", () => {
    const list = listOf(withItem(blankCase(), largest));
    expect(stateOf(list, largest.id)).toMatchObject({
      state: "measured",
      date: examDay,
      used: ["M0"],
      lacks: null,
      what: "largest diameter, inner edge: zone 2",
      why: ["graft diameters at the proximal end", "conditions of the proximal landing"],
    });
  });

  test.each([
    [{ edge: "unstated" as const }, "measured, edge not stated (exam of 2026-01-12)"],
    [{ edge: "outer" as const }, "measured, edge outer (exam of 2026-01-12)"],
    [{ statistic: "unstated" as const }, "measured, statistic not stated (exam of 2026-01-12)"],
    [{ statistic: "mean" as const }, null],
    [{ lumen: "true" as const }, null],
    [{ place: placeById("mid-arch") }, null],
  ])("a reading that differs in %o is not it: %s", (differing, lacks) => {
    const filled = withItem(blankCase(), largest);
    const measurements = filled.measurements.map((one) => ({ ...one, ...differing }));
    const found = stateOf(listOf({ ...filled, measurements }), largest.id);
    expect(found).toMatchObject({ state: "not measured", used: [], lacks });
  });

  test("a lumen that is not stated passes for the whole vessel only where there is no dissection", () => {
    const filled = withItem(blankCase(), largest);
    const measurements = filled.measurements.map((one) => ({ ...one, lumen: "unstated" as const }));
    const open = { ...filled, measurements };
    const state = (isDissected: boolean | null) =>
      stateOf(listOf(open, { isDissected }), largest.id)?.state;
    expect([false, true, null].map(state)).toEqual(["measured", "not measured", "not measured"]);
  });

  test("what only an earlier exam has is out of date, with its date", () => {
    const exams = [sampleExam("2025-03-01"), sampleExam(examDay)];
    const list = listOf(withItem(blankCase({ exams }), largest, "2025-03-01"));
    expect(stateOf(list, largest.id)).toMatchObject({
      state: "out of date",
      date: "2025-03-01",
      lacks: "not in the latest exam, of 2026-01-12",
    });
    expect(list.missing.map(({ item }) => item.id)).toContain(largest.id);
  });

  test.each([
    ["2026-01-13", ["2"], "out of date", 'before the repair "invented repair"'],
    ["2026", ["2"], "out of date", 'not known whether before or after "invented repair"'],
    ["2025-06-01", ["2"], "measured", null],
    ["2026-01-13", ["5"], "measured", null],
    ["2026-02-01", ["2"], "measured", null],
  ])("a repair of %s in zone %s: %s", (date, zones, state, lacks) => {
    const repair = { words: "invented repair", date, zones, kinds: ["stent graft" as const] };
    const filled = withItem(blankCase(), largest);
    const facts = { ...filled.facts, priorRepairs: [repair] };
    expect(stateOf(listOf({ ...filled, facts }), largest.id)).toMatchObject({ state, lacks });
  });

  test("stations through a zone make its single values superfluous, but not those that are written", () => {
    const stations = itemOf("zone 2", "landing in zone 2, sizes");
    const smallest = itemOf("zone 2", "zone-2, smallest diameter, inner");
    const list = listOf(withItem(withItem(blankCase(), stations), largest));
    expect(stateOf(list, largest.id)?.state).toBe("measured");
    expect(stateOf(list, smallest.id)).toMatchObject({
      state: "not needed here",
      lacks: "measured at stations: landing in zone 2, sizes",
    });
  });

  test("what belongs to a dissection is asked for until it is known that there is none", () => {
    const id = "at-coeliac-origin, area, true lumen, inner";
    const state = (isDissected: boolean | null) =>
      stateOf(listOf(blankCase(), { isDissected }), id)?.state;
    expect([true, null, false].map(state)).toEqual([
      "not measured",
      "not measured",
      "not needed here",
    ]);
  });

  test("an artery that is absent needs no size", () => {
    const patency = itemOf("zone 2", "left-vertebral-artery, patency");
    const filled = withItem(blankCase(), patency);
    const findings = filled.findings.map((one) => ({ ...one, state: "absent" }));
    const list = listOf({ ...filled, findings });
    expect(stateOf(list, patency.id)?.state).toBe("measured");
    expect(stateOf(list, "left-vertebral-artery, smallest diameter, inner")).toMatchObject({
      state: "not needed here",
      lacks: "the left vertebral artery is absent",
    });
  });

  test("what hangs on the left subclavian artery is missing until it is stated, also that nothing does", () => {
    const supplies = itemOf("zone 2", "left-subclavian-artery, supplies");
    const stateIn = (patientCase: PatientCase) => stateOf(listOf(patientCase), supplies.id)?.state;
    expect(stateIn(blankCase())).toBe("not measured");
    expect(listOf(blankCase()).missing.map(({ item }) => item.id)).toContain(supplies.id);
    const filled = withItem(blankCase(), supplies);
    for (const state of ["neither", "dialysis access"]) {
      const findings = filled.findings.map((one) => ({ ...one, state }));
      expect(stateIn({ ...filled, findings })).toBe("measured");
    }
  });

  test("an absent artery needs no size even where a later exam does not speak of it, unless one shows it", () => {
    const size = "left-vertebral-artery, smallest diameter, inner";
    const patency = itemOf("zone 2", "left-vertebral-artery, patency");
    const exams = [sampleExam("2025-01-12"), sampleExam(examDay)];
    const early = withItem(blankCase({ exams }), patency, "2025-01-12");
    const absent = early.findings.map((one) => ({ ...one, state: "absent" }));
    const before = { ...early, findings: absent };
    expect(stateOf(listOf(before), size)?.state).toBe("not needed here");
    const after = withItem(before, patency);
    expect(stateOf(listOf(after), size)?.state).toBe("not measured");
  });

  test("an arch variant takes off what it has not and asks for what it alone has", () => {
    const common = "common origin of the innominate and left common carotid arteries" as const;
    const state = (archVariants: WorklistBasis["archVariants"], id: string) =>
      stateOf(listOf(blankCase(), { archVariants }), id)?.state;
    const usual = "mark, innominate-artery, distal edge";
    const own = "mark, common-origin-innominate-left-carotid, distal edge";
    expect([state([], usual), state([], own)]).toEqual(["not measured", "not needed here"]);
    expect([state([common], usual), state([common], own)]).toEqual([
      "not needed here",
      "not measured",
    ]);
  });
});

describe("stations of a centreline", () => {
  const item = itemOf("zone 2", "landing in zone 2, sizes");
  const wall = itemOf("zone 2", "landing in zone 2, wall");
  const points = itemOf("zone 2", "landing in zone 2, points");
  if (item.form !== "stretch") throw new Error("no stretch");
  const found = (
    line: ReturnType<typeof sampleLine>,
    asked: WorkItem = item,
    isDissected: boolean | null = false,
  ) => {
    const patientCase = blankCase({ centrelines: [line] });
    const list = worklistOf(procedureOf("zone 2"), patientCase, {
      ...basisOf(patientCase),
      isDissected,
    });
    return stateOf(list, asked.id);
  };
  const [first, middle, last] = stretchStations(item);
  if (!first || !middle || !last) throw new Error("no stations");

  test("from mark to mark, close enough and filled, they are measured with all their keys", () => {
    expect(found(sampleLine([first, middle, last]))).toMatchObject({
      state: "measured",
      used: [first.key, middle.key, last.key],
    });
  });

  test("one that is missing is told by the distance", () => {
    expect(found(sampleLine([first, last]))?.lacks).toBe(
      "up to 20.0 mm between stations (exam of 2026-01-12)",
    );
  });

  test("ten millimetres that are a little over in binary are ten", () => {
    const shifted = [0.1 + 0.2, 10.3, 20.3].map((distanceMm, index) => ({
      ...([first, middle, last][index] ?? first),
      distanceMm,
    }));
    expect(found(sampleLine(shifted))?.state).toBe("measured");
  });

  test("columns that are empty are counted", () => {
    const bare = { ...middle, perimeterMm: null, areaMm2: null, calciumArcDeg: null };
    expect(found(sampleLine([first, bare, last]))?.lacks).toBe(
      "no perimeter_mm at 1 of 3 stations; no area_mm2 at 1 of 3 stations (exam of 2026-01-12)",
    );
    expect(found(sampleLine([first, bare, last]), wall)?.lacks).toContain(
      "no calcium_arc_deg at 1 of 3 stations",
    );
  });

  test("thrombus needs its thickness where there is some", () => {
    const some = { ...middle, thrombusArcDeg: 90 };
    expect(found(sampleLine([first, some, last]), wall)?.lacks).toContain("no thrombus_mm at 1 of");
    const thick = { ...some, thrombusThicknessMm: 3 };
    expect(found(sampleLine([first, thick, last]), wall)?.state).toBe("measured");
  });

  test("points need the position of the patient", () => {
    const line = sampleLine([first, middle, last], { patientPosition: null });
    expect(found(line, points)?.lacks).toContain("no patient_position at 3 of 3 stations");
  });

  test("a branch that is marked by its centre, and a stretch without its mark, say so", () => {
    const centre = { ...first, mark: first.mark && { ...first.mark, edge: "centre" as const } };
    const line = sampleLine([centre, middle, last]);
    expect(
      found(line, itemOf("zone 2", "mark, left-common-carotid-artery, distal edge"))?.lacks,
    ).toBe("marked by its centre alone (exam of 2026-01-12)");
    expect(found(line)?.lacks).toBe(
      "no station marked as distal edge of the left common carotid artery (exam of 2026-01-12)",
    );
  });

  test("a station of no stated lumen, or of the true lumen, is none of the whole vessel in a dissection", () => {
    const open = sampleLine([first, { ...middle, lumen: "unstated" }, last]);
    expect(found(open)?.state).toBe("measured");
    expect(found(open, item, true)?.lacks).toContain("up to 20.0 mm between stations");
    const trueLumen = sampleLine([first, { ...middle, lumen: "true" }, last]);
    expect(found(trueLumen)?.lacks).toContain("up to 20.0 mm between stations");
  });

  test("a stretch whose end stands before its start is not measured", () => {
    const swapped = sampleLine([
      { ...first, distanceMm: 50 },
      { ...sampleStation(25) },
      { ...last, distanceMm: 0 },
    ]);
    expect(found(swapped)?.lacks).toContain("its end stands before its start");
  });
});
