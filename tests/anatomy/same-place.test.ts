import { expect, test } from "vitest";
import { placeById } from "../../src/anatomy/places.ts";
import { canBeSamePlace } from "../../src/anatomy/same-place.ts";

test.each([
  ["ascending-aorta", "ascending-aorta", true],
  ["ascending-aorta", "mid-ascending", true],
  ["ascending-aorta", "sinotubular-junction", true],
  ["aortic-arch", "proximal-arch", true],
  ["thoracic-aorta", "aortic-root", true],
  ["descending-thoracic-aorta", "aortic-isthmus", true],
  ["ascending-aorta", "aortic-arch", false],
  ["aortic-root", "ascending-aorta", false],
  ["aortic-arch", "aortic-isthmus", false],
  ["mid-arch", "proximal-arch", false],
  ["sinuses-of-valsalva", "aortic-annulus", false],
  ["aortic-arch", "left-subclavian-artery", false],
  ["left-renal-artery", "right-renal-artery", false],
])("%s and %s: %s", (one, other, expected) => {
  expect(canBeSamePlace(placeById(one), placeById(other))).toBe(expected);
  expect(canBeSamePlace(placeById(other), placeById(one))).toBe(expected);
});
