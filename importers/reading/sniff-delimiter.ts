/** The characters that may part the cells of a line. */
export const delimiters = [",", ";", "\t", "|"] as const;
export type Delimiter = (typeof delimiters)[number];

export const delimiterNames: Readonly<Record<Delimiter, string>> = {
  ",": "comma",
  ";": "semicolon",
  "\t": "tab",
  "|": "pipe",
};

/** Lines looked at: enough to outweigh titles, few enough to cost nothing. */
const sampleLines = 60;

/** Cells per line for each delimiter, quotes respected, over the first lines of the text. */
function countCells(text: string): Map<Delimiter, number[]> {
  const counts = new Map<Delimiter, number[]>(delimiters.map((d) => [d, []]));
  const current = new Map<string, number>(delimiters.map((d) => [d, 1]));
  let quoted = false;
  let blank = true;
  let lines = 0;
  let cellStart = true;
  for (let index = 0; index <= text.length && lines < sampleLines && index < 500_000; index += 1) {
    const character = text[index];
    if (character === '"') {
      // A quote opens a quoted cell only at the start of a cell: 3/8" is not one.
      if (quoted) quoted = false;
      else if (cellStart || text[index - 1] === '"') quoted = true;
      cellStart = false;
      blank = false;
    } else if (character === undefined || (!quoted && (character === "\n" || character === "\r"))) {
      if (!blank) {
        lines += 1;
        for (const d of delimiters) counts.get(d)?.push(current.get(d) ?? 1);
      }
      for (const d of delimiters) current.set(d, 1);
      blank = true;
      cellStart = true;
    } else if (!quoted && current.has(character)) {
      current.set(character, (current.get(character) ?? 1) + 1);
      cellStart = true;
    } else if (character !== " ") {
      cellStart = false;
      blank = false;
    }
  }
  return counts;
}

/** The commonest value of `counts`, and how many have it; of equals, the larger value. */
function commonest(counts: readonly number[]): { value: number; times: number } {
  const tally = new Map<number, number>();
  for (const count of counts) tally.set(count, (tally.get(count) ?? 0) + 1);
  let best = { value: 1, times: 0 };
  for (const [value, times] of tally) {
    if (times > best.times || (times === best.times && value > best.value)) best = { value, times };
  }
  return best;
}

/**
 * The delimiter under which most lines have the same number of cells, more than one; `undefined` if
 * no delimiter parts the lines (a single column, or a delimiter we do not know).
 * A line `sep=;` at the top, as some spreadsheets write it, decides by itself.
 *
 * Score = (share of lines with the commonest count)^2 * log2(1 + that count), halved if the widest of the
 * first lines of that width is not reached by the header: a decimal comma gives rows cells that the header lacks.
 */
export function sniffDelimiter(text: string): Delimiter | undefined {
  const declared = /^\uFEFF?"?sep=(.)"?\r?\n/i.exec(text.slice(0, 12))?.[1];
  const known = delimiters.find((d) => d === declared);
  if (known) return known;
  let best: { delimiter: Delimiter; score: number } | undefined;
  for (const [delimiter, counts] of countCells(text)) {
    const { value, times } = commonest(counts.filter((count) => count > 1));
    if (times === 0) continue;
    const share = times / counts.length;
    // The header is the first line that is as wide as the rows; a decimal comma never widens a header.
    const firstWide = counts.findIndex((count) => count >= value);
    const lead = firstWide <= Math.max(2, counts.length * 0.25) ? 1 : 0.5;
    const score = share * share * Math.log2(1 + value) * lead;
    if (best === undefined || score > best.score + 1e-9) best = { delimiter, score };
  }
  return best?.delimiter;
}
