/**
 * Removes the padding of a value: spaces on both sides and NUL bytes at the end. Not a regular expression, which
 * takes time with the square of the length of a long run of spaces.
 */
export function trimPadding(text: string): string {
  let start = 0;
  let end = text.length;
  while (end > start && (text[end - 1] === " " || text[end - 1] === "\0")) end--;
  while (start < end && text[start] === " ") start++;
  return text.slice(start, end);
}
