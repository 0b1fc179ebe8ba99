import {
  type NodeId,
  type NodeLabel,
  nodeDeclaration,
  type PropertyDeclaration,
  type RelationshipType,
  relationshipDeclaration,
} from "../../../graph-schema/index.ts";
import type { GearPicture, Snapshot } from "../../scoring/snapshot/snapshot.ts";
import { buildGearPicture, buildSnapshot } from "../shared/snapshot/build-snapshot.ts";
import type { Row, RowSource } from "../shared/snapshot/row-source.ts";
import type { Transaction } from "./client.ts";
import { isWhole } from "./codec.ts";
import { ticked } from "./read-records.ts";
import { readVessel, type VesselQueries } from "./read-vessel.ts";
import {
  isFromPartToPart,
  partsQuery,
  rowsAtOnce,
  vesselQuery,
  type WantedTables,
} from "./vessel-query.ts";

interface WantedRows<N> {
  readonly name: N;
  readonly properties: readonly string[];
}
interface WantedSnapshot {
  readonly nodes: WantedRows<NodeLabel>[];
  readonly links: WantedRows<RelationshipType>[];
}

/** A table is asked for by each pair of labels it connects, always with the same properties. */
function onePerName<N, T extends WantedRows<N>>(list: readonly T[]): T[] {
  const byName = new Map<N, T>();
  for (const table of list) {
    const before = byName.get(table.name);
    if (before !== undefined && before.properties.join() !== table.properties.join())
      throw new Error(`${table.name} is asked for with different properties`);
    byName.set(table.name, table);
  }
  return [...byName.values()];
}
/** What a picture asks its source for, found by building one of nothing. */
function wantedBy(build: (source: RowSource) => unknown): WantedSnapshot {
  const wanted: WantedSnapshot = { nodes: [], links: [] };
  build({
    nodeRows: (name, properties) => {
      wanted.nodes.push({ name, properties });
      return [];
    },
    linkRows: (name, properties) => {
      wanted.links.push({ name, properties });
      return [];
    },
  });
  return { nodes: onePerName(wanted.nodes), links: onePerName(wanted.links) };
}

const inSnapshot = wantedBy(buildSnapshot);
const inGearPicture = wantedBy(buildGearPicture);

/**
 * The columnar picture of everything, or of what belongs to one vessel (as `sqlite/read-snapshot.ts`). Numbers come
 * as floating point, which is exact for every whole number the declarations allow and costs the driver least.
 * Errors: `not-found` for a vessel that does not exist.
 */
export async function readSnapshot(transaction: Transaction, vessel?: NodeId): Promise<Snapshot> {
  return buildSnapshot(
    vessel === undefined
      ? await readAll(transaction, inSnapshot, "(a:Model)")
      : await readChosen(transaction, vessel),
  );
}

/** See `GraphStore.fleetGear`. */
export async function readFleetGear(transaction: Transaction): Promise<GearPicture> {
  const fitted = "(a:Model) WHERE EXISTS { (a)<-[:IS_MODEL]-() }";
  return buildGearPicture(await readAll(transaction, inGearPicture, fitted));
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

const sourceOf = (
  nodes: ReadonlyMap<NodeLabel, readonly Row[]>,
  links: ReadonlyMap<RelationshipType, readonly Row[]>,
): RowSource => ({
  nodeRows: (label) => nodes.get(label) ?? [],
  linkRows: (type) => links.get(type) ?? [],
});

/** @param listed the models `a` whose parts lists are wanted, as a pattern */
async function readAll(
  transaction: Transaction,
  wanted: WantedSnapshot,
  listed: string,
): Promise<RowSource> {
  const nodes = new Map<NodeLabel, readonly Row[]>();
  const links = new Map<RelationshipType, readonly Row[]>();
  // All are asked at once: the server works on the next while the rows of the last are still being read.
  await Promise.all([
    ...wanted.nodes.map(async (table) => {
      // Every node has a key; saying so lets the server walk its index, in order.
      const query = `MATCH (n:${ticked(table.name)}) WHERE n.key IS NOT NULL WITH n ORDER BY n.key RETURN [${nodeRow(table)}]`;
      nodes.set(table.name, await transaction.lists(query));
    }),
    ...wanted.links.map(async (table) => {
      links.set(table.name, await readLinks(transaction, table, listed));
    }),
  ]);
  return sourceOf(nodes, links);
}

/** Relationships of which nodes have so many that they come some to an answer: one each would cost more than the row. */
const inBatches: Partial<Readonly<Record<RelationshipType, NodeLabel>>> = {
  USES: "Model",
  OFFERS: "Supplier",
};

async function readLinks(
  transaction: Transaction,
  links: WantedRows<RelationshipType>,
  listed: string,
): Promise<readonly Row[]> {
  const walk = `(a)-[r:${ticked(links.name)}]->(b)`;
  const label = inBatches[links.name];
  if (label === undefined) return transaction.lists(`MATCH ${walk} RETURN [${linkRow(links)}]`);
  const some = await transaction.lists(
    `MATCH ${links.name === "USES" ? listed : `(a:${ticked(label)})`}
     CALL (a) { MATCH ${walk} RETURN collect([${linkRow(links)}]) AS rows }
     WITH rows WHERE size(rows) > 0
     UNWIND range(0, size(rows) - 1, ${rowsAtOnce}) AS first
     RETURN rows[first .. first + ${rowsAtOnce}]`,
  );
  const rows: Row[] = [];
  for (const list of some) for (const row of list) rows.push(row as Row);
  return rows;
}

const tables: WantedTables = {
  nodes: inSnapshot.nodes.map((table) => ({ name: table.name, row: `${nodeRow(table)}, n.key` })),
  links: inSnapshot.links.map((table) => ({
    name: table.name,
    row: isFromPartToPart(table.name) ? `${linkRow(table)}, a.id, b.id` : linkRow(table),
  })),
};
const queries: VesselQueries = { vessel: vesselQuery(tables), parts: partsQuery(tables) };

async function readChosen(transaction: Transaction, vessel: NodeId): Promise<RowSource> {
  const { nodes, links } = await readVessel(transaction, queries, vessel);
  return sourceOf(nodes, links);
}
