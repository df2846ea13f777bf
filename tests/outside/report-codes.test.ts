// Source: the tables of the standard that the Python library pydicom carries (Debian package python3-pydicom): the SRT to
// SCT mapping and the context groups of DICOM PS3.16, and the registry of SOP classes of DICOM PS3.6.
import { expect, test } from "vitest";
import { buildDictionary, codeKey, qualifierMeaning } from "../../src/anatomy/dictionary.ts";
import { concepts } from "../../src/readers/dicom-sr/concepts.ts";
import { otherObjectOf } from "../../src/readers/dicom-sr/document-class.ts";
import { statisticWord } from "../../src/readers/dicom-sr/statistic-words.ts";
import { describeWithPydicom, pydicomTables } from "./pydicom.ts";
import { once } from "./report-comparison.ts";

const dictionary = buildDictionary({ codes: {}, words: {} });
const sites = [...dictionary.combinedCodes.keys()].flatMap((key) => key.split(" + "));
const knownCodes = new Set([...dictionary.codes.keys(), ...sites]);

/** What a code's meaning must speak of for the quantity that it is read as. */
const quantityNames: Record<string, RegExp> = {
  diameter: /diameter|dimension/,
  "long-axis": /long axis|major axis/,
  "short-axis": /short axis|minor axis/,
  length: /length/,
  perimeter: /perimeter|circumference/,
  area: /area/,
  volume: /volume/,
  angle: /angular/,
};
const placeNames: Record<string, RegExp> = {
  "zone-9": /infrarenal aorta/,
  "sinuses-of-valsalva": /sinus of valsalva/,
  "sinotubular-junction": /sinotubular junction/,
  "aortic-annulus": /anulus.*aorta|annulus/,
  "aortic-isthmus": /aortic isthmus/,
  "aortic-bifurcation": /aortic bifurcation/,
  "aortic-root": /supraaortic valve area|aortic root/,
  "ascending-aorta": /ascending aort/,
  "aortic-arch": /aortic arch/,
  "descending-thoracic-aorta": /descending thoracic aorta/,
  "thoracic-aorta": /^thoracic aorta/,
  "suprarenal-aorta": /supra-renal aorta/,
  "abdominal-aorta": /abdominal aorta/,
  "innominate-artery": /brachiocephalic/,
  "right-common-carotid-artery": /right common carotid/,
  "left-common-carotid-artery": /left common carotid/,
  "right-subclavian-artery": /right subclavian/,
  "left-subclavian-artery": /left subclavian/,
  "coeliac-artery": /truncus coeliacus/,
  "superior-mesenteric-artery": /superior mesenteric/,
  "inferior-mesenteric-artery": /inferior mesenteric/,
};

describeWithPydicom("codes mean what the standard's tables say", () => {
  const tables = once(pydicomTables);
  const meaningOf = (key: string) => tables().codes[key]?.toLowerCase();

  test("quantities and places", () => {
    let compared = 0;
    for (const [key, { quantity, place, statistic, lumen }] of dictionary.codes) {
      const meaning = meaningOf(key);
      expect(meaning, key).toBeDefined();
      if (quantity !== undefined) expect(meaning, key).toMatch(quantityNames[quantity] ?? "none");
      if (place !== undefined) expect(meaning, key).toMatch(placeNames[place] ?? "none");
      if (statistic !== undefined) expect(meaning, key).toContain(statistic);
      if (lumen !== undefined) expect(meaning, key).toContain(`${lumen} lumen`);
      compared++;
    }
    expect(compared).toBeGreaterThan(45);
  });

  test("sides and positions, and the words that stand in for a derivation code", () => {
    const of = (place: string) =>
      [...dictionary.combinedCodes].filter(([, { id }]) => id === place).map(([key]) => key);
    for (const [place, side] of [
      ["zone-10-right", "right"],
      ["left-renal-artery", "left"],
      ["proximal-arch", "proximal"],
      ["mid-descending", "middle"],
    ] as const) {
      for (const key of of(place)) expect(meaningOf(key.split(" + ")[1] ?? "")).toBe(side);
    }
    for (const key of ["SCT:56851009", "SCT:255605001", "SCT:373098007"] as const) {
      expect(meaningOf(key)).toContain(statisticWord(key));
    }
  });

  test("every SCT code is found by its SRT spelling too", () => {
    const spellings = Object.entries(tables().srt).filter(([, value]) =>
      knownCodes.has(`SCT:${value}`),
    );
    expect(spellings.length).toBeGreaterThan(40);
    for (const [value, sct] of spellings) {
      expect(codeKey({ scheme: "SRT", value }), value).toBe(`SCT:${sct}`);
    }
  });

  test("qualifiers of a number", () => {
    for (let value = 114000; value <= 114011; value++) {
      const meaning = qualifierMeaning({ scheme: "DCM", value: String(value) });
      expect(meaning).toBe(meaningOf(`DCM:${value}`));
    }
  });

  test("concept names that the reader goes by", () => {
    // Newer than the tables of pydicom 2.3.1.
    const { referenceMeasurementGroup: _, acquisitionDateTime: __, ...older } = concepts;
    for (const [name, key] of Object.entries(older)) {
      const words = name.replaceAll(/(?=[A-Z])/g, " ").toLowerCase();
      expect(meaningOf(key), key).toContain(words);
    }
  });
});

describeWithPydicom("storage classes of the standard's registry", () => {
  const storage = once(() => Object.entries(pydicomTables().storage));
  const read = [11, 22, 33, 34, 35].map((end) => `1.2.840.10008.5.1.4.1.1.88.${end}`);

  test("the five general report classes are read, all others are named", () => {
    expect(storage().length).toBeGreaterThan(150);
    const classes = storage().filter(([uid]) => otherObjectOf(uid) === null);
    expect(classes.map(([uid]) => uid).toSorted()).toEqual(read);
    for (const [, name] of classes)
      expect(name).toMatch(/^(?:Basic Text|Enhanced|Comprehensive|Comprehensive 3D|Extensible) SR/);
  });

  test.each([
    [/Radiation Dose SR/, /dose report/],
    [/CAD SR/, /computer-aided detection/],
    [/Key Object Selection/, /key object selection/],
    [/^Encapsulated PDF/, /encapsulated PDF/],
    [/^Media Storage Directory/, /directory/],
    [/^(?:Enhanced |Legacy Converted Enhanced )?CT Image/, /a CT image/],
    [/^(?:Enhanced |Legacy Converted Enhanced )?MR (?:Color )?Image/, /an MR image/],
    [/^Ultrasound/, /an ultrasound image/],
    [/^Segmentation/, /a segmentation/],
    [/Waveform Storage/, /a waveform/],
    [/^RT (?:Plan|Dose|Structure)/, /a radiotherapy object/],
    [/Positron|PET Image/, /a PET image/],
    [/Echo/, /an echocardiography report/],
    [/Implantation Plan/, /an implantation plan/],
    [/Agent Administration/, /contrast administration/],
    [/Procedure Log/, /a procedure log/],
  ])("%s: %s", (name, what) => {
    const classes = storage().filter(([, met]) => name.test(met));
    expect(classes).not.toEqual([]);
    for (const [uid, met] of classes) expect(otherObjectOf(uid), met).toMatch(what);
  });
});
