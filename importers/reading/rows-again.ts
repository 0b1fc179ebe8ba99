import { straightenRow } from "./check-row.ts";
import { parsePiece } from "./row-pieces.ts";
import type { TableHead } from "./table-head.ts";

interface PieceMark {
  readonly from: number;
  readonly to: number;
  readonly firstRow: number;
  /** Rows at the start of the piece that are titles or header. */
  readonly leave: number;
  /** Rows kept because the piece cannot be parsed again on its own. */
  readonly kept: readonly string[][] | undefined;
}

/** Reads single rows from the text again, by the pieces in which they were gone through. */
export class RowsAgain {
  readonly #head: TableHead;
  readonly #marks: PieceMark[] = [];
  #last: { mark: PieceMark; rows: readonly (readonly string[])[] } | undefined;

  constructor(head: TableHead) {
    this.#head = head;
  }

  mark(piece: PieceMark): void {
    this.#marks.push(piece);
  }

  /** The cells of one row; cheap for rows asked for in order. */
  row(index: number): readonly string[] {
    let mark = this.#last?.mark;
    const last = mark && mark.firstRow + (this.#last?.rows.length ?? 0);
    if (mark === undefined || last === undefined || index < mark.firstRow || index >= last) {
      mark = this.#marks.findLast(({ firstRow }) => firstRow <= index);
      if (mark === undefined) return [];
      this.#last = { mark, rows: mark.kept ?? this.#parse(mark) };
    }
    return this.#last?.rows[index - mark.firstRow] ?? [];
  }

  #parse({ from, to, leave }: PieceMark): readonly (readonly string[])[] {
    const { text, delimiter, lineEnd, header, keptRows } = this.#head;
    const rows = parsePiece(text, from, to, delimiter, lineEnd) ?? [];
    const kept = rows.slice(leave).filter((row) => keptRows.has(row));
    for (const row of kept) straightenRow(row, header.length);
    return kept;
  }
}
