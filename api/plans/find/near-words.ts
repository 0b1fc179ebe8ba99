import type { NodeLabel } from "../../../graph-schema/index.ts";
import type { GraphStore } from "../../store/graph-store.ts";

const mostRead = 200;
const mostShown = 3;

/**
 * Words of the graph that a person may have meant: those of names and descriptions that begin like the longest word
 * typed and are one or two slips of the pen away from it, nearest first, at most three. Empty for words of fewer than
 * four letters.
 */
export async function nearWords(
  store: GraphStore,
  text: string,
  labels: readonly NodeLabel[],
): Promise<readonly string[]> {
  const typed = (wordsOf(text).sort((a, b) => b.length - a.length)[0] ?? "").toLowerCase();
  if (typed.length < 4) return [];
  const found = new Map<string, { readonly word: string; readonly slips: number }>();
  const most = typed.length < 7 ? 1 : 2;
  for (const { node } of await store.search(typed.slice(0, 2), mostRead, labels)) {
    for (const value of Object.values(node.properties)) {
      if (typeof value !== "string") continue;
      for (const word of wordsOf(value)) {
        const lower = word.toLowerCase();
        if (found.has(lower)) continue;
        const slips = slipsBetween(typed, lower, most);
        if (slips <= most) found.set(lower, { word, slips });
      }
    }
  }
  return [...found.values()]
    .sort((a, b) => a.slips - b.slips || (a.word < b.word ? -1 : 1))
    .slice(0, mostShown)
    .map(({ word }) => word);
}

const wordsOf = (text: string): string[] => text.match(/[\p{L}\p{N}]+/gu) ?? [];

/**
 * How many letters must be added, left out, changed or swapped with their neighbour to make one word of the other;
 * more than `most` once it is sure to be. O(n m). Source: Damerau, "A technique for computer detection and correction
 * of spelling errors", CACM 7 (1964), in the form that edits no stretch twice.
 */
function slipsBetween(a: string, b: string, most: number): number {
  if (Math.abs(a.length - b.length) > most) return most + 1;
  let twoAbove: number[] = [];
  let above = Array.from({ length: b.length + 1 }, (_, at) => at);
  for (let i = 1; i <= a.length; i += 1) {
    const row = [i];
    for (let j = 1; j <= b.length; j += 1) {
      const isSame = a[i - 1] === b[j - 1];
      let least = Math.min(
        (above[j] ?? 0) + 1,
        (row[j - 1] ?? 0) + 1,
        (above[j - 1] ?? 0) + (isSame ? 0 : 1),
      );
      const isSwap = i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1];
      if (isSwap) least = Math.min(least, (twoAbove[j - 2] ?? 0) + 1);
      row.push(least);
    }
    twoAbove = above;
    above = row;
  }
  return above[b.length] ?? most + 1;
}
