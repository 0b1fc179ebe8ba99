import {
  keySeparator,
  type NodeId,
  type NodeLabel,
  type Properties,
  type RelationshipType,
} from "../../graph-schema/index.ts";
import { type LinkRecord, linkKey, type ProposedChange } from "../change-set.ts";
import type { LinkTable } from "./link-table.ts";
import type { NodeTable, Owner } from "./node-table.ts";
import type { ChangeInWords, RecordCount } from "./proposal.ts";
import { differing, type RecordTable } from "./record-table.ts";
import type { RowReader } from "./row-reader.ts";

const sampleSize = 200;
/** Records built between two reports of progress. */
const slice = 8192;

export interface BuiltChanges {
  readonly changes: ProposedChange[];
  readonly records: RecordCount[];
  readonly sample: ChangeInWords[];
}

type Tally = { created: number; changed: number; unchanged: number };

/** The changes that make the graph say what the accepted rows say: owners first, links last. */
export function* buildChanges(
  reader: RowReader,
): Generator<{ done: number; total: number }, BuiltChanges> {
  const built = new Builder();
  const { nodeTables, linkTables } = reader;
  for (const table of [...nodeTables].reverse()) touchOwners(table);
  const total =
    nodeTables.reduce((sum, table) => sum + table.keys.length, 0) +
    linkTables.reduce((sum, table) => sum + table.from.length, 0);
  let done = 0;
  for (const table of nodeTables) {
    built.begin();
    for (let node = 0; node < table.keys.length; node += 1) {
      if (table.touched[node] === true) built.node(table, node);
      done += 1;
      if (done % slice === 0) yield { done, total };
    }
    built.count(table.label, table);
  }
  built.begin();
  built.models(reader);
  built.count("IS_MODEL", reader.isModel);
  for (const table of linkTables) {
    built.begin();
    for (let link = 0; link < table.from.length; link += 1) {
      if (table.touched[link] === true) built.link(table, link);
      done += 1;
      if (done % slice === 0) yield { done, total };
    }
    built.count(table.type, table);
  }
  yield { done: total, total };
  return built.result();
}

/** A record that is spoken of brings what it hangs on; lockers hang on lockers made before them. */
function touchOwners(table: NodeTable): void {
  for (let node = table.keys.length - 1; node >= 0; node -= 1) {
    if (table.touched[node] !== true) continue;
    for (const owner of table.owners[node] ?? []) owner.table.touched[owner.node] = true;
  }
}

/** What a node is called, owners before it: "Vessel / position". */
export function nodeInWords(table: NodeTable, node: number): string {
  const key = table.keys[node] ?? "";
  const name = table.names[node] ?? "";
  const owners = (table.owners[node] ?? []).map((owner) => nodeInWords(owner.table, owner.node));
  const words = [...owners, name].filter((word) => word !== "").join(" / ");
  return words === "" ? key.replaceAll(keySeparator, " / ") : words;
}

const inWords = (properties: Readonly<Record<string, unknown>>): string =>
  Object.entries(properties)
    .map(([name, value]) => `${name} ${String(value)}`)
    .join(", ");

interface Ends {
  readonly table: LinkTable;
  readonly fromNode: number;
  readonly toNode: number;
}

const endsInWords = ({ table, fromNode, toNode }: Ends): string =>
  `${table.type} ${nodeInWords(table.fromTable, fromNode)} → ${nodeInWords(table.toTable, toNode)}`;

/** Shared by all links that have none. */
const noProperties: Properties = Object.freeze({});

class Builder {
  readonly #nodes: ProposedChange[] = [];
  readonly #owning: ProposedChange[] = [];
  readonly #links: ProposedChange[] = [];
  readonly #records: RecordCount[] = [];
  readonly #sample: ChangeInWords[] = [];
  #tally: Tally = { created: 0, changed: 0, unchanged: 0 };

  begin(): void {
    this.#tally = { created: 0, changed: 0, unchanged: 0 };
  }

  count(label: NodeLabel | RelationshipType, table: RecordTable): void {
    const { created, changed, unchanged } = this.#tally;
    if (created + changed + unchanged + table.conflicts === 0) return;
    this.#records.push({ label, created, changed, unchanged, conflict: table.conflicts });
  }

