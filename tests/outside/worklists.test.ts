/**
 * The worklists against what the sources ask to be imaged and measured.
 *
 * Sources, each read as text of the document or of its publisher's own summary:
 * - ACC/AHA 2022 aortic disease guideline, section 3.1, class 1: perpendicular to the axis of flow at reproducible
 *   landmarks; where the section is oval the longest diameter and the one across it; root and ascending aorta on CT to
 *   the inner edge with ECG synchronisation; to the outer edge where the wall is diseased.
 * - SVS 2021 guideline on stent grafts of the descending aorta, list of recommendations (3 July 2020) and abstract,
 *   J Vasc Surg 2021;73:55S: CT of the whole aorta with the iliac and femoral arteries (1 A), of head and neck for the
 *   vertebral arteries, three-dimensional centreline planning (1 B).
 * - EACTS/STS 2024 aortic guideline, summary of recommendations: the same modality and method (I C).
 * - ACC/AHA 2022, pocket edition page 6: zones 1, 2 and 3 begin at the distal edge of a branch, zone 0 at the
 *   sinotubular junction; zone 5 ends at the coeliac artery.
 * - Dohle and Desai, chapter on hybrid arch repair, abstract: native ascending aorta for type I.
 * From memory, not compared: the levels of serial sizes (ACCF/AHA 2010 figure), 25 to 30 mm of graft in type II.
 * Common practice without a source: stations every 10 mm, both curves, tortuosity, circle of Willis, who gives a bypass.
 */
import { describe, expect, test } from "vitest";
import { placeTable } from "../../src/anatomy/places.ts";
import {
  type Procedure,
  procedures,
  type WorkItem,
} from "../../src/planning/worklists/worklists.ts";

const procedureOf = (id: string): Procedure => {
  const found = procedures.find((one) => one.id === id);
  if (!found) throw new Error(`no procedure ${id}`);
  return found;
};
const stentGrafts = ["zone 0", "zone 1", "zone 2", "zone 3", "zone 4"];
const hybrids = ["hybrid type I", "hybrid type II", "hybrid type III"];
const planned = procedures.filter(({ id }) => !["access", "follow-up"].includes(id));
const marksOf = ({ items }: Procedure): string[] =>
  items.flatMap((item) => {
    const marks =
      item.form === "mark" ? [item.mark] : item.form === "stretch" ? [item.from, item.to] : [];
    return marks.map(({ place, edge }) => (edge === null ? place.id : `${place.id}, ${edge}`));
  });
const isMeasured = (item: WorkItem) => item.form === "measurements";

describe("ACC/AHA 2022, section 3.1", () => {
  test.each(planned.map((one) => [one.id, one] as const))(
    "%s: where a section is measured whole, its longest diameter and the one across it are asked for",
    (_, { items }) => {
      const perimeters = items
        .filter(isMeasured)
        .filter(({ id, lumen }) => id.includes("perimeter") && lumen === "whole");
      for (const { place } of perimeters) {
        const at = items.filter(isMeasured).filter((item) => item.place.id === place.id);
        expect(at.map(({ statistic }) => statistic)).toEqual(
          expect.arrayContaining(["maximum", "minimum"]),
        );
      }
    },
  );

  test.each([...stentGrafts, ...hybrids, "open arch"])(
    "%s: root and ascending aorta to the inner edge, with the gating stated; the aneurysm to the outer edge",
    (id) => {
      const { items } = procedureOf(id);
      const ascending = items
        .filter(isMeasured)
        .filter(
          ({ place, quantity }) =>
            quantity === "diameter" && ["root", "ascending"].includes(place.region ?? ""),
        );
      expect(ascending.length).toBeGreaterThan(0);
      expect(new Set(ascending.map(({ edge }) => edge))).toEqual(new Set(["inner"]));
      expect(items.some((item) => item.form === "exam" && item.field === "gated")).toBe(true);
      const widest = items.filter(isMeasured).find(({ place }) => place.id === "thoracic-aorta");
      expect(widest).toMatchObject({ statistic: "maximum", edge: "outer" });
    },
  );
});

