import { codeKey } from "../../anatomy/dictionary.ts";
import type { Term } from "../../anatomy/term.ts";
import type { DataSet } from "./data-set.ts";
import { type FigureValue, figureValueOf } from "./drawn-figure.ts";
import { asciiOf, binaryOf, codedOf, itemsOf, textOf } from "./element-values.ts";
import { measuredValueOf, type MeasuredValue } from "./measured-value.ts";
import { tags } from "./tags.ts";

/** One item of the content tree of a structured report. */
export interface ContentItem {
  /** Position in the tree as the standard counts it: the root is "1", its second child "1.2". */
  position: string;
  /** CONTAINS, HAS CONCEPT MOD …; null for the root. */
  relationship: string | null;
  /** CONTAINER, NUM, CODE …; null for an item that only refers to another one. */
  valueType: string | null;
  concept: Term | null;
  /** The concept's code as it is looked up; "" without one. */
  key: string;
  /** Value of a CODE item. */
  code: Term | null;
  /** Value of a TEXT, PNAME, UIDREF, DATE, TIME or DATETIME item. */
  text: string | null;
  /** Value of a NUM item. */
  number: MeasuredValue | null;
  /** Value of a SCOORD3D item. */
  figure: FigureValue | null;
  /** SOP Instance UIDs that an IMAGE, COMPOSITE or WAVEFORM item refers to. */
  references: string[];
  /** Position that an item by reference refers to; null for all others. */
  referenceTo: string | null;
  children: ContentItem[];
}

const textTags = new Map<string, number>([
  ["TEXT", tags.textValue],
  ["PNAME", tags.personName],
  ["UIDREF", tags.uid],
  ["DATE", tags.date],
  ["TIME", tags.time],
  ["DATETIME", tags.dateTime],
]);

/** Builds the content tree of a report; null where the data set has no value type and content sequence. */
export function contentTreeOf(report: DataSet): ContentItem | null {
  const content = report.elements.get(tags.contentSequence);
  if (asciiOf(report, tags.valueType) === null || !content?.items) return null;
  const root = contentItemOf(report, "1");
  const open: { dataSet: DataSet; item: ContentItem }[] = [{ dataSet: report, item: root }];
  for (let next = open.pop(); next; next = open.pop()) {
    const { dataSet, item } = next;
    for (const [index, child] of itemsOf(dataSet, tags.contentSequence).entries()) {
      const childItem = contentItemOf(child, `${item.position}.${index + 1}`);
      item.children.push(childItem);
      open.push({ dataSet: child, item: childItem });
    }
  }
  return root;
}

function contentItemOf(dataSet: DataSet, position: string): ContentItem {
  const valueType = asciiOf(dataSet, tags.valueType);
  const concept = codedOf(dataSet, tags.conceptName);
  const textTag = textTags.get(valueType ?? "");
  const references = itemsOf(dataSet, tags.referencedSopSequence).flatMap(
    (item) => asciiOf(item, tags.referencedSopInstanceUid) ?? [],
  );
  const referenced = binaryOf(dataSet, tags.referencedContentItem, "UL") ?? [];
  return {
    position,
    relationship: asciiOf(dataSet, tags.relationshipType),
    valueType,
    concept,
    key: concept?.code ? codeKey(concept.code) : "",
    code: valueType === "CODE" ? codedOf(dataSet, tags.conceptCode) : null,
    text: textTag === undefined ? null : textOf(dataSet, textTag),
    number: valueType === "NUM" ? measuredValueOf(dataSet) : null,
    figure: valueType === "SCOORD3D" ? figureValueOf(dataSet) : null,
    references,
    referenceTo: referenced.length > 0 ? referenced.join(".") : null,
    children: [],
  };
}
