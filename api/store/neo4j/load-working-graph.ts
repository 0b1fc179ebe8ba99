import {
  labelOf,
  type NodeId,
  type NodeLabel,
  type RelationshipType,
  relationshipDeclaration,
} from "../../../graph-schema/index.ts";
import type { ProposedChange } from "../../../importers/change-set.ts";
import { linkText } from "../shared/refusals.ts";
import type { Transaction } from "./client.ts";
import { numberOf } from "./client.ts";
import { JournalDraft, type JournalHead } from "./journal-draft.ts";
import {
  type Ends,
  grouped,
  linksAt,
  linksByEnds,
  linksLeaving,
  nodesById,
  nodesByKey,
  pieces,
  storedCounts,
  takesSourceAlong,
} from "./read-records.ts";
import { WorkingGraph } from "./working-graph.ts";

/** What a write must know before it can be applied in memory. */
export interface Wanted {
  readonly nodes: Set<NodeId>;
  /** Keys that will be given out, each with its label. */
  readonly keys: Map<NodeLabel, Set<string>>;
  readonly links: Ends[];
  /** Nodes that will be deleted, with everything that goes with them. */
  readonly deleted: Set<NodeId>;
  /** Subjects that will be created, by their text: one that existed before goes on from its last version. */
  readonly created: (string | Ends)[];
}

export const nothingWanted = (): Wanted => ({
  nodes: new Set(),
  keys: new Map(),
  links: [],
  deleted: new Set(),
  created: [],
});

export function wantKey(wanted: Wanted, label: NodeLabel, key: string): void {
  const keys = wanted.keys.get(label);
  if (keys === undefined) wanted.keys.set(label, new Set([key]));
  else keys.add(key);
}

/** What a change set must know. */
export function wantedBy(changes: readonly ProposedChange[]): Wanted {
  const wanted = nothingWanted();
  const deletes = changes.some(({ kind }) => kind === "delete-node");
  for (const change of changes)
    switch (change.kind) {
      case "create-node":
        wanted.nodes.add(change.id);
        wantKey(wanted, change.label, change.key);
        wanted.created.push(change.id);
        break;
      case "update-node":
        wanted.nodes.add(change.id);
        if (change.key !== undefined) wantKey(wanted, labelOf(change.id), change.key);
        break;
      case "delete-node":
        wanted.nodes.add(change.id);
        wanted.deleted.add(change.id);
        break;
      default:
        wanted.nodes.add(change.from);
        wanted.nodes.add(change.to);
        wanted.links.push(change);
        if (change.kind !== "create-link") break;
        wanted.created.push(change);
        // Where the set deletes too, this may tie a node to one that goes, and so make it go along.
        if (deletes && takesSourceAlong(change.type)) wanted.deleted.add(change.from);
    }
  return wanted;
}

/** Reads what is wanted into a working graph. Labels and types of which nothing is stored are not asked for. */
export async function loadWorkingGraph(
  transaction: Transaction,
  head: JournalHead,
  wanted: Wanted,
): Promise<WorkingGraph> {
  const counts = await storedCounts(transaction);
  const isStored = (name: NodeLabel | RelationshipType) => (counts.get(name) ?? 0) > 0;
  const journal = new JournalDraft(head, await lastVersions(transaction, head, wanted.created));
  const graph = new WorkingGraph(journal);
  const ids = [...wanted.nodes].filter((id) => isStored(labelOf(id)));
  for (const node of await nodesById(transaction, ids)) graph.keepNode(node);
  for (const [label, keys] of wanted.keys)
    if (isStored(label))
      for (const node of await nodesByKey(transaction, label, keys)) graph.keepNode(node);
  await loadLinks(
    transaction,
    graph,
    wanted.links.filter(({ type }) => isStored(type)),
  );
  await loadClosure(transaction, graph, wanted.deleted);
  return graph;
}

async function loadLinks(
  transaction: Transaction,
  graph: WorkingGraph,
  links: readonly Ends[],
): Promise<void> {
  for (const [type, ends] of grouped(links, ({ type: of }) => of)) {
    const known = ends.filter(({ from }) => graph.node(from) !== undefined);
    const found =
      relationshipDeclaration(type).each === "one"
        ? await linksLeaving(transaction, type, new Set(known.map(({ from }) => from)))
        : await linksByEnds(
            transaction,
            known.filter(({ to }) => graph.node(to) !== undefined),
          );
    for (const link of found) graph.keepLink(link);
  }
}

/** Everything that may go when these nodes go: their relationships, and the nodes that go along, in turn. */
async function loadClosure(
  transaction: Transaction,
  graph: WorkingGraph,
  roots: ReadonlySet<NodeId>,
): Promise<void> {
  const seen = new Set<NodeId>();
  let front = [...roots].filter((id) => graph.node(id) !== undefined);
  while (front.length > 0) {
    for (const id of front) seen.add(id);
    const links = await linksAt(transaction, front);
    for (const link of links) graph.keepLink(link);
    const along = new Set(
      links
        .filter(({ record }) => takesSourceAlong(record.type) && !seen.has(record.from))
        .map(({ record }) => record.from),
    );
    for (const node of await nodesById(transaction, along)) graph.keepNode(node);
    front = [...along];
  }
}

async function lastVersions(
  transaction: Transaction,
  head: JournalHead,
  created: Wanted["created"],
): Promise<Map<string, number>> {
  const versions = new Map<string, number>();
  if (!head.anyDeleted) return versions;
  const texts = created.map((subject) =>
    typeof subject === "string" ? subject : linkText(subject.type, subject.from, subject.to),
  );
  for (const piece of pieces(texts))
    for (const [about, version] of await transaction.rows(
      `UNWIND $texts AS text MATCH (c:Change {about: text}) WHERE c.kind = 'deleted'
       RETURN text, max(c.version)`,
      { texts: piece },
    ))
      versions.set(String(about), numberOf(version));
  return versions;
}
