/** Keeps the last few results of a pure function that is asked the same thing again and again. */
export function recently<Input, Result>(
  most: number,
  compute: (input: Input) => Result,
  keyOf: (input: Input) => string,
): (input: Input) => Result {
  const kept = new Map<string, Result>();
  return (input) => {
    const key = keyOf(input);
    const known = kept.get(key);
    if (known !== undefined) return known;
    const [oldest] = kept.keys();
    if (kept.size >= most && oldest !== undefined) kept.delete(oldest);
    const result = compute(input);
    kept.set(key, result);
    return result;
  };
}
