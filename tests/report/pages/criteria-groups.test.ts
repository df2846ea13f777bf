import { expect, test } from "vitest";
import { criteriaGroups } from "../../../src/report/pages/criteria-groups.ts";
import { assessment } from "../sample-criteria.ts";

const value = (mm: number) => ({ value: mm, low: null, high: null, unit: "mm" });

test("every criterion stands in one group; what shares an answer is counted by source", () => {
  const groups = criteriaGroups({
    preferredGuideline: null,
    assessments: [
      assessment("met", { outcome: "met" }),
      assessment("reached", { outcome: "not-assessable", value: value(61), missing: ["risk"] }),
      assessment("below", { outcome: "not-met", spansLimit: false, value: value(40) }),
      assessment("open 1", { outcome: "not-assessable", value: null, missing: ["height"] }),
      assessment("open 2", { outcome: "not-assessable", value: null, missing: ["height"] }),
      assessment("open 3", { outcome: "not-assessable", value: null, missing: ["weight", "sex"] }),
      assessment("other", { outcome: "not-applicable", reason: "For other patients: men." }),
    ],
  });
  const { source, title } = assessment("x", {});
  const body = `${source.body} ${source.year}`;
  expect(groups.decisive).toHaveLength(2);
  expect(groups.notMet.map(({ rows }) => rows.length)).toEqual([1]);
  expect(groups.open).toEqual([
    { answer: "height", criteria: `2 criteria of ${body} (2)` },
    { answer: "weight and sex", criteria: `1 criterion of ${body} (1): ${title}` },
  ]);
  expect(groups.notApplicable).toBe("1 criterion. For other patients: men (1).");
});

test("criteria that ask for another value of one fact are counted together", () => {
  const asks = (id: string, wanted: string) =>
    assessment(id, {
      outcome: "not-applicable",
      reason: `It asks for aetiology ${wanted}, stated is degenerative.`,
    });
  const { notApplicable } = criteriaGroups({
    preferredGuideline: null,
    assessments: [asks("a", "Marfan"), asks("b", "Turner or ACTA2")],
  });
  expect(notApplicable).toBe(
    "2 criteria. It asks for another aetiology than stated, degenerative (2).",
  );
});
