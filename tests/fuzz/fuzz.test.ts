import { expect, test } from "vitest";
import { fuzzInput } from "../../fixtures/fuzz-inputs.ts";
import { judgeInput } from "./judge-input.ts";

const seed = 20_260_115;
const parts = 10;
const inputsInPart = 100;
/** No input may take longer. Source: the project's bar for damaged files. */
const longestMs = 5000;

test("the same seed and number give the same bytes, another seed others", () => {
  for (let index = 0; index < 30; index++) {
    const { kind, bytes } = fuzzInput(seed, index);
    expect(fuzzInput(seed, index)).toEqual({ kind, bytes });
    expect(fuzzInput(seed + 1, index).bytes.equals(bytes)).toBe(false);
  }
});

test.each(Array.from({ length: parts }, (_, part) => part * inputsInPart))(
  "100 damaged and hostile inputs from number %i: each is used or set aside with a reason",
  { timeout: 120_000 },
  (first) => {
    const kinds = new Set<string>();
    const outcomes = new Set<string>();
    for (let index = first; index < first + inputsInPart; index++) {
      const { kind, bytes } = fuzzInput(seed, index);
      const start = performance.now();
      try {
        outcomes.add(judgeInput(bytes));
      } catch (error) {
        throw new Error(`input ${index} of seed ${seed} (${kind})`, { cause: error });
      }
      expect(performance.now() - start, `ms for input ${index} (${kind})`).toBeLessThan(longestMs);
      kinds.add(kind);
    }
    expect(kinds.size).toBeGreaterThan(8);
    expect([...outcomes].toSorted()).toEqual(["set aside", "skipped", "used"]);
  },
);
