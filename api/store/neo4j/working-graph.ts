import {
  labelOf,
  type NodeId,
  type NodeLabel,
  type RelationshipType,
  relationshipDeclaration,
} from "../../../graph-schema/index.ts";
import type { LinkRecord, NodeRecord } from "../../../importers/change-set.ts";
import { checkProperties } from "../shared/check-properties.ts";
import type { GraphDesk } from "../shared/graph-desk.ts";
import type { Content, NodeContent, Numbered } from "../shared/record-state.ts";
import {
  endMissing,
  keyTaken,
  linkTaken,
  linkText,
  refuseForeignId,
  refuseWrongEnds,
} from "../shared/refusals.ts";
import { declaredLink, declaredNode } from "./codec.ts";
import type { JournalDraft } from "./journal-draft.ts";

/** A record as the server has it and as it will be after this write; absent where it is not there. */
export interface Slot<R> {
  readonly stored?: Numbered<R>;
  now?: Numbered<R> | undefined;
  isTouched: boolean;
}
export type NodeSlot = Slot<NodeRecord>;
export type LinkSlot = Slot<LinkRecord>;

/**
 * The part of the graph that one write may touch, in memory: what was read beforehand, and over it what the write
 * does. Applying in memory and then writing the balance in batches spares a journey to the server for each change,
 * and makes the write safe to run again.
 */
export class WorkingGraph implements GraphDesk {
  readonly journal: JournalDraft;
  readonly #nodes = new Map<NodeId, NodeSlot>();
  readonly #holders = new Map<NodeLabel, Map<string, NodeId>>();
  readonly #links = new Map<RelationshipType, Map<NodeId, Map<NodeId, LinkSlot>>>();
  /** Relationships by type and target; made when first asked for, since an import never asks. */
  #byTarget: Map<string, Set<LinkSlot>> | undefined;
  readonly touchedNodes: NodeSlot[] = [];
  readonly touchedLinks: LinkSlot[] = [];
  readonly counts = {
    nodesCreated: 0,
    nodesChanged: 0,
    nodesDeleted: 0,
    linksCreated: 0,
    linksChanged: 0,
    linksDeleted: 0,
  };

  constructor(journal: JournalDraft) {
    this.journal = journal;
  }

