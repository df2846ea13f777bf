import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type Dissection, dissectionOf } from "../../src/cases/dissection.ts";
import type { CaseFacts } from "../../src/cases/patient-case.ts";
import { findingStates, type FindingId } from "../../src/cases/vocabulary.ts";
import { placeTable } from "../../src/anatomy/places.ts";
import {
  dissectionCase,
  everyZone,
  examDate,
  type SampleFinding,
  sampleLumen,
} from "./sample-dissection.ts";

const asOf = "2024-06-01";
function known(...given: Parameters<typeof dissectionCase>): Dissection {
  const dissection = dissectionOf(dissectionCase(...given), asOf);
  if (!dissection) throw new Error("no dissection");
  return dissection;
}
const valueOf = ({ schemes }: Dissection, scheme: string) =>
  schemes.filter((one) => one.scheme === scheme).map(({ basis, value }) => [basis, value]);
const tear = (place: string): SampleFinding => [place, "entry tear", "present"];

describe("whether a case speaks of a dissection", () => {
  test.each<[string, Partial<CaseFacts>, SampleFinding[]]>([
    ["nothing", {}, []],
    ["an aneurysm", { diagnoses: ["aneurysm"], malperfusionWords: "none" }, []],
    ["none in the sheet", { dissectionWords: "None" }, []],
    ["none in the exam", {}, [["zone-4", "dissection", "absent"]]],
    ["a branch from the true lumen", {}, [["coeliac-artery", "fed by", "true lumen"]]],
  ])("%s: no", (_, facts, rows) => {
    expect(dissectionOf(dissectionCase(facts, rows), asOf)).toBeNull();
  });

  test.each<[string, Partial<CaseFacts>, SampleFinding[]]>([
    ["a diagnosis", { diagnoses: ["type B dissection"] }, []],
    ["a notation that can't be read", { dissectionWords: "B9" }, []],
    ["a false lumen", {}, [["zone-4", "false lumen", "patent"]]],
    ["a branch from the false lumen", {}, [["coeliac-artery", "fed by", "false lumen"]]],
  ])("%s: yes", (_, facts, rows) => {
    expect(dissectionOf(dissectionCase(facts, rows), asOf)).not.toBeNull();
  });

  test("an exam after the as-of date is passed over", () => {
    const patientCase = dissectionCase({}, [["zone-4", "false lumen", "patent"]]);
    expect(dissectionOf(patientCase, "2024-03-04")).toBeNull();
    expect(dissectionOf(patientCase, examDate)).not.toBeNull();
  });
});

