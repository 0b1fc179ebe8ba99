import type { NodeId, NodeLabel, Properties, RelationshipType } from "../../graph-schema/index.ts";
import { type LinkRecord, linkKey, type ProposedChange } from "../change-set.ts";
import { type Ends, endsInWords, inWords, nodeInWords } from "./in-words.ts";
import type { LinkTable } from "./link-table.ts";
import type { NodeTable } from "./node-table.ts";
import type { ChangeInWords, RecordCount } from "./proposal.ts";
import { differing, type RecordTable } from "./record-table.ts";
import type { RowReader } from "./row-reader.ts";

const sampleSize = 200;
/** Records built between two reports of progress. */
const slice = 8192;

export interface Survey {
  /** How many changes there are. */
  readonly changeCount: number;
  readonly records: RecordCount[];
  readonly sample: ChangeInWords[];
}

type Tally = { created: number; changed: number; unchanged: number };

/** Counts what the accepted rows would change, and puts the first changes in words, without building them. */
export function* surveyChanges(
  reader: RowReader,
): Generator<{ done: number; total: number }, Survey> {
  for (const table of [...reader.nodeTables].reverse()) touchOwners(table);
  const built = new Builder(false);
  yield* goThrough(reader, built);
  return built.survey();
}

/** The changes that make the graph say what the accepted rows say: owners first, links last. After the survey. */
export function buildChanges(reader: RowReader): ProposedChange[] {
  const built = new Builder(true);
  const steps = goThrough(reader, built);
  while (!steps.next().done);
  return built.changes();
}

function* goThrough(
  reader: RowReader,
  built: Builder,
): Generator<{ done: number; total: number }, void> {
  const { nodeTables, linkTables } = reader;
  const total =
    nodeTables.reduce((sum, table) => sum + table.count, 0) +
    linkTables.reduce((sum, table) => sum + table.from.length, 0);
  let done = 0;
  for (const table of nodeTables) {
    built.begin();
    for (let node = 0; node < table.count; node += 1) {
      if (table.isTouched(node)) built.node(table, node);
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
      if (table.isTouched(link)) built.link(table, link);
      done += 1;
      if (done % slice === 0) yield { done, total };
    }
    built.count(table.type, table);
  }
  yield { done: total, total };
}

/** A record that is spoken of brings what it hangs on; lockers hang on lockers made before them. */
function touchOwners(table: NodeTable): void {
  // Rows that speak of a lot speak of its part and its place as well.
  if (table.label === "StockLot") return;
  for (let node = table.count - 1; node >= 0; node -= 1) {
    if (!table.isTouched(node)) continue;
    for (const owner of table.ownersOf(node)) owner.table.touch(owner.node);
  }
}

/** Shared by all links that have none. */
const noProperties: Properties = Object.freeze({});

class Builder {
  /** Whether changes are kept, or only counted. */
  readonly #keep: boolean;
  #count = 0;
  readonly #nodes: ProposedChange[] = [];
  readonly #owning: ProposedChange[] = [];
  readonly #links: ProposedChange[] = [];
  readonly #records: RecordCount[] = [];
  readonly #sample: ChangeInWords[] = [];
  #tally: Tally = { created: 0, changed: 0, unchanged: 0 };

