import { labelOf, type NodeId, type RelationshipType } from "../../../graph-schema/index.ts";
import type { LinkRecord } from "../../../importers/change-set.ts";
import type { Numbered } from "../shared/record-state.ts";
import type { Transaction } from "./client.ts";
import { encodeLink, encodeNode } from "./codec.ts";
import { grouped, pieces, ticked } from "./read-records.ts";
import { type LinkSlot, type NodeSlot, slotLabel, type WorkingGraph } from "./working-graph.ts";

/** Rows sent at once: enough to hide the journey, few enough to show progress and to stay small in memory. */
const rowsAtOnce = 2000;

interface Sending {
  readonly answered?: (answers: readonly unknown[][]) => void;
  /** Parameters besides the rows. */
  readonly more?: Readonly<Record<string, unknown>>;
}

/** Sends rows in batches; while the server works on one, the next is made ready. */
class Sender {
  readonly #transaction: Transaction;
  readonly #sent: (rows: number) => void;
  #underWay: Promise<void> = Promise.resolve();

  constructor(transaction: Transaction, sent: (rows: number) => void) {
    this.#transaction = transaction;
    this.#sent = sent;
  }

  /** @param answered told the server's answers piece by piece, where the query returns any */
  async send<T>(
    query: string,
    items: readonly T[],
    rowOf: (item: T) => unknown,
    { answered, more = {} }: Sending = {},
  ): Promise<void> {
    for (const piece of pieces(items, rowsAtOnce)) {
      const rows = piece.map(rowOf);
      await this.#underWay;
      this.#underWay = this.#transaction.rows(query, { rows, ...more }).then((answers) => {
        answered?.(answers);
        this.#sent(piece.length);
      });
      // A failure is thrown where it is next waited for; without this Node would call it unhandled.
      this.#underWay.catch(() => undefined);
    }
  }

  async done(): Promise<void> {
    await this.#underWay;
  }
}

/** Writes the balance of a working graph: what goes first, then what changes, then what is new. */
export async function writeWorkingGraph(
  transaction: Transaction,
  graph: WorkingGraph,
  progress: (done: number, total: number) => void,
): Promise<void> {
  const { touchedNodes, touchedLinks } = graph;
  const total = touchedNodes.length + touchedLinks.length;
  let done = 0;
  const sender = new Sender(transaction, (rows) => {
    done += rows;
    progress(Math.min(done, total), total);
  });
  await removeLinks(sender, touchedLinks);
  await removeNodes(sender, touchedNodes);
  await changeNodes(sender, touchedNodes);
  const places = await createNodes(sender, touchedNodes);
  await putLinks(sender, touchedLinks, places);
  await sender.done();
}

const endsOf = ({ from, to }: LinkRecord): string => `${labelOf(from)} ${labelOf(to)}`;

/** Both ends by their unique ids first, so that the server never walks a supplier's ten thousand offers. */
function endsQuery(type: RelationshipType, { from, to }: LinkRecord, rest: string): string {
  return `UNWIND $rows AS row
    MATCH (a:${ticked(labelOf(from))} {id: row[0]})
    MATCH (b:${ticked(labelOf(to))} {id: row[1]})
    ${rest.replaceAll("TYPE", ticked(type))}`;
}

async function sendLinks(
  sender: Sender,
  links: readonly Numbered<LinkRecord>[],
  rest: string,
  withValues: boolean,
): Promise<void> {
  for (const [type, ofType] of grouped(links, ({ record }) => record.type))
    for (const group of grouped(ofType, ({ record }) => endsOf(record)).values()) {
      const [first] = group;
      if (first === undefined) continue;
      await sender.send(endsQuery(type, first.record, rest), group, (link) =>
        withValues
          ? [link.record.from, link.record.to, encodeLink(link)]
          : [link.record.from, link.record.to],
      );
    }
}

async function removeLinks(sender: Sender, slots: readonly LinkSlot[]): Promise<void> {
  const gone = slots.flatMap(({ stored, now }) => (now === undefined && stored ? [stored] : []));
  await sendLinks(sender, gone, "MATCH (a)-[r:TYPE]->(b) DELETE r", false);
}

