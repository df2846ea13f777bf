import fc from "fast-check";
import { archVariantIds } from "../../src/anatomy/arch-variants.ts";
import { placeById, placeTable } from "../../src/anatomy/places.ts";
import { dissectionOf } from "../../src/cases/dissection.ts";
import type {
  Centreline,
  Finding,
  Measurement,
  PatientCase,
  PriorRepair,
  Ring,
  Station,
} from "../../src/cases/patient-case.ts";
import { findingStates, type FindingId, stationWalls } from "../../src/cases/vocabulary.ts";
import type { Vector } from "../../src/geometry/vector.ts";
import { type Planning, type PlanningBasis, planningOf } from "../../src/planning/planning.ts";
import {
  edgeIds,
  lumenIds,
  pathIds,
  quantityIds,
  statisticIds,
} from "../../src/quantities/measured-quantity.ts";
import type { InventoryRow } from "../../src/readers/csv/inventory.ts";
import { planningSchema } from "../../src/site/planning-settings.ts";
import { asOf, inventedCase } from "../guidelines/invented-case.ts";

const exams = ["2025-02-11", "2026-03-02"] as const;
const source = { file: "invented.csv", sha256: null, at: null };
const read = { source, reader: null, comment: null };
const tenths = (min: number, max: number) =>
  fc.integer({ min: min * 10, max: max * 10 }).map((all) => all / 10);
/** Known in three of four cases. */
const perhaps = <T>(value: fc.Arbitrary<T>) => fc.option(value, { freq: 3 });

const places = placeTable.map(({ place }) => place).filter(({ kind }) => kind !== "distance");
const branches = places.filter(({ kind }) => kind === "branch");
const pick = <T>(all: readonly T[]) => fc.constantFrom(...all);

/** Up, over an arch of this radius in a slanting plane, and down. */
function archPoint(mm: number, radiusMm: number, scatter: Vector): Vector {
  const turn = Math.min(Math.max((mm - 40) / radiusMm, 0), Math.PI);
  const down = Math.max(mm - 40 - Math.PI * radiusMm, 0);
  const along = radiusMm * (1 - Math.cos(turn));
  const up = Math.min(mm, 40) + radiusMm * Math.sin(turn) - down;
  return [0.6 * along + scatter[0], 0.8 * along + scatter[1], up + scatter[2]];
}

const scatter = fc.tuple(tenths(-1, 1), tenths(-1, 1), tenths(-1, 1));
const sectionValues = {
  wall: fc.option(pick(stationWalls), { freq: 1 }),
  lumen: fc.oneof({ weight: 8, arbitrary: fc.constant("whole" as const) }, pick(lumenIds)),
  edge: pick(edgeIds),
  maximumMm: perhaps(tenths(24, 46)),
  minimumMm: perhaps(tenths(18, 40)),
  perimeterMm: fc.option(tenths(70, 140)),
  areaMm2: fc.option(tenths(400, 1600)),
  thrombusArcDeg: perhaps(pick([0, 0, 0, 40, 100, 200, 360])),
  thrombusThicknessMm: perhaps(pick([0, 0, 0, 1.5, 4])),
  calciumArcDeg: perhaps(pick([0, 0, 0, 60, 120, 360])),
};

const section = fc.record({ gap: tenths(1, 12), point: perhaps(scatter), ...sectionValues });

const markRows = [
  ["sinotubular-junction", null, 0],
  ["innominate-artery", "distal edge", 60],
  ["left-common-carotid-artery", "distal edge", 68],
  ["left-subclavian-artery", "proximal edge", 70],
  ["left-subclavian-artery", "distal edge", 80],
  ["mid-descending", null, 180],
  ["coeliac-artery", "proximal edge", 300],
] as const;
const unmeasured = {
  point: null,
  wall: null,
  lumen: "unstated",
  edge: "unstated",
  maximumMm: null,
  minimumMm: null,
  perimeterMm: null,
  areaMm2: null,
  thrombusArcDeg: null,
  thrombusThicknessMm: null,
  calciumArcDeg: null,
} as const;

const byPlace = (one: Station, other: Station): number => one.distanceMm - other.distanceMm;

