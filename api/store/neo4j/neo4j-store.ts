import {
  labelOf,
  type NodeId,
  type NodeLabel,
  type RelationshipType,
} from "../../../graph-schema/index.ts";
import type {
  ChangeSet,
  KnownGraph,
  LinkRecord,
  NodeRecord,
} from "../../../importers/change-set.ts";
import { Problem } from "../../errors/problem.ts";
import type { GearPicture, Snapshot } from "../../scoring/snapshot/snapshot.ts";
import type {
  Dependants,
  GraphStore,
  JournalEntry,
  NodePage,
  PageQuery,
  SearchHit,
  WriteNote,
  WriteOccasion,
  WriteReceipt,
} from "../graph-store.ts";
import { typesFrom, typesTo } from "../shared/link-types.ts";
import { dependantsOf } from "../shared/plan-deletion.ts";
import type { StoredRecord } from "../shared/stored-record.ts";
import { applyChanges } from "./apply-changes.ts";
import { backupRecords } from "./backup-records.ts";
import { Client, numberOf, type Transaction } from "./client.ts";
import { decodeNode } from "./codec.ts";
import { readHistory } from "./history.ts";
import { readJournal } from "./journal.ts";
import { Neo4jKnownGraph } from "./known-graph.ts";
import { loadWorkingGraph, nothingWanted } from "./load-working-graph.ts";
import { migrate } from "./migrate.ts";
import { type About, askServer, type Question } from "./questions.ts";
import { readPage } from "./read-page.ts";
import { linksAt, nodesById, nodesByKey, ticked } from "./read-records.ts";
import { readFleetGear, readSnapshot } from "./read-snapshot.ts";
import { restoreRecords } from "./restore-records.ts";
import { searchNodes } from "./search.ts";
import type { Neo4jSettings } from "./settings.ts";
import { undoImport, undoWrite } from "./undo-write.ts";

/** How often a picture is begun again because a write was committed while it was read. */
const mostAttempts = 8;

/**
 * The graph on a Neo4j server or cluster. Writers take turns by a lock on the journal's head; each write is one
 * transaction. The server lets a reader see what was committed since it began, so a reading of several steps is
 * begun again where the journal has moved on meanwhile.
 */
export class Neo4jStore implements GraphStore {
  readonly #client: Client;
  readonly #wholeUpTo: number | undefined;

  private constructor(client: Client, wholeUpTo: number | undefined) {
    this.#client = client;
    this.#wholeUpTo = wholeUpTo;
  }

  /**
   * Connects, and brings the database's constraints and indexes up to the declarations. `retryMs`: how long a write
   * is tried again while the server is away. `wholeUpTo`: see `Neo4jKnownGraph.open`. Errors: `store-settings`, `store-refused`, `store-unreachable`,
   * `store-newer`, `store-damaged`.
   */
  static async open(
    settings: Neo4jSettings,
    retryMs?: number,
    wholeUpTo?: number,
  ): Promise<Neo4jStore> {
    const client = new Client(settings, retryMs);
    try {
      await client.verify();
      await migrate(client);
      return new Neo4jStore(client, wholeUpTo);
    } catch (cause) {
      await client.close();
      throw cause;
    }
  }

