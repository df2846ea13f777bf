import { readFileSync } from "node:fs";

const url = new URL("../../package.json", import.meta.url);

/** The version that stands in package.json. */
export const version = (JSON.parse(readFileSync(url, "utf8")) as { version: string }).version;
