import { edgeOnSecondaryDeg, ringDisplacementMm, tiltDeg } from "../../geometry/projection.ts";
import { keptWithinMm } from "../../planning/views/ring-displacement.ts";
import { formatNumber } from "../format.ts";
import { plusMinusWords, primaryWords, secondaryWords, viewWords } from "../view-words.ts";
import type { PlanRingView, PlanViews } from "../views-schema.ts";
import { linearScale, roundTicks, type Scale } from "./scales.ts";
import { drawing, element, label, line } from "./svg.ts";

const widthPt = 227;
const left = 26;
const right = widthPt - 8;
const titleRoomPt = 12;
const upper = { top: titleRoomPt, bottom: 84 };
const lower = { top: upper.bottom + 20, bottom: 142 };
const heightPt = lower.bottom + 14;
const primaryTicks = [-90, -45, 0, 45, 90] as const;

const x = linearScale([-90, 90], [left, right]);
const everyDegree = Array.from({ length: 181 }, (_, index) => index - 90);

type DrawnRing = PlanRingView & {
  axis: NonNullable<PlanRingView["axis"]>;
  views: NonNullable<PlanRingView["views"]>;
};

/** Whether the ring has an axis and angles, without which there is nothing to draw. */
export const canBeDrawn = (ring: PlanRingView): ring is DrawnRing =>
  ring.axis !== null && ring.views !== null;

function frame({ top, bottom }: { top: number; bottom: number }, ticks: number[], y: Scale) {
  return [
    line(
      [
        [left, top],
        [left, bottom],
        [right, bottom],
      ],
      "hair",
    ),
    ...ticks.map((tick) =>
      label({
        x: left - 5,
        y: y(tick) + 3,
        text: String(Math.abs(tick)),
        anchor: "end",
        className: "faint",
      }),
    ),
    ...ticks.map((tick) =>
      line(
        [
          [left - 3, y(tick)],
          [left, y(tick)],
        ],
        "hair",
      ),
    ),
  ];
}

/** The edge-on views: tilt against the angle to the side, over the area within reach. */
function drawFamily({ axis, views }: DrawnRing, reach: PlanViews["reach"]): string[] {
  const y = linearScale([-90, 90], [upper.bottom, upper.top]);
  const sideDeg = Math.min(90, reach.primaryDeg);
  const curve = everyDegree.flatMap((deg): [number, number][] => {
    const secondaryDeg = edgeOnSecondaryDeg(axis.axis, deg);
    return typeof secondaryDeg === "number" ? [[x(deg), y(secondaryDeg)]] : [];
  });
  const { nearest, nearestWithinReach, withoutTilt } = views.family;
  // A level vessel has one primary angle, and every tilt.
  const upright: [number, number][] =
    withoutTilt === null
      ? []
      : [
          [x(withoutTilt.primaryDeg), upper.top],
          [x(withoutTilt.primaryDeg), upper.bottom],
        ];
  const points = [
    ...(nearest === null || nearest.withinReach
      ? []
      : [{ view: nearest, className: "point-hollow" }]),
    ...(nearestWithinReach === null ? [] : [{ view: nearestWithinReach, className: "point" }]),
  ];
  return [
    element("rect", {
      x: x(-sideDeg),
      y: y(reach.secondaryDeg),
      width: x(sideDeg) - x(-sideDeg),
      height: y(-reach.secondaryDeg) - y(reach.secondaryDeg),
      class: "view-reach",
    }),
    ...frame(upper, [-90, -45, 0, 45, 90], y),
    line(curve.length > 0 ? curve : upright, "view-curve"),
    ...points.map(({ view, className }) =>
      element("circle", {
        cx: x(view.primaryDeg),
        cy: y(view.secondaryDeg),
        r: 2.8,
        class: className,
      }),
    ),
    label({ x: left, y: upper.top - 4, text: "Edge-on: tilt in °, cranial up, caudal down" }),
  ];
}

