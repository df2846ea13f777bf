import { type MessageDefinition, messageMaker } from "../message.ts";

/** What can be wrong with a site's decisions about criteria. */
export const guidelineMessages = {
  "rule-decision-without-rule": {
    severity: "error",
    text: "site file, rules: there is no criterion {rule}{hint}",
    remedy: 'Correct the id; "aortic-packet rules" lists the criteria.',
  },
  "rule-correction-not-as-printed": {
    severity: "error",
    text: 'site file, rules: {rule}: the printed limit "{printed}" is not {value} {unit}',
    remedy:
      'Give value in {unit}, the unit of the criterion, and printed as the source writes it, such as "5.5 cm".',
  },
  "rule-correction-not-possible": {
    severity: "error",
    text: "site file, rules: {rule}: its limit ({limit}) can't be corrected so",
    remedy: "Of this criterion correct {kept} only, or hide it.",
  },
  "rule-correction-empty-band": {
    severity: "error",
    text: "site file, rules: {rule}: the upper end {below} {unit} is not above the limit {value} {unit}",
    remedy: "Correct value or below; leave below out where the source prints no upper end.",
  },
} as const satisfies Record<string, MessageDefinition>;

export const guidelineMessage = messageMaker(guidelineMessages);
