/** Completed years between two dates, YYYY-MM-DD. */
export function ageInYears(birthDate: string, asOf: string): number {
  const years = Number(asOf.slice(0, 4)) - Number(birthDate.slice(0, 4));
  return asOf.slice(5) < birthDate.slice(5) ? years - 1 : years;
}
