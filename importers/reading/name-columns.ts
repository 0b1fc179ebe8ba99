import { restoreCell } from "../neutral-cell.ts";
import type { ImportNotice } from "../row-fault.ts";

export interface ColumnNames {
  /** Each name once: a second "Price" is named "Price (2)", a nameless column "Column 7". */
  readonly header: string[];
  /** For each column the index of the first column whose name it repeats, else its own index. */
  readonly firstOfName: number[];
  readonly notices: ImportNotice[];
}

/** Names of columns from the header row; nameless columns at the end count only if a row fills them. */
export function nameColumns(
  headerRow: readonly string[],
  sample: readonly (readonly string[])[],
  line: number,
): ColumnNames {
  const cells = headerRow.map((cell) => restoreCell(cell.replace(/\s+/g, " ").trim()));
  while (cells.length > 1 && cells.at(-1) === "") {
    const last = cells.length - 1;
    if (sample.some((row) => (row[last] ?? "").trim() !== "")) break;
    cells.pop();
  }
  const header: string[] = [];
  const firstOfName: number[] = [];
  const notices: ImportNotice[] = [];
  const first = new Map<string, number>();
  const taken = new Set(cells);
  cells.forEach((cell, index) => {
    const before = cell === "" ? undefined : first.get(cell.toLowerCase());
    if (before === undefined) {
      if (cell !== "") first.set(cell.toLowerCase(), index);
      header.push(cell === "" ? `Column ${index + 1}` : cell);
      firstOfName.push(index);
      return;
    }
    let number = 2;
    while (taken.has(`${cell} (${number})`)) number += 1;
    const name = `${cell} (${number})`;
    taken.add(name);
    header.push(name);
    firstOfName.push(before);
    notices.push({
      code: "header-twice",
      line,
      column: cell,
      text: `Each column must have a name of its own; "${cell}" heads columns ${before + 1} and ${index + 1}. The second is called "${name}": rename it, or map it by hand.`,
      count: 1,
    });
  });
  return { header, firstOfName, notices };
}
