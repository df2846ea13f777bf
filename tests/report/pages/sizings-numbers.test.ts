import { describe, expect, test } from "vitest";
import { sizingsView } from "../../../src/report/pages/sizings-view.ts";
import { htmlText } from "../html-text.ts";
import { aneurysms, count, dissections, htmlOf, one } from "../sample-sizings.ts";

/** The text of the table row that begins with these words. */
const rowOf = (html: string, table: string, head: string): string => {
  const from = html.indexOf(`class="${table}"`);
  const body = html.slice(from, html.indexOf("</table>", from));
  const found = body
    .split("<tr>")
    .map(htmlText)
    .find((text) => text.trim().startsWith(head));
  if (found === undefined) throw new Error(`no row ${head} in ${table}`);
  return found;
};

/** The words from the heading of a pair of zones to the next one. */
const pairText = (html: string, from: string, to: string): string => {
  const bodies = html.split("<tbody>").map((body) => htmlText(body.split("</tbody>")[0] ?? ""));
  const found = bodies.find((body) => body.includes(`Zone ${from} to zone ${to} :`));
  if (found === undefined) throw new Error(`no pair ${from} to ${to}`);
  return found;
};

test("the samples hold every kind of answer that is compared below", () => {
  const all = [...aneurysms, ...dissections].map((entry) => entry.sizing);
  const answers = all.flatMap(({ inventory }) => inventory?.answers ?? []);
  const misses = answers.flatMap(({ ends }) => ends.flatMap(({ nearest }) => nearest));
  const tapers = all.flatMap((own) => own.tapers);
  expect(answers.filter(({ fits }) => fits.length > 0).length).toBeGreaterThan(3);
  expect(misses.some(({ missMm }) => missMm < 0)).toBe(true);
  expect(misses.some(({ missMm }) => missMm > 0)).toBe(true);
  expect(tapers.filter(({ straightMm }) => straightMm !== null).length).toBeGreaterThan(3);
  expect(tapers.filter(({ straightMm }) => straightMm === null).length).toBeGreaterThan(3);
  expect(all.flatMap((own) => own.piecePairs ?? []).length).toBeGreaterThan(0);
  expect(
    all.flatMap(({ pieces }) => pieces).some(({ least, most }) => least?.pieces !== most?.pieces),
  ).toBe(true);
});

