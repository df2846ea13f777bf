import { describe, expect, test } from "vitest";
import { statisticIn } from "../../../src/readers/dicom-sr/statistic-words.ts";

const maximum = "SCT:56851009";
const minimum = "SCT:255605001";
const mean = "SCT:373098007";

describe("the statistic that free text names", () => {
  test.each([
    ["Asc Ao max diam", maximum],
    ["D_max", maximum],
    ["Dmax (arch)", maximum],
    ["maximaler Durchmesser", maximum],
    ["diamètre maximal", maximum],
    ["diámetro máximo", maximum],
    ["diametro massimo", maximum],
    ["MIN diameter", minimum],
    ["diâmetro mínimo", minimum],
    ["lumen.min", minimum],
    ["mean diameter", mean],
    ["average of two", mean],
  ])("%s: %s", (text, code) => {
    expect(statisticIn(text)).toBe(code);
  });

  test.each([
    "",
    "Ascending aorta",
    "max and min",
    "minor axis",
    "maxilla",
    "adjacent mass",
    "aminophylline",
    "after 5 min",
    "after 5min",
    "minimally dilated",
    "meandering",
  ])("none or several: %s", (text) => {
    expect(statisticIn(text)).toBeNull();
  });
});
