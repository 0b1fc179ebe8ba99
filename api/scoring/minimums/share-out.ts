/** A need for pieces, and which supplies may meet it. */
export interface Need {
  readonly pieces: number;
  readonly accepts: readonly number[];
}

/**
 * Returns how many pieces of each need can be met when no piece serves twice: a largest possible total, found by
 * augmenting paths in whole pieces.
 *
 * @param needs pieces >= 0 and the supplies that fit
 * @param supplies pieces of each supply, >= 0
 * @returns met pieces per need; their sum is the greatest possible. O(needs x supplies x pieces of need)
 * Source: Ford & Fulkerson, "Maximal flow through a network", Canadian Journal of Mathematics 8 (1956).
 */
export function shareOut(needs: readonly Need[], supplies: readonly number[]): readonly number[] {
  const left = supplies.map((pieces) => Math.max(0, Math.floor(pieces)));
  /** Pieces of supply s given to need n. */
  const given = needs.map(() => left.map(() => 0));
  const met = needs.map(() => 0);
  const augment = (need: number, seen: Set<number>): boolean => {
    for (const supply of needs[need]?.accepts ?? []) {
      if (seen.has(supply)) continue;
      seen.add(supply);
      const take = (): true => {
        const row = given[need];
        if (row !== undefined) row[supply] = (row[supply] ?? 0) + 1;
        return true;
      };
      if ((left[supply] ?? 0) > 0) {
        left[supply] = (left[supply] ?? 0) - 1;
        return take();
      }
      for (let other = 0; other < needs.length; other++) {
        const row = given[other];
        if (other === need || row === undefined || (row[supply] ?? 0) === 0) continue;
        if (augment(other, seen)) {
          row[supply] = (row[supply] ?? 0) - 1;
          return take();
        }
      }
    }
    return false;
  };
  needs.forEach((need, index) => {
    while ((met[index] ?? 0) < need.pieces && augment(index, new Set())) {
      met[index] = (met[index] ?? 0) + 1;
    }
  });
  return met;
}