  get #isSampleFull(): boolean {
    return this.#sample.length >= sampleSize;
  }

  #note(subject: string, kind: "created" | "changed", after: object, before?: object): void {
    this.#sample.push({
      subject,
      kind,
      ...(before === undefined ? {} : { before: inWords({ ...before }) }),
      after: inWords({ ...after }),
    });
  }

  node(table: NodeTable, node: number): void {
    const record = table.records[node];
    const extra = table.extraOf(node);
    if (record === undefined) {
      const id = table.id(node);
      const properties = table.fresh(node);
      const change = {
        kind: "create-node",
        label: table.label,
        id,
        key: table.keys[node] as string,
        properties,
      } as const;
      this.#nodes.push(extra === undefined ? change : { ...change, extra });
      for (const { type, table: ownerTable, node: owner } of table.owners[
        node
      ] as readonly Owner[]) {
        const to = ownerTable.id(owner);
        this.#owning.push({ kind: "create-link", type, from: id, to, properties: noProperties });
      }
      this.#tally.created += 1;
      if (!this.#isSampleFull) {
        this.#note(`${table.label} ${nodeInWords(table, node)}`, "created", properties);
      }
      return;
    }
    const set = differing(table.said(node), record.properties);
    const newExtra = extra && differingExtra(extra, record.extra);
    if (set === undefined && newExtra === undefined) {
      this.#tally.unchanged += 1;
      return;
    }
    this.#nodes.push({
      kind: "update-node",
      id: record.id,
      basedOn: record.version,
      set: set ?? noProperties,
      ...(newExtra === undefined ? {} : { extra: newExtra }),
    });
    this.#tally.changed += 1;
    if (this.#isSampleFull) return;
    const subject = `${table.label} ${nodeInWords(table, node)}`;
    this.#note(subject, "changed", set ?? newExtra ?? {}, only(record.properties, set ?? {}));
  }

  link(table: LinkTable, link: number): void {
    const ends: Ends = { table, fromNode: table.from[link] ?? 0, toNode: table.to[link] ?? 0 };
    this.#link(ends, table.said(link), table.extraOf(link));
  }

  #link(ends: Ends, said: Properties, extra: Readonly<Record<string, string>> | undefined): void {
    const { table, fromNode, toNode } = ends;
    const { type, known } = table;
    const from = table.fromTable.id(fromNode);
    const to = table.toTable.id(toNode);
    const record = known.size === 0 ? undefined : known.get(linkKey(from, to));
    if (record === undefined) {
      // A line without a quantity column stands for one piece; the report says so.
      const needsQuantity =
        (type === "USES" || type === "CONSUMES") && said["quantity"] === undefined;
      const properties = needsQuantity ? { quantity: 1, ...said } : said;
      const change = { kind: "create-link", type, from, to, properties } as const;
      this.#links.push(extra === undefined ? change : { ...change, extra });
      this.#tally.created += 1;
      if (!this.#isSampleFull) this.#note(endsInWords(ends), "created", properties);
      return;
    }
    const set = differing(said, record.properties);
    const newExtra = extra && differingExtra(extra, record.extra);
    if (set === undefined && newExtra === undefined) {
      this.#tally.unchanged += 1;
      return;
    }
    this.#links.push({
      kind: "update-link",
      type,
      from,
      to,
      basedOn: record.version,
      set: set ?? noProperties,
      ...(newExtra === undefined ? {} : { extra: newExtra }),
    });
    this.#tally.changed += 1;
    if (this.#isSampleFull) return;
    const before = only(record.properties, set ?? {});
    this.#note(endsInWords(ends), "changed", set ?? newExtra ?? {}, before);
  }

  /** Which model each item is: an item of another model than the graph has is relinked. */
  models({ modelOfItem, items, models, isModel }: RowReader): void {
    const knownByItem = new Map<NodeId, LinkRecord>();
    for (const record of isModel.known.values()) knownByItem.set(record.from, record);
    modelOfItem.forEach((model, item) => {
      const from = items.id(item);
      const to = models.id(model);
      const before = knownByItem.get(from);
      const ends: Ends = { table: isModel, fromNode: item, toNode: model };
      if (before !== undefined && before.to !== to) {
        this.#links.push({
          kind: "delete-link",
          type: "IS_MODEL",
          from,
          to: before.to,
          basedOn: before.version,
        });
        this.#links.push({ kind: "create-link", type: "IS_MODEL", from, to, properties: {} });
        this.#tally.changed += 1;
        if (!this.#isSampleFull) this.#note(endsInWords(ends), "changed", {}, {});
        return;
      }
      this.#link(ends, noProperties, undefined);
    });
  }

  result(): BuiltChanges {
    const changes = this.#nodes.concat(this.#owning, this.#links);
    return { changes, records: this.#records, sample: this.#sample };
  }
}

function only(properties: Properties, names: object): Record<string, unknown> {
  return Object.fromEntries(Object.keys(names).map((name) => [name, properties[name] ?? "–"]));
}

/** The whole of `stored` with `extra` laid over it, or undefined if that changes nothing. */
function differingExtra(
  extra: Readonly<Record<string, string>>,
  stored: Readonly<Record<string, string>>,
): Record<string, string> | undefined {
  const isSame = Object.entries(extra).every(([header, text]) => stored[header] === text);
  return isSame ? undefined : { ...stored, ...extra };
}
