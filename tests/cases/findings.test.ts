import { describe, expect, test } from "vitest";
import { buildDictionary } from "../../src/anatomy/dictionary.ts";
import { examFindings, understandFinding } from "../../src/cases/findings.ts";
import type { Finding } from "../../src/cases/patient-case.ts";
import { findingStates } from "../../src/cases/vocabulary.ts";
import { readerMessage } from "../../src/readers/messages.ts";
import { sampleFinding } from "./sample-documents.ts";

const dictionary = buildDictionary({
  codes: {},
  words: { "our arch": "aortic-arch" },
});
const understood = (place: string, finding: string, state: string, rest = {}) =>
  understandFinding(sampleFinding(place, finding, state, rest), "2024-01-10", dictionary);

describe("understandFinding", () => {
  const places: Readonly<Record<string, string>> = {
    "fed by": "left renal artery",
    malperfusion: "left renal artery",
    patency: "right internal iliac artery",
    dominance: "left vertebral artery",
    "circle of Willis": "",
    supplies: "left subclavian artery",
    "access repair": "right external iliac artery",
  };
  const placeFor = (finding: string): string => places[finding] ?? "arch";

  test.each(
    Object.entries(findingStates).flatMap(([finding, states]) =>
      states.map((state) => [finding, state] as const),
    ),
  )("%s: %s is understood, in other letters too", (finding, state) => {
    for (const words of [finding, finding.toUpperCase(), finding.replaceAll("-", " ")]) {
      const result = understood(placeFor(finding), words, ` ${state.toUpperCase()}`);
      expect(result.finding).toMatchObject({ finding, state });
    }
  });

  test("it keeps exam, source, reader and comment, and the same bytes give the same key", () => {
    const { finding } = understood("zone 3", "entry tear", "present", {
      reader: "AB",
      comment: "small",
    });
    expect(finding).toMatchObject({
      key: expect.stringMatching(/^F[0-9a-f]{8}$/),
      exam: "2024-01-10",
      place: { id: "zone-3" },
      source: { file: "findings.csv" },
      reader: "AB",
      comment: "small",
    });
    expect(understood("zone 3", "entry tear", "present").finding?.key).toBe(finding?.key);
  });

  test.each([
    ["zone 3", "false lumen", "partially thrombosed", "partly thrombosed"],
    ["zone 3", "false lumen", "Complete thrombosis", "completely thrombosed"],
    ["left renal artery", "supplied by", "both", "both lumens"],
    ["left renal artery", "fed by", "FALSE", "false lumen"],
    ["zone 3", "reentry", "yes", "present"],
    ["left common carotid artery", "flow", "stenosed", "narrowed"],
    ["zone 3", "mural thrombus", "yes", "present"],
    ["left external iliac artery", "calcification", "partial", "part of the circumference"],
    ["right external iliac artery", "access repair", "stented", "stent"],
    ["", "circle of Willis", "complete", "complete"],
  ])("%s, %s: %s means %s", (place, finding, state, meant) => {
    expect(understood(place, finding, state).finding?.state).toBe(meant);
  });

  test.each([
    ["finding-not-understood", "zone 3", "kink", "present"],
    ["finding-not-understood", "zone 3", "constructor", "present"],
    ["finding-state-not-understood", "zone 3", "false lumen", "thrombosed"],
    ["finding-state-not-understood", "zone 3", "re-entry tear", "not found"],
    ["finding-state-not-understood", "zone 3", "dissection", "toString"],
    ["finding-state-not-understood", "arch", "arch variant", "strange"],
    ["finding-state-not-understood", "left renal artery", "malperfusion", "present"],
    ["place-not-understood", "elbow", "dissection", "present"],
    ["place-side-not-stated", "renal artery", "fed by", "true lumen"],
    ["finding-place-not-stated", "", "dissection", "present"],
    ["finding-place-unfit", "left renal artery", "dissection", "present"],
    ["finding-place-unfit", "innominate artery", "false lumen", "patent"],
    ["finding-place-unfit", "left renal artery", "re-entry tear", "present"],
    ["finding-place-unfit", "zone 8", "fed by", "true lumen"],
    ["finding-place-unfit", "zone 8", "malperfusion", "absent"],
    ["finding-place-unfit", "zone 5", "arch variant", "right arch"],
    ["finding-place-unfit", "left subclavian artery", "dominance", "dominant"],
    ["finding-place-unfit", "left vertebral artery", "circle of Willis", "complete"],
    ["finding-place-unfit", "zone 4", "patency", "patent"],
    ["finding-place-unfit", "left renal artery", "wall thrombus", "present"],
  ])("%s: %s, %s, %s", (code, place, finding, state) => {
    const { message } = understood(place, finding, state);
    expect(message).toMatchObject({ code, place: { at: "record 2" } });
  });

  test("a state that is not understood names those that are", () => {
    expect(understood("zone 3", "false lumen", "thrombosed").message).toMatchObject({
      text: 'false lumen at zone 3 left out: "thrombosed" is none of its states',
      remedy: expect.stringContaining("patent; partly thrombosed; completely thrombosed"),
    });
  });

  test.each([
    ["20 mm distal to the left subclavian artery", "left-subclavian-artery+20mm"],
    ["Aorta, thoracic", "thoracic-aorta"],
  ])("a place is understood as that of a measurement: %s", (place, id) => {
    expect(understood(place, "entry tear", "present").finding?.place.id).toBe(id);
  });

  test.each([
    ["the iliac artery is dissected as part of the aorta", "dissection", "present"],
    ["and fed as an artery", "fed by", "both lumens"],
    ["and can be malperfused", "malperfusion", "clinical"],
  ])("%s", (_, finding, state) => {
    expect(understood("left common iliac artery", finding, state).finding?.place.id).toBe(
      "zone-10-left",
    );
  });

  test.each(["", "aortic arch", "our arch", "zone 2"])(
    "an arch variant at %j is of the whole arch",
    (place) => {
      expect(understood(place, "arch variant", "right arch").finding).toMatchObject({
        place: { id: "aortic-arch" },
        state: "right arch",
      });
    },
  );

  test("what reading the sheet refused stays refused with its reason", () => {
    const refused = readerMessage("csv-cell-missing", null, { loss: "finding", heading: "state" });
    expect(understood("zone 3", "dissection", "", { refused })).toEqual({
      finding: null,
      message: refused,
    });
  });
});

