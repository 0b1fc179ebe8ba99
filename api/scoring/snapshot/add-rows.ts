import {
  failureEffects,
  type NeedName,
  type NodeId,
  type NodeLabel,
  neededName,
  needNames,
  type Properties,
  type RelationshipType,
  rarityClasses,
  rateBases,
  rateSources,
} from "../../../graph-schema/index.ts";
import { dayOfIso } from "../aboard/calendar.ts";
import type { Adjacency, Snapshot } from "./snapshot.ts";

export interface AddedNode {
  readonly label: NodeLabel;
  readonly id: NodeId;
  readonly properties: Properties;
}

export interface AddedLink {
  readonly type: RelationshipType;
  readonly from: NodeId;
  readonly to: NodeId;
  readonly properties: Properties;
}

/** What is added to a snapshot: makers, models, parts, suppliers, fitted items, and links between any nodes. */
export interface AddedRows {
  readonly nodes: readonly AddedNode[];
  readonly links: readonly AddedLink[];
}

type Row = { readonly [name: string]: number | string | Row };
type Column = readonly string[] | Int32Array | Uint8Array | Float64Array;
type Columns = { readonly [name: string]: Column | Columns };

const numberOf = (value: unknown): number => (typeof value === "number" ? value : Number.NaN);
const textOf = (value: unknown): string => (typeof value === "string" ? value : "");
const dayOf = (value: unknown): number =>
  typeof value === "string" ? dayOfIso(value) : Number.NaN;
const code = (choices: readonly string[], value: unknown, absent = 0): number =>
  choices.indexOf(textOf(value)) < 0 ? absent : choices.indexOf(textOf(value)) + 1;

/**
 * Returns the snapshot with rows added behind those it has; what it has already (by id, by ends) stays as it is.
 * Handles the labels Maker, Model, Part, Supplier, FittedItem and the links MADE_BY, IS_MODEL, FITTED_ON, USES, OFFERS,
 * SERVES, SERVICED, INTERCHANGES_WITH; other labels and types, and links to nodes that are not there, are left out.
 * Unstated values read as a store reads them (snapshot.ts). O(size + added).
 */
