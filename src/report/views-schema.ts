import { z } from "zod";
import { isoDate } from "./schema-parts.ts";

const range = z.strictObject({ value: z.number(), low: z.number(), high: z.number() });
const notAssessable = z.strictObject({
  what: z.string(),
  missing: z.string().describe("What would give it."),
});
const angles = {
  primaryDeg: z.number().describe("Positive to the patient's left (LAO)."),
  secondaryDeg: z.number().describe("Positive to the head (cranial)."),
};
const plusMinusDeg = z
  .number()
  .nullable()
  .describe(
    "How far the angle moves where the axis lies otherwise by its uncertainty; null where that is not known or over 90.",
  );
const edgeOnView = z.strictObject({
  ...angles,
  withinReach: z.boolean(),
  fromFrontalDeg: z.number(),
  plusMinusDeg,
});

const stretchBend = z.strictObject({
  fromMm: z.number(),
  toMm: z.number(),
  points: z.number().int(),
  scatterMm: z
    .number()
    .nullable()
    .describe(
      "Of the points about the smoothed line, in each direction; null where too few lie near each other to smooth.",
    ),
  lengthMm: range.describe(
    "Along the points; high by what chords fall short of the tightest bend.",
  ),
  chordMm: z.number(),
  tortuosity: z.number().nullable().describe("Length over the straight distance, from 1 on."),
  turnDeg: z.number().describe("Sum of all bends, whatever their plane."),
  meanRadiusMm: z.number().nullable().describe("Length over turn; null for a straight stretch."),
  leastRadiusMm: z.number().nullable(),
  sides: z
    .strictObject({ innerMm: range, outerMm: range, differenceMm: range })
    .nullable()
    .describe("The short and the long side, over the reading error of the diameter."),
  spacing: z.strictObject({
    largestMm: z.number(),
    neededMm: z.number().nullable().describe("A tenth of the least radius."),
  }),
  used: z.array(z.string()),
});

const edgeBend = z.strictObject({
  fromMm: z.number(),
  toMm: z.number(),
  points: z.number().int().describe("Points that the curve at the edge was laid through."),
  scatterMm: z.number(),
  radiusMm: z
    .strictObject({
      value: z.number().nullable(),
      low: z.number().nullable(),
      high: z.number().nullable(),
    })
    .describe(
      "Of the centreline, with its 95 % interval by the scatter of the points; null is straight.",
    ),
  innerCurvatureTimesDiameter: range.describe("Without unit; over both errors."),
  straightEnds: z
    .array(
      z.strictObject({
        straightMm: z.number(),
        gapMm: range,
        angleDeg: z.number(),
        isCounted: z.boolean().describe("The gap is of at least 5 mm."),
        spansCounted: z.boolean().describe("The interval of the gap holds 5 mm."),
      }),
    )
    .describe("Under a straight, rigid end of a graft: a model on an even curve."),
});

const family = z.strictObject({
  rows: z.array(
    z.strictObject({
      primaryDeg: angles.primaryDeg,
      secondaryDeg: z
        .union([z.number(), z.literal("any")])
        .nullable()
        .describe('"any" where every tilt is edge-on, null where none under 90 degrees is.'),
      withinReach: z.boolean(),
      plusMinusDeg,
    }),
  ),
  nearest: edgeOnView.nullable().describe("Nearest to straight from the front."),
  nearestWithinReach: edgeOnView.nullable(),
  withoutTilt: edgeOnView.nullable(),
});

const ring = z.strictObject({
  label: z.string(),
  basis: z.enum(["landing segment", "border", "ring in a report"]),
  exam: z.string(),
  date: isoDate,
  atMm: z.number().nullable().describe("On the aortic centreline."),
  axis: z
    .strictObject({
      axis: z
        .tuple([z.number(), z.number(), z.number()])
        .readonly()
        .describe("Along the vessel, of length 1, in DICOM patient coordinates."),
      uncertaintyDeg: z.number().nullable(),
      points: z.number().int().nullable(),
      method: z.string(),
    })
    .nullable(),
  patientPosition: z.string().nullable(),
  positionBy: z.string().nullable(),
  diameterMm: z
    .strictObject({ ...range.shape, method: z.string(), used: z.array(z.string()) })
    .nullable(),
  stretch: stretchBend.nullable(),
  edge: edgeBend.nullable(),
  allowedTiltDeg: z
    .number()
    .nullable()
    .describe("Up to this tilt front and back of the ring lie within 2 mm."),
  views: z
    .strictObject({
      family,
      displacement: z.array(
        z.strictObject({
          ...angles,
          tiltDeg: z.number().describe("0 edge-on, 90 along the vessel."),
          displacementMm: range.nullable().describe("Front to back of the ring, at the patient."),
          shownOf20Mm: z.number(),
        }),
      ),
      profiles: z.array(
        z.strictObject({
          branch: z.string(),
          view: z.strictObject({ ...angles, withinReach: z.boolean() }),
          spreadDeg: z.number(),
          points: z.number().int(),
          used: z.array(z.string()),
        }),
      ),
    })
    .nullable()
    .describe("Null where C-arm angles can't be told."),
  used: z.array(z.string()),
  notAssessable: z.array(notAssessable),
});

/** How the landing rings of a plan report lie, bend and are seen. */
export const viewsSchema = z
  .strictObject({
    reach: z.strictObject({
      primaryDeg: z.number(),
      secondaryDeg: z.number(),
      source: z.string(),
    }),
    rings: z.array(ring),
    perspective: z
      .strictObject({
        offCentreMm: z.number(),
        depthMm: z.number(),
        sourceMm: z.number(),
        shiftMm: z.number(),
      })
      .describe("How much a true beam adds away from its middle: worked for one distance."),
    facts: z.array(
      z.strictObject({
        id: z.string(),
        topic: z.enum(["view", "bend"]),
        text: z.string(),
        source: z.string(),
        confirmed: z.boolean(),
      }),
    ),
    notAssessable: z.array(notAssessable),
  })
  .describe("C-arm angles in degrees as DICOM defines them about the patient. Lengths in mm.");

export type PlanViews = z.infer<typeof viewsSchema>;
export type PlanRingView = PlanViews["rings"][number];
