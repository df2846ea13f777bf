import type { Centreline, PatientCase } from "../../cases/patient-case.ts";
import { norm, subtract, type Vector } from "../../geometry/vector.ts";
import { holds } from "../../quantities/limit.ts";
import type { PlanningSettings } from "../../site/planning-settings.ts";
import { type BranchProfile, branchProfile } from "./branch-profile.ts";
import { linePoints } from "../line-points.ts";
import type { NotAssessable } from "./may-view.ts";
import { type EdgeBend, edgeBend, type StretchBend, stretchBend } from "./ring-bend.ts";
import {
  allowedTiltDeg,
  type DisplacementRow,
  displacements,
  perspectiveShiftMm,
} from "./ring-displacement.ts";
import type { VesselDiameter } from "./vessel-diameter.ts";
import { type Reach, type ViewFamily, viewFamily } from "./view-family.ts";
import { type ViewFact, viewFacts } from "./view-facts.ts";
import { type PlacedRing, placedRings, type RingAxis, type RingBasis } from "./view-rings.ts";

/** What the views stand on besides the case. The start of each proximal landing segment is a ring; null where none were made. */
export interface ViewBasis extends RingBasis {
  planning: Pick<PlanningSettings, "cArm">;
}

/** One landing ring: how it lies, how the vessel bends beyond it, how it is seen. */
export interface RingView {
  label: string;
  basis: PlacedRing["basis"];
  exam: string;
  /** Of the exam, YYYY-MM-DD. */
  date: string;
  /** On the aortic centreline; null for a ring of a report. */
  atMm: number | null;
  axis: RingAxis | null;
  patientPosition: string | null;
  positionBy: string | null;
  diameterMm: VesselDiameter | null;
  stretch: StretchBend | null;
  edge: EdgeBend | null;
  /** Tilt up to which front and back of the ring lie within 2 mm; null without a diameter. */
  allowedTiltDeg: number | null;
  /** Null where C-arm angles can't be told; `notAssessable` says why. */
  views: { family: ViewFamily; displacement: DisplacementRow[]; profiles: BranchProfile[] } | null;
  used: string[];
  notAssessable: NotAssessable[];
}

export interface LandingViews {
  reach: Reach & { source: string };
  rings: RingView[];
  /** How much a true beam adds away from its middle: worked for one distance. */
  perspective: { offCentreMm: number; depthMm: number; sourceMm: number; shiftMm: number };
  facts: ViewFact[];
  notAssessable: NotAssessable[];
}

/** A branch this near to a ring is looked at with it; chosen here, no source. */
const nearRingMm = 25;
const perspectiveExample = { offCentreMm: 50, depthMm: 30, sourceMm: 750 } as const;
const commonReach: Reach = { primaryDeg: 90, secondaryDeg: 45 };

/** Every landing ring of a case that has a place on a centreline or was drawn in a report, with its bends and views. */
export function landingViews(patientCase: PatientCase, basis: ViewBasis): LandingViews {
  const reach = basis.planning.cArm;
  const rings = placedRings(patientCase, basis).map((ring) => ringView(patientCase, ring, reach));
  return {
    reach: { ...reach, source: reachSource(reach) },
    rings,
    perspective: { ...perspectiveExample, shiftMm: perspectiveShiftMm(perspectiveExample) },
    facts: viewFacts,
    notAssessable: rings.length > 0 ? [] : [missingRings(patientCase)],
  };
}

const reachSource = ({ primaryDeg, secondaryDeg }: Reach): string =>
  primaryDeg === commonReach.primaryDeg && secondaryDeg === commonReach.secondaryDeg
    ? "common practice, no source"
    : "site file";

function missingRings({ centrelines }: PatientCase): NotAssessable {
  const hasLine = centrelines.some(({ vessel }) => vessel === "aorta");
  return {
    what: "views of the landing rings",
    missing: hasLine
      ? "landing edges on the aortic centreline: branches of the arch marked by their distal edge"
      : "aortic centreline with points in DICOM patient coordinates, or a ring drawn in a structured report",
  };
}

