import { describe, expect, test } from "vitest";
import type { PlanningCheck } from "../../src/planning/planning-check.ts";
import { expectOptionsGolden } from "./options-golden.ts";
import { optionOf, workedCase } from "./worked-case.ts";

// Invented: an exam of which one finding is known that no condition asks for, and a question.
const worked = workedCase({
  id: "WORKED-15",
  caseSheet: `question
Where could a graft land?`,
  findings: "coeliac artery,patency,patent",
});
const { options, distalLandings, archPlans, access, perfusion, coverages } = worked.planning;

const named = (of: string, checks: readonly PlanningCheck[]) =>
  checks.map((check) => [`${of}: ${check.id}`, check] as const);

const checks = [
  ...options.flatMap((one) => named(`zone ${one.zone}`, one.checks)),
  ...distalLandings.flatMap((one) => named(`distal zone ${one.zone}`, one.checks)),
  ...archPlans.flatMap((one) => named(one.id, one.requirements)),
  ...access.sides.flatMap(({ side, checks: own, sheaths }) => [
    ...named(side, own),
    ...(sheaths ?? []).flatMap((one) => named(`${side} ${one.asWritten}`, one.checks)),
  ]),
  ...perfusion.cord.zones.flatMap((one) => named(`cord, zone ${one.zone}`, one.checks)),
  ...perfusion.brain.zones.flatMap((one) =>
    named(
      `brain, zone ${one.zone}`,
      one.supplies.map(({ check }) => check),
    ),
  ),
];

/** No row of the teaching table is of 26 Fr: that holds whatever is measured. */
const isBeyondTable = (of: string): boolean => of.endsWith("26 Fr: sheath-teaching-table");
const open = checks.filter(([of]) => !isBeyondTable(of));

describe("nothing is measured", () => {
  test("there are checks of every kind", () => {
    // Options: 4 lengths and 2 diameters in zones 1 to 3, one length and one diameter more in zone 0, one length (arch of
    // type II or III) less in zone 4.
    expect(options.map((one) => one.checks.length)).toEqual([8, 6, 6, 6, 5]);
    expect(checks.length).toBeGreaterThan(100);
  });

  test.each(open)("%s", (_, check) => {
    expect(check.outcome).toBe("not-assessable");
    expect(check.missing).not.toEqual([]);
    expect(check.missing.every((one) => one.trim() !== "")).toBe(true);
    expect(check.value).toBeNull();
  });

  test("the arch is taken as the usual one for what is listed, this is said, and nothing is judged on it", () => {
    expect(perfusion.assumes).toContain("The arch is not stated");
    const supplies = checks.filter(([of]) => of.includes(": supply-"));
    expect(supplies.length).toBeGreaterThan(20);
    for (const [, { missing }] of supplies) expect(missing).toContain("which arch it is");
    expect(checks.filter(([of]) => isBeyondTable(of)).map(([, { outcome }]) => outcome)).toEqual([
      "not-applicable",
      "not-applicable",
    ]);
  });

  test("a landing names what it waits for", () => {
    expect(optionOf(worked, "2").missing).toEqual(
      expect.arrayContaining([
        "centreline of the aorta with sections",
        "sound length in zone 2",
        "largest diameter of zone 2",
        "diameters in zone 2",
      ]),
    );
    expect(optionOf(worked, "2").assumes).toContain("not stated");
    expect(coverages).toEqual([]);
    expect(worked.planning.sizings).toEqual([]);
    expect(worked.planning.views.rings).toEqual([]);
    expect(worked.planning.views.notAssessable.map(({ missing }) => missing)).toEqual([
      "aortic centreline with points in DICOM patient coordinates, or a ring drawn in a structured report",
    ]);
  });

  test("stored outcomes", () => expectOptionsGolden("WORKED-15", worked));
});
