import { describe, expect, test } from "vitest";
import { readSheet } from "../../../src/readers/csv/read-sheet.ts";
import { parseSiteConfig } from "../../../src/site/site-config.ts";

const termsIn = (text: string, yaml = "{}") => {
  const { site, messages } = parseSiteConfig(yaml, "site.yaml");
  if (!site) throw new Error(messages.map((message) => message.text).join("\n"));
  const { documents } = readSheet(new TextEncoder().encode(text), "a.csv", "00ff", site);
  return documents.flatMap(({ readings }) => readings.map(({ terms }) => terms));
};
const long = "patient_id,exam_date,place,quantity,value,unit";
const row = "P1,2025-01-02,zone 3,diameter,41,mm";

describe("plane and phase in a sheet", () => {
  test("a long sheet has them in columns, empty cells stay empty", () => {
    expect(termsIn(`${long},plane,phase\n${row},axial,diastole\n${row},,\n`)).toMatchObject([
      { plane: "axial", phase: "diastole" },
      { plane: null, phase: null },
    ]);
  });

  test("a sheet without the columns says nothing of them", () => {
    const [terms] = termsIn(`${long}\n${row}\n`);
    expect(terms).toMatchObject({ edge: null });
    expect(terms).not.toHaveProperty("plane");
    expect(terms).not.toHaveProperty("phase");
  });

  test("a wide sheet has them with the measurement, or for the whole row in a column or in always", () => {
    const text = "id,day,one,two,ph\nP1,2025-01-02,41,42,syst\n";
    const yaml = `
sheets:
  - name: wide
    columns:
      id: patient_id
      day: exam_date
      one: { place: zone-3, quantity: diameter, unit: mm, plane: perpendicular }
      two: { place: zone-4, quantity: diameter, unit: mm }
      ph: phase
    words: { phase: { syst: systole } }
`;
    const [one, two] = termsIn(text, yaml);
    expect(one).toMatchObject({ plane: "perpendicular", phase: "systole" });
    expect(two).toMatchObject({ phase: "systole" });
    expect(two).not.toHaveProperty("plane");
    const always = yaml
      .replace(", plane: perpendicular", "")
      .replace("    words:", "    always: { plane: axial }\n    words:");
    expect(termsIn(text, always)).toMatchObject([{ plane: "axial" }, { plane: "axial" }]);
  });

  test("stated for the row and for the measurement, it is a mistake of the site file", () => {
    const { messages } = parseSiteConfig(
      `sheets:
  - name: wide
    columns:
      id: patient_id
      day: exam_date
      one: { place: zone-3, quantity: diameter, plane: axial }
    always: { plane: perpendicular }
`,
      "site.yaml",
    );
    expect(messages).toMatchObject([
      {
        code: "site-file-mistake",
        place: { at: "line 6" },
        data: { what: "plane is stated for the whole row too" },
      },
    ]);
  });
});
