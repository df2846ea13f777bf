import type { Outcome } from "../guidelines/rule.ts";

/** One condition laid beside the numbers of a case. It never ranks or recommends. */
export interface PlanningCheck {
  id: string;
  label: string;
  outcome: Outcome;
  /** The number judged with its 95 % interval; null where it is not known. */
  value: { value: number; low: number | null; high: number | null; unit: string } | null;
  /** The limit in words, with its unit. */
  limit: string;
  /** True where the 95 % interval of the value holds the limit. */
  spansLimit: boolean;
  /** Where the limit comes from and how it was checked. */
  source: string;
  /** Keys of the measurements, findings and stations used. */
  used: string[];
  /** What is missing, each by its name; empty unless not assessable. */
  missing: string[];
  /** One sentence: why this outcome. */
  reason: string;
}
