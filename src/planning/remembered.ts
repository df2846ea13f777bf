/** A pure function of one argument whose answers are kept: for what is asked again with the same argument. */
export function remembered<Key, Answer>(of: (key: Key) => Answer): (key: Key) => Answer {
  const known = new Map<Key, { answer: Answer }>();
  return (key) => {
    const old = known.get(key);
    if (old !== undefined) return old.answer;
    const answer = of(key);
    known.set(key, { answer });
    return answer;
  };
}
