import { describe, expect, test } from "vitest";
import { severityStatements } from "../../src/cases/dissection-severity.ts";
import { malperfusionOf } from "../../src/cases/malperfusion.ts";
import type { CaseFacts, Measurement } from "../../src/cases/patient-case.ts";
import { dissectionCase, examDate, type SampleFinding, sampleLumen } from "./sample-dissection.ts";

function statementsOf(
  facts: Partial<CaseFacts>,
  rows: readonly SampleFinding[] = [],
  measurements: readonly Measurement[] = [],
) {
  const patientCase = dissectionCase(facts, rows, measurements);
  const { exams, findings } = patientCase;
  const malperfusion = malperfusionOf(facts.malperfusionWords ?? null, exams, findings);
  return severityStatements(patientCase, malperfusion, (zone) => zone === "4");
}
const said = (...given: Parameters<typeof statementsOf>) =>
  statementsOf(...given).map(({ fact, body, says }) => `${fact} | ${body}: ${says}`);
const acute = { onsetDate: "2024-03-01" };

describe("malperfusion", () => {
  test.each([
    ["clinical", "complicated", "complicated", "complicated"],
    ["on imaging only", "high risk", "high risk", "complicated"],
  ])("%s: SVS/STS %s, ESC %s, ACC/AHA %s", (state, svs, esc, acc) => {
    const statements = statementsOf(acute, [["left-renal-artery", "malperfusion", state]]);
    expect(statements.map(({ body, says }) => [body, says])).toEqual([
      ["SVS/STS 2020", svs],
      ["ESC 2024", esc],
      ["ACC/AHA 2022", acc],
    ]);
    expect(statements[0]).toMatchObject({
      timing: `recorded on ${examDate}, day 4 after the onset`,
      used: [`F0-${examDate}`],
    });
  });

  test.each([
    ["left renal absent", []],
    ["none", []],
    [
      "left renal",
      [
        "left renal: malperfusion (clinical or on imaging only is not stated) | ACC/AHA 2022: complicated",
      ],
    ],
    [
      "spinal cord clinical",
      [
        "spinal cord: malperfusion with clinical signs | SVS/STS 2020: complicated",
        "spinal cord: malperfusion with clinical signs | ESC 2024: complicated",
      ],
    ],
  ])("case sheet %j", (malperfusionWords, expected) => {
    expect(said({ malperfusionWords })).toEqual(expected);
  });

  test.each([
    ["2024-02-20", 3],
    ["2024-02-19", 0],
    ["2024-03-06", 0],
    [null, 3],
  ])("onset %s, recorded on 2024-03-05: %i statements", (onsetDate, count) => {
    const rows: SampleFinding[] = [["left-renal-artery", "malperfusion", "clinical"]];
    const statements = statementsOf({ onsetDate }, rows);
    expect(statements).toHaveLength(count);
    if (onsetDate === null) expect(statements[0]?.timing).toContain("is not known");
  });
});

describe("sizes", () => {
  const sizes = (...measurements: Measurement[]) => said(acute, [], measurements);

  test.each([
    [40, []],
    [
      40.1,
      [
        "aortic diameter 40.1 mm at zone 4 | SVS/STS 2020: high risk",
        "aortic diameter 40.1 mm at zone 4 | ESC 2024: high risk",
      ],
    ],
  ])("an aorta of %f mm in a dissected zone", (valueMm, expected) => {
    expect(sizes(sampleLumen("zone-4", "whole", valueMm))).toEqual(expected);
  });

  test.each([
    [22, []],
    [
      22.5,
      [
        "false lumen diameter 22.5 mm at zone 5 | SVS/STS 2020: high risk",
        "false lumen diameter 22.5 mm at zone 5 | ESC 2024: high risk",
      ],
    ],
  ])("a false lumen of %f mm", (valueMm, expected) => {
    expect(sizes(sampleLumen("zone-5", "false", valueMm))).toEqual(expected);
  });

  test("the largest speaks; a zone not dissected, a branch, an iliac artery and a smallest diameter do not", () => {
    const larger = sampleLumen("zone-4", "whole", 44);
    const measurements = [
      larger,
      sampleLumen("zone-4", "whole", 42),
      sampleLumen("zone-0", "whole", 50),
      sampleLumen("zone-10-left", "false", 30),
      sampleLumen("left-renal-artery", "false", 30),
      { ...sampleLumen("zone-4", "false", 30), statistic: "minimum" as const },
    ];
    expect(new Set(statementsOf(acute, [], measurements).flatMap(({ used }) => used))).toEqual(
      new Set([larger.key]),
    );
  });

  test("after the acute phase sizes say nothing", () => {
    const onsetDate = "2023-01-01";
    expect(said({ onsetDate }, [], [sampleLumen("zone-4", "whole", 50)])).toEqual([]);
  });
});