async function putLinks(sender: Sender, slots: readonly LinkSlot[], places: Places): Promise<void> {
  const placed: Numbered<LinkRecord>[] = [];
  const fresh: Numbered<LinkRecord>[] = [];
  const changed: Numbered<LinkRecord>[] = [];
  for (const { stored, now } of slots) {
    if (now === undefined) continue;
    if (stored !== undefined) changed.push(now);
    else (places.has(now.record.from) && places.has(now.record.to) ? placed : fresh).push(now);
  }
  await sendLinks(sender, changed, "MATCH (a)-[r:TYPE]->(b) SET r = row[2]", true);
  await sendLinks(sender, fresh, "CREATE (a)-[r:TYPE]->(b) SET r = row[2]", true);
  for (const [type, group] of grouped(placed, ({ record }) => record.type))
    await sender.send(
      `UNWIND $rows AS row
       MATCH (a) WHERE elementId(a) = $begin + row[0]
       MATCH (b) WHERE elementId(b) = $begin + row[1]
       CREATE (a)-[r:${ticked(type)}]->(b) SET r = row[2]`,
      group,
      (link) => [places.get(link.record.from), places.get(link.record.to), encodeLink(link)],
      { more: { begin: places.begin } },
    );
}

/**
 * Where the server put the nodes of this write: its own names for them, without the beginning they share. By these it
 * finds a node at once; by an id it looks through an index and through all that the write has made so far.
 */
class Places {
  begin = "";
  readonly #ends = new Map<NodeId, string>();

  keep(id: NodeId, place: string): void {
    if (this.begin === "") this.begin = place.slice(0, place.lastIndexOf(":") + 1);
    if (this.begin !== "" && place.startsWith(this.begin))
      this.#ends.set(id, place.slice(this.begin.length));
  }

  has(id: NodeId): boolean {
    return this.#ends.has(id);
  }

  get(id: NodeId): string | undefined {
    return this.#ends.get(id);
  }
}

async function removeNodes(sender: Sender, slots: readonly NodeSlot[]): Promise<void> {
  const gone = slots.filter(({ stored, now }) => stored !== undefined && now === undefined);
  for (const [label, group] of grouped(gone, slotLabel))
    await sender.send(
      `UNWIND $rows AS id MATCH (n:${ticked(label ?? "")} {id: id}) DELETE n`,
      group,
      ({ stored }) => stored?.record.id,
    );
}

async function changeNodes(sender: Sender, slots: readonly NodeSlot[]): Promise<void> {
  const changed = slots.filter(({ stored, now }) => stored !== undefined && now !== undefined);
  for (const [label, group] of grouped(changed, slotLabel)) {
    const match = `UNWIND $rows AS row MATCH (n:${ticked(label ?? "")} {id: row[0]})`;
    // Keys that change places: each is freed before any is given out again, for the server checks at every step.
    const rekeyed = group.filter(({ stored, now }) => stored?.record.key !== now?.record.key);
    if (rekeyed.length > 1)
      await sender.send(`${match} SET n.key = row[1]`, rekeyed, ({ stored }) => [
        stored?.record.id,
        `\u001f${stored?.n}`,
      ]);
    await sender.send(`${match} SET n = row[1]`, group, ({ now }) =>
      now === undefined ? [] : [now.record.id, encodeNode(now)],
    );
  }
}

async function createNodes(sender: Sender, slots: readonly NodeSlot[]): Promise<Places> {
  const places = new Places();
  const fresh = slots.filter(({ stored, now }) => stored === undefined && now !== undefined);
  for (const [label, group] of grouped(fresh, slotLabel))
    await sender.send(
      `UNWIND $rows AS row CREATE (n:${ticked(label ?? "")}) SET n = row RETURN row.id, elementId(n)`,
      group,
      ({ now }) => (now === undefined ? {} : encodeNode(now)),
      {
        answered: (answers) => {
          for (const [id, place] of answers) places.keep(id as NodeId, String(place));
        },
      },
    );
  await sender.done();
  return places;
}