describe("examFindings", () => {
  const found = (place: string, finding: string, state: string, rest = {}): Finding => {
    const { finding: one } = understood(place, finding, state, rest);
    if (!one) throw new Error(`${finding} at ${place}`);
    return one;
  };
  const at = (record: number) => ({
    source: { file: "findings.csv", sha256: "ef", at: `record ${record}` },
  });

  test("along the vessel, at one place by finding", () => {
    const { findings, messages } = examFindings(
      [
        found("zone 5", "dissection", "present"),
        found("zone 3", "entry tear", "present"),
        found("zone 3", "dissection", "present"),
      ],
      "2024-01-10",
    );
    expect(messages).toEqual([]);
    expect(findings.map(({ place, finding }) => `${place.id} ${finding}`)).toEqual([
      "zone-3 dissection",
      "zone-3 entry tear",
      "zone-5 dissection",
    ]);
  });

  test("a row that stands twice is one finding, in either order; another reader's is another", () => {
    const rows = [
      found("arch", "dissection", "present", at(2)),
      found("aortic arch", "dissection", "yes", at(3)),
      found("arch", "dissection", "present", { ...at(4), reader: "AB" }),
    ];
    const one = examFindings(rows, "2024-01-10");
    expect(one.findings).toHaveLength(2);
    expect(one.messages).toEqual([]);
    expect(examFindings(rows.toReversed(), "2024-01-10")).toEqual(one);
  });

  test("different states at one place all stay, and that is said", () => {
    const { findings, messages } = examFindings(
      [
        found("zone 4", "false lumen", "patent", at(2)),
        found("zone 4", "false lumen", "partly thrombosed", at(3)),
        found("zone 5", "false lumen", "completely thrombosed", at(4)),
      ],
      "2024-01-10",
    );
    expect(findings).toHaveLength(3);
    expect(messages).toMatchObject([
      {
        code: "findings-differ",
        data: {
          finding: "false lumen",
          place: "zone 4",
          date: "2024-01-10",
          states: "partly thrombosed; patent",
        },
      },
    ]);
  });

  test.each([
    [["right arch", "left vertebral artery off the arch"], []],
    [["right arch", "usual"], ["findings-differ"]],
  ])("arch variants %j together: %j", (states, codes) => {
    const rows = states.map((state, index) => found("arch", "arch variant", state, at(index)));
    const { messages } = examFindings(rows, "2024-01-10");
    expect(messages.map(({ code }) => code)).toEqual(codes);
  });
});
