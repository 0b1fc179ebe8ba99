import { seededRandom } from "./random-kit.ts";

export interface RandomCover {
  readonly rowCount: number;
  readonly columns: readonly (readonly number[])[];
  readonly costs: readonly number[];
}

/**
 * A seeded cover problem in the manner of the classic set-covering benchmarks (Balas & Ho 1980; values from
 * memory): each entry is there with the density's chance, costs are whole, evenly from 1 to 100; every row is
 * covered by at least two columns and every column covers a row.
 */
export function randomCover(
  rowCount: number,
  columnCount: number,
  density: number,
  seed: number,
): RandomCover {
  const random = seededRandom(seed);
  const pick = (count: number): number => Math.floor(count * random());
  const columns = Array.from({ length: columnCount }, () => new Set<number>());
  for (let row = 0; row < rowCount; row++) {
    let times = 0;
    for (const column of columns) {
      if (random() >= density) continue;
      column.add(row);
      times++;
    }
    while (times < Math.min(2, columnCount)) {
      const column = columns[pick(columnCount)];
      if (column === undefined || column.has(row)) continue;
      column.add(row);
      times++;
    }
  }
  for (const column of columns) if (column.size === 0) column.add(pick(rowCount));
  return {
    rowCount,
    columns: columns.map((rows) => [...rows].sort((a, b) => a - b)),
    costs: columns.map(() => 1 + pick(100)),
  };
}
