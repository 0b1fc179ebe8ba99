import type { NodeId, NodeLabel, RelationshipType } from "../../graph-schema/index.ts";
import type { KnownGraph, LinkRecord, NodeRecord } from "../../importers/change-set.ts";

/** The graph's raw records, with plain ways to walk them. */
export interface RawGraph {
  all(label: NodeLabel): readonly NodeRecord[];
  from(id: NodeId, type: RelationshipType): readonly LinkRecord[];
  to(id: NodeId, type: RelationshipType): readonly LinkRecord[];
  links(type: RelationshipType): readonly LinkRecord[];
  node(label: NodeLabel, id: NodeId | undefined): NodeRecord | undefined;
}

function grouped(links: Iterable<LinkRecord>, end: "from" | "to"): Map<NodeId, LinkRecord[]> {
  const groups = new Map<NodeId, LinkRecord[]>();
  for (const link of links) {
    const group = groups.get(link[end]);
    if (group === undefined) groups.set(link[end], [link]);
    else group.push(link);
  }
  return groups;
}

/** Reads through the store's port only: `knownGraph` hands out records as they were written. */
export function rawGraph(known: KnownGraph): RawGraph {
  const kept = new Map<string, Map<NodeId, LinkRecord[]>>();
  const ends = (type: RelationshipType, end: "from" | "to"): Map<NodeId, LinkRecord[]> => {
    const found = kept.get(type + end) ?? grouped(known.links(type).values(), end);
    kept.set(type + end, found);
    return found;
  };
  const byId = new Map<NodeLabel, Map<NodeId, NodeRecord>>();
  return {
    all: (label) => [...known.nodes(label).values()],
    links: (type) => [...known.links(type).values()],
    from: (id, type) => ends(type, "from").get(id) ?? [],
    to: (id, type) => ends(type, "to").get(id) ?? [],
    node: (label, id) => {
      const nodes =
        byId.get(label) ??
        new Map([...known.nodes(label).values()].map((node) => [node.id, node] as const));
      byId.set(label, nodes);
      return id === undefined ? undefined : nodes.get(id);
    },
  };
}

/** A property that is a number; undefined where it is not stated. */
export function figure(of: { readonly properties: object }, name: string): number | undefined {
  const value: unknown = Reflect.get(of.properties, name);
  return typeof value === "number" ? value : undefined;
}

/** A property that is text; undefined where it is not stated. */
export function word(of: { readonly properties: object }, name: string): string | undefined {
  const value: unknown = Reflect.get(of.properties, name);
  return typeof value === "string" ? value : undefined;
}

/** A property that is yes or no; undefined where it is not stated. */
export function mark(of: { readonly properties: object }, name: string): boolean | undefined {
  const value: unknown = Reflect.get(of.properties, name);
  return typeof value === "boolean" ? value : undefined;
}

/** The lots in any place within the vessel, however deep. */
export function lotsAboard(graph: RawGraph, vessel: NodeId): readonly NodeRecord[] {
  const isAboard = (place: NodeId | undefined): boolean =>
    place !== undefined && (place === vessel || isAboard(graph.from(place, "IS_WITHIN")[0]?.to));
  return graph.all("StockLot").filter((lot) => isAboard(graph.from(lot.id, "STOWED_IN")[0]?.to));
}

const ofDay = (iso: string): readonly [number, number, number] => {
  const [year = 0, month = 0, day = 0] = iso.split("-").map(Number);
  return [year, month, day];
};
const isLeap = (year: number): boolean => year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0);
const monthDays = (year: number, month: number): number =>
  month === 2 ? (isLeap(year) ? 29 : 28) : [4, 6, 9, 11].includes(month) ? 30 : 31;
const written = (year: number, month: number, day: number): string =>
  `${String(year).padStart(4, "0")}-${String(month).padStart(2, "0")}-${String(day).padStart(2, "0")}`;

/** The same day so many months on, or the month's last day; counted on the calendar, not by the runtime's dates. */
export function monthsAfter(iso: string, months: number): string {
  let [year, month, day] = ofDay(iso);
  for (let i = 0; i < months; i++) {
    month += 1;
    if (month > 12) [year, month] = [year + 1, 1];
  }
  return written(year, month, Math.min(day, monthDays(year, month)));
}

/** So many days on, one day after another. */
export function daysAfter(iso: string, days: number): string {
  let [year, month, day] = ofDay(iso);
  for (let i = 0; i < days; i++) {
    day += 1;
    if (day > monthDays(year, month)) [month, day] = [month + 1, 1];
    if (month > 12) [year, month] = [year + 1, 1];
  }
  return written(year, month, day);
}
