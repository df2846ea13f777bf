import { formatLimit, formatList } from "../format.ts";
import type { PlanGrowth } from "../plan.ts";

type Projection = PlanGrowth["projections"][number];

const limitsOf = (projections: readonly Projection[]): string =>
  `${formatList(projections.map(({ limitMm }) => formatLimit(limitMm)))} mm`;

/** What is projected of one series in one sentence; the plan keeps a sentence for each limit. Null without a limit. */
export function projectionWords(projections: readonly Projection[]): string | null {
  const having = (answer: Projection["answer"]) =>
    projections.filter((projection) => projection.answer === answer);
  const [already, beyond] = [having("already at or over"), having("not within the horizon")];
  const parts = [
    ...(already.length > 0 ? [`at or over ${limitsOf(already)} already`] : []),
    ...having("between").map(
      ({ limitMm, earliest, latest }) =>
        `${formatLimit(limitMm)} mm between ${earliest} and ${latest}`,
    ),
    ...having("not before").map(
      ({ limitMm, earliest }) => `${formatLimit(limitMm)} mm not before ${earliest}`,
    ),
    ...(beyond.length > 0 ? [`${limitsOf(beyond)} not reached`] : []),
  ];
  const horizon = projections.find((projection) => projection.horizon !== null)?.horizon;
  const isDrawn = projections.some(({ earliest }) => earliest !== null) || beyond.length > 0;
  const limit =
    isDrawn && horizon
      ? `, by the 95 % band of a straight line, which the exams carry to ${horizon}`
      : "";
  const said = parts.length === 0 ? [] : [`Projection: ${parts.join("; ")}${limit}.`];
  const none = having("no projection").map(({ sentence }) => sentence);
  return [...said, ...none].join(" ") || null;
}
