/** Sentences below a table, each said once; cells hold their numbers. */
export interface NumberedNotes {
  /** "[3]": of a sentence already known, its number; of another, the next. */
  mark: (sentence: string) => string;
  /** In the order of their numbers. */
  all: () => string[];
}

export function numberedNotes(): NumberedNotes {
  const numbers = new Map<string, number>();
  return {
    mark: (sentence) => {
      const number = numbers.get(sentence) ?? numbers.size + 1;
      numbers.set(sentence, number);
      return `[${number}]`;
    },
    all: () => [...numbers.keys()],
  };
}
