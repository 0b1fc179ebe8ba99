import type { SQLInputValue } from "node:sqlite";
import {
  labelOf,
  type NodeId,
  type NodeKey,
  type NodeLabel,
  type Properties,
  quoteName,
  type RelationshipType,
  relationshipDeclaration,
} from "../../../graph-schema/index.ts";
import type { LinkRecord, NodeRecord } from "../../../importers/change-set.ts";
import { Problem } from "../../errors/problem.ts";
import { checkProperties } from "./check-properties.ts";
import type { Connection } from "./connection.ts";
import { JournalWriter } from "./journal-writer.ts";
import { type Numbered, nodeNumber } from "./read-records.ts";
import {
  type Extra,
  encodeExtra,
  encodeInto,
  insertOf,
  linkColumns,
  nodeColumns,
} from "./record-columns.ts";
import { searchText } from "./search-text.ts";
import { constraintBroken } from "./sqlite-problem.ts";

/** What can change of a record, besides its version. */
export interface Content {
  readonly properties: Properties;
  readonly extra: Extra;
}
export interface NodeContent extends Content {
  readonly key: NodeKey;
}

export const linkText = (type: RelationshipType, from: NodeId, to: NodeId): string =>
  `${type} ${from} > ${to}`;

/** The elementary writes of one transaction: each checks its values, keeps the search index and is journalled. */
export class GraphWriter {
  readonly #connection: Connection;
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

  constructor(connection: Connection) {
    this.#connection = connection;
    this.journal = new JournalWriter(connection);
  }

  createNode(label: NodeLabel, id: NodeId, content: NodeContent): void {
    const { key, properties, extra } = content;
    if (labelOf(id) !== label)
      throw new Problem(
        "input-invalid",
        `The id of a node begins with its label; ${id} is proposed for a ${label}.`,
      );
    const columns = nodeColumns(label);
    checkProperties(columns, properties, () => id);
    const version = this.journal.firstVersion({ kind: "node", id });
    const n = this.journal.nextSequence();
    try {
      this.#connection.run("INSERT INTO node (n, id, label) VALUES (?, ?, ?)", n, id, label);
      const values: SQLInputValue[] = [n, key, version, encodeExtra(extra)];
      this.#connection.run(insertOf(values, columns, properties), ...values);
    } catch (cause) {
      throw constraintBroken(cause) === undefined ? cause : taken(id, key, properties, cause);
    }
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
    const declared = relationshipDeclaration(type);
    if (!declared.from.includes(labelOf(from)) || !declared.to.includes(labelOf(to)))
      throw new Problem(
        "input-invalid",
        `${type} leads from ${declared.from.join(" or ")} to ${declared.to.join(" or ")}; ${from} to ${to} was proposed.`,
      );
    const columns = linkColumns(type);
    checkProperties(columns, properties, () => linkText(type, from, to));
    const fromNode = this.#existing(from, type);
    const toNode = this.#existing(to, type);
    const version = this.journal.firstVersion({ kind: "link", type, from, to });
    const n = this.journal.nextSequence();
    const values: SQLInputValue[] = [n, fromNode, toNode, version, encodeExtra(extra)];
    const insert = insertOf(values, columns, properties);
    try {
      this.#connection.run(insert, ...values);
    } catch (cause) {
      throw constraintBroken(cause) === undefined
        ? cause
        : new Problem(
            "key-taken",
            declared.each === "one"
              ? `${from} may have one ${type} and has one already; remove it before adding ${to}. Read the record again and repeat the change.`
              : `${linkText(type, from, to)} exists already. Read it again and change it instead.`,
            { cause, facts: { subject: linkText(type, from, to) } },
          );
    }
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
    this.journal.changed({ kind: "link", type, from, to }, n, record, { ...after, version });
    this.counts.linksChanged++;
  }

  removeLink({ n, record }: Numbered<LinkRecord>): void {
    const { type, from, to } = record;
    this.#connection.run(`DELETE FROM ${quoteName(type)} WHERE n = ?`, n);
    this.journal.deleted({ kind: "link", type, from, to }, n, record);
    this.counts.linksDeleted++;
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
    if (n === undefined)
      throw new Problem(
        "not-found",
        `Both ends of a relationship must exist; ${id}, an end of a proposed ${type}, does not. Read the graph again and repeat the change.`,
        { facts: { subject: id } },
      );
    return n;
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
  const words = key.replaceAll("\u001f", ", ");
  return constraintBroken(cause) === "unique"
    ? new Problem(
        "key-taken",
        `A ${labelOf(id)} must have a name of its own; "${words}" (${id}) is taken. Change the one that exists, or choose another name.`,
        { cause, facts: { subject: id, key: words } },
      )
    : new Problem(
        "input-invalid",
        `${id} breaks a rule of the database (${cause instanceof Error ? cause.message : ""}); received ${JSON.stringify(properties).slice(0, 300)}.`,
        { cause, facts: { subject: id } },
      );
}