const aorta = fc
  .record({
    exam: pick(exams),
    radiusMm: fc.integer({ min: 20, max: 60 }),
    sections: fc.array(section, { minLength: 0, maxLength: 40 }),
    marks: fc.subarray([...markRows], { minLength: 3 }),
    patientPosition: fc.option(pick(["HFS", "FFS", "HFP"])),
  })
  .map(({ exam, radiusMm, sections, marks, patientPosition }): Centreline => {
    let mm = 0;
    const measured = sections.map(({ gap, point, ...given }, index): Station => {
      mm += gap;
      const key = `S-${exam}-${index}`;
      const at = point && archPoint(mm, radiusMm, point);
      return { key, distanceMm: mm, mark: null, ...given, point: at, ...read };
    });
    const marked = marks.map(([id, edge, distanceMm]): Station => {
      const mark = { place: placeById(id), edge };
      return { key: `S-${exam}-${id}-${edge}`, distanceMm, mark, ...unmeasured, ...read };
    });
    return {
      exam,
      vessel: "aorta",
      label: "aorta",
      patientPosition,
      positionBy: null,
      origin: "centreline sheet",
      stations: [...marked, ...measured].toSorted(byPlace),
    };
  });

const accessMarks = ["zone-10-right", "zone-11-right", "right-common-femoral-artery"];
const vesselLine = fc
  .record({
    exam: pick(exams),
    vessel: pick([
      "right access path",
      "left access path",
      "left-subclavian-artery",
      "left-common-carotid-artery",
    ]),
    sections: fc.array(section, { minLength: 1, maxLength: 8 }),
    direction: fc.tuple(tenths(-1, 1), tenths(-1, 1), tenths(0, 1)),
  })
  .map(({ exam, vessel, sections, direction }): Centreline => {
    let mm = 0;
    const stations = sections.map(({ gap, point, ...given }, index): Station => {
      const isAccess = vessel.endsWith("access path");
      const id = isAccess ? accessMarks[index]?.replace("right", vessel.split(" ")[0] ?? "") : null;
      const mark = id ? { place: placeById(id), edge: null } : null;
      mm += gap;
      const at: Vector | null = point && [
        direction[0] * mm + point[0],
        direction[1] * mm + point[1],
        direction[2] * mm + point[2],
      ];
      const key = `S-${exam}-${vessel}-${index}`;
      return { key, distanceMm: mm, mark, ...given, point: at, ...read };
    });
    const head = { exam, vessel, label: vessel, patientPosition: "HFS", positionBy: null };
    return { ...head, origin: "centreline sheet", stations };
  });

const units = { area: "mm2", volume: "mL", angle: "deg", tortuosity: "1" } as const;
const valueOf = {
  area: tenths(300, 1600),
  volume: tenths(50, 400),
  angle: tenths(0, 120),
  tortuosity: tenths(1, 2),
  radius: tenths(15, 90),
} as const;
const measurement = pick(quantityIds).chain((quantity) =>
  fc
    .record({
      exam: pick(exams),
      place: pick(places),
      statistic: pick(statisticIds),
      lumen: fc.oneof(fc.constant("whole" as const), pick(lumenIds)),
      edge: pick(edgeIds),
      path: pick(pathIds),
      value: quantity in valueOf ? valueOf[quantity as keyof typeof valueOf] : tenths(4, 60),
    })
    .map((given): Omit<Measurement, "key"> => ({
      placeOrigin: "finding site",
      plane: "unstated",
      phase: "unstated",
      derivedFrom: [],
      quantity,
      unit: quantity in units ? units[quantity as keyof typeof units] : "mm",
      asWritten: `${given.value}`,
      ...given,
      ...read,
    })),
);

const findingIds = Object.keys(findingStates) as FindingId[];
const finding = pick(findingIds).chain((id) =>
  fc
    .record({
      exam: pick(exams),
      place: fc.oneof(pick(places), pick(branches)),
      state: pick<string>(findingStates[id]),
    })
    .map((given): Omit<Finding, "key"> => ({ finding: id, ...given, ...read })),
);

const repair = fc.record({
  words: pick(["invented repair", "another invented repair"]),
  date: fc.option(pick(["2019", "2024-05-06", "2026-04-01"])),
  zones: perhaps(fc.subarray(["root", "0", "1", "2", "3", "4", "5", "9"])),
  kinds: fc.subarray(["graft", "stent graft", "frozen elephant trunk", "bypass"] as const, {
    maxLength: 2,
  }),
}) satisfies fc.Arbitrary<PriorRepair>;

