#!/usr/bin/env node
// Starts the command line under a Node that runs TypeScript: this one, or the one that the packages bring.
import { spawnSync } from "node:child_process";
import { existsSync } from "node:fs";
import { fileURLToPath } from "node:url";

const main = fileURLToPath(new URL("main.ts", import.meta.url));
const own = fileURLToPath(new URL("../../node_modules/.bin/node", import.meta.url));
const isNewEnough = Number(process.versions.node.split(".")[0]) >= 24;
const node = isNewEnough ? process.execPath : own;

if (!existsSync(fileURLToPath(new URL("../../node_modules", import.meta.url)))) {
  console.error("The packages are not installed yet. Run: npm run setup");
  process.exitCode = 2;
} else if (!existsSync(node)) {
  console.error(`This program needs Node 24 or newer; this is ${process.version}.`);
  process.exitCode = 2;
} else {
  const result = spawnSync(node, [main, ...process.argv.slice(2)], { stdio: "inherit" });
  process.exitCode = result.status ?? 2;
}
