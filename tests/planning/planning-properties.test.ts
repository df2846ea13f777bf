import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Finding, PatientCase, Station } from "../../src/cases/patient-case.ts";
import type { Vector } from "../../src/geometry/vector.ts";
import type { LandingSegment } from "../../src/planning/landing/landing-segment.ts";
import type { Planning } from "../../src/planning/planning.ts";
import { everyFive, lineCase, marks } from "./landing/sample-segments.ts";
import { planned, randomCase, randomInventory } from "./random-plan-case.ts";

const runs = { seed: 20260601, numRuns: 70 };

/** Everything inside a value, each with its path. */
function* inside(value: unknown, path = ""): Generator<[path: string, value: unknown]> {
  yield [path, value];
  if (value === null || typeof value !== "object") return;
  for (const [key, part] of Object.entries(value)) yield* inside(part, `${path}.${key}`);
}

interface Check {
  outcome: string;
  missing: string[];
}
const isCheck = (value: unknown): value is Check =>
  value !== null && typeof value === "object" && "outcome" in value && "missing" in value;

const keysOf = ({ measurements, findings, centrelines }: PatientCase): Set<string> =>
  new Set(
    [...measurements, ...findings, ...centrelines.flatMap(({ stations }) => stations)].map(
      ({ key }) => key,
    ),
  );

describe("planning of any case", () => {
  const outcomes = new Set<string>();
  const looked = { numbers: 0, used: 0, checks: 0 };

  /** What is wrong with a value. */
  function faultOf(path: string, value: unknown, known: ReadonlySet<string>): string | null {
    if (typeof value === "number") {
      looked.numbers += 1;
      return Number.isFinite(value) ? null : `${value}`;
    }
    if (path.endsWith(".used")) {
      looked.used += 1;
      const unknown = (value as string[]).filter((key) => !known.has(key));
      return unknown.length === 0 ? null : `not in the case: ${unknown}`;
    }
    if (!isCheck(value)) return null;
    looked.checks += 1;
    outcomes.add(value.outcome);
    const { outcome, missing } = value;
    if (missing.includes("")) return "a name is empty";
    return missing.length > 0 === (outcome === "not-assessable") ? null : `${outcome}: ${missing}`;
  }

  test("holds no NaN, uses what is in the case, and names what is missing where it can't judge and nowhere else", () => {
    fc.assert(
      fc.property(randomCase, fc.option(randomInventory), (patientCase, inventory) => {
        const known = keysOf(patientCase);
        const faults = [...inside(planned(patientCase, inventory))].flatMap(([path, value]) => {
          const fault = faultOf(path, value, known);
          return fault === null ? [] : `${path}: ${fault}`;
        });
        expect(faults).toEqual([]);
      }),
      runs,
    );
  });

  test("and there was something to look at", () => {
    expect(looked.numbers).toBeGreaterThan(10_000);
    expect(looked.used).toBeGreaterThan(2000);
    expect(looked.checks).toBeGreaterThan(1000);
    const all = ["met", "not-applicable", "not-assessable", "not-met"];
    expect([...outcomes].toSorted()).toEqual(all);
  });
});

/** Any case, or an invented aneurysm with round necks of this width that some graft fits. */
const sizable = fc.oneof(
  randomCase,
  fc.integer({ min: 24, max: 37 }).map((neckMm) =>
    lineCase([
      ...marks,
      ...everyFive((mm) => {
        const across = mm > 110 && mm < 260 ? 55 : neckMm;
        return { maximumMm: across, minimumMm: across };
      }),
    ]),
  ),
);

const segmentsOf = ({ options, distalLandings }: Planning): LandingSegment[] =>
  [...options, ...distalLandings].flatMap(({ segments }) => segments);

