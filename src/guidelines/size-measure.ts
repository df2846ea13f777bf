import type { CaseFacts } from "../cases/patient-case.ts";
import {
  aorticHeightIndexCmPerM,
  aorticSizeIndexCmPerM2,
  areaHeightRatioCm2PerM,
  bodySurfaceAreaDuBoisM2,
} from "../quantities/body-size.ts";
import type { LimitKind } from "./rule.ts";

/** How a kind of check makes its number from a diameter in mm; `note` says with which body size. */
export interface SizeMeasure {
  label: string;
  note: string;
  fromDiameterMm: (diameterMm: number) => number;
}

/**
 * The measure of a size criterion for a patient, or the names of the facts that are missing for it. Body surface area
 * is by DuBois and DuBois; the sources of the limits do not name a formula. Throws for a growth kind.
 */
export function sizeMeasure(
  kind: LimitKind,
  { heightCm, weightKg }: CaseFacts,
): SizeMeasure | { missing: string[] } {
  if (kind === "diameter") return { label: "diameter", note: "", fromDiameterMm: (mm) => mm };
  if (kind === "aortic-size-index") {
    if (heightCm === null || weightKg === null) {
      const height = heightCm === null ? ["height"] : [];
      const weight = weightKg === null ? ["weight"] : [];
      return { missing: [...height, ...weight] };
    }
    const areaM2 = bodySurfaceAreaDuBoisM2(heightCm, weightKg);
    return {
      label: "aortic size index",
      note: `body surface area ${areaM2.toFixed(2)} m2 by DuBois from ${heightCm} cm and ${weightKg} kg`,
      fromDiameterMm: (mm) => aorticSizeIndexCmPerM2(mm, areaM2),
    };
  }
  if (heightCm === null) return { missing: ["height"] };
  if (kind === "aortic-height-index") {
    return {
      label: "aortic height index",
      note: `height ${heightCm} cm`,
      fromDiameterMm: (mm) => aorticHeightIndexCmPerM(mm, heightCm),
    };
  }
  if (kind === "area-height-ratio") {
    return {
      label: "area over height",
      note: `area of a circle of this diameter, height ${heightCm} cm`,
      fromDiameterMm: (mm) => areaHeightRatioCm2PerM(mm, heightCm),
    };
  }
  throw new Error(`${kind} is not a size criterion`);
}