describe("SVS 2021, list of recommendations", () => {
  test.each(stentGrafts)(
    "%s: the whole aorta with iliac and femoral arteries, both sides",
    (id) => {
      const places = procedureOf(id).items.flatMap((item) => {
        if (item.form === "measurements") return [item.place.id];
        return item.form === "stretch" ? [item.vessel] : [];
      });
      expect(places).toEqual(
        expect.arrayContaining([
          "sinotubular-junction",
          "mid-descending",
          "at-coeliac-origin",
          "zone-9",
          ...["right", "left"].flatMap((side) => [
            `zone-10-${side}`,
            `zone-11-${side}`,
            `${side}-common-femoral-artery`,
            `${side} access path`,
          ]),
        ]),
      );
    },
  );

  test.each(stentGrafts)("%s: head and neck for both vertebral arteries", (id) => {
    const ids = procedureOf(id).items.map((item) => item.id);
    for (const side of ["left", "right"]) {
      expect(ids).toContain(`${side}-vertebral-artery, dominance`);
      expect(ids).toContain(`${side}-vertebral-artery, patency`);
    }
  });

  test.each(stentGrafts)("%s: stations on a centreline at both ends of the graft", (id) => {
    const stretches = procedureOf(id).items.filter((item) => item.form === "stretch");
    const ids = stretches.map((item) => item.id);
    expect(ids).toContain(`landing in ${id}, sizes`);
    expect(ids).toContain("distal landing, sizes");
  });
});

describe("zone map, ACC/AHA 2022 pocket edition page 6", () => {
  /** "distal edge of the left subclavian artery origin" as the id of a mark. */
  const markOf = (border: string): string => {
    const words = /^distal edge of the (.*) origin$/.exec(border)?.[1] ?? border;
    const place = placeTable.find(({ place: { label } }) => label === words)?.place.id ?? words;
    return border.startsWith("distal edge") ? `${place}, distal edge` : place;
  };

  test.each(["zone 0", "zone 1", "zone 2", "zone 3"])(
    "the landing of %s begins at the border of the zone, and at an edge where that is a branch",
    (id) => {
      const { items } = procedureOf(id);
      const stretch = items.find((item) => item.id === `landing in ${id}, sizes`);
      const borders = placeTable.find(({ place }) => place.label === id)?.borders;
      if (stretch?.form !== "stretch" || !borders) throw new Error("no stretch or no borders");
      const { place, edge } = stretch.from;
      expect(edge === null ? place.id : `${place.id}, ${edge}`).toBe(markOf(borders.from));
    },
  );

  test.each([...stentGrafts, ...hybrids.slice(0, 2)])(
    "%s: every branch of the arch stands on the centreline with both edges, the coeliac artery with the proximal one",
    (id) => {
      const marks = marksOf(procedureOf(id));
      for (const branch of ["innominate", "left-common-carotid", "left-subclavian"]) {
        expect(marks).toContain(`${branch}-artery, proximal edge`);
        expect(marks).toContain(`${branch}-artery, distal edge`);
      }
      expect(marks).toContain("coeliac-artery, proximal edge");
    },
  );
});

test("EACTS/STS 2024: follow-up asks for the modality and keeps the edge of earlier exams", () => {
  const { items } = procedureOf("follow-up");
  expect(items.some((item) => item.form === "exam" && item.field === "modality")).toBe(true);
  const sizes = items.filter(isMeasured).filter(({ lumen }) => lumen === "whole");
  expect(new Set(sizes.map(({ edge }) => edge))).toEqual(new Set([null]));
});

test("Dohle and Desai: type I measures the native ascending aorta, type II the graft", () => {
  const basisOf = (id: string) => procedureOf(id).basis.map(({ group }) => group);
  expect(basisOf("hybrid type I")).toContain("native ascending aorta");
  expect(basisOf("hybrid type II")).toContain("ascending graft");
  expect(basisOf("hybrid type I")).not.toContain("ascending graft");
});

describe("marks", () => {
  const rows = procedures.flatMap(({ basis }) => basis);
  const confirmed = [
    /^ACC\/AHA 2022 aortic disease guideline, section 3\.1, class 1$/,
    /^ACC\/AHA 2022 aortic disease guideline, zone figure, pocket edition page 6$/,
    /^SVS 2021 guideline on stent grafts of the descending aorta, list of recommendations, grade 1, level [AB]$/,
    /^SVS\/STS 2020 reporting standard of type B dissection, J Vasc Surg 2020;71:723, abstract$/,
    /^EACTS\/STS 2024 aortic guideline, summary of recommendations, class I, level C$/,
    /^Dohle and Desai, chapter on hybrid arch repair, abstract$/,
    /^J Vasc Surg 2014, landing in polyester graft/,
  ];

  test("only what was seen in print is marked as confirmed", () => {
    for (const { source, confirmed: isConfirmed } of rows) {
      expect(
        confirmed.some((pattern) => pattern.test(source)),
        source,
      ).toBe(isConfirmed);
    }
  });

  test("what is recalled or common practice says so", () => {
    for (const { source } of rows.filter((row) => !row.confirmed)) {
      expect(source).toMatch(/recalled|common practice without a source/);
    }
  });
});
