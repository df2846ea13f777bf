import { stretchesAround } from "../cases/wall.ts";
import type { Plan, PlanPlace } from "./plan.ts";

/** Dates (YYYY-MM-DD) of the repairs that the case sheet states for a place; those without a full date can't be drawn. */
export function repairDatesAt({ patient }: Pick<Plan, "patient">, place: PlanPlace): string[] {
  const around = stretchesAround(place);
  const repairs = patient.repairs ?? [];
  return repairs.flatMap(({ date, zones }) =>
    date?.length === 10 && zones?.some((zone) => around.includes(zone)) ? [date] : [],
  );
}
