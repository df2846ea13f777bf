import { deflateRawSync } from "node:zlib";
import { describe, expect, test } from "vitest";
import { type ByteOptions, writeBytes } from "../../../fixtures/byte-writer.ts";
import { text } from "../../../fixtures/content-items.ts";
import { arch, diameterItem, group, read, reportBytes, site } from "./invented-report.ts";

const content = [group(site(arch), diameterItem("42.5"))];

/** The file cut at every byte: none of the cuts is used, and each says why. */
function expectNoCutRead(bytes: Uint8Array, from = 1): void {
  expect(read(bytes).documents).toHaveLength(1);
  for (let length = from; length < bytes.length; length++) {
    const file = read(bytes.subarray(0, length));
    expect(file.kind, `cut at ${length} of ${bytes.length}`).toBe("unreadable");
    expect(file.documents).toEqual([]);
    expect(file.setAside?.severity).toBe("error");
  }
}

describe("a report cut at any byte is never read as whole", () => {
  const forms: ByteOptions[] = (["explicit", "implicit", "big-endian"] as const).flatMap(
    (encoding) =>
      (["defined", "undefined"] as const).flatMap((lengths) =>
        (["preamble", "none"] as const).map((meta) => ({ encoding, lengths, meta })),
      ),
  );
  test.each(forms)("$encoding, $lengths lengths, meta $meta", (options) => {
    // A bare data set is known as DICOM by its first eight bytes; fewer are no report either.
    expectNoCutRead(reportBytes(content, {}, options), options.meta === "none" ? 8 : 1);
  });

  test.each(["defined", "undefined"] as const)("deflated, %s lengths", (lengths) => {
    const body = deflateRawSync(reportBytes(content, {}, { meta: "none", lengths }));
    const head = writeBytes({}, { transferSyntax: "1.2.840.10008.1.2.1.99" });
    expectNoCutRead(Buffer.concat([head, body]));
  });
});

test("after the content nothing can be lost but what stands there: the numbers are those of the whole", () => {
  const bytes = reportBytes(content, {
    "00410010": text("LO", "INVENTED"),
    "00411001": text("LT", "a private remark"),
  });
  const whole = read(bytes).documents;
  const cuts = Array.from(bytes, (_, length) => read(bytes.subarray(0, length)));
  const used = cuts.filter(({ documents }) => documents.length > 0);
  // At the two ends of an element, where the file is a whole one without the elements cut off.
  expect(used).toHaveLength(2);
  for (const { documents } of used) expect(documents).toEqual(whole);
});
