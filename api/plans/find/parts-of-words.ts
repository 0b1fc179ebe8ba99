import type { NodeId, NodeLabel } from "../../../graph-schema/index.ts";
import type { GraphStore } from "../../store/graph-store.ts";
import { fold, squash } from "../../store/shared/search-text.ts";
import { partsBehind } from "./parts-behind.ts";
import type { Surroundings } from "./surroundings.ts";

/** Kinds of records that lead to parts. */
export const owningLabels: readonly NodeLabel[] = ["Locker", "Maker", "Model", "FittedItem"];

const mostOwners = 20;
const mostParts = 3000;
const mostWords = 8;

/** Whether a part's own number or description holds every word, each as the beginning of one of its own. */
function holds(round: Surroundings, part: NodeId, words: readonly string[]): boolean {
  const number = round.text(part, "partNumber");
  const own = fold(`${number} ${round.text(part, "description")}`).split(/[^\p{L}\p{N}]+/u);
  const squashed = squash(number);
  return words.every(
    (word) =>
      squashed.startsWith(squash(word)) ||
      fold(word)
        .split(/[^\p{L}\p{N}]+/u)
        .every((piece) => own.some((mine) => mine.startsWith(piece))),
  );
}

/**
 * Parts whose words stand in different records: a maker's, locker's or gear's name at one end of the text and words of
 * the part (or of another such record) at the other, as in "Oakhollow spring" or "seal engine room".
 */
export async function partsOfWords(
  store: GraphStore,
  round: Surroundings,
  text: string,
  enough: number,
): Promise<Map<NodeId, string>> {
  const words = text.split(/\s+/).filter((word) => word !== "");
  if (words.length < 2 || words.length > mostWords) return new Map();
  const behind = async (some: readonly string[]) => {
    const name = some.join(" ");
    const hits = await store.search(name, mostOwners, owningLabels);
    const exact = hits.filter(({ matched }) => squash(matched) === squash(name));
    const owners = (exact.length > 0 ? exact : hits).map(({ node }) => node);
    return partsBehind(round, owners, mostParts);
  };
  for (let cut = 1; cut < words.length; cut++) {
    const [first, last] = [words.slice(0, cut), words.slice(cut)];
    const [ofFirst, ofLast] = [await behind(first), await behind(last)];
    const found = new Map<NodeId, string>();
    for (const [part, why] of ofFirst) {
      const other = ofLast.get(part);
      if (other !== undefined) found.set(part, `${why}; ${other}`);
      else if (holds(round, part, last)) found.set(part, why);
    }
    for (const [part, why] of ofLast)
      if (!found.has(part) && holds(round, part, first)) found.set(part, why);
    if (found.size > 0) return new Map([...found].slice(0, enough));
  }
  return new Map();
}
