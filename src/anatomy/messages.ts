import type { MessageDefinition } from "../message.ts";

/** Why a number could not be placed on the aorta. */
export const anatomyMessages = {
  "place-not-stated": {
    severity: "warning",
    text: "{number} left out: nothing says where it was measured",
    remedy: "Name the finding site in the report, or the place in the sheet.",
  },
  "place-not-understood": {
    severity: "warning",
    text: "{number} left out: the place {met} ({origin}) is not a place of the aorta that this program knows",
    remedy: "If it is one, map the word or code in the site file.",
  },
  "place-side-not-stated": {
    severity: "warning",
    text: "{number} left out: {met} is a paired artery and no side is stated",
    remedy: "State the laterality in the report, or left or right in the sheet.",
  },
  "place-modifier-not-understood": {
    severity: "warning",
    text: "{number} left out: the modifier {modifier} of {met} is not understood, and without it the number would stand for another place",
    remedy: "Map the modifier in the site file.",
  },
  "place-conflict": {
    severity: "warning",
    text: "{number} left out: {origin} names two places, {met} and {other}",
    remedy: "Ask the reporting lab which of the two was measured.",
  },
  "quantity-not-understood": {
    severity: "warning",
    text: "{number} left out: the quantity {met} is not one that this program reads",
    remedy: "If it is a size of the aorta, map the word or code in the site file.",
  },
  "statistic-not-understood": {
    severity: "warning",
    text: "{number} left out: {met} is not maximum, minimum or mean",
    remedy: "Write maximum, minimum or mean, or leave the cell empty.",
  },
  "terms-conflict": {
    severity: "warning",
    text: "{number} left out: it is called both {met} and {other}",
    remedy: "Ask the reporting lab which of the two it is.",
  },
  "lumen-not-understood": {
    severity: "warning",
    text: "{number} left out: {met} is not the whole, true or false lumen",
    remedy: "Write whole, true or false, or leave the cell empty.",
  },
  "edge-not-understood": {
    severity: "warning",
    text: "{number} left out: {met} is not the inner or outer edge",
    remedy: "Write inner or outer, or leave the cell empty.",
  },
  "plane-not-understood": {
    severity: "warning",
    text: "{number} left out: {met} is not the plane perpendicular to the centreline or the axial plane",
    remedy: "Write perpendicular or axial, or leave the cell empty.",
  },
  "phase-not-understood": {
    severity: "warning",
    text: "{number} left out: {met} is not systole or diastole",
    remedy: "Write systole or diastole, or leave the cell empty.",
  },
} as const satisfies Record<string, MessageDefinition>;

export type AnatomyMessageCode = keyof typeof anatomyMessages;
