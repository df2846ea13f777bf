import { holds } from "../quantities/limit.ts";
import type { LimitCheck, Rule } from "./rule.ts";

type Limit = Pick<LimitCheck, "operator" | "value" | "below" | "printed">;

/** Where a size stands: it meets the limit as printed, lies below it, or above the upper end of a printed band; a limit "<" is such an end. */
export type SizeAnswer = "met" | "below" | "above-band";

/** Compares a size with a limit, both in the unit of the limit, with the sign as printed. */
export function sizeAnswer(value: number, { operator, value: limit, below }: Limit): SizeAnswer {
  if (!holds(value, operator, limit)) return operator === "<" ? "above-band" : "below";
  return isAboveBand(value, below ?? null) ? "above-band" : "met";
}

/** True where the limit is a band and the size lies beyond its upper end. */
export function isAboveBand(value: number, below: number | null): boolean {
  return below !== null && holds(value, ">=", below);
}

/** ">= 5.5 cm", or the band as printed: "5.0 to 5.4 cm". */
export function limitText({
  operator,
  below,
  printed,
}: Pick<Limit, "operator" | "printed"> & { below?: number | null | undefined }): string {
  return typeof below === "number" ? printed : `${operator} ${printed}`;
}

/** The limit of a check in words, or "any size". */
export function checkText(check: Rule["check"]): string {
  return check.kind === "any-size" ? anySize : limitText(check);
}

/** Stands where a criterion has no limit. */
export const anySize = "any size";

/** The size with two decimals, or with as many as it takes to stand on the right side of the limit. */
export function sizeText(value: number, limit: Limit): string {
  const answer = sizeAnswer(value, limit);
  const digits = [2, 4, 8].find(
    (count) => sizeAnswer(Number(value.toFixed(count)), limit) === answer,
  );
  return String(Number(value.toFixed(digits ?? 12)));
}
