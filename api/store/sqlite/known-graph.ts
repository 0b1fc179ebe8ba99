import type { NodeKey, NodeLabel, RelationshipType } from "../../../graph-schema/index.ts";
import {
  type KnownGraph,
  type LinkRecord,
  linkKey,
  type NodeRecord,
} from "../../../importers/change-set.ts";
import type { Connection } from "./connection.ts";
import { linksWhere, nodesWhere } from "./read-records.ts";
import { withSqliteProblems } from "./sqlite-problem.ts";

/** The graph as an importer compares with it: each label and type is read whole, once, when first asked for. */
export class SqliteKnownGraph implements KnownGraph {
  readonly #connection: Connection;
  readonly #path: string;
  readonly #nodes = new Map<NodeLabel, ReadonlyMap<NodeKey, NodeRecord>>();
  readonly #links = new Map<RelationshipType, ReadonlyMap<string, LinkRecord>>();

  constructor(connection: Connection, path: string) {
    this.#connection = connection;
    this.#path = path;
  }

  nodes(label: NodeLabel): ReadonlyMap<NodeKey, NodeRecord> {
    const known = this.#nodes.get(label);
    if (known !== undefined) return known;
    const read = withSqliteProblems(this.#path, () => nodesWhere(this.#connection, label, ""));
    const byKey = new Map(read.map(({ record }) => [record.key, record]));
    this.#nodes.set(label, byKey);
    return byKey;
  }

  links(type: RelationshipType): ReadonlyMap<string, LinkRecord> {
    const known = this.#links.get(type);
    if (known !== undefined) return known;
    const read = withSqliteProblems(this.#path, () => linksWhere(this.#connection, type, ""));
    const byEnds = new Map(read.map(({ record }) => [linkKey(record.from, record.to), record]));
    this.#links.set(type, byEnds);
    return byEnds;
  }
}
