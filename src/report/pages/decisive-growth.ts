import type { PlanGrowth } from "../plan.ts";

const answerRank = { exceeds: 0, "cannot-tell": 1, "does-not-exceed": 2 } as const;
const noAnswerRank = 2;

const answerWords = {
  exceeds: "exceeds",
  "cannot-tell": "cannot tell",
  "does-not-exceed": "does not exceed",
} as const;

/** "exceeds", "cannot tell", "does not exceed". */
export function answerWord(answer: keyof typeof answerWords): string {
  return answerWords[answer];
}

type Answer = PlanGrowth["answers"][number];

/** The answers to criteria that speak of this patient, most decisive first. */
export function answersInForce({ answers }: PlanGrowth): Answer[] {
  return answers
    .filter(({ outcome }) => outcome !== "not-applicable")
    .toSorted(
      (a, b) => answerRank[a.answer] - answerRank[b.answer] || a.limitMmPerYear - b.limitMmPerYear,
    );
}

function rankOf(growth: PlanGrowth): number {
  const [first] = answersInForce(growth);
  return first === undefined ? noAnswerRank : answerRank[first.answer];
}

function lastMm({ points }: PlanGrowth): number {
  return Math.max(0, ...(points.at(-1)?.values ?? []));
}

/** The series in the order in which they decide: growth beyond a limit, growth that can't be told from it, then the largest. */
export function byDecision(growth: readonly PlanGrowth[]): PlanGrowth[] {
  return growth.toSorted((a, b) => rankOf(a) - rankOf(b) || lastMm(b) - lastMm(a));
}