export function addRows(snapshot: Snapshot, { nodes, links }: AddedRows): Snapshot {
  const fresh = (label: NodeLabel, known: readonly NodeId[]): readonly AddedNode[] => {
    const seen = new Set<NodeId>(known);
    return nodes.filter(
      (node) => node.label === label && !seen.has(node.id) && seen.add(node.id) !== undefined,
    );
  };
  const oneFrom = new Map(links.map((link) => [`${link.type} ${link.from}`, link.to]));
  const makers = appended(
    snapshot.makers,
    fresh("Maker", snapshot.makers.id),
    ({ properties }) => ({
      name: textOf(properties["name"]),
    }),
  );
  const makerOf = rowsById(makers.id);
  const madeBy = (id: NodeId): number => makerOf.get(oneFrom.get(`MADE_BY ${id}`) ?? "") ?? -1;
  const models = appended(snapshot.models, fresh("Model", snapshot.models.id), (node) => ({
    designation: textOf(node.properties["designation"]),
    category: textOf(node.properties["category"]),
    maker: madeBy(node.id),
    can: needRow((name) => node.properties[name]),
    massKg: numberOf(node.properties["massKg"]),
    priceMinor: numberOf(node.properties["priceMinor"]),
    currency: textOf(node.properties["currency"]),
  }));
  const parts = appended(snapshot.parts, fresh("Part", snapshot.parts.id), (node) => ({
    partNumber: textOf(node.properties["partNumber"]),
    description: textOf(node.properties["description"]),
    maker: madeBy(node.id),
    massKg: numberOf(node.properties["massKg"]),
    volumeLitres: numberOf(node.properties["volumeLitres"]),
    shelfLifeMonths: numberOf(node.properties["shelfLifeMonths"]),
    serviceLifeMonths: numberOf(node.properties["serviceLifeMonths"]),
    isSafety: node.properties["isSafety"] === true ? 1 : 0,
  }));
  const suppliers = appended(
    snapshot.suppliers,
    fresh("Supplier", snapshot.suppliers.id),
    ({ properties }) => ({
      name: textOf(properties["name"]),
      port: textOf(properties["port"]),
      country: textOf(properties["country"]),
      contact: textOf(properties["contact"]),
    }),
  );
  const modelOf = rowsById(models.id);
  const vesselOf = rowsById(snapshot.vessels.id);
  const items = appended(snapshot.items, fresh("FittedItem", snapshot.items.id), (node) => ({
    position: textOf(node.properties["position"]),
    vessel: vesselOf.get(oneFrom.get(`FITTED_ON ${node.id}`) ?? "") ?? -1,
    model: modelOf.get(oneFrom.get(`IS_MODEL ${node.id}`) ?? "") ?? -1,
    hoursPerDay: numberOf(node.properties["hoursPerDay"]),
    operationsPerDay: numberOf(node.properties["operationsPerDay"]),
    fittedOnDay: dayOf(node.properties["fittedOn"]),
    hoursRun: numberOf(node.properties["hoursRun"]),
    needs: needRow((name) => node.properties[neededName(name)]),
  }));
  const partOf = rowsById(parts.id);
  const itemOf = rowsById(items.id);
  const of = (type: RelationshipType): readonly AddedLink[] =>
    links.filter((link) => link.type === type);
  return {
    ...snapshot,
    makers,
    models,
    parts,
    suppliers,
    items,
    uses: withLines(snapshot.uses, models.id.length, of("USES"), modelOf, partOf, usesRow),
    offers: withLines(
      snapshot.offers,
      suppliers.id.length,
      of("OFFERS"),
      rowsById(suppliers.id),
      partOf,
      offerRow,
    ),
    serves: withLines(
      snapshot.serves,
      items.id.length,
      of("SERVES"),
      itemOf,
      rowsById(snapshot.functions.id),
      () => ({}),
    ),
    serviced: withLines(
      snapshot.serviced,
      items.id.length,
      of("SERVICED"),
      itemOf,
      rowsById(snapshot.services.id),
      (properties) => ({
        lastDoneDay: dayOf(properties["lastDone"]),
        lastDoneHours: numberOf(properties["lastDoneHours"]),
      }),
    ),
    interchange: withPairs(snapshot.interchange, of("INTERCHANGES_WITH"), partOf),
  };
}

const needRow = (read: (name: NeedName) => unknown): Row =>
  Object.fromEntries(needNames.map((name) => [name, numberOf(read(name))]));

/** Absent: a failure stops the item, the part can be fitted at sea; a mean time between failures becomes a rate. */
function usesRow(properties: Properties): Row {
  const rate = numberOf(properties["rate"]);
  const mtbf = numberOf(properties["mtbfHours"]);
  const fromMtbf = Number.isNaN(rate) && !Number.isNaN(mtbf);
  return {
    quantity: numberOf(properties["quantity"]),
    failureEffect: Math.max(0, code(failureEffects, properties["failureEffect"], 1) - 1),
    fittableAtSea: properties["fittableAtSea"] === false ? 0 : 1,
    rate: fromMtbf ? 1000 / mtbf : rate,
    rateBasis: fromMtbf ? 1 : code(rateBases, properties["rateBasis"]),
    meanLifeHours: numberOf(properties["meanLifeHours"]),
    weibullShape: numberOf(properties["weibullShape"]),
    usedCount: numberOf(properties["usedCount"]),
    usedOverYears: numberOf(properties["usedOverYears"]),
    rarity: code(rarityClasses, properties["rarity"]),
    rateSource: code(rateSources, properties["rateSource"]),
    rateConfirmed: properties["rateConfirmed"] === true ? 1 : 0,
  };
}

const offerRow = (properties: Properties): Row => ({
  supplierCode: textOf(properties["supplierCode"]),
  priceMinor: numberOf(properties["priceMinor"]),
  currency: textOf(properties["currency"]),
  packSize: numberOf(properties["packSize"]),
  minimumOrder: numberOf(properties["minimumOrder"]),
  leadTimeDays: numberOf(properties["leadTimeDays"]),
  asOfDay: dayOf(properties["asOf"]),
});

