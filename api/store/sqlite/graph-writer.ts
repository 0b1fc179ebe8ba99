import type { SQLInputValue } from "node:sqlite";
import {
  type NodeId,
  type NodeKey,
  type NodeLabel,
  type Properties,
  quoteName,
  type RelationshipType,
} from "../../../graph-schema/index.ts";
import type { LinkRecord, NodeRecord } from "../../../importers/change-set.ts";
import { Problem } from "../../errors/problem.ts";
import { checkProperties } from "../shared/check-properties.ts";
import type { GraphDesk } from "../shared/graph-desk.ts";
import type { Content, NodeContent, Numbered } from "../shared/record-state.ts";
import {
  endMissing,
  keyTaken,
  linkTaken,
  linkText,
  refuseForeignId,
  refuseWrongEnds,
} from "../shared/refusals.ts";
import { isCoded, searchedCode } from "../shared/search-codes.ts";
import { searchText } from "../shared/search-text.ts";
import { BulkInsert, insertInto } from "./bulk-insert.ts";
import type { Connection } from "./connection.ts";
import { JournalWriter } from "./journal-writer.ts";
import { linksWhere, nodeNumber, readLink, readNode } from "./read-records.ts";
import { encodeExtra, encodeInto, insertOf, linkColumns, nodeColumns } from "./record-columns.ts";
import { constraintBroken } from "./sqlite-problem.ts";

const intoNode = insertInto("node", ["n", "id", "label"]);

/** The elementary writes of one transaction: each checks its values, keeps the search index and is journalled. */
export class GraphWriter implements GraphDesk {
  readonly #connection: Connection;
  readonly #inserts: BulkInsert;
  readonly #numbers = new Map<NodeId, number>();
  readonly journal: JournalWriter;
  readonly counts = {
    nodesCreated: 0,
    nodesChanged: 0,
    nodesDeleted: 0,
    linksCreated: 0,
    linksChanged: 0,
    linksDeleted: 0,
  };

  /** @param inBulk whether new records may wait to be put in together; then `flush` comes before anything is read */
  constructor(connection: Connection, inBulk = false) {
    this.#connection = connection;
    this.#inserts = new BulkInsert(connection, inBulk);
    this.journal = new JournalWriter(connection);
  }

  createNode(label: NodeLabel, id: NodeId, content: NodeContent): void {
    const { key, properties, extra } = content;
    refuseForeignId(label, id);
    const columns = nodeColumns(label);
    checkProperties(columns, properties, () => id);
    const version = this.journal.firstVersion({ kind: "node", id });
    const n = this.journal.nextSequence();
    const refusal = (cause: unknown) =>
      constraintBroken(cause) === undefined ? cause : taken(id, key, properties, cause);
    this.#inserts.add(intoNode, n, [n, id, label], refusal);
    const values: SQLInputValue[] = [n, key, version, encodeExtra(extra)];
    const into = insertOf(values, columns, properties);
    this.#inserts.add(into, n, values, refusal);
    this.#index(n, label, properties);
    this.#numbers.set(id, n);
    this.counts.nodesCreated++;
  }

  changeNode({ n, record }: Numbered<NodeRecord>, after: NodeContent): void {
    const { id, label } = record;
    const columns = nodeColumns(label);
    checkProperties(columns, after.properties, () => id);
    const version = record.version + 1;
    const values: SQLInputValue[] = [after.key, version, encodeExtra(after.extra)];
    encodeInto(values, columns, after.properties);
    values.push(n);
    try {
      this.#connection.run(columns.update, ...values);
    } catch (cause) {
      throw constraintBroken(cause) === undefined
        ? cause
        : taken(id, after.key, after.properties, cause);
    }
    this.#connection.run("DELETE FROM search WHERE rowid = ?", n);
    this.#index(n, label, after.properties);
    this.journal.changed({ kind: "node", id }, n, record, { ...after, version });
    this.counts.nodesChanged++;
  }

  /** Removes a node that nothing is linked to any more. */
  removeNode({ n, record }: Numbered<NodeRecord>): void {
    this.#connection.run(`DELETE FROM ${quoteName(record.label)} WHERE n = ?`, n);
    this.#connection.run("DELETE FROM search WHERE rowid = ?", n);
    this.#connection.run("DELETE FROM node WHERE n = ?", n);
    this.#numbers.delete(record.id);
    this.journal.deleted({ kind: "node", id: record.id }, n, record);
    this.counts.nodesDeleted++;
  }

