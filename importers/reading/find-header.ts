/** Lines at the top of a table among which the header is sought. */
export const headerSearchDepth = 40;

const looksNumeric = /^[\s€£$+-]*\d[\d\s.,'/:-]*(%|€|£|kg|g|l|ml)?$/i;

function widthOf(row: readonly string[]): number {
  let filled = 0;
  for (const cell of row) if (cell.trim() !== "") filled += 1;
  return filled;
}

/**
 * The index of the header among the first rows of a table, after any title lines (a boat's name, a
 * date, a note). A row whose cells are known column names wins (at least two, or all it has); failing
 * that the first row that is filled about as wide as the table and holds words rather than figures.
 *
 * @param rows the first rows of the table, blank ones included
 * @param isKnownName whether a cell is a column name the schema declares
 */
export function findHeader(
  rows: readonly (readonly string[])[],
  isKnownName: (cell: string) => boolean = () => false,
): number {
  const sample = rows.slice(0, headerSearchDepth);
  let best = { index: -1, known: 0 };
  sample.forEach((row, index) => {
    const known = row.reduce((count, cell) => count + (isKnownName(cell) ? 1 : 0), 0);
    const enough = known >= 2 || (known === 1 && widthOf(row) === 1 && row.length === 1);
    // A later row must be clearly better: cells of data may happen to be column names too.
    if (enough && known > best.known * 1.5) best = { index, known };
  });
  if (best.index >= 0) return best.index;
  const widths = sample.map(widthOf);
  const widest = Math.max(0, ...widths);
  const isHeader = (index: number): boolean => {
    const row = sample[index] ?? [];
    const filled = row.filter((cell) => cell.trim() !== "");
    const figures = filled.filter((cell) => looksNumeric.test(cell)).length;
    return filled.length >= Math.max(1, widest * 0.6) && figures * 4 <= filled.length;
  };
  const byShape = sample.findIndex((_row, index) => isHeader(index));
  if (byShape >= 0) return byShape;
  return Math.max(
    0,
    widths.findIndex((width) => width > 0),
  );
}