const rowsById = (ids: readonly NodeId[]): ReadonlyMap<string, number> =>
  new Map(ids.map((id, row) => [id, row]));

function appended<T extends { readonly id: readonly NodeId[] }>(
  table: T,
  nodes: readonly AddedNode[],
  rowOf: (node: AddedNode) => Row,
): T {
  if (nodes.length === 0) return table;
  const { id, ...columns } = table;
  const longer = appendRows(columns as unknown as Columns, nodes.map(rowOf));
  return { ...longer, id: [...id, ...nodes.map((node) => node.id)] } as unknown as T;
}

function appendRows(columns: Columns, rows: readonly Row[]): Columns {
  return Object.fromEntries(
    Object.entries(columns).map(([name, column]) => {
      const values = rows.map((row) => row[name]);
      if (Array.isArray(column)) return [name, [...column, ...values]];
      if (!ArrayBuffer.isView(column))
        return [name, appendRows(column as Columns, values as Row[])];
      const Kind = column.constructor as unknown as { from(values: readonly number[]): Column };
      return [name, Kind.from([...(column as Float64Array), ...(values as number[])])];
    }),
  );
}

function withLines<A extends Adjacency>(
  adjacency: A,
  rowCount: number,
  links: readonly AddedLink[],
  from: ReadonlyMap<string, number>,
  to: ReadonlyMap<string, number>,
  rowOf: (properties: Properties) => Row,
): A {
  const { start, target, ...columns } = adjacency;
  if (links.length === 0) {
    if (start.length === rowCount + 1) return adjacency;
    const longer = new Int32Array(rowCount + 1).fill(target.length);
    longer.set(start);
    return { ...adjacency, start: longer };
  }
  const added = new Map<number, { to: number; row: Row }[]>();
  const rows: Row[] = [];
  const order: number[] = [];
  const targets: number[] = [];
  for (const link of links) {
    const a = from.get(link.from);
    const b = to.get(link.to);
    if (a === undefined || b === undefined) continue;
    if (target.subarray(start[a] ?? 0, start[a + 1] ?? 0).includes(b)) continue;
    const list = added.get(a) ?? [];
    if (list.some((one) => one.to === b)) continue;
    list.push({ to: b, row: rowOf(link.properties) });
    added.set(a, list);
  }
  const grown = new Int32Array(rowCount + 1);
  for (let a = 0; a < rowCount; a++) {
    for (let entry = start[a] ?? target.length; entry < (start[a + 1] ?? target.length); entry++) {
      order.push(entry);
      targets.push(target[entry] ?? -1);
    }
    for (const one of added.get(a) ?? []) {
      order.push(target.length + rows.length);
      rows.push(one.row);
      targets.push(one.to);
    }
    grown[a + 1] = order.length;
  }
  const longer = appendRows(columns as unknown as Columns, rows);
  const arranged = Object.fromEntries(
    Object.entries(longer).map(([name, column]) => {
      if (Array.isArray(column)) return [name, order.map((entry) => column[entry] ?? "")];
      const Kind = column.constructor as unknown as { from(values: readonly number[]): Column };
      return [name, Kind.from(order.map((entry) => (column as Float64Array)[entry] ?? 0))];
    }),
  );
  return { ...arranged, start: grown, target: Int32Array.from(targets) } as unknown as A;
}

function withPairs(
  known: Snapshot["interchange"],
  links: readonly AddedLink[],
  partOf: ReadonlyMap<string, number>,
): Snapshot["interchange"] {
  const found = links.filter(({ from, to }) => partOf.has(from) && partOf.has(to));
  const confidences = ["confirmed", "likely", "unproven"];
  return {
    a: Int32Array.from([...known.a, ...found.map(({ from }) => partOf.get(from) ?? -1)]),
    b: Int32Array.from([...known.b, ...found.map(({ to }) => partOf.get(to) ?? -1)]),
    confidence: Uint8Array.from([
      ...known.confidence,
      ...found.map(({ properties }) => code(confidences, properties["confidence"])),
    ]),
    source: [...known.source, ...found.map(({ properties }) => textOf(properties["source"]))],
  };
}