  /** Takes a record in as the server has it; one that is known already stays as it is. */
  keepNode(stored: Numbered<NodeRecord>): void {
    const { id, label, key } = stored.record;
    if (this.#nodes.has(id)) return;
    this.#nodes.set(id, { stored, now: stored, isTouched: false });
    this.#holdersOf(label).set(key, id);
  }

  keepLink(stored: Numbered<LinkRecord>): void {
    const { type, from, to } = stored.record;
    const targets = this.#targets(type, from);
    if (targets.has(to)) return;
    const slot = { stored, now: stored, isTouched: false };
    targets.set(to, slot);
    this.#indexTarget(slot, type, to);
  }

  node(id: NodeId): Numbered<NodeRecord> | undefined {
    return this.#nodes.get(id)?.now;
  }

  holder(label: NodeLabel, key: string): NodeId | undefined {
    return this.#holders.get(label)?.get(key);
  }

  link(type: RelationshipType, from: NodeId, to: NodeId): Numbered<LinkRecord> | undefined {
    return this.#links.get(type)?.get(from)?.get(to)?.now;
  }

  linksFrom({ record }: Numbered<NodeRecord>, type: RelationshipType) {
    return present(this.#links.get(type)?.get(record.id)?.values() ?? []);
  }

  linksTo({ record }: Numbered<NodeRecord>, type: RelationshipType) {
    this.#byTarget ??= this.#targetIndex();
    return present(this.#byTarget.get(`${type} ${record.id}`) ?? []);
  }

  createNode(label: NodeLabel, id: NodeId, { key, properties, extra }: NodeContent): void {
    refuseForeignId(label, id);
    checkProperties(declaredNode(label), properties, () => id);
    const slot = this.#nodes.get(id) ?? { isTouched: false };
    const holders = this.#holdersOf(label);
    if (slot.now !== undefined || holders.has(key)) throw keyTaken(id, key);
    const subject = { kind: "node", id } as const;
    const version = this.journal.firstVersion(subject);
    const n = this.journal.created(subject);
    slot.now = { n, record: { id, label, key, version, properties, extra } };
    this.#nodes.set(id, slot);
    holders.set(key, id);
    this.#touchNode(slot);
    this.counts.nodesCreated++;
  }

  changeNode({ n, record }: Numbered<NodeRecord>, after: NodeContent): void {
    const { id, label } = record;
    checkProperties(declaredNode(label), after.properties, () => id);
    const slot = this.#slotOf(id);
    const holders = this.#holdersOf(label);
    const holder = holders.get(after.key);
    if (holder !== undefined && holder !== id) throw keyTaken(id, after.key);
    if (holders.get(record.key) === id) holders.delete(record.key);
    holders.set(after.key, id);
    const version = record.version + 1;
    slot.now = { n, record: { id, label, ...after, version } };
    this.#touchNode(slot);
    this.journal.changed({ kind: "node", id }, n, record, { ...after, version });
    this.counts.nodesChanged++;
  }

  removeNode({ n, record }: Numbered<NodeRecord>): void {
    const { id, label, key } = record;
    const slot = this.#slotOf(id);
    slot.now = undefined;
    const holders = this.#holdersOf(label);
    if (holders.get(key) === id) holders.delete(key);
    this.#touchNode(slot);
    this.journal.deleted({ kind: "node", id }, n, record);
    this.counts.nodesDeleted++;
  }

  freeKey({ record }: Numbered<NodeRecord>): void {
    const holders = this.#holdersOf(record.label);
    if (holders.get(record.key) === record.id) holders.delete(record.key);
  }

  createLink(type: RelationshipType, from: NodeId, to: NodeId, content: Content): void {
    refuseWrongEnds(type, from, to);
    const { properties, extra } = content;
    checkProperties(declaredLink(type), properties, () => linkText(type, from, to));
    for (const end of [from, to]) if (this.node(end) === undefined) throw endMissing(end, type);
    const targets = this.#targets(type, from);
    const slot = targets.get(to) ?? { isTouched: false };
    if (slot.now !== undefined || (isSingle(type) && hasAny(targets)))
      throw linkTaken(type, from, to);
    const subject = { kind: "link", type, from, to } as const;
    const version = this.journal.firstVersion(subject);
    const n = this.journal.created(subject);
    slot.now = { n, record: { type, from, to, version, properties, extra } };
    targets.set(to, slot);
    this.#indexTarget(slot, type, to);
    this.#touchLink(slot);
    this.counts.linksCreated++;
  }

  changeLink({ n, record }: Numbered<LinkRecord>, after: Content): void {
    const { type, from, to } = record;
    checkProperties(declaredLink(type), after.properties, () => linkText(type, from, to));
    const slot = this.#linkSlot(record);
    const version = record.version + 1;
    slot.now = { n, record: { type, from, to, ...after, version } };
    this.#touchLink(slot);
    this.journal.changed({ kind: "link", type, from, to }, n, record, { ...after, version });
    this.counts.linksChanged++;
  }

  removeLink({ n, record }: Numbered<LinkRecord>): void {
    const { type, from, to } = record;
    const slot = this.#linkSlot(record);
    slot.now = undefined;
    this.#touchLink(slot);
    this.journal.deleted({ kind: "link", type, from, to }, n, record);
    this.counts.linksDeleted++;
  }

  #slotOf(id: NodeId): NodeSlot {
    const slot = this.#nodes.get(id);
    if (slot === undefined) throw new Error(`${id} was not read before it was written`);
    return slot;
  }

  #linkSlot({ type, from, to }: LinkRecord): LinkSlot {
    const slot = this.#links.get(type)?.get(from)?.get(to);
    if (slot === undefined)
      throw new Error(`${linkText(type, from, to)} was not read before it was written`);
    return slot;
  }

  #holdersOf(label: NodeLabel): Map<string, NodeId> {
    return obtained(this.#holders, label, () => new Map());
  }

  #targets(type: RelationshipType, from: NodeId): Map<NodeId, LinkSlot> {
    const sources = obtained(this.#links, type, () => new Map<NodeId, Map<NodeId, LinkSlot>>());
    return obtained(sources, from, () => new Map());
  }

  #touchNode(slot: NodeSlot): void {
    if (!slot.isTouched) this.touchedNodes.push(slot);
    slot.isTouched = true;
  }

  #touchLink(slot: LinkSlot): void {
    if (!slot.isTouched) this.touchedLinks.push(slot);
    slot.isTouched = true;
  }

  #indexTarget(slot: LinkSlot, type: RelationshipType, to: NodeId): void {
    if (this.#byTarget !== undefined)
      obtained(this.#byTarget, `${type} ${to}`, () => new Set<LinkSlot>()).add(slot);
  }

  #targetIndex(): Map<string, Set<LinkSlot>> {
    const index = new Map<string, Set<LinkSlot>>();
    for (const [type, sources] of this.#links)
      for (const targets of sources.values())
        for (const [to, slot] of targets)
          obtained(index, `${type} ${to}`, () => new Set<LinkSlot>()).add(slot);
    return index;
  }
}

const isSingle = (type: RelationshipType): boolean => relationshipDeclaration(type).each === "one";

function hasAny(targets: ReadonlyMap<NodeId, LinkSlot>): boolean {
  for (const { now } of targets.values()) if (now !== undefined) return true;
  return false;
}

function present(slots: Iterable<LinkSlot>): readonly Numbered<LinkRecord>[] {
  return Array.from(slots, ({ now }) => now)
    .filter((link) => link !== undefined)
    .sort((a, b) => a.n - b.n);
}

function obtained<K, V>(map: Map<K, V>, key: K, make: () => V): V {
  const found = map.get(key);
  if (found !== undefined) return found;
  const made = make();
  map.set(key, made);
  return made;
}

/** The label of a node's id, for groups of slots. */
export const slotLabel = ({ stored, now }: NodeSlot): NodeLabel | undefined => {
  const id = (now ?? stored)?.record.id;
  return id === undefined ? undefined : labelOf(id);
};
