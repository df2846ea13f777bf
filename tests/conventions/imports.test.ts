import { globSync, readFileSync } from "node:fs";
import { dirname, join, normalize } from "node:path";
import { describe, expect, test } from "vitest";

/** The folders of src in order: a file may import from its own folder and from those before it. */
const order = [
  "quantities",
  "anatomy",
  "geometry",
  "statistics",
  "site",
  "readers",
  "cases",
  "history",
  "guidelines",
  "growth",
  "planning",
  "report",
  "batch",
  "cli",
];

/** Folders of pure mathematics, which import nothing of ours. */
const standalone = new Set(["geometry", "statistics", "quantities"]);

/** Each outside package and the one file that may import it. Schemas (zod) are written where their data lives. */
const importers: Record<string, string> = {
  "@fontsource/ibm-plex-sans": "src/report/fonts.ts",
  "@sparticuz/chromium": "src/report/bundled-browser.ts",
  "@stdlib/stats-base-dists-chisquare-cdf": "src/statistics/chi-squared.ts",
  "@stdlib/stats-base-dists-chisquare-quantile": "src/statistics/chi-squared.ts",
  "@stdlib/stats-base-dists-t-quantile": "src/statistics/student-t.ts",
  "cli-progress": "src/cli/terminal.ts",
  "csv-parse": "src/readers/csv/csv-file.ts",
  "csv-stringify": "src/batch/csv-text.ts",
  "d3-scale": "src/report/charts/scales.ts",
  dcmjs: "src/readers/dicom-sr/data-dictionary.ts",
  handlebars: "src/report/template-engine.ts",
  "p-limit": "src/batch/limit.ts",
  "puppeteer-core": "src/report/pdf-printer.ts",
  "write-file-atomic": "src/batch/write-output.ts",
  yaml: "src/data-file.ts",
  yargs: "src/cli/command-line.ts",
};

const beside = new Set(["src/message.ts", "src/data-file.ts"]);
const files = globSync("src/**/*.{ts,mjs}").filter((file) => !file.endsWith(".d.ts"));
/** `import … from "x"`, `export … from "x"` and `import "x"` at the start of a line; `import("x")` anywhere. */
const importForms =
  /^(?:import|export)\b[^;"'`]*?\bfrom\s*"([^"]+)"|^import\s*"([^"]+)"|\bimport\(\s*"([^"]+)"/gm;
const specifiers = (file: string): string[] =>
  [...readFileSync(file, "utf8").matchAll(importForms)].map(
    ([, named, bare, dynamic]) => named ?? bare ?? dynamic ?? "",
  );
const folderOf = (path: string): string => path.split("/")[1] ?? "";

describe("imports", () => {
  test("every folder of src has its place in the order", () => {
    const folders = new Set(
      files.filter((file) => !beside.has(file)).map((file) => folderOf(file)),
    );
    expect([...folders].toSorted()).toEqual(order.toSorted());
  });

  test.each(files)("%s imports only from folders before its own", (file) => {
    const relative = specifiers(file).filter((specifier) => specifier.startsWith("."));
    for (const specifier of relative) {
      const target = normalize(join(dirname(file), specifier));
      if (beside.has(target) || !target.startsWith("src/")) continue;
      if (beside.has(file)) expect.fail(`${file} imports ${specifier}`);
      const [own, other] = [folderOf(file), folderOf(target)];
      expect(order.indexOf(other), specifier).toBeLessThanOrEqual(order.indexOf(own));
      if (standalone.has(own)) expect(other, specifier).toBe(own);
    }
  });

  test.each(files)("%s imports only the packages that are its own", (file) => {
    const packages = specifiers(file)
      .filter((specifier) => !specifier.startsWith(".") && !specifier.startsWith("node:"))
      .map((specifier) =>
        specifier
          .split("/")
          .slice(0, specifier.startsWith("@") ? 2 : 1)
          .join("/"),
      );
    for (const name of packages) {
      if (name === "zod") continue;
      expect(importers[name], `${name} is imported by ${file}`).toBe(file);
    }
  });

  test("every package of package.json has its importer", () => {
    const { dependencies } = JSON.parse(readFileSync("package.json", "utf8")) as {
      dependencies: Record<string, string>;
    };
    const expected = [...Object.keys(importers), "zod"].toSorted();
    expect(Object.keys(dependencies).toSorted()).toEqual(expected);
  });
});