/** Front to back of the ring without tilt, against the angle to the side; the tilt to the vessel where no diameter is known. */
function drawDisplacement({ axis, diameterMm }: DrawnRing): string[] {
  const tilts = everyDegree.map((deg) => tiltDeg(axis.axis, deg, 0));
  const values = diameterMm
    ? tilts.map((tilt) => ringDisplacementMm(diameterMm.value, tilt))
    : tilts;
  const most = Math.max(...values, diameterMm ? keptWithinMm : 10);
  const domain: [number, number] = [0, Math.ceil(most / 10) * 10];
  const y = linearScale(domain, [lower.bottom, lower.top]);
  const kept: [number, number][] = [
    [left, y(keptWithinMm)],
    [right, y(keptWithinMm)],
  ];
  return [
    ...frame(lower, roundTicks(domain, 2), y),
    ...(diameterMm ? [line(kept, "gap-end")] : []),
    line(
      values.map((value, index): [number, number] => [x(everyDegree[index] ?? 0), y(value)]),
      "view-curve",
    ),
    label({
      x: left,
      y: lower.top - 5,
      text: diameterMm
        ? "Without tilt: front to back in mm"
        : "Without tilt: vessel to screen in °",
    }),
  ];
}

const anchors = { [-90]: "start", [90]: "end" } as const;

const sideScale = (): string[] =>
  primaryTicks.flatMap((tick) => [
    label({
      x: x(tick),
      y: heightPt - 3,
      text: Math.abs(tick) === 90 ? primaryWords(tick) : `${Math.abs(tick)}°`,
      anchor: tick === -90 || tick === 90 ? anchors[tick] : "middle",
      className: "faint",
    }),
    ...[upper.bottom, lower.bottom].map((bottom) =>
      line(
        [
          [x(tick), bottom],
          [x(tick), bottom + 3],
        ],
        "hair",
      ),
    ),
  ]);

/** The same facts in sentences. */
function describe({ views, diameterMm, allowedTiltDeg }: DrawnRing, reach: PlanViews["reach"]) {
  const { rows } = views.family;
  const edgeOn = rows.map(({ primaryDeg, secondaryDeg, withinReach, plusMinusDeg }) => {
    const at = primaryWords(primaryDeg);
    if (secondaryDeg === null) return `${at}: none.`;
    if (secondaryDeg === "any") return `${at}: any tilt.`;
    const error = plusMinusWords(plusMinusDeg);
    return `${at}: ${secondaryWords(secondaryDeg)} ${error}, ${withinReach ? "within" : "beyond"} reach.`;
  });
  const apart = views.displacement.flatMap((row) => {
    const { displacementMm, tiltDeg: tilt } = row;
    if (displacementMm === null) return `${viewWords(row)}: tilt ${formatNumber(tilt)}°.`;
    const { value, low, high } = displacementMm;
    return `${viewWords(row)}: ${formatNumber(value)} mm (${formatNumber(low)} to ${formatNumber(high)}).`;
  });
  const kept =
    allowedTiltDeg === null || diameterMm === null
      ? ""
      : ` Within ${keptWithinMm} mm up to a tilt of ${formatNumber(allowedTiltDeg)}° at a diameter of ${formatNumber(diameterMm.value)} mm.`;
  const box = `Reach: ${formatNumber(reach.primaryDeg)}° to either side, ${formatNumber(reach.secondaryDeg)}° to head and foot.`;
  return `Edge-on views. ${edgeOn.join(" ")} ${box} Front to back of the ring. ${apart.join(" ")}${kept}`;
}

function captionOf({ views, diameterMm }: DrawnRing, reach: PlanViews["reach"]): string {
  const { nearest, nearestWithinReach } = views.family;
  const sentences = [
    `Grey: within reach (${reach.primaryDeg}° to the side, ${reach.secondaryDeg}° to head and foot).`,
  ];
  if (nearestWithinReach !== null)
    sentences.push(`Filled: nearest to the front within reach, ${viewWords(nearestWithinReach)}.`);
  if (nearest !== null && !nearest.withinReach)
    sentences.push(`Hollow: nearest to the front, beyond reach, ${viewWords(nearest)}.`);
  if (diameterMm !== null) sentences.push(`Dotted: ${keptWithinMm} mm.`);
  return sentences.join(" ");
}

/** Edge-on views of one ring above, its apparent depth without tilt below, both against the angle to the side. About 80 by 55 mm. */
export function viewPlot(
  ring: DrawnRing,
  reach: PlanViews["reach"],
  id: string,
): { svg: string; caption: string } {
  const svg = drawing(
    {
      id,
      widthPt,
      heightPt,
      title: `Views of the ${ring.label}.`,
      description: describe(ring, reach),
    },
    ...drawFamily(ring, reach),
    ...drawDisplacement(ring),
    ...sideScale(),
  );
  return { svg, caption: captionOf(ring, reach) };
}
