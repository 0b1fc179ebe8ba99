import type { CodedColumn } from "../columns/coded-column.ts";
import type { ImportNotice } from "../row-fault.ts";

/** Pairs of lines named in the notice. */
const mostNamed = 8;

/**
 * A notice about rows that stand twice word for word and were counted once; undefined if none does.
 * @param candidates rows that added nothing to what earlier rows said, ascending
 * @param columns every column of the file that counts, interpreted or not
 * Cost: one pass over all rows, and only where there are candidates.
 */
export function repeatedRows(
  candidates: readonly number[],
  columns: readonly CodedColumn[],
  rowCount: number,
  lineOf: (row: number) => number,
): ImportNotice | undefined {
  if (candidates.length === 0 || columns.length === 0) return undefined;
  const hashes = hashesOf(columns, rowCount);
  const isSame = (a: number, b: number): boolean =>
    hashes[a] === hashes[b] && columns.every(({ codes }) => codes[a] === codes[b]);
  let mask = 255;
  while (mask < rowCount * 2) mask = mask * 2 + 1;
  /** Each row that is like none before it, and one; 0 is nothing. */
  const slots = new Int32Array(mask + 1);
  const pairs: string[] = [];
  let count = 0;
  let first = 0;
  let next = 0;
  for (let row = 0; next < candidates.length; row += 1) {
    const isCandidate = row === candidates[next];
    if (isCandidate) next += 1;
    let slot = (hashes[row] as number) & mask;
    while (slots[slot] !== 0 && !isSame((slots[slot] as number) - 1, row)) slot = (slot + 1) & mask;
    const earlier = (slots[slot] as number) - 1;
    if (earlier === -1) slots[slot] = row + 1;
    else if (isCandidate) {
      if (count === 0) first = row;
      count += 1;
      if (count <= mostNamed) pairs.push(`${lineOf(row)} as ${lineOf(earlier)}`);
    }
  }
  if (count === 0) return undefined;
  return {
    code: "row-repeated",
    line: lineOf(first),
    column: undefined,
    text: `Rows that stand twice word for word were counted once (line ${pairs.join(", ")}${count > mostNamed ? ", …" : ""}). If they are further pieces, add the quantities up or give each row a place, batch or date of its own.`,
    count,
  };
}

/** A number for each row by which those with the same cells can be found, put together column by column. */
function hashesOf(columns: readonly CodedColumn[], rowCount: number): Int32Array {
  const hashes = new Int32Array(rowCount);
  for (const { codes } of columns) {
    for (let row = 0; row < rowCount; row += 1) {
      const hash = Math.imul((hashes[row] as number) ^ (codes[row] as number), 0x9e3779b1);
      hashes[row] = hash ^ (hash >>> 15);
    }
  }
  return hashes;
}
