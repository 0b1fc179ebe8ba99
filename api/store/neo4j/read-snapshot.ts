import {
  type NodeId,
  type NodeLabel,
  nodeDeclaration,
  type PropertyDeclaration,
  type RelationshipType,
  relationshipDeclaration,
} from "../../../graph-schema/index.ts";
import { Problem } from "../../errors/problem.ts";
import type { Snapshot } from "../../scoring/snapshot/snapshot.ts";
import { buildSnapshot } from "../shared/snapshot/build-snapshot.ts";
import type { Row, RowSource } from "../shared/snapshot/row-source.ts";
import { chooseVessel } from "./choose-vessel.ts";
import type { Transaction } from "./client.ts";
import { isWhole } from "./codec.ts";
import { ticked } from "./read-records.ts";

interface WantedRows<N> {
  readonly name: N;
  readonly properties: readonly string[];
}
interface WantedSnapshot {
  readonly nodes: WantedRows<NodeLabel>[];
  readonly links: WantedRows<RelationshipType>[];
}

/** What a snapshot asks its source for, found by building one of nothing. */
function wantedRows(): WantedSnapshot {
  const wanted: WantedSnapshot = { nodes: [], links: [] };
  buildSnapshot({
    nodeRows: (name, properties) => {
      wanted.nodes.push({ name, properties });
      return [];
    },
    linkRows: (name, properties) => {
      wanted.links.push({ name, properties });
      return [];
    },
  });
  return wanted;
}
const wanted = wantedRows();

/**
 * The columnar picture of everything, or of what belongs to one vessel (as `sqlite/read-snapshot.ts`). Numbers come
 * as floating point, which is exact for every whole number the declarations allow and costs the driver least.
 * Errors: `not-found` for a vessel that does not exist.
 */
export async function readSnapshot(transaction: Transaction, vessel?: NodeId): Promise<Snapshot> {
  const source =
    vessel === undefined
      ? await readAll(transaction)
      : await readChosen(transaction, await chosenOf(transaction, vessel));
  return buildSnapshot(source);
}

async function chosenOf(transaction: Transaction, vessel: NodeId) {
  const chosen = await chooseVessel(transaction, vessel);
  if (chosen === undefined)
    throw new Problem(
      "not-found",
      `The picture of a vessel needs a vessel that exists; there is none by the id ${vessel}.`,
      { facts: { subject: vessel } },
    );
  return chosen;
}

const columnsOf = (
  alias: string,
  declared: Readonly<Record<string, PropertyDeclaration>>,
  properties: readonly string[],
): readonly string[] =>
  properties.map((name) => {
    const property = declared[name];
    const value = `${alias}.${ticked(name)}`;
    return property !== undefined && isWhole(property) ? `toFloat(${value})` : value;
  });

const nodeRow = ({ name, properties }: WantedRows<NodeLabel>): string =>
  [
    ...columnsOf("n", nodeDeclaration(name).properties, properties),
    "n.id",
    "toFloat(n.sequence)",
  ].join(", ");
const linkRow = ({ name, properties }: WantedRows<RelationshipType>): string =>
  [
    ...columnsOf("r", relationshipDeclaration(name).properties, properties),
    "toFloat(a.sequence)",
    "toFloat(b.sequence)",
  ].join(", ");

const asked = (name: string, properties: readonly string[]): string =>
  [name, ...properties].join(" ");

class FetchedRows implements RowSource {
  readonly #rows = new Map<string, readonly Row[]>();

  keep(name: string, properties: readonly string[], rows: readonly Row[]): void {
    this.#rows.set(asked(name, properties), rows);
  }

  nodeRows(label: NodeLabel, properties: readonly string[]): readonly Row[] {
    return this.#rows.get(asked(label, properties)) ?? [];
  }

  linkRows(type: RelationshipType, properties: readonly string[]): readonly Row[] {
    return this.#rows.get(asked(type, properties)) ?? [];
  }
}

async function readAll(transaction: Transaction): Promise<RowSource> {
  const fetched = new FetchedRows();
  for (const nodes of wanted.nodes) {
    const query = `MATCH (n:${ticked(nodes.name)}) WITH n ORDER BY n.key RETURN [${nodeRow(nodes)}]`;
    fetched.keep(nodes.name, nodes.properties, await transaction.lists(query));
  }
  for (const links of wanted.links) {
    const query = `MATCH (a)-[r:${ticked(links.name)}]->(b) RETURN [${linkRow(links)}]`;
    fetched.keep(links.name, links.properties, await transaction.lists(query));
  }
  return fetched;
}

/** Relationships that are walked from their target: a supplier offers far more than one vessel's parts. */
const fromTarget: ReadonlySet<RelationshipType> = new Set(["OFFERS"]);

async function readChosen(
  transaction: Transaction,
  chosen: ReadonlyMap<NodeLabel, ReadonlySet<NodeId>>,
): Promise<RowSource> {
  const fetched = new FetchedRows();
  const idsOf = (label: string) => [...(chosen.get(label as NodeLabel) ?? [])];
  const asking: Promise<void>[] = [];
  // All are asked at once: the server works on the next while the rows of the last are still being read.
  for (const nodes of wanted.nodes)
    asking.push(readNodes(transaction, fetched, nodes, idsOf(nodes.name)));
  for (const links of wanted.links) asking.push(readLinks(transaction, fetched, links, idsOf));
  await Promise.all(asking);
  const numbers = new Set<number>();
  for (const { name, properties } of wanted.nodes)
    for (const row of fetched.nodeRows(name, properties))
      numbers.add(Number(row[properties.length + 1]));
  for (const { name, properties } of wanted.links) {
    const count = properties.length;
    const isChosen = (row: Row) =>
      numbers.has(Number(row[count])) && numbers.has(Number(row[count + 1]));
    fetched.keep(name, properties, fetched.linkRows(name, properties).filter(isChosen));
  }
  return fetched;
}

async function readNodes(
  transaction: Transaction,
  fetched: FetchedRows,
  nodes: WantedRows<NodeLabel>,
  ids: readonly NodeId[],
): Promise<void> {
  if (ids.length === 0) return;
  const query = `UNWIND $ids AS id MATCH (n:${ticked(nodes.name)} {id: id}) WITH n ORDER BY n.key RETURN [${nodeRow(nodes)}]`;
  fetched.keep(nodes.name, nodes.properties, await transaction.lists(query, { ids }));
}

/** Relationships with one end chosen, from the end where there are fewer. */
async function readLinks(
  transaction: Transaction,
  fetched: FetchedRows,
  links: WantedRows<RelationshipType>,
  idsOf: (label: string) => readonly NodeId[],
): Promise<void> {
  const { name, properties } = links;
  const declared = relationshipDeclaration(name);
  const end = fromTarget.has(name) ? "b" : "a";
  const rows: Row[] = [];
  for (const label of end === "a" ? declared.from : declared.to) {
    const ids = idsOf(label);
    if (ids.length === 0) continue;
    const query = `UNWIND $ids AS id MATCH (${end}:${ticked(label)} {id: id}) MATCH (a)-[r:${ticked(name)}]->(b) RETURN [${linkRow(links)}]`;
    for (const row of await transaction.lists(query, { ids })) rows.push(row);
  }
  fetched.keep(name, properties, rows);
}
