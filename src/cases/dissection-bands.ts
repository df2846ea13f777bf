import { daysBetween } from "../quantities/days-between.ts";

/** The band of one scheme that a day falls in. */
interface TimeBand {
  scheme: string;
  /** Null where it can't be told. */
  band: "hyperacute or acute" | "acute" | "subacute" | "chronic" | null;
  /** What the band rests on, or why there is none. */
  because: string;
  source: string;
  /** Whether the band was compared with that source. */
  confirmed: boolean;
}

/** How long after its onset a dissection is at a date, in whole days. */
export interface DissectionAge {
  date: string;
  /** Null without an onset date; negative where the onset is after the date. */
  days: number | null;
  bands: TimeBand[];
}

/** Last days of the bands acute and subacute; hyperacute is below 24 hours in both schemes. */
const schemes = [
  {
    scheme: "SVS/STS 2020",
    acuteToDay: 14,
    subacuteToDay: 90,
    source:
      "SVS/STS 2020 (J Vasc Surg 2020;71:723-47) as printed by ESC 2024 (doi 10.1093/eurheartj/ehae179), section 9.3.1, page 3618",
    confirmed: true,
  },
  {
    scheme: "IRAD 2013",
    acuteToDay: 7,
    subacuteToDay: 30,
    source: "Booher et al., Am J Med 2013;126:730.e19-24, abstract",
    confirmed: true,
  },
] as const;

/** Bands of both schemes for a date (YYYY-MM-DD). Without an onset date there is no band, never "chronic". */
export function dissectionAge(onsetDate: string | null, date: string): DissectionAge {
  const days = onsetDate === null ? null : daysBetween(onsetDate, date);
  const bands = schemes.map(({ scheme, acuteToDay, subacuteToDay, source, confirmed }) => {
    const { band, because } = bandOf(days, onsetDate, date, acuteToDay, subacuteToDay);
    return { scheme, band, because, source, confirmed };
  });
  return { date, days, bands };
}

function bandOf(
  days: number | null,
  onsetDate: string | null,
  date: string,
  acuteToDay: number,
  subacuteToDay: number,
): Pick<TimeBand, "band" | "because"> {
  if (days === null) return { band: null, because: "the onset date is not stated" };
  if (days < 0) return { band: null, because: `the onset of ${onsetDate} is after ${date}` };
  if (days <= 1) {
    const because = `day ${days} after the onset; the hour of onset is not given`;
    return { band: "hyperacute or acute", because };
  }
  const because = `day ${days} after the onset`;
  if (days <= acuteToDay) return { band: "acute", because };
  return { band: days <= subacuteToDay ? "subacute" : "chronic", because };
}