describe("what changes planning, and what does not", () => {
  test("more thrombus on a section never lengthens a seal", () => {
    fc.assert(
      fc.property(randomCase, fc.nat(), fc.integer({ min: 1, max: 200 }), (before, where, by) => {
        const centrelines = before.centrelines.map((line) => ({
          ...line,
          stations: line.stations.map((one, index) =>
            line.vessel === "aorta" && index === where % line.stations.length
              ? {
                  ...one,
                  thrombusArcDeg: one.thrombusArcDeg === null ? null : one.thrombusArcDeg + by,
                }
              : one,
          ),
        }));
        const [old, changed] = [before, { ...before, centrelines }].map((one) =>
          segmentsOf(planned(one)),
        );
        for (const head of old ?? []) {
          const same = (all: LandingSegment[] | undefined, which: string) => {
            const own = (all ?? []).filter((one) => one.end === head.end && one.zone === head.zone);
            return (own.find(({ conditions }) => conditions === which) ?? own[0])?.lengthMm;
          };
          for (const which of ["strictest published", "widest published"]) {
            const [one, other] = [same(old, which), same(changed, which)];
            for (const end of ["value", "low", "high"] as const) {
              expect(other?.[end] ?? 0).toBeLessThanOrEqual((one?.[end] ?? 0) + 1e-9);
            }
          }
        }
      }),
      runs,
    );
  });

  test("a wider inventory never takes a fit away", () => {
    let fits = 0;
    fc.assert(
      fc.property(sizable, randomInventory, randomInventory, (patientCase, few, added) => {
        const more = [...few, ...added.map((row) => ({ ...row, id: `more-${row.id}` }))];
        const [one, other] = [few, more].map((rows) => planned(patientCase, rows));
        one?.sizings.forEach(({ sizing }, at) => {
          const wider = other?.sizings[at]?.sizing;
          sizing.inventory?.answers.forEach((answer, index) => {
            fits += answer.fits.length;
            expect(wider?.inventory?.answers[index]?.fits).toEqual(
              expect.arrayContaining(answer.fits),
            );
          });
          const row = (id: string) => wider?.inventory?.rows.find((own) => own.id === id);
          for (const own of sizing.inventory?.rows ?? []) expect(row(own.id)).toEqual(own);
          for (const pair of sizing.piecePairs ?? [])
            expect(wider?.piecePairs).toContainEqual(pair);
        });
        one?.access.sides.forEach(({ sheaths }, at) => {
          const wider = other?.access.sides[at]?.sheaths ?? [];
          for (const sheath of sheaths ?? []) {
            expect(wider.map(({ checks }) => checks)).toContainEqual(sheath.checks);
          }
        });
      }),
      runs,
    );
    expect(fits).toBeGreaterThan(20);
  });

  test("turning the patient about the axis from foot to head turns the views and nothing else", () => {
    let turned = 0;
    fc.assert(
      fc.property(randomCase, fc.integer({ min: -170, max: 170 }), (patientCase, byDeg) => {
        const [cos, sin] = [Math.cos((byDeg * Math.PI) / 180), Math.sin((byDeg * Math.PI) / 180)];
        const about = ([x, y, z]: Vector): Vector => [cos * x - sin * y, sin * x + cos * y, z];
        const [one, other] = [patientCase, turnedCase(patientCase, about)].map((own) =>
          planned(own),
        );
        if (!one || !other) return;
        for (const [part, value] of Object.entries(one)) {
          if (part !== "views") expectNear(other[part as keyof Planning], value);
        }
        one.views.rings.forEach((ring, at) => {
          const same = other.views.rings[at];
          expectNear({ ...same, axis: null, views: null }, { ...ring, axis: null, views: null });
          if (!ring.axis) return;
          const axis = about(ring.axis.axis);
          expectNear(same?.axis, { ...ring.axis, axis });
          const tilted = ring.views?.family.withoutTilt?.primaryDeg;
          const now = same?.views?.family.withoutTilt?.primaryDeg;
          if (tilted === undefined || now === undefined) return;
          turned += 1;
          // Half a turn is the same view from behind.
          const off = (((now - tilted - byDeg) % 180) + 180) % 180;
          expect(Math.min(off, 180 - off)).toBeLessThan(1e-6);
        });
      }),
      runs,
    );
    expect(turned).toBeGreaterThan(20);
  });

  test("the order of stations, measurements and findings changes nothing", () => {
    fc.assert(
      fc.property(randomCase, fc.option(randomInventory), fc.nat(), (patientCase, rows, seed) => {
        const straight = {
          ...patientCase,
          centrelines: patientCase.centrelines.map((line) => ({
            ...line,
            stations: inOrder(line.stations),
          })),
        };
        const mixed = {
          ...patientCase,
          measurements: shuffled(patientCase.measurements, seed),
          findings: shuffled(sameFindings(patientCase.findings), seed + 1).flat(),
          centrelines: patientCase.centrelines.map((line) => ({
            ...line,
            stations: inOrder(shuffled(line.stations, seed + 2)),
          })),
        };
        const [one, other] = [straight, mixed].map((own) => planned(own, rows));
        for (const [part, value] of Object.entries(one ?? {})) {
          const same = other?.[part as keyof Planning];
          if (JSON.stringify(same) !== JSON.stringify(value)) {
            expect(settled(same)).toEqual(settled(value));
          }
        }
      }),
      runs,
    );
  });
});

