import type { NodeId, NodeLabel } from "../../graph-schema/index.ts";
import { keyPiece } from "../../graph-schema/index.ts";
import type { NodeRecord } from "../../importers/change-set.ts";
import { Problem } from "../errors/problem.ts";
import type { GraphStore } from "../store/graph-store.ts";

const most = 10_000;

/**
 * The node a person means by an id or a name. Names match without regard to case; a name that begins only one
 * node's name is enough. Errors: `not-found`, naming what there is.
 */
export async function nodeByWord(
  store: GraphStore,
  label: NodeLabel,
  word: string,
): Promise<NodeRecord> {
  const byId = await store.node(word as NodeId);
  if (byId !== undefined && byId.label === label) return byId;
  const wanted = keyPiece(word);
  const nameOf = (node: NodeRecord): string => keyPiece(String(node.properties["name"] ?? ""));
  // A name alone is the key of most labels asked for: then nothing need be listed.
  const byKey = await store.nodeByKey(label, wanted);
  if (byKey !== undefined && nameOf(byKey) === wanted) return byKey;
  const all = await store.list(label, 0, most);
  const exact = all.filter((node) => nameOf(node) === wanted);
  if (exact[0] !== undefined) return exact[0];
  const begins = all.filter((node) => nameOf(node).startsWith(wanted));
  if (begins.length === 1 && begins[0] !== undefined) return begins[0];
  const names = all.slice(0, 8).map((node) => `"${String(node.properties["name"])}"`);
  throw new Problem(
    "not-found",
    `No ${label.toLowerCase()} is called "${word}". ${names.length === 0 ? `There is none yet: import a list that names one.` : `There are: ${names.join(", ")}.`}`,
  );
}
