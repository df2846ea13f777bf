import { type ArchVariantId, archVariantIds } from "../anatomy/arch-variants.ts";
import type { PatientCase } from "./patient-case.ts";

/** One variant as one kind of source states it. */
interface ArchStatement {
  by: "case sheet" | "readings" | "findings";
  variant: ArchVariantId;
  /** Keys of the measurements or findings; empty for the case sheet. */
  used: string[];
}

/** Which arch the patient has, as far as the sources say. */
export interface Arch {
  /** Stated variants, never "usual"; empty for the usual arch; null where nothing is stated or the statements contradict. */
  variants: ArchVariantId[] | null;
  stated: ArchStatement[];
  /** One sentence; null where nothing contradicts. */
  conflict: string | null;
}

/** Statements that exclude each other: an aberrant right subclavian artery belongs to a left arch. */
const exclude = (one: ArchVariantId, other: ArchVariantId): boolean =>
  one !== other &&
  (one === "usual" || (one === "right arch" && other === "aberrant right subclavian artery"));

/** Whether statements of the arch, words of `archVariantIds`, can't all hold. */
export function excludeEachOther(variants: readonly string[]): boolean {
  const known = archVariantIds.filter((id) => variants.includes(id));
  return known.some((one) => known.some((other) => exclude(one, other)));
}

/**
 * The arch by three witnesses: the case sheet, the findings, and measurements at places that only one variant has.
 * Variants that can stand together all count. That no source names a variant does not make the arch usual.
 */
export function archOf({ facts, measurements, findings }: PatientCase): Arch {
  const sheet = facts.archVariants?.length === 0 ? (["usual"] as const) : facts.archVariants;
  const stated = [
    ...statementsBy(
      "case sheet",
      (sheet ?? []).map((variant) => ({ variant, used: [] })),
    ),
    ...statementsBy(
      "readings",
      measurements.map(({ key, place }) => ({ variant: place.variant, used: [key] })),
    ),
    ...statementsBy(
      "findings",
      findings.flatMap(({ key, place, finding, state }) => [
        { variant: place.variant, used: [key] },
        { variant: finding === "arch variant" ? (state as ArchVariantId) : null, used: [key] },
      ]),
    ),
  ];
  const variants = archVariantIds.filter((id) => stated.some(({ variant }) => variant === id));
  const conflict = excludeEachOther(variants)
    ? `The statements of the arch contradict each other: ${stated.map(({ by, variant }) => `${variant} (${by})`).join("; ")}.`
    : null;
  return {
    variants:
      stated.length === 0 || conflict !== null
        ? null
        : variants.filter((variant) => variant !== "usual"),
    stated,
    conflict,
  };
}

function statementsBy(
  by: ArchStatement["by"],
  witnesses: readonly { variant: ArchVariantId | null; used: string[] }[],
): ArchStatement[] {
  const telling = witnesses.flatMap(({ variant, used }) =>
    variant === null ? [] : [{ variant, used }],
  );
  const byVariant = Map.groupBy(telling, ({ variant }) => variant);
  return archVariantIds.flatMap((variant) => {
    const used = byVariant.get(variant)?.flatMap((witness) => witness.used);
    return used ? [{ by, variant, used: [...new Set(used)] }] : [];
  });
}
