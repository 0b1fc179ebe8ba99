const anyLineEnd = /\r\n|\n|\r/g;

/** How many line ends stand inside the cells of a row. */
export function lineEndsWithin(row: readonly string[]): number {
  let count = 0;
  for (const cell of row) {
    // Short cells are the rule, and two searches of one character the cheapest look at them.
    if (cell !== "" && (cell.includes("\n") || cell.includes("\r"))) {
      count += cell.match(anyLineEnd)?.length ?? 0;
    }
  }
  return count;
}

/** Line of the text, counted from 1, on which a row begins. */
export function lineOfRow(rows: readonly (readonly string[])[], index: number): number {
  let line = 1;
  for (const row of rows.slice(0, index)) line += 1 + lineEndsWithin(row);
  return line;
}

/** The row that begins on a line, or the last one before it. */
export function rowOnLine(rows: readonly (readonly string[])[], wanted: number): number {
  let line = 1;
  for (let index = 0; index < rows.length; index += 1) {
    const next = line + 1 + lineEndsWithin(rows[index] ?? []);
    if (next > wanted) return index;
    line = next;
  }
  return Math.max(0, rows.length - 1);
}