/** By distance, then lumen, as cases hold their stations; of one distance and lumen in any order. */
const inOrder = (stations: readonly Station[]): Station[] =>
  stations.toSorted((a, b) => a.distanceMm - b.distanceMm || a.lumen.localeCompare(b.lumen));

/** What readers say differently of one place in one exam is named in the order of the case. */
const sameFindings = (findings: readonly Finding[]): Finding[][] => [
  ...Map.groupBy(findings, ({ exam, place, finding }) => `${exam} ${place.id} ${finding}`).values(),
];

function turnedCase(patientCase: PatientCase, about: (point: Vector) => Vector): PatientCase {
  return {
    ...patientCase,
    centrelines: patientCase.centrelines.map((line) => ({
      ...line,
      stations: line.stations.map((one) => ({ ...one, point: one.point && about(one.point) })),
    })),
    rings: patientCase.rings.map((ring) => ({
      ...ring,
      centre: about(ring.centre),
      axis: about(ring.axis),
    })),
  };
}

/** Equal but for rounding: numbers within 1e-6, words with their digits left out. */
function expectNear(actual: unknown, expected: unknown): void {
  if (JSON.stringify(actual) === JSON.stringify(expected)) return;
  const theirs = new Map(inside(actual));
  const differs = (value: unknown, other: unknown): boolean => {
    if (typeof value === "number" && typeof other === "number") {
      return !(Math.abs(other - value) < 1e-6);
    }
    if (typeof value === "string" && typeof other === "string") {
      return value.replaceAll(/[\d.]+/g, "0") !== other.replaceAll(/[\d.]+/g, "0");
    }
    return value === null || typeof value !== "object" ? value !== other : false;
  };
  const ours = [...inside(expected)];
  const different = ours.filter(([path, value]) => differs(value, theirs.get(path)));
  expect(different.map(([path, value]) => [path, value, theirs.get(path)])).toEqual([]);
  expect(theirs.size).toBe(ours.length);
}

/** The same with every list in an order of its own: lists of keys follow the order of the case. */
function settled(value: unknown): unknown {
  if (Array.isArray(value)) {
    const parts = value.map((part) => settled(part));
    const words = new Map(parts.map((part) => [part, JSON.stringify(part)]));
    return parts.toSorted((one, other) =>
      (words.get(one) ?? "") < (words.get(other) ?? "") ? -1 : 1,
    );
  }
  if (value === null || typeof value !== "object") return value;
  return Object.fromEntries(Object.entries(value).map(([key, part]) => [key, settled(part)]));
}

/** A fixed order of its own for every seed. */
function shuffled<T>(all: readonly T[], seed: number): T[] {
  let state = seed % 2 ** 31;
  return all
    .map((one) => {
      state = (1103515245 * state + 12345) % 2 ** 31;
      return { one, at: state };
    })
    .toSorted((a, b) => a.at - b.at)
    .map(({ one }) => one);
}
