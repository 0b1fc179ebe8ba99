import {
  labelOf,
  type NodeId,
  type NodeLabel,
  type RelationshipType,
} from "../../../graph-schema/index.ts";
import { Problem } from "../../errors/problem.ts";
import type { Row } from "../shared/snapshot/row-source.ts";
import type { Transaction } from "./client.ts";
import { isFromPartToPart, type TablesQuery } from "./vessel-query.ts";

/** Rows of one vessel's picture: nodes by key order, relationships whose two ends are both in it. */
export interface VesselRows {
  readonly nodes: ReadonlyMap<NodeLabel, readonly Row[]>;
  readonly links: ReadonlyMap<RelationshipType, readonly Row[]>;
}

/**
 * Both statements. Their rows end: of a node in id, number and key; of a relationship in the numbers of its ends,
 * after which those from part to part have both ids.
 */
export interface VesselQueries {
  readonly vessel: TablesQuery;
  readonly parts: TablesQuery;
}

const idOf = (row: Row): NodeId => row.at(-3) as NodeId;
const numberOf = (row: Row): number => row.at(-2) as number;
const keyOf = (row: Row): string => row.at(-1) as string;
const partEnds = (row: Row) => [row.at(-2), row.at(-1)] as [NodeId, NodeId];

/** Tables as they come in, several times where parts lead to more parts. */
class Gathered {
  readonly nodes = new Map<NodeLabel, Map<number, Row>>();
  readonly links = new Map<RelationshipType, Row[]>();
  readonly #seen = new Set<string>();

  take({ tables }: TablesQuery, answers: readonly (readonly unknown[])[]): void {
    for (const [number, list] of answers) {
      const table = tables[number as number];
      const rows = list as readonly Row[];
      if (table === undefined) continue;
      if ("label" in table) {
        const known = this.nodes.get(table.label) ?? new Map<number, Row>();
        this.nodes.set(table.label, known);
        for (const row of rows) known.set(numberOf(row), row);
      } else {
        const known = this.links.get(table.type) ?? [];
        this.links.set(table.type, known);
        for (const row of rows) if (this.#isFirst(table.type, row)) known.push(row);
      }
    }
  }

  partIds(): Set<NodeId> {
    return new Set(this.nodes.get("Part")?.values().map(idOf));
  }

  ends(type: RelationshipType): readonly (readonly [NodeId, NodeId])[] {
    return (this.links.get(type) ?? []).map(partEnds);
  }

  /** A relationship from part to part is found at both, which may be fetched one after the other. */
  #isFirst(type: RelationshipType, row: Row): boolean {
    if (!isFromPartToPart(type)) return true;
    const { size } = this.#seen;
    return this.#seen.add([type, ...partEnds(row)].join(" ")).size > size;
  }
}

/** Where one step leads from a part: to those that may be needed in its place, after it or of its inside. */
type Step = (gathered: Gathered, from: ReadonlySet<NodeId>) => readonly NodeId[];
const along =
  (type: RelationshipType, way: "out" | "in" | "both"): Step =>
  (gathered, from) =>
    gathered
      .ends(type)
      .flatMap(([a, b]) => [
        ...(way !== "in" && from.has(a) ? [b] : []),
        ...(way !== "out" && from.has(b) ? [a] : []),
      ]);
/**
 * One after another, each until nothing is new: what stands in for wanted parts, replaced them or is inside them; then
 * the service kits those are in, however deep; then what else is in them.
 */
const rounds: readonly (readonly Step[])[] = [
  [along("INTERCHANGES_WITH", "both"), along("SUPERSEDED_BY", "out"), along("CONTAINS", "out")],
  [along("CONTAINS", "in")],
  [along("CONTAINS", "out")],
];

/**
 * One vessel's rows, in one statement, and one more for each step from its parts to parts that are not wanted of
 * themselves. Errors: `not-found` for a vessel that does not exist.
 */
export async function readVessel(
  transaction: Transaction,
  queries: VesselQueries,
  vessel: NodeId,
): Promise<VesselRows> {
  const first =
    labelOf(vessel) === "Vessel" ? await transaction.lists(queries.vessel.text, { vessel }) : [];
  if (first.length === 0)
    throw new Problem(
      "not-found",
      `The picture of a vessel needs a vessel that exists; there is none by the id ${vessel}.`,
      { facts: { subject: vessel } },
    );
  const gathered = new Gathered();
  gathered.take(queries.vessel, first);
  const chosen = gathered.partIds();
  const fetched = new Set(chosen);
  for (const round of rounds)
    for (;;) {
      const fresh = new Set(round.flatMap((step) => step(gathered, chosen))).difference(chosen);
      if (fresh.size === 0) break;
      const ids = [...fresh.difference(fetched)];
      if (ids.length > 0) {
        gathered.take(queries.parts, await transaction.lists(queries.parts.text, { ids }));
        for (const id of ids) fetched.add(id);
      }
      for (const id of fresh) chosen.add(id);
    }
  return arranged(gathered);
}

function arranged(gathered: Gathered): VesselRows {
  const inside = new Set<number>();
  const nodes = new Map<NodeLabel, Row[]>();
  for (const [label, rows] of gathered.nodes) {
    nodes.set(label, [...rows.values()].sort(byKey));
    for (const number of rows.keys()) inside.add(number);
  }
  const links = new Map<RelationshipType, Row[]>();
  for (const [type, rows] of gathered.links) {
    const first = isFromPartToPart(type) ? 4 : 2;
    const isInside = (row: Row) =>
      inside.has(row.at(-first) as number) && inside.has(row.at(1 - first) as number);
    links.set(type, rows.filter(isInside));
  }
  return { nodes, links };
}

/** By code points, as both stores order keys. */
function byKey(x: Row, y: Row): number {
  const [a, b] = [keyOf(x), keyOf(y)];
  for (let at = 0; at < Math.min(a.length, b.length); at++)
    if (a.charCodeAt(at) !== b.charCodeAt(at))
      return (a.codePointAt(at) ?? 0) - (b.codePointAt(at) ?? 0);
  return a.length - b.length;
}
