import { sentenceCase } from "../../quantities/sentence-case.ts";
import { formatNumber, formatValue } from "../format.ts";
import { outcomeMark, type OutcomeMark } from "../outcome-mark.ts";
import type { Plan } from "../plan.ts";
import type { PlanSizing } from "../sizing-schema.ts";
import { openSign } from "./sizing-inventory-view.ts";

type TrueLumen = NonNullable<PlanSizing["trueLumen"]>;
type Check = TrueLumen["taperChecks"][number];

/** Distal ends in the true lumen of a dissection. */
export interface TrueLumenView {
  /** By distal zone; inventory rows of one distal diameter stand together. */
  rows: {
    zone: string;
    ids: string;
    distal: string;
    byPerimeter: string;
    byArea: string;
    areaRatio: string;
    wholeAorta: string;
    mark: OutcomeMark;
    open: string;
  }[];
  /** What the mark of a row stands for, with its source. */
  rowCheck: string | null;
  /** The taper of the true lumen between two zones, with its flags; pairs that come to the same stand together. */
  tapers: { pairs: string; reason: string; flags: { mark: OutcomeMark; text: string }[] }[];
  taperSource: string | null;
  beforeDissection: string[];
}

/** Each distal zone whose end lies in the true lumen, once; null where there is none. */
export function trueLumenView(sizings: Plan["sizings"]): TrueLumenView | null {
  const all = sizings.flatMap(({ fromZone, toZone, sizing: { trueLumen } }) =>
    trueLumen === null || toZone === null ? [] : [{ fromZone, toZone, trueLumen }],
  );
  if (all.length === 0) return null;
  const zones = all.filter(
    ({ toZone }, index) => all.findIndex((one) => one.toZone === toZone) === index,
  );
  const firstRow = all[0]?.trueLumen.rows[0];
  const tapers = all.map(({ fromZone, toZone, trueLumen }) => ({
    pairs: `zone ${fromZone} to ${toZone}`,
    ...taperWords(trueLumen),
  }));
  const alike = Map.groupBy(tapers, ({ reason }) => reason);
  return {
    rows: zones.flatMap(({ toZone, trueLumen }) => rowsOf(toZone, trueLumen)),
    rowCheck: firstRow ? checkedBy(firstRow.check) : null,
    tapers: [...alike.values()].flatMap((same) => {
      const [first] = same;
      return first ? [{ ...first, pairs: same.map(({ pairs }) => pairs).join(", ") }] : [];
    }),
    taperSource: all[0]?.trueLumen.taperChecks[0]?.source ?? null,
    beforeDissection: beforeLines(zones),
  };
}

/** One line for each source, with the sections of all zones. */
function beforeLines(zones: readonly { toZone: string; trueLumen: TrueLumen }[]): string[] {
  const sections = zones.flatMap(({ toZone, trueLumen }) =>
    trueLumen.beforeDissection.map(({ place, circumferenceMm, diameterMm, source }) => ({
      source,
      words: `zone ${toZone}, ${place}: circumference ${formatValue(circumferenceMm, "mm")}, diameter ${formatValue(diameterMm, "mm")}`,
    })),
  );
  return [...Map.groupBy(sections, ({ source }) => source)].map(
    ([source, same]) =>
      `Before the dissection, ${same.map(({ words }) => words).join("; ")} (${source}).`,
  );
}

const checkedBy = ({ label, limit, source }: Check): string =>
  `${sentenceCase(label)} ${limit} (${source}).`;

function rowsOf(zone: string, { rows }: TrueLumen): TrueLumenView["rows"] {
  return [...Map.groupBy(rows, ({ distalMm }) => distalMm).values()].flatMap((same) => {
    const [first] = same;
    if (!first) return [];
    return [
      {
        zone,
        ids: same.map(({ id }) => id).join(", "),
        distal: formatNumber(first.distalMm),
        byPerimeter: percent(first.byPerimeter),
        byArea: percent(first.byArea),
        areaRatio: percent(first.areaRatioPercent),
        wholeAorta: percent(first.wholeAorta),
        mark: outcomeMark(first.check.outcome),
        open: openOf(first.check),
      },
    ];
  });
}

function taperWords({
  taper,
  taperChecks,
}: TrueLumen): Omit<TrueLumenView["tapers"][number], "pairs"> {
  const error =
    taper === null || taper.low === null || taper.high === null
      ? ""
      : ` (${percent(taper.low)} to ${percent(taper.high)} within the reading error)`;
  return {
    reason: `${(taperChecks[0]?.reason ?? "").replace(/\.$/, "")}${error}`,
    flags: taperChecks.map((check) => ({
      mark: outcomeMark(check.outcome),
      text: `${openOf(check)} ${check.limit}`,
    })),
  };
}

const openOf = ({ spansLimit, outcome }: Check): string =>
  spansLimit && (outcome === "met" || outcome === "not-met") ? openSign : "";

const percent = (value: number | null): string =>
  value === null ? "not computed" : `${formatNumber(value, "%")} %`;
