import type { Adjacency, Snapshot } from "./snapshot.ts";

/** The tables of a snapshot, whose rows are nodes. */
export type TableName =
  | "vessels"
  | "makers"
  | "functions"
  | "models"
  | "items"
  | "parts"
  | "services"
  | "lots"
  | "lockers"
  | "suppliers"
  | "crossings";

/** Per table, whether a row stays; a table left out stays whole. */
export type KeptRows = Partial<Readonly<Record<TableName, (row: number) => boolean>>>;

type Column = readonly string[] | Int32Array | Uint8Array | Uint16Array | Float64Array;
type Columns = { readonly [name: string]: Column | Columns };

/** Rows kept of one table, and where each old row went (-1: gone). */
interface Kept {
  readonly rows: Int32Array;
  readonly place: Int32Array;
}

/**
 * Returns the snapshot with only some rows of its tables, in the same order: lines and pairs with an end that is gone
 * go too, references to rows that are gone become -1. Tables whose rows all stay are shared, not copied. O(size).
 */
export function keepRows(snapshot: Snapshot, keep: KeptRows): Snapshot {
  const kept = Object.fromEntries(
    tableNames.map((name) => [name, keptOf(snapshot[name].id.length, keep[name])]),
  ) as Record<TableName, Kept>;
  const table = <N extends TableName>(name: N): Snapshot[N] =>
    keep[name] === undefined
      ? snapshot[name]
      : (gather(snapshot[name] as unknown as Columns, kept[name].rows) as unknown as Snapshot[N]);
  const moved = (column: Int32Array, to: TableName): Int32Array =>
    column.map((row) => (row < 0 ? -1 : (kept[to].place[row] ?? -1)));
  const lines = <A extends Adjacency>(adjacency: A, from: TableName, to: TableName): A =>
    keep[from] === undefined && keep[to] === undefined
      ? adjacency
      : keepLines(adjacency, kept[from], kept[to]);
  const parts = kept.parts.place;
  const functions = table("functions");
  const models = table("models");
  const items = table("items");
  const ownParts = table("parts");
  const services = table("services");
  const lots = table("lots");
  const lockers = table("lockers");
  return {
    ...snapshot,
    vessels: table("vessels"),
    makers: table("makers"),
    suppliers: table("suppliers"),
    crossings: table("crossings"),
    functions: { ...functions, vessel: moved(functions.vessel, "vessels") },
    models: { ...models, maker: moved(models.maker, "makers") },
    items: {
      ...items,
      vessel: moved(items.vessel, "vessels"),
      model: moved(items.model, "models"),
    },
    parts: { ...ownParts, maker: moved(ownParts.maker, "makers") },
    services: { ...services, model: moved(services.model, "models") },
    lots: {
      ...lots,
      part: moved(lots.part, "parts"),
      locker: moved(lots.locker, "lockers"),
      vessel: moved(lots.vessel, "vessels"),
    },
    lockers: {
      ...lockers,
      within: moved(lockers.within, "lockers"),
      vessel: moved(lockers.vessel, "vessels"),
    },
    serves: lines(snapshot.serves, "items", "functions"),
    uses: lines(snapshot.uses, "models", "parts"),
    consumes: lines(snapshot.consumes, "services", "parts"),
    serviced: lines(snapshot.serviced, "items", "services"),
    offers: lines(snapshot.offers, "suppliers", "parts"),
    sailedBy: lines(snapshot.sailedBy, "crossings", "vessels"),
    interchange: keepPairs(snapshot.interchange, "a", "b", parts),
    supersession: keepPairs(snapshot.supersession, "older", "newer", parts),
    contains: keepPairs(snapshot.contains, "kit", "part", parts),
  };
}

const tableNames: readonly TableName[] = [
  "vessels",
  "makers",
  "functions",
  "models",
  "items",
  "parts",
  "services",
  "lots",
  "lockers",
  "suppliers",
  "crossings",
];

function keptOf(count: number, isKept: ((row: number) => boolean) | undefined): Kept {
  const rows: number[] = [];
  const place = new Int32Array(count).fill(-1);
  for (let row = 0; row < count; row++) {
    if (isKept !== undefined && !isKept(row)) continue;
    place[row] = rows.length;
    rows.push(row);
  }
  return { rows: Int32Array.from(rows), place };
}

const isColumn = (value: Column | Columns): value is Column =>
  Array.isArray(value) || ArrayBuffer.isView(value);

/** The given rows of every column, columns within columns included. */
function gather(columns: Columns, rows: Int32Array): Columns {
  return Object.fromEntries(
    Object.entries(columns).map(([name, value]) => [
      name,
      isColumn(value) ? gatherColumn(value, rows) : gather(value, rows),
    ]),
  );
}

function gatherColumn(column: Column, rows: Int32Array): Column {
  if (!ArrayBuffer.isView(column)) return Array.from(rows, (row) => column[row] ?? "");
  const Kind = column.constructor as unknown as {
    from(rows: Int32Array, map: (row: number) => number): Column;
  };
  return Kind.from(rows, (row) => column[row] ?? 0);
}

/** The lines between rows that stay, with their columns. */
function keepLines<A extends Adjacency>(adjacency: A, from: Kept, to: Kept): A {
  const entries: number[] = [];
  const start = new Int32Array(from.rows.length + 1);
  from.rows.forEach((row, at) => {
    const end = adjacency.start[row + 1] ?? 0;
    for (let entry = adjacency.start[row] ?? 0; entry < end; entry++) {
      if ((to.place[adjacency.target[entry] ?? -1] ?? -1) >= 0) entries.push(entry);
    }
    start[at + 1] = entries.length;
  });
  const { start: _, ...columns } = adjacency;
  const kept = gather(columns as unknown as Columns, Int32Array.from(entries));
  const target = (kept["target"] as Int32Array).map((row) => to.place[row] ?? -1);
  return { ...kept, start, target } as unknown as A;
}

/** The pairs of parts both of which stay. */
function keepPairs<P extends object>(pairs: P, a: keyof P, b: keyof P, place: Int32Array): P {
  const first = pairs[a] as Int32Array;
  const second = pairs[b] as Int32Array;
  const both = Int32Array.from(first.keys()).filter(
    (pair) => (place[first[pair] ?? -1] ?? -1) >= 0 && (place[second[pair] ?? -1] ?? -1) >= 0,
  );
  const kept = gather(pairs as unknown as Columns, both);
  const moved = (name: keyof P): Int32Array =>
    (kept[name as string] as Int32Array).map((part) => place[part] ?? -1);
  return { ...kept, [a]: moved(a), [b]: moved(b) } as unknown as P;
}
