import { readFileSync } from "node:fs";
import { z } from "zod";
import { parseOwnDataFile } from "../../data-file.ts";

const schema = z.strictObject({
  facts: z.array(
    z.strictObject({
      id: z.string(),
      topic: z.enum(["view", "bend"]),
      text: z.string(),
      source: z.string(),
      confirmed: z.boolean(),
    }),
  ),
});

const url = new URL("view-facts.yaml", import.meta.url);

/** Published facts about views and bends, from `view-facts.yaml`, in the order in which they are printed. */
export const viewFacts = parseOwnDataFile(
  readFileSync(url, "utf8"),
  schema,
  "src/planning/views/view-facts.yaml",
).facts;

export type ViewFact = (typeof viewFacts)[number];
