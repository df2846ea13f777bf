import { readFileSync } from "node:fs";
import { loadRules, rulesDigest } from "../src/guidelines/load-rules.ts";
import { loadSchedules } from "../src/guidelines/load-schedules.ts";
import type { PlanBasis } from "../src/report/build-plan.ts";
import { parseSiteConfig } from "../src/site/site-config.ts";

const { site } = parseSiteConfig(readFileSync("fixtures/demo/site.yaml", "utf8"), "site.yaml");
if (!site) throw new Error("the demo's site file does not load");
const rules = loadRules();

/** What the demo's plans stand on in tests, whatever version the program has. */
export const demoBasis: PlanBasis = {
  asOf: "2026-01-15",
  version: "golden",
  rules,
  rulesDigest: rulesDigest(rules),
  hiddenRules: [],
  schedules: loadSchedules(),
  readingErrorEstimates: [],
  site,
  inventory: null,
};