describe("dissectionOf", () => {
  const full = known(
    {
      diagnoses: ["type B dissection"],
      dissectionWords: "B3-9",
      malperfusionWords: "left renal on imaging",
      onsetDate: "2024-03-01",
    },
    [
      ...everyZone(3, 9, "left"),
      tear("zone-3"),
      ["zone-9", "re-entry tear", "present"],
      ["zone-4", "false lumen", "partly thrombosed"],
      ["left-renal-artery", "fed by", "false lumen"],
    ],
  );

  test("puts statement, exam and schemes together", () => {
    expect(full.stated).toMatchObject({ words: "B3-9", formatted: "B_3,9", problem: null });
    expect(full.exams).toEqual([{ key: examDate, date: examDate }]);
    expect(full.comparison).toMatchObject({ verdict: "agrees" });
    expect(full.diagnoses).toMatchObject([{ verdict: "agrees" }]);
    const basis = `case sheet and exam of ${examDate}`;
    expect(valueOf(full, "TEM")).toEqual([[basis, "B E3 M3-"]]);
    expect(full.missing).toEqual([]);
  });

  test("lists lumens, branches and tears with exam and key", () => {
    expect(full.falseLumen).toMatchObject([
      { place: "zone 4", zones: ["4"], state: "partly thrombosed", exam: examDate },
    ]);
    expect(full.branches).toMatchObject([
      { place: "left renal artery", fedBy: "false lumen", territory: "left renal" },
    ]);
    expect(full.tears).toMatchObject([
      { place: "zone 3", kind: "entry tear", state: "present" },
      { place: "zone 9, infrarenal aorta", kind: "re-entry tear", state: "present" },
    ]);
    for (const { used } of [...full.falseLumen, ...full.branches, ...full.tears]) {
      expect(used).toEqual([expect.stringContaining(examDate)]);
    }
  });

  test("gives both bands at the exam and at the as-of date", () => {
    expect(
      full.bands.map(({ exam, days, bands }) => [exam, days, bands.map((b) => b.band)]),
    ).toEqual([
      [examDate, 4, ["acute", "acute"]],
      [null, 92, ["chronic", "chronic"]],
    ]);
  });

  test("prints what each body calls the silent renal finding", () => {
    expect(full.statements.map(({ body, says }) => `${body}: ${says}`)).toEqual([
      "SVS/STS 2020: high risk",
      "ESC 2024: high risk",
      "ACC/AHA 2022: complicated",
    ]);
  });

  test("a contradiction gives each side its own schemes", () => {
    const split = known({ dissectionWords: "A_9" }, [...everyZone(3, 9, "left"), tear("zone-3")]);
    expect(split.comparison?.verdict).toBe("contradicts");
    expect(valueOf(split, "Stanford")).toEqual([
      ["case sheet", "A"],
      [`exam of ${examDate}`, "B"],
    ]);
  });

  test("of two exams the last with evidence is derived from, and both are listed", () => {
    const two = known(
      {},
      [tear("zone-3")],
      [],
      [
        { date: "2024-04-10", rows: [tear("zone-0")] },
        { date: "2024-05-10", rows: [["zone-0", "arch variant", "usual"]] },
      ],
    );
    expect(two.exams.map(({ date }) => date)).toEqual([examDate, "2024-04-10"]);
    expect(two.derived).toMatchObject({ date: "2024-04-10", type: "A" });
    expect(two.bands).toHaveLength(4);
  });

  test("a type without extent takes its zones from the exam", () => {
    const typed = known({ dissectionWords: "type B" }, everyZone(2, 9, "left"));
    expect(valueOf(typed, "Stanford").map(([, value]) => value)).toEqual(["non-A-non-B"]);
  });

  test("says what is missing", () => {
    expect(known({ diagnoses: ["type B dissection"] }).missing).toEqual([
      "onset date of the dissection",
      "type and extent of the dissection in the case sheet",
      "no exam shows where the aorta is dissected",
      "malperfusion, or that there is none",
    ]);
    const unread = known(
      { dissectionWords: "B9", malperfusionWords: "gut", onsetDate: "2024-01-01" },
      [["zone-4", "dissection", "present"]],
    );
    expect(unread.missing).toEqual([
      expect.stringContaining("type B needs two zones"),
      `type by the exam of ${examDate}: nothing is said of an entry tear`,
      'malperfusion: "gut" is no known territory with its state',
    ]);
  });

  test("a sheet that says none against an exam that shows one is named", () => {
    const { stated, missing } = known({ dissectionWords: "none" }, [tear("zone-3")]);
    expect(stated.problem).toContain("the case sheet says that there is no dissection");
    expect(missing.join()).toContain(stated.problem);
  });

  test.each([
    ["B_0,9", ["SVS/STS 2020"]],
    ["B_3,9", ["SVS/STS 2020", "ESC 2024", "ACC/AHA 2022"]],
    ["B_1,9", ["SVS/STS 2020", "ESC 2024", "ACC/AHA 2022"]],
    ["A_9", []],
    ["I_9", []],
    ["type B", ["SVS/STS 2020"]],
  ])("%s: severity of type B by %j", (dissectionWords, bodies) => {
    const { statements } = known({ dissectionWords, malperfusionWords: "left leg clinical" });
    expect(statements.map(({ body }) => body)).toEqual(bodies);
  });
});

describe("properties", () => {
  const places = placeTable.map(({ place }) => place.id);
  const findings = fc
    .constantFrom(...(Object.keys(findingStates) as FindingId[]))
    .chain((finding) =>
      fc.tuple(
        fc.constantFrom(...places),
        fc.constant(finding),
        fc.constantFrom(...findingStates[finding]),
      ),
    );
  const lumens = fc.record({
    place: fc.constantFrom(...places),
    lumen: fc.constantFrom("true" as const, "false" as const, "whole" as const),
  });
  const cases = fc
    .record({
      words: fc.constantFrom(null, "A_9", "B3-9", "B0-10 left", "I 8", "B", "B9", "none"),
      flow: fc.constantFrom(null, "none", "left renal silent", "gut; coronary clinical"),
      onsetDate: fc.constantFrom(null, "2024-03-01", "2025-01-01"),
      rows: fc.array(findings, { maxLength: 8 }),
      sizes: fc.array(lumens, { maxLength: 4 }),
    })
    .map(({ words, flow, onsetDate, rows, sizes }) =>
      dissectionCase(
        { dissectionWords: words, malperfusionWords: flow, onsetDate },
        rows,
        sizes.map(({ place, lumen }, index) => ({
          ...sampleLumen(place, lumen, 30 + index),
          key: `M${index}`,
        })),
      ),
    );

  test("it is plain data, and every key that it names exists in the case", () => {
    fc.assert(
      fc.property(cases, (patientCase) => {
        const dissection = dissectionOf(patientCase, asOf);
        expect(JSON.parse(JSON.stringify(dissection))).toEqual(dissection);
        const keys = new Set(
          [...patientCase.findings, ...patientCase.measurements].map(({ key }) => key),
        );
        const named = [...JSON.stringify(dissection).matchAll(/"used":\[([^\]]*)\]/g)].flatMap(
          ([, list = ""]) => (list === "" ? [] : list.split(",").map((key) => JSON.parse(key))),
        );
        expect(named.filter((key) => !keys.has(key))).toEqual([]);
      }),
      { numRuns: 500 },
    );
  });
});
