/** First letter in upper case: a label at the head of a sentence or row. */
export function sentenceCase(text: string): string {
  return text.slice(0, 1).toUpperCase() + text.slice(1);
}
