import type { CodedColumn } from "../columns/coded-column.ts";
import type { ImportNotice } from "../row-fault.ts";

/** Pairs of lines named in the notice. */
const mostNamed = 8;

/**
 * A notice about rows that stand twice word for word and were counted once; undefined if none does.
 * @param candidates rows that added nothing to what earlier rows said, ascending
 * @param columns every column of the file that counts, interpreted or not
 * Cost: one pass over all rows, and only where there are candidates; most rows are ruled out by three of their cells.
 */
export function repeatedRows(
  candidates: readonly number[],
  columns: readonly CodedColumn[],
  rowCount: number,
  lineOf: (row: number) => number,
): ImportNotice | undefined {
  if (candidates.length === 0 || columns.length === 0) return undefined;
  const wanted = new Map<number, number[]>();
  const hashOf = (row: number): number => {
    let hash = 0;
    for (const { codes } of columns) hash = (Math.imul(hash, 31) + (codes[row] ?? 0)) | 0;
    return hash;
  };
  for (const row of candidates) wanted.set(hashOf(row), []);
  const mayBeWanted = quickTest(candidates, columns);
  const isSame = (a: number, b: number): boolean =>
    columns.every(({ codes }) => codes[a] === codes[b]);
  const candidate = new Set(candidates);
  const pairs: string[] = [];
  let count = 0;
  let first = 0;
  for (let row = 0; row < rowCount; row += 1) {
    if (!mayBeWanted(row)) continue;
    const alike = wanted.get(hashOf(row));
    if (alike === undefined) continue;
    const earlier = candidate.has(row) ? alike.find((before) => isSame(before, row)) : undefined;
    if (earlier === undefined) {
      alike.push(row);
      continue;
    }
    if (count === 0) first = row;
    count += 1;
    if (count <= mostNamed) pairs.push(`${lineOf(row)} as ${lineOf(earlier)}`);
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

/** A test that every row with the cells of a candidate passes, and few others: by the columns with most to tell. */
function quickTest(
  candidates: readonly number[],
  columns: readonly CodedColumn[],
): (row: number) => boolean {
  const telling = columns.toSorted((a, b) => b.values.length - a.values.length).slice(0, 3);
  const [one, two, three] = telling.map(({ codes }) => codes);
  const placeOf = (row: number): number => {
    let hash = Math.imul(one?.[row] ?? 0, 0x9e3779b1);
    hash = Math.imul(hash ^ (hash >>> 15) ^ (two?.[row] ?? 0), 0x85ebca6b);
    hash = Math.imul(hash ^ (hash >>> 13) ^ (three?.[row] ?? 0), 0x2c1b3c6d);
    return (hash ^ (hash >>> 16)) & 0xffff;
  };
  const met = new Uint8Array(1 << 16);
  for (const row of candidates) met[placeOf(row)] = 1;
  return (row) => met[placeOf(row)] === 1;
}
