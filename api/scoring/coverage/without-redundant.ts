/** The chosen columns less those whose rows the others cover too, the dearest dropped first. Ascending. */
export function withoutRedundant(
  chosen: Iterable<number>,
  columns: readonly (readonly number[])[],
  costOf: (column: number) => number,
  rowCount: number,
): number[] {
  const times = new Int32Array(rowCount);
  const kept = new Set(chosen);
  for (const column of kept) {
    for (const row of columns[column] ?? []) times[row] = (times[row] ?? 0) + 1;
  }
  for (const column of [...kept].sort((a, b) => costOf(b) - costOf(a) || b - a)) {
    const rows = columns[column] ?? [];
    if (!rows.every((row) => (times[row] ?? 0) > 1)) continue;
    kept.delete(column);
    for (const row of rows) times[row] = (times[row] ?? 0) - 1;
  }
  return [...kept].sort((a, b) => a - b);
}