  constructor(keep: boolean) {
    this.#keep = keep;
  }

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
    if (record === undefined) {
      const extra = this.#keep ? table.extraOf(node) : undefined;
      this.#tally.created += 1;
      this.#count += 1 + table.ownerCountOf(node);
      if (this.#keep) this.#createNode(table, node, extra);
      else if (!this.#isSampleFull) {
        this.#note(`${table.label} ${nodeInWords(table, node)}`, "created", table.fresh(node));
      }
      return;
    }
    const extra = table.extraOf(node);
    const set = differing(table.said(node), record.properties);
    const newExtra = extra && differingExtra(extra, record.extra);
    if (set === undefined && newExtra === undefined) {
      this.#tally.unchanged += 1;
      return;
    }
    this.#count += 1;
    if (this.#keep) {
      this.#nodes.push({
        kind: "update-node",
        id: record.id,
        basedOn: record.version,
        set: set ?? noProperties,
        ...(newExtra === undefined ? {} : { extra: newExtra }),
      });
    }
    this.#tally.changed += 1;
    if (this.#keep || this.#isSampleFull) return;
    const subject = `${table.label} ${nodeInWords(table, node)}`;
    this.#note(subject, "changed", set ?? newExtra ?? {}, only(record.properties, set ?? {}));
  }

  #createNode(
    table: NodeTable,
    node: number,
    extra: Readonly<Record<string, string>> | undefined,
  ): void {
    const id = table.id(node);
    const change = {
      kind: "create-node",
      label: table.label,
      id,
      key: table.key(node),
      properties: table.fresh(node),
    } as const;
    this.#nodes.push(extra === undefined ? change : { ...change, extra });
    for (const { type, table: ownerTable, node: owner } of table.ownersOf(node)) {
      const to = ownerTable.id(owner);
      this.#owning.push({ kind: "create-link", type, from: id, to, properties: noProperties });
    }
  }

  link(table: LinkTable, link: number): void {
    if (!this.#keep && this.#isSampleFull && table.known.size === 0) {
      this.#tally.created += 1;
      this.#count += 1;
      return;
    }
    const ends: Ends = { table, fromNode: table.from[link] ?? 0, toNode: table.to[link] ?? 0 };
    this.#link(ends, table.said(link), table.extraOf(link));
  }

  #link(ends: Ends, said: Properties, extra: Readonly<Record<string, string>> | undefined): void {
    if (!this.#keep && this.#isSampleFull && ends.table.known.size === 0) {
      this.#tally.created += 1;
      this.#count += 1;
      return;
    }
    const { table, fromNode, toNode } = ends;
    const { type, known } = table;
    const from = table.fromTable.id(fromNode);
    const to = table.toTable.id(toNode);
    const record = known.size === 0 ? undefined : known.get(linkKey(from, to));
    if (record === undefined) {
      // A line without a quantity column stands for one piece; the report says so.
      const needsQuantity =
        (type === "USES" || type === "CONSUMES" || type === "CONTAINS") &&
        said["quantity"] === undefined;
      const properties = needsQuantity ? { quantity: 1, ...said } : said;
      this.#tally.created += 1;
      this.#count += 1;
      if (this.#keep) {
        const change = { kind: "create-link", type, from, to, properties } as const;
        this.#links.push(extra === undefined ? change : { ...change, extra });
      } else if (!this.#isSampleFull) this.#note(endsInWords(ends), "created", properties);
      return;
    }
    const set = differing(said, record.properties);
    const newExtra = extra && differingExtra(extra, record.extra);
    if (set === undefined && newExtra === undefined) {
      this.#tally.unchanged += 1;
      return;
    }
    this.#count += 1;
    if (this.#keep) {
      this.#links.push({
        kind: "update-link",
        type,
        from,
        to,
        basedOn: record.version,
        set: set ?? noProperties,
        ...(newExtra === undefined ? {} : { extra: newExtra }),
      });
    }
    this.#tally.changed += 1;
    if (this.#keep || this.#isSampleFull) return;
    const before = only(record.properties, set ?? {});
    this.#note(endsInWords(ends), "changed", set ?? newExtra ?? {}, before);
  }

  /** Which model each item is: an item of another model than the graph has is relinked. */
  models({ modelOfItem, items, models, isModel }: RowReader): void {
    const knownByItem = new Map<NodeId, LinkRecord>();
    if (modelOfItem.length > 0)
      for (const record of isModel.known.values()) knownByItem.set(record.from, record);
    modelOfItem.forEach((model, item) => {
      const ends: Ends = { table: isModel, fromNode: item, toNode: model };
      const from = items.records[item]?.id;
      const before = from === undefined ? undefined : knownByItem.get(from);
      if (before === undefined || before.to === models.records[model]?.id) {
        this.#link(ends, noProperties, undefined);
        return;
      }
      this.#tally.changed += 1;
      this.#count += 2;
      if (this.#keep) this.#relink(before, models.id(model));
      else if (!this.#isSampleFull) {
        const old = [...models.known.values()].find(({ id }) => id === before.to);
        const designation = models.names[model] ?? "";
        const words = { model: old?.properties["designation"] ?? before.to };
        this.#note(endsInWords(ends), "changed", { model: designation }, words);
      }
    });
  }

  #relink({ type, from, to, version }: LinkRecord, newTo: NodeId): void {
    this.#links.push({ kind: "delete-link", type, from, to, basedOn: version });
    this.#links.push({ kind: "create-link", type, from, to: newTo, properties: noProperties });
  }

  changes(): ProposedChange[] {
    return this.#nodes.concat(this.#owning, this.#links);
  }

  survey(): Survey {
    return { changeCount: this.#count, records: this.#records, sample: this.#sample };
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
