import {
  type NodeId,
  type NodeKey,
  type NodeLabel,
  nodeLabelNames,
  type RelationshipType,
  relationshipTypeNames,
} from "../../../graph-schema/index.ts";
import {
  type KnownGraph,
  type KnownNodes,
  type LinkRecord,
  linkKey,
  type NodeRecord,
} from "../../../importers/change-set.ts";
import type { Transaction } from "./client.ts";
import { decodeLink, decodeNode } from "./codec.ts";
import { PartlyKnown } from "./partly-known.ts";
import { linksByEnds, nodesByKey, storedCounts, ticked } from "./read-records.ts";

const fewEnough = 2000;

/** Runs a reading at one moment and says at which: the sequence number of the last write it saw. */
export type ReadAtMoment = <T>(
  read: (transaction: Transaction) => Promise<T>,
) => Promise<{ readonly moment: number; readonly value: T }>;

/**
 * The graph as an importer compares with it. What is few is there at once; of the rest what was asked for is fetched
 * by `catchUp`. All of it belongs to one moment: where the graph has moved on, everything is fetched anew.
 */
export class Neo4jKnownGraph implements KnownGraph {
  readonly #read: ReadAtMoment;
  #transaction: Transaction | undefined;
  #moment = -1;
  readonly #nodes = new Map<NodeLabel, PartlyKnown<NodeKey, NodeRecord>>();
  readonly #links = new Map<RelationshipType, PartlyKnown<string, LinkRecord>>();

  readonly #wholeUpTo: number;

  private constructor(read: ReadAtMoment, wholeUpTo: number) {
    this.#read = read;
    this.#wholeUpTo = wholeUpTo;
  }

  /** @param wholeUpTo a label or type of no more records than this is fetched whole at once: one answer instead of several */
  static async open(read: ReadAtMoment, wholeUpTo = fewEnough): Promise<Neo4jKnownGraph> {
    const graph = new Neo4jKnownGraph(read, wholeUpTo);
    await graph.#begin();
    return graph;
  }

  nodes(label: NodeLabel): KnownNodes {
    return this.#nodes.get(label) as PartlyKnown<NodeKey, NodeRecord> & KnownNodes;
  }

  links(type: RelationshipType): ReadonlyMap<string, LinkRecord> {
    return this.#links.get(type) ?? new Map();
  }

  async catchUp(): Promise<boolean> {
    const { moment, value } = await this.#read((transaction) => this.#catchUp(transaction));
    if (moment === this.#moment) return value;
    await this.#begin();
    return true;
  }

  async #begin(): Promise<void> {
    const { moment } = await this.#read(async (transaction) => {
      const counts = await storedCounts(transaction);
      const few: (() => unknown)[] = [];
      for (const label of nodeLabelNames) {
        const nodes = this.#nodesOf(label, counts.get(label) ?? 0);
        this.#nodes.set(label, nodes);
        if (nodes.size <= this.#wholeUpTo) few.push(() => nodes.values());
      }
      for (const type of relationshipTypeNames) {
        const links = this.#linksOf(type, counts.get(type) ?? 0);
        this.#links.set(type, links);
        if (links.size <= this.#wholeUpTo) few.push(() => links.values());
      }
      for (const ask of few) ask();
      await this.#catchUp(transaction);
    });
    this.#moment = moment;
  }

  async #catchUp(transaction: Transaction): Promise<boolean> {
    this.#transaction = transaction;
    let isFetched = false;
    for (const records of [...this.#nodes.values(), ...this.#links.values()])
      if (await records.catchUp()) isFetched = true;
    return isFetched;
  }

  get #now(): Transaction {
    if (this.#transaction === undefined) throw new Error("Records are fetched in a transaction");
    return this.#transaction;
  }

  #nodesOf(label: NodeLabel, count: number): PartlyKnown<NodeKey, NodeRecord> {
    const every = `MATCH (n:${ticked(label)})`;
    return new PartlyKnown(count, {
      keyOf: ({ key }) => key,
      idOf: ({ id }) => id,
      byKey: async (keys) => (await nodesByKey(this.#now, label, keys)).map(({ record }) => record),
      all: async () => {
        const rows = await this.#now.lists(`${every} RETURN [properties(n)]`);
        return rows.map(([values]) => decodeNode(values).record);
      },
      names: async () =>
        (await this.#now.lists(`${every} RETURN [n.key, n.id]`)) as [NodeKey, NodeId][],
    });
  }

  #linksOf(type: RelationshipType, count: number): PartlyKnown<string, LinkRecord> {
    const every = `MATCH (a)-[r:${ticked(type)}]->(b)`;
    const keyOf = ({ from, to }: LinkRecord) => linkKey(from, to);
    return new PartlyKnown(count, {
      keyOf,
      idOf: keyOf,
      byKey: async (keys) => {
        const ends = keys.map((key) => {
          const [from, to] = key.split(">") as [NodeId, NodeId];
          return { type, from, to };
        });
        return (await linksByEnds(this.#now, ends)).map(({ record }) => record);
      },
      all: async () => {
        const rows = await this.#now.lists(`${every} RETURN [a.id, b.id, properties(r)]`);
        return rows.map(
          ([from, to, values]) => decodeLink(type, from as NodeId, to as NodeId, values).record,
        );
      },
      names: async () => {
        const rows = await this.#now.lists(`${every} RETURN [a.id, b.id]`);
        return rows.map(([from, to]) => {
          const key = linkKey(from as NodeId, to as NodeId);
          return [key, key] as const;
        });
      },
    });
  }
}
