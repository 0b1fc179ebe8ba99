import { isDeepStrictEqual } from "node:util";
import { type NodeId, type Properties, relationshipDeclaration } from "../../graph-schema/index.ts";
import {
  type LinkRecord,
  linkKey,
  type NodeRecord,
  type ProposedChange,
} from "../../importers/change-set.ts";

export type Refusal = "write-stale" | "key-taken" | "not-found" | "undo-blocked";
type Thing = NodeRecord | LinkRecord;

/** What one write did, as undo needs it: the state each record was in before, and after. */
export interface Written {
  readonly before: ReadonlyMap<string, Thing | undefined>;
  readonly after: ReadonlyMap<string, Thing | undefined>;
  readonly createdNodes: ReadonlySet<NodeId>;
}

const linkName = (link: Pick<LinkRecord, "type" | "from" | "to">): string =>
  `${link.type} ${linkKey(link.from, link.to)}`;
const isLink = (thing: Thing): thing is LinkRecord => "type" in thing;
const nameOf = (thing: Thing): string => (isLink(thing) ? linkName(thing) : thing.id);
const content = ({ version: _, ...rest }: Thing) => rest;
const same = (a: Thing | undefined, b: Thing | undefined): boolean =>
  a === undefined || b === undefined ? a === b : isDeepStrictEqual(content(a), content(b));

/** The store contract in its plainest form, one map in memory: the reference that stores are compared with. */
export class PlainGraph {
  things = new Map<string, Thing>();
  lastVersions = new Map<string, number>();
  #before = new Map<string, Thing | undefined>();
  #created = new Set<NodeId>();

  clone(): PlainGraph {
    const copy = new PlainGraph();
    copy.things = new Map(this.things);
    copy.lastVersions = new Map(this.lastVersions);
    copy.#before = new Map(this.#before);
    copy.#created = new Set(this.#created);
    return copy;
  }

  begin(): void {
    this.#before = new Map();
    this.#created = new Set();
  }

  written(): Written {
    return {
      before: this.#before,
      after: new Map([...this.#before.keys()].map((name) => [name, this.things.get(name)])),
      createdNodes: this.#created,
    };
  }

  get nodes(): readonly NodeRecord[] {
    return [...this.things.values()].filter((thing): thing is NodeRecord => !isLink(thing));
  }
  get links(): readonly LinkRecord[] {
    return [...this.things.values()].filter(isLink);
  }

  /** Applies one change, or says why it is refused. */
  apply(change: ProposedChange): Refusal | undefined {
    switch (change.kind) {
      case "create-node": {
        const { id, label, key, properties } = change;
        if (this.things.has(id) || this.#keyHolder(label, key) !== undefined) return "key-taken";
        this.#created.add(id);
        this.#put({ id, label, key, properties, extra: change.extra ?? {}, version: 1 });
        return undefined;
      }
      case "create-link": {
        const { type, from, to, properties } = change;
        if (!this.things.has(from) || !this.things.has(to)) return "not-found";
        const one = relationshipDeclaration(type).each === "one";
        if (this.links.some((l) => l.type === type && l.from === from && (one || l.to === to)))
          return "key-taken";
        this.#put({ type, from, to, properties, extra: change.extra ?? {}, version: 1 });
        return undefined;
      }
      case "update-node":
      case "update-link": {
        const now = this.things.get(change.kind === "update-node" ? change.id : linkName(change));
        if (now === undefined) return "not-found";
        if (now.version !== change.basedOn) return "write-stale";
        const properties: Record<string, Properties[string]> = { ...now.properties, ...change.set };
        for (const name of change.clear ?? []) delete properties[name];
        const after = { ...now, properties, extra: { ...now.extra, ...change.extra } };
        if (change.kind === "update-node" && change.key !== undefined && !isLink(now)) {
          const holder = this.#keyHolder(now.label, change.key);
          if (holder !== undefined && holder.id !== now.id) return "key-taken";
          Object.assign(after, { key: change.key });
        }
        if (!same(now, after)) this.#put({ ...after, version: now.version + 1 });
        return undefined;
      }
      case "delete-link":
      case "delete-node": {
        const now = this.things.get(change.kind === "delete-node" ? change.id : linkName(change));
        if (now === undefined) return "not-found";
        if (now.version !== change.basedOn) return "write-stale";
        this.#drop(now);
        return undefined;
      }
    }
  }

  /** Takes a write back, or says that later ones stand on it. */
  undo({ before, after, createdNodes }: Written): Refusal | undefined {
    for (const [name, left] of after) if (!same(left, this.things.get(name))) return "undo-blocked";
    for (const link of this.links)
      if (!after.has(linkName(link)) && (createdNodes.has(link.from) || createdNodes.has(link.to)))
        return "undo-blocked";
    const restored = new Map(this.things);
    for (const [name, thing] of before)
      if (thing === undefined) restored.delete(name);
      else restored.set(name, thing);
    const taken = new Set<string>();
    for (const thing of restored.values()) {
      if (isLink(thing) && !(restored.has(thing.from) && restored.has(thing.to)))
        return "undo-blocked";
      const place = !isLink(thing)
        ? `${thing.label} ${thing.key}`
        : relationshipDeclaration(thing.type).each === "one"
          ? `${thing.type} ${thing.from}`
          : linkName(thing);
      if (taken.has(place)) return "undo-blocked";
      taken.add(place);
    }
    this.things = restored;
    return undefined;
  }

  #keyHolder(label: string, key: string): NodeRecord | undefined {
    return this.nodes.find((node) => node.label === label && node.key === key);
  }

  #touch(name: string): void {
    if (!this.#before.has(name)) this.#before.set(name, this.things.get(name));
  }

  #put(thing: Thing): void {
    const name = nameOf(thing);
    this.#touch(name);
    const last = this.things.has(name) ? undefined : this.lastVersions.get(name);
    this.things.set(name, last === undefined ? thing : { ...thing, version: last + 1 });
  }

  #drop(thing: Thing): void {
    const name = nameOf(thing);
    if (!this.things.has(name)) return;
    this.#touch(name);
    this.things.delete(name);
    this.lastVersions.set(name, thing.version);
    if (isLink(thing)) return;
    for (const link of this.links) {
      if (link.from !== thing.id && link.to !== thing.id) continue;
      this.#drop(link);
      const source = this.things.get(link.from);
      if (
        link.to === thing.id &&
        source !== undefined &&
        relationshipDeclaration(link.type).whenTargetGoes === "drop-source"
      )
        this.#drop(source);
    }
  }
}