  knownGraph(): Promise<KnownGraph> {
    return Neo4jKnownGraph.open((read) => this.#atMoment(read), this.#wholeUpTo);
  }

  apply(
    changes: ChangeSet,
    occasion: WriteOccasion,
    progress?: (done: number, total: number) => void,
  ): Promise<WriteReceipt> {
    return applyChanges(this.#client, changes, occasion, progress);
  }

  undoImport(
    importId: NodeId,
    occasion: WriteOccasion,
    progress?: (done: number, total: number) => void,
  ): Promise<WriteReceipt> {
    return undoImport(this.#client, importId, occasion, progress);
  }

  undo(
    sequence: number,
    occasion: WriteOccasion,
    progress?: (done: number, total: number) => void,
  ): Promise<WriteReceipt> {
    return undoWrite(this.#client, sequence, occasion, progress);
  }

  history(query: Parameters<GraphStore["history"]>[0]): Promise<readonly WriteNote[]> {
    return this.#client.read((transaction) => readHistory(transaction, query));
  }

  async node(id: NodeId): Promise<NodeRecord | undefined> {
    const [node] = await this.#client.read((transaction) => nodesById(transaction, [id]));
    return node?.record;
  }

  async nodes(ids: readonly NodeId[]): Promise<readonly NodeRecord[]> {
    const nodes = await this.#client.read((transaction) => nodesById(transaction, ids));
    return nodes.map(({ record }) => record);
  }

  async nodeByKey(label: NodeLabel, key: string): Promise<NodeRecord | undefined> {
    const [node] = await this.#client.read((transaction) => nodesByKey(transaction, label, [key]));
    return node?.record;
  }

  async list(label: NodeLabel, offset: number, limit: number): Promise<readonly NodeRecord[]> {
    const rows = await this.#client.read((transaction) =>
      transaction.rows(
        `MATCH (n:${ticked(label)}) WHERE n.key IS NOT NULL RETURN properties(n)
         ORDER BY n.key SKIP toInteger($offset) LIMIT toInteger($limit)`,
        { offset, limit },
      ),
    );
    return rows.map(([values]) => decodeNode(values).record);
  }

  page(query: PageQuery): Promise<NodePage> {
    return this.#atOneMoment((transaction) => readPage(transaction, query));
  }

  async count(label: NodeLabel): Promise<number> {
    const rows = await this.#client.read((transaction) =>
      transaction.rows(`MATCH (n:${ticked(label)}) RETURN count(n)`),
    );
    return numberOf(rows[0]?.[0]);
  }

  linksFrom(id: NodeId, type?: RelationshipType): Promise<readonly LinkRecord[]> {
    return this.#links(id, "from", type === undefined ? typesFrom(labelOf(id)) : [type]);
  }

  linksTo(id: NodeId, type?: RelationshipType): Promise<readonly LinkRecord[]> {
    return this.#links(id, "to", type === undefined ? typesTo(labelOf(id)) : [type]);
  }

  async linksAt(
    ids: readonly NodeId[],
    side: "from" | "to",
    types: readonly RelationshipType[],
  ): Promise<readonly LinkRecord[]> {
    if (types.length === 0) return [];
    const links = await this.#client.read((transaction) =>
      linksAt(transaction, ids, { side, types }),
    );
    return links.map(({ record }) => record);
  }

  search(
    text: string,
    limit: number,
    labels?: readonly NodeLabel[],
  ): Promise<readonly SearchHit[]> {
    return this.#client.read((transaction) => searchNodes(transaction, text, limit, labels));
  }

  dependants(id: NodeId): Promise<Dependants> {
    return this.#atOneMoment(async (transaction) => {
      const wanted = nothingWanted();
      wanted.nodes.add(id);
      wanted.deleted.add(id);
      const graph = await loadWorkingGraph(transaction, { sequence: 0, anyDeleted: false }, wanted);
      const node = graph.node(id);
      if (node === undefined)
        throw new Problem(
          "not-found",
          `Dependants are those of a node that exists; there is none by the id ${id}.`,
          { facts: { subject: id } },
        );
      return dependantsOf(graph, node);
    });
  }

  journal(query: Parameters<GraphStore["journal"]>[0]): Promise<readonly JournalEntry[]> {
    return this.#atOneMoment((transaction) => readJournal(transaction, query));
  }

  snapshot(vessel?: NodeId): Promise<Snapshot> {
    return this.#atOneMoment((transaction) => readSnapshot(transaction, vessel));
  }

  fleetGear(): Promise<GearPicture> {
    return this.#atOneMoment(readFleetGear);
  }

  backup(): AsyncIterable<StoredRecord> {
    return backupRecords(this.#client);
  }

  restore(records: AsyncIterable<StoredRecord>): Promise<void> {
    return restoreRecords(this.#client, records);
  }

  /** One of the questions that the server answers by itself; see `questions.ts`. */
  ask(question: Question, about: About): Promise<readonly Readonly<Record<string, unknown>>[]> {
    return askServer(this.#client, question, about);
  }

  sequence(): Promise<number> {
    return this.#client.read(sequenceOf);
  }

  close(): Promise<void> {
    return this.#client.close();
  }

  async #links(
    id: NodeId,
    side: "from" | "to",
    types: readonly RelationshipType[],
  ): Promise<readonly LinkRecord[]> {
    if (types.length === 0) return [];
    const links = await this.#client.read((transaction) =>
      linksAt(transaction, [id], { side, types }),
    );
    const order = ({ type, from, to }: LinkRecord) =>
      `${String(types.indexOf(type)).padStart(3, "0")} ${from} ${to}`;
    return links.map(({ record }) => record).sort((a, b) => (order(a) < order(b) ? -1 : 1));
  }

  async #atOneMoment<T>(read: (transaction: Transaction) => Promise<T>): Promise<T> {
    return (await this.#atMoment(read)).value;
  }

  /** Reads in several steps what belongs to one moment. Errors: `store-busy` where writes keep coming in between. */
  #atMoment<T>(
    read: (transaction: Transaction) => Promise<T>,
  ): Promise<{ readonly moment: number; readonly value: T }> {
    return this.#client.read(async (transaction) => {
      for (let attempt = 0; attempt < mostAttempts; attempt++) {
        // Asked without waiting: a transaction answers in the order it was asked, so no journey is spent on this.
        const before = sequenceOf(transaction);
        before.catch(() => undefined);
        const value = await read(transaction);
        const moment = await before;
        if ((await sequenceOf(transaction)) === moment) return { moment, value };
      }
      throw new Problem(
        "store-busy",
        `The graph must stand still while it is read; at ${this.#client.settings.uri} others kept writing. Try again in a moment.`,
      );
    });
  }
}

async function sequenceOf(transaction: Transaction): Promise<number> {
  const [row] = await transaction.rows("MATCH (j:Journal {name: 'journal'}) RETURN j.sequence");
  return numberOf(row?.[0] ?? 0);
}
