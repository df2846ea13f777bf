import { describe, expect, test } from "vitest";
import { parseSiteConfig } from "../../src/site/site-config.ts";

const rightArch = `archConventions:
  - variant: right arch
    branches:
      "0": [innominate-artery]
      "1": [right common carotid artery]
      "2": [right-subclavian-artery]
      "3": []
      "4": []
    by: aortic team
    date: 2026-01-15
`;

describe("arch conventions in the site file", () => {
  test("branches are ids or labels, and kept as labels", () => {
    const { site, messages } = parseSiteConfig(rightArch, "site.yaml");
    expect(messages).toEqual([]);
    expect(site?.archConventions).toEqual([
      {
        variant: "right arch",
        branches: {
          "0": ["innominate artery"],
          "1": ["right common carotid artery"],
          "2": ["right subclavian artery"],
          "3": [],
          "4": [],
        },
        by: "aortic team",
        date: "2026-01-15",
      },
    ]);
  });

  test.each([
    ["the usual arch", "variant: right arch", "variant: usual", "line 2", "usual is none"],
    ["a branch that is none", "[innominate-artery]", "[zone-3]", "line 4", "zone-3 is none"],
    ["a zone left out", '      "4": []\n', "", "line 3", "is missing"],
    ["a zone without a convention", '"4": []', '"5": []', "line 8", "5 is not a key here"],
    [
      "a branch in two zones",
      '"3": []',
      '"3": [innominate artery]',
      "line 7",
      "innominate artery stands twice",
    ],
    ["a day that does not exist", "2026-01-15", "2026-02-30", "line 10", "YYYY-MM-DD"],
    ["no one who decided", "    by: aortic team\n", "", "line 2", "is missing"],
    [
      "two conventions for a variant",
      "archConventions:\n",
      rightArch,
      "line 11",
      "write one convention",
    ],
  ])("%s is refused with its line", (_, good, bad, at, what) => {
    expect(rightArch).toContain(good);
    const { site, messages } = parseSiteConfig(rightArch.replace(good, bad), "site.yaml");
    expect(site).toBeNull();
    const said = messages.find(({ text }) => text.includes(what));
    expect(said?.place?.at, messages.map(({ text }) => text).join("\n")).toBe(at);
  });
});
