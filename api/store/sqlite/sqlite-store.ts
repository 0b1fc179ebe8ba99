import {
  labelOf,
  type NodeId,
  type NodeLabel,
  quoteName,
  type RelationshipType,
} from "../../../graph-schema/index.ts";
import type {
  ChangeSet,
  KnownGraph,
  LinkRecord,
  NodeRecord,
} from "../../../importers/change-set.ts";
import { Problem } from "../../errors/problem.ts";
import type { Snapshot } from "../../scoring/snapshot/snapshot.ts";
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
import type { Connection } from "./connection.ts";
import { GraphWriter } from "./graph-writer.ts";
import { readHistory } from "./history.ts";
import { readJournal } from "./journal.ts";
import { lastSequence } from "./journal-writer.ts";
import { SqliteKnownGraph } from "./known-graph.ts";
import { openDatabase } from "./open-database.ts";
import { readPage } from "./read-page.ts";
import { linksAt, linksWhere, nodeNumber, nodesOf, nodesWhere, readNode } from "./read-records.ts";
import { readSnapshot } from "./read-snapshot.ts";
import { nodeColumns } from "./record-columns.ts";
import { restoreRecords } from "./restore-records.ts";
import { searchNodes } from "./search.ts";
import { withSqliteProblems } from "./sqlite-problem.ts";
import { undoImport, undoWrite } from "./undo-write.ts";

/**
 * The graph in one SQLite file (WAL, synchronous=FULL). Calls run to their end one after another: a write can
 * never interleave with another of this process, and writers of other processes take turns by SQLite's lock.
 */
export class SqliteStore implements GraphStore {
  readonly path: string;
  readonly #connection: Connection;

  private constructor(path: string, connection: Connection) {
    this.path = path;
    this.#connection = connection;
  }

  /**
   * Opens the file `path`, making it where there is none. `busyTimeoutMs`: how long a write waits for that of
   * another program (default 15 s). Errors: `store-damaged`, `store-busy`, `store-newer`, `store-full`.
   */
  static open(path: string, busyTimeoutMs?: number): SqliteStore {
    return new SqliteStore(path, openDatabase(path, busyTimeoutMs));
  }

  async knownGraph(): Promise<KnownGraph> {
    return new SqliteKnownGraph(this.#connection, this.path);
  }

  async apply(
    changes: ChangeSet,
    occasion: WriteOccasion,
    progress?: (done: number, total: number) => void,
  ): Promise<WriteReceipt> {
    return this.#guard((connection) => applyChanges(connection, changes, occasion, progress));
  }

  async undoImport(
    importId: NodeId,
    occasion: WriteOccasion,
    progress?: (done: number, total: number) => void,
  ): Promise<WriteReceipt> {
    return this.#guard((connection) => undoImport(connection, importId, occasion, progress));
  }

  async undo(
    sequence: number,
    occasion: WriteOccasion,
    progress?: (done: number, total: number) => void,
  ): Promise<WriteReceipt> {
    return this.#guard((connection) => undoWrite(connection, sequence, occasion, progress));
  }

  async history(query: Parameters<GraphStore["history"]>[0]): Promise<readonly WriteNote[]> {
    return this.#guard((connection) => readHistory(connection, query));
  }

  async node(id: NodeId): Promise<NodeRecord | undefined> {
    return this.#guard((connection) => readNode(connection, id)?.record);
  }

  async nodes(ids: readonly NodeId[]): Promise<readonly NodeRecord[]> {
    return this.#guard((connection) =>
      nodesOf(connection, [...new Set(ids)]).map(({ record }) => record),
    );
  }

  async nodeByKey(label: NodeLabel, key: string): Promise<NodeRecord | undefined> {
    return this.#guard(
      (connection) => nodesWhere(connection, label, "WHERE r.key = ?", key)[0]?.record,
    );
  }

  async list(label: NodeLabel, offset: number, limit: number): Promise<readonly NodeRecord[]> {
    return this.#guard((connection) =>
      nodesWhere(connection, label, "ORDER BY r.key LIMIT ? OFFSET ?", limit, offset).map(
        ({ record }) => record,
      ),
    );
  }

  async page(query: PageQuery): Promise<NodePage> {
    return this.#guard((connection) => readPage(connection, query));
  }

  async count(label: NodeLabel): Promise<number> {
    return this.#guard((connection) =>
      Number(
        connection.row(`SELECT count(*) FROM ${quoteName(nodeColumns(label).table)}`)?.[0] ?? 0,
      ),
    );
  }

  async linksFrom(id: NodeId, type?: RelationshipType): Promise<readonly LinkRecord[]> {
    return this.#links(id, "r.fromNode", type === undefined ? typesFrom(labelOf(id)) : [type]);
  }

  async linksTo(id: NodeId, type?: RelationshipType): Promise<readonly LinkRecord[]> {
    return this.#links(id, "r.toNode", type === undefined ? typesTo(labelOf(id)) : [type]);
  }

  async linksAt(
    ids: readonly NodeId[],
    side: "from" | "to",
    types: readonly RelationshipType[],
  ): Promise<readonly LinkRecord[]> {
    return this.#guard((connection) => linksAt(connection, ids, side, types));
  }

  async search(
    text: string,
    limit: number,
    labels?: readonly NodeLabel[],
  ): Promise<readonly SearchHit[]> {
    return this.#guard((connection) => searchNodes(connection, text, limit, labels));
  }

  async dependants(id: NodeId): Promise<Dependants> {
    return this.#guard((connection) => {
      const node = readNode(connection, id);
      if (node === undefined)
        throw new Problem(
          "not-found",
          `Dependants are those of a node that exists; there is none by the id ${id}.`,
          { facts: { subject: id } },
        );
      return dependantsOf(new GraphWriter(connection), node);
    });
  }

  async journal(query: Parameters<GraphStore["journal"]>[0]): Promise<readonly JournalEntry[]> {
    return this.#guard((connection) => readJournal(connection, query));
  }

  async snapshot(vessel?: NodeId): Promise<Snapshot> {
    return this.#guard((connection) => readSnapshot(connection, vessel));
  }

  backup(): AsyncIterable<StoredRecord> {
    return backupRecords(this.#connection, this.path);
  }

  restore(records: AsyncIterable<StoredRecord>): Promise<void> {
    return restoreRecords(this.#connection, this.path, records);
  }

  async sequence(): Promise<number> {
    return this.#guard(lastSequence);
  }

  async close(): Promise<void> {
    this.#guard((connection) => connection.close());
  }

  #links(
    id: NodeId,
    end: "r.fromNode" | "r.toNode",
    types: readonly RelationshipType[],
  ): readonly LinkRecord[] {
    return this.#guard((connection) => {
      const n = nodeNumber(connection, id);
      if (n === undefined) return [];
      return types.flatMap((type) =>
        linksWhere(connection, type, `WHERE ${end} = ? ORDER BY a.id, b.id`, n).map(
          ({ record }) => record,
        ),
      );
    });
  }

  #guard<T>(work: (connection: Connection) => T): T {
    return withSqliteProblems(this.path, () => work(this.#connection));
  }
}
