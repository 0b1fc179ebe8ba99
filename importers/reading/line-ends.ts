export type LineEnd = "\n" | "\r\n" | "\r";

function countOf(text: string, what: string): number {
  let count = 0;
  for (let at = text.indexOf(what); at !== -1; at = text.indexOf(what, at + what.length))
    count += 1;
  return count;
}

/** Line ends outside quoted cells, by kind; a quote opens a cell only at the cell's start. */
function countOutsideQuotes(text: string, delimiter: string): Record<LineEnd, number> {
  const counts: Record<LineEnd, number> = { "\n": 0, "\r\n": 0, "\r": 0 };
  let quoted = false;
  let cellStart = true;
  for (let index = 0; index < text.length; index += 1) {
    const code = text.charCodeAt(index);
    if (code === 34) {
      if (quoted) quoted = false;
      else if (cellStart || text.charCodeAt(index - 1) === 34) quoted = true;
      cellStart = false;
    } else if (quoted) {
      // The text of a quoted cell is its own affair.
    } else if (code === 13 && text.charCodeAt(index + 1) === 10) {
      counts["\r\n"] += 1;
      index += 1;
      cellStart = true;
    } else if (code === 10 || code === 13) {
      counts[code === 10 ? "\n" : "\r"] += 1;
      cellStart = true;
    } else {
      cellStart = text[index] === delimiter;
    }
  }
  return counts;
}

/**
 * The line end that parts rows, and the text to part: unchanged if rows end alike (line ends within
 * quoted cells may differ), else with every line end made a line feed (files pasted together from two machines).
 */
export function settleLineEnds(
  text: string,
  delimiter: string,
): { text: string; lineEnd: LineEnd } {
  const returns = countOf(text, "\r");
  if (returns === 0) return { text, lineEnd: "\n" };
  const feeds = countOf(text, "\n");
  const pairs = countOf(text, "\r\n");
  if (returns === pairs && feeds === pairs) return { text, lineEnd: "\r\n" };
  if (feeds === 0) return { text, lineEnd: "\r" };
  const outside = countOutsideQuotes(text, delimiter);
  const kinds = (["\r\n", "\n", "\r"] as const).filter((kind) => outside[kind] > 0);
  const only = kinds.length === 1 ? kinds[0] : undefined;
  if (only) return { text, lineEnd: only };
  return { text: text.replace(/\r\n?/g, "\n"), lineEnd: "\n" };
}