describe.each([
  ["aneurysm", aneurysms],
  ["dissection", dissections],
])("every number that the section shows is that of the plan: %s", (_, sizings) => {
  const html = htmlOf(sizings);
  const ends = sizings.flatMap(({ fromZone, toZone, sizing: { proximal: p, distal: d } }) => [
    { label: `Proximal, zone ${fromZone}`, end: p },
    ...(toZone === null ? [] : [{ label: `Distal, zone ${toZone}`, end: d }]),
  ]);

  test("references, their errors, the other conventions and how far they are apart", () => {
    for (const { label, end } of ends) {
      const text = rowOf(html, "sizing-ends", label);
      const { reference, errorMm, diameters, place } = end.reference ?? {};
      if (!reference || errorMm === undefined) throw new Error("the sample has a reference");
      expect(text).toContain(
        `${one(reference.diameterMm)} mm (± ${one(errorMm)}), ${reference.convention}`,
      );
      expect(text).toContain(place);
      for (const { convention, diameterMm, isEstimated } of diameters ?? []) {
        if (convention === reference.convention) continue;
        expect(text).toContain(`${convention} ${one(diameterMm)}${isEstimated ? " est." : ""}`);
      }
      if (end.spread === null) continue;
      const { mm, points, graftMm } = end.spread;
      expect(text).toContain(`apart ${one(mm)} mm, ${one(points)} points at ${one(graftMm)} mm`);
    }
  });

  test("graft diameters of every window at every end, and its rows or those that miss by least", () => {
    const { sizingWindows: table } = sizingsView({ sizings });
    if (!table) throw new Error("the sample has windows");
    const cellOf = (label: string, number: string) => {
      const areEndsRows = table.corner === "End";
      const [head, column] = areEndsRows ? [label, number] : [number, label];
      return table.rows.find((line) => line.head === head)?.cells[table.heads.indexOf(column)];
    };
    const distinct = [
      ...new Set(ends.flatMap(({ end }) => end.windows.map(({ window }) => window.id))),
    ];
    for (const { label, end } of ends) {
      for (const { window, interval } of end.windows) {
        const cell = cellOf(label, `W${distinct.indexOf(window.id) + 1}`);
        if (!interval) throw new Error("the sample has diameters");
        const { graftLowMm, graftHighMm, surelyInsideLowMm, surelyInsideHighMm } = interval;
        for (const mm of [graftLowMm, graftHighMm]) expect(cell?.allowed).toContain(one(mm));
        const isSure = surelyInsideLowMm <= surelyInsideHighMm;
        const sure = isSure ? [one(surelyInsideLowMm), one(surelyInsideHighMm), "sure"] : [];
        for (const words of sure) expect(cell?.sure).toContain(words);
        if (!isSure) expect(cell?.sure).toBe("");
        const source = sizings.find(({ sizing: own }) => own[end.end] === end)?.sizing.inventory;
        const answer = source?.answers.find((entry) => entry[end.end] === window.id);
        const { inside = [], nearest = [] } =
          answer?.ends.find((entry) => entry.end === end.end) ?? {};
        for (const id of inside) expect(cell?.rows).toContain(id);
        for (const { id, missMm } of nearest) {
          expect(cell?.rows).toMatch(new RegExp(`no row; .*${id}`));
          expect(cell?.rows).toContain(
            `${one(Math.abs(missMm))} mm too ${missMm < 0 ? "small" : "large"}`,
          );
        }
      }
    }
  });

  test("oversizing of every row of the inventory at every end, its diameters and length", () => {
    for (const { fromZone, toZone, sizing: own } of sizings) {
      const { sizingInventory } = sizingsView({ sizings });
      for (const fit of own.inventory?.rows ?? []) {
        const text = rowOf(html, "sizing-inventory", fit.id);
        expect(text).toContain(
          `${one(fit.proximal.graftMm)}, ${one(fit.distal.graftMm)} ${one(fit.coveredLengthMm)}`,
        );
        const labels = { proximal: `Proximal, zone ${fromZone}`, distal: `Distal, zone ${toZone}` };
        for (const end of ["proximal", "distal"] as const) {
          if (end === "distal" && toZone === null) continue;
          const column =
            sizingInventory[0]?.ends.findIndex(({ label }) => label === labels[end]) ?? -1;
          const cell = sizingInventory[0]?.rows.find(({ id }) => id === fit.id)?.cells[column];
          const [first] = fit[end].windows;
          expect(cell?.oversizing).toBe(one(fit[end].oversizing?.value ?? Number.NaN));
          const word = first?.outcome === "met" ? "in" : "out";
          expect(cell?.mark?.word).toBe(`${word}${first?.spansLimit ? " ±" : ""}`);
          expect(text).toContain(`${cell?.oversizing} ${cell?.mark?.word}`);
        }
      }
    }
  });

  test("covered length, vessel ratio, pieces, rows inside or nearest, taper and straight graft of every pair", () => {
    for (const { fromZone, toZone, sizing: own } of sizings) {
      if (toZone === null || own.coverage === null) continue;
      const text = pairText(html, fromZone, toZone);
      expect(text).toContain(
        `covers ${one(own.coverage.leastMm)} to ${one(own.coverage.mostMm)} mm`,
      );
      for (const { neededMm, straightMm, straight } of own.tapers) {
        expect(text).toContain(`${one(neededMm.lowMm)} to ${one(neededMm.highMm)}`);
        const { value, low, high } = straight.value ?? {};
        expect(text).toContain(`${value?.toFixed(4)} (${low?.toFixed(4)} to ${high?.toFixed(4)})`);
        if (straightMm)
          expect(text).toContain(`${one(straightMm.lowMm)} to ${one(straightMm.highMm)} mm`);
        expect(htmlText(html)).toContain(straight.limit);
      }
      for (const { fits, ends: answered } of own.inventory?.answers ?? []) {
        for (const id of fits) expect(text).toContain(id);
        if (fits.length > 0) continue;
        for (const { end, nearest } of answered) {
          for (const { id, missMm } of nearest) {
            expect(text).toMatch(new RegExp(`${end} nearest [^;]*${id}`));
            expect(text).toContain(
              `${one(Math.abs(missMm))} mm too ${missMm < 0 ? "small" : "large"}`,
            );
          }
        }
      }
      for (const { coveredLengthMm, least, most, overlapMm } of own.pieces) {
        const said =
          least?.pieces === most?.pieces
            ? `${least?.pieces}`
            : `${least?.pieces} to ${most?.pieces}`;
        for (const words of [one(coveredLengthMm), said, one(overlapMm)])
          expect(text).toContain(words);
      }
      for (const two of (own.piecePairs ?? []).slice(0, 3)) {
        expect(text).toContain(
          `${two.proximalRow} inside ${two.distalRow} (joint ${one(two.jointPercent)} %, up to ${one(two.mostCoverMm)} mm)`,
        );
      }
    }
  });

  test("each end, source, fact, question and alarm stands once", () => {
    const text = htmlText(html);
    const endsTable = html.slice(html.indexOf("sizing-ends"), html.indexOf("</table>"));
    for (const { label } of ends) expect(count(htmlText(endsTable), label)).toBe(1);
    const { sizingFacts, sizingQuestions, sizingAlarms, sizingWindowSources } = sizingsView({
      sizings,
    });
    const lines = [
      ...sizingFacts,
      ...sizingAlarms,
      ...sizingQuestions.map((question) => question.text),
      ...sizingWindowSources.map((source) => `${source.number} ${source.text}`),
    ];
    expect(lines.length).toBeGreaterThan(5);
    for (const line of lines) expect(count(text, line.replaceAll("\u00a0", " "))).toBe(1);
    const windows = ends.flatMap(({ end }) => end.windows.map(({ window }) => window));
    for (const { printed, source, confirmed } of windows) {
      const said = sizingWindowSources.find((entry) => entry.text.startsWith(printed))?.text ?? "";
      expect(said).toContain(source);
      expect(said.includes("not confirmed against the source")).toBe(!confirmed);
    }
  });

  test("the page reads without colour, and nothing is recommended", () => {
    const marks = html.match(/<svg/g)?.length ?? 0;
    expect(marks).toBeGreaterThan(10);
    expect(
      html.match(/<svg[^>]*>.*?<\/svg> (met|not met|in|out|can&#x27;t be judged)/g),
    ).toHaveLength(marks);
    expect(html).not.toMatch(/style=|fill=|color/);
    expect(htmlText(html)).toContain("it ranks nothing");
    expect(htmlText(html)).not.toMatch(/recommend|best |should/i);
  });
});

describe("distal end in the true lumen", () => {
  test("rows of one diameter stand together, once for each distal zone; the taper is that of each pair", () => {
    const { sizingTrueLumen: view } = sizingsView({ sizings: dissections });
    expect(view?.rows.map(({ zone, ids }) => `${zone}: ${ids}`)).toEqual([
      "4: G01",
      "4: G02",
      "4: G03, G04",
      "4: G05",
      "5: G01",
      "5: G02",
      "5: G03, G04",
      "5: G05",
    ]);
    expect(view?.tapers.map(({ pairs }) => pairs)).toEqual([
      "zone 2 to 4",
      "zone 2 to 5",
      "zone 3 to 5",
    ]);
    const html = htmlOf(dissections);
    const text = htmlText(html);
    for (const { toZone, sizing: own } of dissections) {
      for (const line of own.trueLumen?.rows ?? []) {
        const shown = view?.rows.find(
          ({ zone, ids }) => zone === toZone && ids.split(", ").includes(line.id),
        );
        const { distal: mm, byPerimeter, byArea, areaRatio, wholeAorta } = shown ?? {};
        expect([mm, byPerimeter, byArea, areaRatio, wholeAorta]).toEqual([
          one(line.distalMm),
          ...[line.byPerimeter, line.byArea, line.areaRatioPercent, line.wholeAorta].map(
            (value) => `${one(value ?? Number.NaN)} %`,
          ),
        ]);
      }
      const { taper, taperChecks = [], beforeDissection = [] } = own.trueLumen ?? {};
      for (const value of [
        taper?.proximalMm,
        taper?.distalMm,
        taper?.percent,
        taper?.low,
        taper?.high,
      ]) {
        expect(text).toContain(one(value ?? Number.NaN));
      }
      for (const { limit } of taperChecks) expect(text).toContain(limit);
      for (const { circumferenceMm, diameterMm, source } of beforeDissection) {
        expect(text).toContain(
          `circumference ${one(circumferenceMm)} mm, diameter ${one(diameterMm)} mm`,
        );
        expect(count(text, source)).toBe(1);
      }
    }
    expect(count(text, "9 of 142 patients")).toBe(1);
    expect(text).toContain("common practice without a source");
  });
});
