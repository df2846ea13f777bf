import { expect, test } from "vitest";
import { fileRows, measurementGroups } from "../../../src/report/pages/provenance-view.ts";
import { samplePlan } from "../sample-plan.ts";

const [line] = samplePlan.centrelines;
if (!line) throw new Error("the sample has no centreline");
const [exam] = samplePlan.exams;
if (!exam) throw new Error("the sample has no exam");
const plan = {
  ...samplePlan,
  exams: [...samplePlan.exams, { ...exam, key: line.exam, imagingDate: line.exam }],
};

test("sections of a centreline stand in one row, with their number, reach, keys and file", () => {
  const group = measurementGroups(plan).find(({ heading }) =>
    heading.endsWith("sections along a centreline"),
  );
  const [first, last] = [line.stations[0], line.stations.at(-1)];
  const number = fileRows(plan).find(({ file }) => file === first?.source.file)?.number;
  expect(group?.rows).toEqual([
    {
      place: "Aorta",
      value: `${line.stations.length} sections`,
      asWritten: "0.0 to 310.0 mm",
      source: `file ${number} to the end`,
      key: `${first?.key} to ${last?.key}`,
      remark: "centreline sheet, patient position HFS",
    },
  ]);
  expect(number).toBe(fileRows({ ...plan, centrelines: [] }).length + 1);
});

test("without a centreline there is no such row", () => {
  const headings = measurementGroups({ ...plan, centrelines: [] }).map(({ heading }) => heading);
  expect(headings.some((heading) => heading.includes("centreline"))).toBe(false);
});