function ringView(patientCase: PatientCase, ring: PlacedRing, reach: Reach): RingView {
  const { label, basis, exam, on, patientPosition, positionBy, diameter } = ring;
  const axis = "missing" in ring.axis ? null : ring.axis;
  const bends = bendsOf(ring);
  const noAxis = "missing" in ring.axis ? [ring.axis] : [];
  const profiles =
    axis === null || ring.lying !== null ? [] : profilesBeside(patientCase, ring, axis.axis, reach);
  return {
    label,
    basis,
    exam,
    date: patientCase.exams.find(({ key }) => key === exam)?.imagingDate ?? exam,
    atMm: on?.atMm ?? null,
    axis,
    patientPosition,
    positionBy,
    diameterMm: diameter,
    stretch: bends.stretch,
    edge: bends.edge,
    allowedTiltDeg: diameter && allowedTiltDeg(diameter.value),
    views:
      axis === null || ring.lying !== null
        ? null
        : viewsAcross(
            axis,
            diameter,
            reach,
            profiles.filter((one) => "view" in one),
          ),
    used: [
      ...new Set([
        ...ring.used,
        ...(bends.stretch?.used ?? []),
        ...profiles.flatMap((one) => ("view" in one ? one.used : [])),
      ]),
    ],
    notAssessable: [
      ...noAxis,
      ...(ring.lying === null ? [] : [ring.lying]),
      ...(diameter === null
        ? [{ what: "displacement of front and back in mm", missing: "diameter at the ring" }]
        : []),
      ...bends.notAssessable,
      ...profiles.filter((one) => "missing" in one),
    ],
  };
}

function viewsAcross(
  axis: RingAxis,
  diameter: VesselDiameter | null,
  reach: Reach,
  profiles: BranchProfile[],
): NonNullable<RingView["views"]> {
  const family = viewFamily(axis, reach);
  return {
    family,
    displacement: displacements(axis, diameter, family.nearestWithinReach ?? family.nearest),
    profiles,
  };
}

function bendsOf({
  on,
  diameter,
}: PlacedRing): Pick<RingView, "stretch" | "edge" | "notAssessable"> {
  if (on === null) {
    const missing = "points of the aortic centreline beyond the ring";
    return { stretch: null, edge: null, notAssessable: [{ what: "bend of the stretch", missing }] };
  }
  const { viewed, atMm, toMm } = on;
  const { bend, notAssessable } = stretchBend(viewed, atMm, toMm);
  const edge = edgeBend(viewed, atMm, diameter);
  return "missing" in edge
    ? { stretch: bend, edge: null, notAssessable: [...notAssessable, edge] }
    : { stretch: bend, edge, notAssessable };
}

/** The branches at a ring, by their marks on its line or by where their own centrelines begin, each with its view or what is missing. */
function profilesBeside(
  { centrelines }: PatientCase,
  { exam, on, centre, diameter }: PlacedRing,
  axis: Vector,
  reach: Reach,
): (BranchProfile | NotAssessable)[] {
  const lines = centrelines.filter((line) => line.exam === exam && isBranch(line));
  const marked = (on?.viewed.line.stations ?? []).flatMap(({ mark, distanceMm }) =>
    mark?.place.kind === "branch" && on && holds(Math.abs(distanceMm - on.atMm), "<=", nearRingMm)
      ? [[mark.place.id, mark.place.label] as const]
      : [],
  );
  const near = lines.flatMap((line) => {
    const [start] = linePoints(line).points;
    if (start === undefined || centre === null) return [];
    const withinMm = nearRingMm + (diameter?.value ?? 0) / 2;
    const isNear = holds(norm(subtract(start, centre)), "<=", withinMm);
    return isNear ? [[line.vessel, line.label] as const] : [];
  });
  const branches = [...new Map([...near, ...marked])];
  if (branches.length === 0) {
    const missing = "branches marked on the aortic centreline, or their own centrelines";
    return [{ what: "view of a branch origin in profile", missing }];
  }
  return branches.map(([id, label]) => {
    const own = lines.find(({ vessel }) => vessel === id) ?? null;
    return branchProfile(label, own, axis, reach);
  });
}

const isBranch = ({ vessel }: Centreline): boolean =>
  vessel !== "aorta" && vessel !== "right access path" && vessel !== "left access path";