  createLink(
    type: RelationshipType,
    from: NodeId,
    to: NodeId,
    { properties, extra }: Content,
  ): void {
    refuseWrongEnds(type, from, to);
    const columns = linkColumns(type);
    checkProperties(columns, properties, () => linkText(type, from, to));
    const fromNode = this.#existing(from, type);
    const toNode = this.#existing(to, type);
    const version = this.journal.firstVersion({ kind: "link", type, from, to });
    const n = this.journal.nextSequence();
    const values: SQLInputValue[] = [n, fromNode, toNode, version, encodeExtra(extra)];
    const into = insertOf(values, columns, properties);
    this.#inserts.add(into, n, values, (cause) =>
      constraintBroken(cause) === undefined ? cause : linkTaken(type, from, to, cause),
    );
    this.#indexCode(n, type, properties);
    this.counts.linksCreated++;
  }

  changeLink({ n, record }: Numbered<LinkRecord>, after: Content): void {
    const { type, from, to } = record;
    const columns = linkColumns(type);
    checkProperties(columns, after.properties, () => linkText(type, from, to));
    const version = record.version + 1;
    const values: SQLInputValue[] = [version, encodeExtra(after.extra)];
    encodeInto(values, columns, after.properties);
    values.push(n);
    this.#connection.run(columns.update, ...values);
    this.#forgetCode(n, type);
    this.#indexCode(n, type, after.properties);
    this.journal.changed({ kind: "link", type, from, to }, n, record, { ...after, version });
    this.counts.linksChanged++;
  }

  removeLink({ n, record }: Numbered<LinkRecord>): void {
    const { type, from, to } = record;
    this.#connection.run(`DELETE FROM ${quoteName(type)} WHERE n = ?`, n);
    this.#forgetCode(n, type);
    this.journal.deleted({ kind: "link", type, from, to }, n, record);
    this.counts.linksDeleted++;
  }

  node(id: NodeId): Numbered<NodeRecord> | undefined {
    return readNode(this.#connection, id);
  }

  link(type: RelationshipType, from: NodeId, to: NodeId): Numbered<LinkRecord> | undefined {
    const [a, b] = [this.numberOf(from), this.numberOf(to)];
    return a === undefined || b === undefined ? undefined : readLink(this.#connection, type, a, b);
  }

  linksFrom({ n }: Numbered<NodeRecord>, type: RelationshipType): readonly Numbered<LinkRecord>[] {
    return linksWhere(this.#connection, type, "WHERE r.fromNode = ? ORDER BY r.n", n);
  }

  linksTo({ n }: Numbered<NodeRecord>, type: RelationshipType): readonly Numbered<LinkRecord>[] {
    return linksWhere(this.#connection, type, "WHERE r.toNode = ? ORDER BY r.n", n);
  }

  freeKey({ n, record }: Numbered<NodeRecord>): void {
    this.#connection.run(
      `UPDATE ${quoteName(record.label)} SET key = ? WHERE n = ?`,
      `\u001f${n}`,
      n,
    );
  }

  /** Puts in the new records that wait; before anything is read, and at the end. */
  flush(): void {
    this.#inserts.flush();
  }

  /** The number of a node by id, or undefined; remembered for the rest of the transaction. */
  numberOf(id: NodeId): number | undefined {
    const known = this.#numbers.get(id);
    if (known !== undefined) return known;
    const n = nodeNumber(this.#connection, id);
    if (n !== undefined) this.#numbers.set(id, n);
    return n;
  }

  #existing(id: NodeId, type: RelationshipType): number {
    const n = this.numberOf(id);
    if (n === undefined) throw endMissing(id, type);
    return n;
  }

  #indexCode(n: number, type: RelationshipType, properties: Properties): void {
    const code = searchedCode(type, properties);
    if (code !== undefined)
      this.#connection.run("INSERT INTO search (rowid, words, numbers) VALUES (?, '', ?)", n, code);
  }

  #forgetCode(n: number, type: RelationshipType): void {
    if (isCoded(type)) this.#connection.run("DELETE FROM search WHERE rowid = ?", n);
  }

  #index(n: number, label: NodeLabel, properties: Properties): void {
    const text = searchText(label, properties);
    if (text !== undefined)
      this.#connection.run(
        "INSERT INTO search (rowid, words, numbers) VALUES (?, ?, ?)",
        n,
        text.words,
        text.numbers,
      );
  }
}

function taken(id: NodeId, key: NodeKey, properties: Properties, cause: unknown): Problem {
  return constraintBroken(cause) === "unique"
    ? keyTaken(id, key, cause)
    : new Problem(
        "input-invalid",
        `${id} breaks a rule of the database (${cause instanceof Error ? cause.message : ""}); received ${JSON.stringify(properties).slice(0, 300)}.`,
        { cause, facts: { subject: id } },
      );
}
