import { z } from "zod";
import { stationWalls } from "../cases/vocabulary.ts";
import { edgeIds, lumenIds } from "../quantities/measured-quantity.ts";
import { accessSchema, planningCheckSchema } from "./access-schema.ts";
import { archPlanSchema } from "./arch-plan-schema.ts";
import { optionSchema } from "./option-schema.ts";
import { perfusionSchema } from "./perfusion-schema.ts";
import { place, source } from "./schema-parts.ts";
import { segmentSchema } from "./segment-schema.ts";
import { sizingSchema } from "./sizing-schema.ts";
import { viewsSchema } from "./views-schema.ts";
import { worklistSchema } from "./worklist-schema.ts";

const vector = z
  .tuple([z.number(), z.number(), z.number()])
  .describe("DICOM patient coordinates in mm: to the left, to the back, to the head.");
const size = z.number().nullable();

const station = z
  .strictObject({
    key: z.string(),
    distanceMm: z.number(),
    point: vector.nullable(),
    mark: z
      .strictObject({
        place,
        edge: z.enum(["proximal edge", "distal edge", "centre"]).nullable(),
      })
      .nullable(),
    wall: z.enum(stationWalls).nullable(),
    lumen: z.enum(lumenIds),
    edge: z.enum(edgeIds),
    maximumMm: size,
    minimumMm: size,
    perimeterMm: size,
    areaMm2: size,
    thrombusArcDeg: size,
    thrombusThicknessMm: size,
    calciumArcDeg: size,
    source,
    reader: z.string().nullable(),
    comment: z.string().nullable(),
  })
  .describe("One section across a vessel, at a distance along its centreline.");

const position = {
  patientPosition: z.string().nullable().describe("How the patient lay, as DICOM names it."),
  positionBy: z.string().nullable().describe("Who says so, where the exam does not."),
};

const centreline = z.strictObject({
  exam: z.string(),
  vessel: z.string(),
  label: z.string(),
  ...position,
  origin: z.enum(["centreline sheet", "structured report"]),
  stations: z.array(station),
});

const ring = z
  .strictObject({
    exam: z.string(),
    place,
    measurement: z.string(),
    centre: vector,
    axis: vector.describe("Along the vessel, of length 1 and of either sign."),
    ...position,
  })
  .describe("A ring drawn around the vessel in a report.");

const coverage = z
  .strictObject({
    fromZone: z.string(),
    toZone: z.string(),
    leastMm: z.number().describe("To 20 mm inside the distal stretch, or to its end."),
    mostMm: z.number().describe("To the end of the distal stretch."),
    beyondBorderMm: z
      .number()
      .nullable()
      .describe("From the border of its zone to the beginning of the proximal stretch."),
    used: z.array(z.string()),
  })
  .describe("Length of aorta that fabric between two landing stretches would cover.");

/** The parts of a plan report that speak of how the aorta could be repaired. */
export const planningShape = {
  centrelines: z.array(centreline),
  rings: z.array(ring),
  options: z.array(optionSchema),
  distalLandings: z.array(
    z.strictObject({
      zone: z.string(),
      segments: z.array(segmentSchema),
      checks: z.array(planningCheckSchema),
    }),
  ),
  coverages: z.array(coverage),
  sizings: z.array(
    z.strictObject({
      fromZone: z.string(),
      toZone: z.string().nullable().describe("Null where only the proximal end is sized."),
      sizing: sizingSchema,
    }),
  ),
  archPlans: z.array(archPlanSchema),
  views: viewsSchema,
  access: accessSchema,
  perfusion: perfusionSchema,
  worklists: z.array(worklistSchema).describe("Of the procedures that the case considers."),
};
