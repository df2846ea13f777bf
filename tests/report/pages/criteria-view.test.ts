import { expect, test } from "vitest";
import {
  byOutcome,
  criterionRow,
  isOpenAtLimit,
  outcomeCounts,
  sourceRows,
} from "../../../src/report/pages/criteria-view.ts";
import { assessment } from "../sample-criteria.ts";

const value = (mm: number) => ({ value: mm, low: null, high: null, unit: "mm" });

test("met come first, then sizes that reach the limit with other conditions open, then near misses, not met nearest to the limit first, not judged, failed, not applicable", () => {
  const rows = [
    assessment("na", { outcome: "not-applicable" }),
    assessment("failed", { outcome: "rule-failed" }),
    assessment("open", { outcome: "not-assessable", value: null }),
    assessment("reached", { outcome: "not-assessable", value: value(61) }),
    assessment("far", { outcome: "not-met", spansLimit: false, value: value(30) }),
    assessment("near", { outcome: "not-met", spansLimit: false, value: value(49) }),
    assessment("spans", { outcome: "not-met", spansLimit: true, value: value(40) }),
    assessment("met", { outcome: "met" }),
  ];
  const order = ["met", "reached", "spans", "near", "far", "open", "failed", "na"];
  expect(
    byOutcome({ assessments: rows, preferredGuideline: null }).map(({ rule }) => rule),
  ).toEqual(order);
  expect(outcomeCounts(rows)).toBe(
    "1 met, 3 not met, 2 can't be judged, 1 failed, 1 not applicable",
  );
});

test("a value just under the limit is not printed as the limit", () => {
  const row = criterionRow(assessment("a", { outcome: "not-met", value: value(54.97) }));
  expect(row.value).toBe("54.97");
});

const below = { operator: "<", value: 55, below: null, unit: "mm", printed: "5.5 cm" } as const;

test("a criterion without a limit says any size, one from above says below", () => {
  const anySize = criterionRow(assessment("a", { limit: null, value: null }));
  expect(anySize).toMatchObject({ limit: "any size", value: "", unit: "", error: "" });
  expect(criterionRow(assessment("a", { limit: below, value: value(54.97) }))).toMatchObject({
    limit: "below 5.5 cm",
    value: "54.97",
  });
});

test("open with stated symptoms stands beside the reached sizes; small sizes and a part without symptoms do not", () => {
  const open = { outcome: "not-assessable", spansLimit: false } as const;
  const rows = [
    assessment("small", { ...open, limit: below, value: value(40) }),
    assessment("no symptoms", { ...open, limit: null, value: null, about: null }),
    assessment("symptoms", { ...open, limit: null, value: null }),
    assessment("passed", { outcome: "not-met", spansLimit: false, limit: below, value: value(56) }),
    assessment("far", { outcome: "not-met", spansLimit: false, value: value(20) }),
  ];
  expect(rows.filter(isOpenAtLimit).map(({ rule }) => rule)).toEqual(["symptoms"]);
  expect(
    byOutcome({ assessments: rows, preferredGuideline: null }).map(({ rule }) => rule),
  ).toEqual(["symptoms", "far", "passed", "small", "no symptoms"]);
});

test("what is missing is named in the reason", () => {
  const row = criterionRow(
    assessment("a", {
      outcome: "not-assessable",
      value: null,
      reason: "No height.",
      missing: ["height"],
    }),
  );
  expect(row).toMatchObject({
    value: "",
    unit: "",
    error: "",
    reason: "No height. Missing: height.",
  });
});

test("sources are listed once, with how many of their rules were compared", () => {
  const rows = [
    assessment("a", {}),
    assessment("a", { about: null }),
    assessment("b", { confirmed: false }),
  ];
  expect(sourceRows({ assessments: rows })).toEqual([
    {
      source: "Northbody 2022",
      doi: "10.0000/invented.1",
      checked: "1 compared with the source, 1 not confirmed against the source",
    },
  ]);
});

test("the body that the site prefers comes first among equals, never before a more telling outcome", () => {
  const rows = [
    assessment("near", { outcome: "not-met", spansLimit: false, value: value(49) }),
    assessment("far", { outcome: "not-met", spansLimit: false, value: value(30) }),
    assessment("met", { outcome: "met" }),
  ].map((row) => ({
    ...row,
    source: { ...row.source, body: row.rule === "far" ? "South" : "North" },
  }));
  const order = byOutcome({ assessments: rows, preferredGuideline: "South" });
  expect(order.map(({ rule }) => rule)).toEqual(["met", "far", "near"]);
});
