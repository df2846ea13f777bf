/** The rows of a text table: one a line, columns apart by two spaces or more. */
export function columnsOf(table: string): string[][] {
  return table
    .trim()
    .split("\n")
    .map((line) => line.trim().split(/ {2,}/));
}

/** A cell that must be one of the keys of a record; throws where it is not. */
export function oneOf<Key extends string>(known: Record<Key, unknown>, cell = ""): Key {
  if (!Object.hasOwn(known, cell)) throw new Error(`"${cell}" is not one of the known words`);
  return cell as Key;
}