const diagnoses = fc.oneof(
  pick([
    null,
    ["arch aneurysm"],
    ["descending thoracic aneurysm"],
    ["penetrating ulcer"],
    ["blunt traumatic injury"],
  ]),
  pick([["type B dissection"], ["intramural haematoma"]]),
);

const facts = fc.record({
  diagnoses,
  onsetDate: fc.option(pick(["2025-01-20", "2026-02-25"])),
  dissectionWords: fc.option(pick(["B_3,9", "B_2,5", "A_0,9"])),
  archVariants: perhaps(fc.subarray(archVariantIds.slice(1), { maxLength: 2 })),
  aetiology: fc.option(pick(["degenerative", "Marfan", "vascular Ehlers-Danlos"])),
  priorRepairs: perhaps(fc.array(repair, { maxLength: 2 })),
  considered: perhaps(fc.subarray(["descending repair", "arch repair"])),
});

const ring = fc
  .record({ exam: pick(exams), place: pick(places), axis: fc.tuple(tenths(-1, 1), tenths(-1, 1)) })
  .map(({ exam, place, axis: [x, y] }): Omit<Ring, "measurement"> => {
    const long = Math.hypot(x, y, 1);
    const axis: Vector = [x / long, y / long, 1 / long];
    return { exam, place, centre: [10, 20, 30], axis, patientPosition: "HFS", positionBy: null };
  });

/** An invented case, of anything from nothing to nearly all that planning looks at. */
export const randomCase: fc.Arbitrary<PatientCase> = fc
  .record({
    facts,
    lines: fc.tuple(perhaps(aorta), fc.option(aorta), fc.array(vesselLine, { maxLength: 4 })),
    measurements: fc.array(measurement, { maxLength: 25 }),
    findings: fc.array(finding, { maxLength: 15 }),
    rings: fc.array(ring, { maxLength: 2 }),
    birthDate: fc.option(fc.constant("1960-01-01")),
  })
  .map(({ facts: stated, lines, measurements, findings, rings, birthDate }) => {
    const base = inventedCase([], stated, { birthDate });
    const [{ 0: exam }] = [base.exams];
    if (!exam) throw new Error("an invented case has an exam");
    const all = [...lines.slice(0, 2), ...lines[2]].filter((line) => line !== null) as Centreline[];
    const one = new Map(all.map((line) => [`${line.exam} ${line.vessel}`, line]));
    const readings = measurements.map((given, index) => ({ key: `M${index}`, ...given }));
    return {
      ...base,
      exams: exams.map((key) => ({ ...exam, key, imagingDate: key })),
      measurements: readings,
      findings: findings.map((given, index) => ({ key: `F${index}`, ...given })),
      centrelines: [...one.values()],
      rings: rings.flatMap((given) => {
        const [first] = readings;
        return first ? [{ ...given, measurement: first.key }] : [];
      }),
    };
  });

const graft = fc.record({
  proximalMm: pick([28, 32, 34, 36, 40, 44]),
  distalMm: pick([24, 28, 32, 36, 40]),
  coveredLengthMm: pick([100, 150, 200]),
  sheathOuterMm: pick([6.7, 7.3, 8, 8.7]),
});
export const randomInventory: fc.Arbitrary<InventoryRow[]> = fc
  .array(graft, { maxLength: 5 })
  .map((rows) =>
    rows.map((row, index) => ({
      id: `G${index}`,
      ...row,
      sheathAsWritten: `${row.sheathOuterMm} mm`,
    })),
  );

/** The whole planning of a case; one reading has an SD of 1 mm. */
export const planned = (
  patientCase: PatientCase,
  inventory: readonly InventoryRow[] | null = null,
  more: Partial<PlanningBasis> = {},
): Planning =>
  planningOf(patientCase, {
    asOf,
    dissection: dissectionOf(patientCase, asOf),
    archConventions: [],
    planning: planningSchema.parse({}),
    inventory,
    readingSdMmOf: () => 1,
    stationSdMmOf: () => 1,
    ...more,
  });
