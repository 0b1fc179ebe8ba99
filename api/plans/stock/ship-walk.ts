import type { NodeId } from "../../../graph-schema/index.ts";
import type { StowagePlace } from "../../contract/stowage.contract.ts";
import type { GraphStore } from "../../store/graph-store.ts";

interface Named {
  readonly id: NodeId;
  readonly name: string;
}

const collator = new Intl.Collator("en", { numeric: true });
const byName = (a: Named, b: Named): number => collator.compare(a.name, b.name);

/** Lockers looked up at once. */
const atOnce = 5_000;
const deepest = 20;

/**
 * The walk through some ships: each vessel, then its lockers, each before those within it, by name; without counts. Reads
 * their lockers level by level, nothing else.
 */
export async function shipWalk(
  store: GraphStore,
  vessels: readonly Named[],
): Promise<readonly StowagePlace[]> {
  const inside = new Map<NodeId, Named[]>();
  const seen = new Set<NodeId>(vessels.map(({ id }) => id));
  let level: readonly NodeId[] = [...seen];
  for (let depth = 0; level.length > 0 && depth < deepest; depth++) {
    const next: NodeId[] = [];
    for (let at = 0; at < level.length; at += atOnce) {
      const links = await store.linksAt(level.slice(at, at + atOnce), "to", ["IS_WITHIN"]);
      const fresh = links.filter(({ from }) => !seen.has(from));
      for (const { from } of fresh) seen.add(from);
      const names = new Map(
        (await store.nodes(fresh.map(({ from }) => from))).map((node) => [
          node.id,
          String(node.properties["name"] ?? ""),
        ]),
      );
      for (const { from, to } of fresh) {
        const list = inside.get(to) ?? [];
        inside.set(to, list);
        list.push({ id: from, name: names.get(from) ?? "" });
        next.push(from);
      }
    }
    level = next;
  }
  const places: StowagePlace[] = [];
  const walk = ({ id, name }: Named, path: string, depth: number, vessel: string): void => {
    places.push({ id, name, path, depth, vessel, lots: null, attention: null });
    for (const inner of (inside.get(id) ?? []).sort(byName))
      walk(inner, `${path} › ${inner.name}`, depth + 1, vessel);
  };
  for (const vessel of [...vessels].sort(byName)) walk(vessel, vessel.name, 0, vessel.id);
  return places;
}
