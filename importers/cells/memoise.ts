/** The same function with a dictionary of answers: columns repeat their values, so each is read once. */
export function memoise<T>(read: (cell: string) => T): (cell: string) => T {
  const seen = new Map<string, T>();
  return (cell) => {
    const before = seen.get(cell);
    if (before !== undefined) return before;
    const answer = read(cell);
    seen.set(cell, answer);
    return answer;
  };
}
