import type { LineEnd } from "./line-ends.ts";
import { parseRows } from "./parse-rows.ts";
import { parseText } from "./parse-text.ts";

/** Some rows of a text, parsed together; dropped after use, so that only what is kept of them takes memory. */
export interface RowPiece {
  readonly rows: string[][];
  /** Place of the piece in the text, by which it can be parsed again. */
  readonly from: number;
  readonly to: number;
  /** Whether cells may hold line ends of their own. */
  readonly mayHoldLineEnds: boolean;
  /** Rows of the piece with an open or a stray quote mark, by index. */
  readonly openQuotes: ReadonlySet<number>;
  readonly strayQuotes: ReadonlySet<number>;
}

/** Characters per piece: small enough for its rows to be used up while young, large enough to be cheap. */
const pieceSize = 1 << 14;
/** A quoted cell that runs on over so many pieces is taken for an open quote mark. */
const longestReach = 128;

const noRows: ReadonlySet<number> = new Set();

/** The end of the row that goes on at `at`: after the next line end, or the end of the text. */
function endOfLine(text: string, at: number, lineEnd: LineEnd): number {
  const end = at >= text.length ? -1 : text.indexOf(lineEnd, at);
  return end === -1 ? text.length : end + lineEnd.length;
}

function countOf(text: string, what: string): number {
  let count = 0;
  for (let at = text.indexOf(what); at !== -1; at = text.indexOf(what, at + 1)) count += 1;
  return count;
}

/** Rows of one stretch of text that ends with a row; undefined if its quote marks are not in order. */
export function parsePiece(
  text: string,
  from: number,
  to: number,
  delimiter: string,
  lineEnd: LineEnd,
): string[][] | undefined {
  const end = to > from && text.startsWith(lineEnd, to - lineEnd.length) ? to - lineEnd.length : to;
  const stretch = text.slice(from, end);
  if (stretch === "") return [[""]];
  const { data, errors } = parseText(stretch, delimiter, lineEnd);
  const isSound = errors.every(({ type }) => type !== "Quotes");
  return isSound ? data : undefined;
}

/**
 * The rows that begin at `from`, a piece of them. If a quote mark is out of order, the rest of the text is read by
 * `parseRows`, which knows what to do about it.
 */
export function pieceAt(text: string, from: number, delimiter: string, lineEnd: LineEnd): RowPiece {
  let to = endOfLine(text, from + pieceSize, lineEnd);
  let rows = parsePiece(text, from, to, delimiter, lineEnd);
  for (let reach = 2; rows === undefined && to < text.length && reach <= longestReach; reach *= 2) {
    to = endOfLine(text, from + pieceSize * reach, lineEnd);
    rows = parsePiece(text, from, to, delimiter, lineEnd);
  }
  if (rows === undefined) {
    const rest = parseRows(text.slice(from), delimiter, lineEnd);
    return { ...rest, from, to: text.length, mayHoldLineEnds: true };
  }
  // Each row but the last ends with one line end: more of them stand within cells.
  const stretch = text.slice(from, to);
  const ends = countOf(stretch, "\n") + countOf(stretch, "\r");
  const isEnded = text.startsWith(lineEnd, to - lineEnd.length);
  const mayHoldLineEnds = ends !== (rows.length - (isEnded ? 0 : 1)) * lineEnd.length;
  return { rows, from, to, mayHoldLineEnds, openQuotes: noRows, strayQuotes: noRows };
}

/** All rows of a delimited text, piece by piece. */
export function* rowPieces(text: string, delimiter: string, lineEnd: LineEnd): Generator<RowPiece> {
  for (let from = 0; from < text.length; ) {
    const piece = pieceAt(text, from, delimiter, lineEnd);
    yield piece;
    from = piece.to;
  }
}
