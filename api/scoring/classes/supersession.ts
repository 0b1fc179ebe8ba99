import { Problem } from "../../errors/problem.ts";
import type { Snapshot } from "../snapshot/snapshot.ts";
import type { PartClasses } from "./part-classes.ts";

/** Which class replaced which. Following `newer` always ends. */
export interface Supersession {
  /** Per class: the class that serves its demand too; -1 where none. */
  readonly newer: Int32Array;
  /** Classes with several successors of which none replaces the other: the one counted, and those left out. */
  readonly split: readonly {
    readonly older: number;
    readonly counted: number;
    readonly left: readonly number[];
  }[];
}

/**
 * Returns, for every part class, the one class that supersedes it.
 *
 * SUPERSEDED_BY is one-way: the new serves the old's demand, not the other way. Links within a class say nothing new.
 * Where a class has several successors, those that a nearer one leads to are left out (a -> b -> c says a -> c). If
 * several remain, which of two stands in must be chosen at sea without knowing what fails next; only one is counted,
 * so that no kit is flattered: one that somebody offers before one nobody does, then the lowest class.
 *
 * @throws Problem `supersession-cycle` naming the parts: whatever order is meant, a circle says none.
 * O(classes + links), and a walk per class with several successors.
 */
export function supersessionOf(snapshot: Snapshot, classes: PartClasses): Supersession {
  const { older, newer } = snapshot.supersession;
  const count = classes.members.length;
  const successors = new Map<number, Set<number>>();
  for (let link = 0; link < older.length; link++) {
    const from = classes.classOf[older[link] ?? -1] ?? -1;
    const to = classes.classOf[newer[link] ?? -1] ?? -1;
    if (from < 0 || to < 0 || from === to) continue;
    const known = successors.get(from);
    if (known === undefined) successors.set(from, new Set([to]));
    else known.add(to);
  }
  refuseCycle(snapshot, classes, successors);
  const offered = new Set<number>();
  for (const part of snapshot.offers.target) offered.add(classes.classOf[part] ?? -1);
  const next = new Int32Array(count).fill(-1);
  const split: Supersession["split"][number][] = [];
  for (const [from, all] of successors) {
    const nearest = [...all].filter(
      (one) => ![...all].some((other) => other !== one && leadsTo(successors, other, one)),
    );
    nearest.sort((a, b) => Number(offered.has(b)) - Number(offered.has(a)) || a - b);
    const [counted, ...left] = nearest;
    if (counted === undefined) continue;
    next[from] = counted;
    if (left.length > 0) split.push({ older: from, counted, left });
  }
  return { newer: next, split };
}

function leadsTo(
  successors: ReadonlyMap<number, ReadonlySet<number>>,
  from: number,
  to: number,
): boolean {
  const seen = new Set<number>([from]);
  const open = [from];
  for (let at = open.pop(); at !== undefined; at = open.pop()) {
    for (const next of successors.get(at) ?? []) {
      if (next === to) return true;
      if (seen.has(next)) continue;
      seen.add(next);
      open.push(next);
    }
  }
  return false;
}

/** Kahn's order: what is never freed of its predecessors lies on a circle or behind one; walking back finds it. */
function refuseCycle(
  snapshot: Snapshot,
  classes: PartClasses,
  successors: ReadonlyMap<number, ReadonlySet<number>>,
): void {
  const before = new Map<number, number>();
  for (const all of successors.values()) {
    for (const to of all) before.set(to, (before.get(to) ?? 0) + 1);
  }
  const free = [...successors.keys()].filter((one) => !before.has(one));
  for (let at = free.pop(); at !== undefined; at = free.pop()) {
    for (const to of successors.get(at) ?? []) {
      const left = (before.get(to) ?? 0) - 1;
      before.set(to, left);
      if (left === 0) free.push(to);
    }
  }
  const isHeld = (one: number): boolean => (before.get(one) ?? 0) > 0;
  const start = [...successors.keys()].filter(isHeld).sort((a, b) => a - b)[0];
  if (start === undefined) return;
  // Every held class has a held predecessor, so walking backwards must come round.
  const back = new Map<number, number>();
  for (const [from, all] of successors) if (isHeld(from)) for (const to of all) back.set(to, from);
  const path: number[] = [];
  for (let at = start; !path.includes(at); at = back.get(at) ?? start) path.push(at);
  const first = path.indexOf(back.get(path.at(-1) ?? start) ?? start);
  const circle = path.slice(first).reverse();
  const names = circle.map((one) =>
    (classes.members[one] ?? [])
      .map((part) => snapshot.parts.partNumber[part] ?? "")
      .slice(0, 3)
      .join(" = "),
  );
  throw new Problem(
    "supersession-cycle",
    `A part can't be replaced, step by step, by itself; received ${[...names, names[0]].join(" superseded by ")} (= marks parts that interchange). Correct which part replaced which, or which interchange.`,
    { facts: { subject: String(snapshot.parts.id[classes.members[start]?.[0] ?? -1] ?? "") } },
  );
}
