import { placeTable } from "../../src/anatomy/places.ts";
import type { Plan } from "../../src/report/plan.ts";
import { assessment } from "./sample-criteria.ts";
import { growthOf } from "./sample-growth.ts";
import { sampleMeasurement, samplePlace } from "./sample-measurements.ts";
import { samplePlan } from "./sample-plan.ts";

const long = (words: string, count: number): string =>
  Array.from({ length: count }, () => words).join(" ");
const unbroken = "Invented".repeat(30);

const exams = Array.from({ length: 12 }, (_, index) => ({
  key: `${2014 + index}-06-01`,
  studyUid: null,
  imagingDate: `${2014 + index}-06-01`,
  imagingDateOrigin: "study date",
  modality: long("computed tomography", 4),
  gated: null,
  reportState: ["preliminary", "partial", "unverified"],
}));

const places = placeTable.map(({ place }) => place.id);
const measurements = exams.flatMap(({ key }, exam) =>
  places.flatMap((id, index) => [
    sampleMeasurement(id, key, 20 + index + exam / 3, { comment: long("an invented comment", 6) }),
    sampleMeasurement(id, key, 10 + index / 2, { key: `t-${id}-${key}`, lumen: "true" }),
  ]),
);

const levels = places.filter((id) => samplePlace(id).kind === "level");
const growth = levels.map((id) => {
  const points = exams.map(({ key }, index) => ({
    exam: key,
    date: key,
    values: [40 + index * 2, 41.3 + index * 2],
    measurements: [],
    low: 36 + index * 2,
    high: 45.3 + index * 2,
    edge: "outer" as const,
    sdMm: 2,
    plane: "perpendicular" as const,
    phase: "unstated" as const,
    comparability: index % 3 === 0 ? ("not-comparable" as const) : ("comparable" as const),
    offset: null,
    reasons: index % 3 === 0 ? [long("an invented reason", 4)] : [],
  }));
  return growthOf(id, { points, sentence: long("Growth beyond any measure.", 40) });
});

const assessments = levels.flatMap((id, place) =>
  (["met", "not-met", "not-assessable", "rule-failed"] as const).map((outcome, index) =>
    assessment(`stuffed-${id}-${outcome}`, {
      title: long("An invented criterion", 9),
      about: samplePlace(id),
      outcome,
      source: { body: unbroken, year: 2000 + place, where: long("section", 20), doi: null },
      confirmed: index > 0,
      limit: {
        operator: ">=",
        value: 50 + index + place,
        below: null,
        unit: "mm",
        printed: long("5 cm", 20),
      },
      missing: outcome === "not-assessable" ? Array.from({ length: 9 }, () => long("fact", 8)) : [],
      reason: long("An invented reason.", 12),
    }),
  ),
);

/** Far more of everything than one sheet holds, in words that are long and words that can't be broken. */
export const stuffedPlan: Plan = {
  ...samplePlan,
  patient: {
    ...samplePlan.patient,
    name: `Testperson ${unbroken} ${long("Alpha", 20)}`,
    id: unbroken,
    issuer: long("Invented Hospital", 12),
    diagnosis: long("descending thoracic aneurysm", 12),
    symptoms: long("compression", 10),
    aetiology: unbroken,
    familyHistory: long("known", 60),
    priorRepair: long("none", 60),
    repairs: [],
    considered: long("descending repair", 30),
    question: long("Does it grow?", 200),
  },
  exams,
  measurements,
  growth,
  assessments,
  disagreements: levels.map((id) => ({
    about: samplePlace(id),
    statements: [],
    sentence: long("Two invented bodies differ.", 20),
  })),
  missing: Array.from({ length: 40 }, (_, index) => ({
    what: `${long("an invented fact", 10)} ${index}`,
    decides: [long("an invented criterion", 10)],
  })),
  prompts: Array.from({ length: 20 }, () => ({
    text: long("Is this an invented question?", 12),
    raisedBy: unbroken,
    answeredBy: "imaging lab",
  })),
};
