import { Problem } from "../../errors/problem.ts";
import type { StockAboard } from "../aboard/usable-stock.ts";
import type { PartClasses } from "../classes/part-classes.ts";
import type { Snapshot } from "../snapshot/snapshot.ts";

/** Pieces of one part inside a service kit, boxes within it opened. */
export interface Inside {
  readonly part: number;
  readonly pieces: number;
}

/**
 * Returns, per part that is a service kit, what is inside it, kits within opened in their turn; a kit within that
 * gear asks for by itself is counted whole.
 *
 * Pieces multiply on the way in: a kit of two boxes of three springs holds six springs. O(contents × depth).
 * @param isAsked whether gear asks for a part class by itself
 * @throws Problem `contents-circular` naming the kits, where one contains itself, directly or through others.
 */
export function kitContents(
  snapshot: Snapshot,
  classes: PartClasses,
  isAsked: (partClass: number) => boolean,
): ReadonlyMap<number, readonly Inside[]> {
  const { contains, parts } = snapshot;
  const direct = new Map<number, Inside[]>();
  contains.kit.forEach((kit, at) => {
    const list = direct.get(kit) ?? [];
    direct.set(kit, list);
    const stated = contains.quantity[at] ?? Number.NaN;
    list.push({ part: contains.part[at] ?? 0, pieces: Number.isNaN(stated) ? 1 : stated });
  });
  const done = new Map<number, readonly Inside[]>();
  const open: number[] = [];
  const classOf = (part: number): number => classes.classOf[part] ?? -1;
  const insideOf = (kit: number): readonly Inside[] => {
    const known = done.get(kit);
    if (known !== undefined) return known;
    const again = open.findIndex((above) => classOf(above) === classOf(kit));
    if (again >= 0) {
      const names = [...open.slice(again), kit].map((part) => parts.partNumber[part] ?? "");
      throw new Problem(
        "contents-circular",
        `A service kit cannot contain itself; received ${names.join(" in which is ")}. Correct what is inside ${names[0]}.`,
      );
    }
    open.push(kit);
    const sum = new Map<number, number>();
    const add = (part: number, pieces: number): void => {
      sum.set(part, (sum.get(part) ?? 0) + pieces);
    };
    for (const { part, pieces } of direct.get(kit) ?? []) {
      // Walked even where it stays whole, so that a circle is found wherever it closes.
      const within = direct.has(part) ? insideOf(part) : undefined;
      if (classOf(part) === classOf(kit)) insideOf(part);
      if (within === undefined || isAsked(classOf(part))) add(part, pieces);
      else for (const deeper of within) add(deeper.part, deeper.pieces * pieces);
    }
    open.pop();
    const found = [...sum].map(([part, pieces]) => ({ part, pieces }));
    done.set(kit, found);
    return found;
  };
  for (const kit of [...direct.keys()].sort((a, b) => a - b)) insideOf(kit);
  return done;
}

/** Pieces inside the service kits aboard that nothing asks for whole: they count as aboard. Per part class. */
export function insideKitsAboard(
  snapshot: Snapshot,
  classes: PartClasses,
  stock: StockAboard,
  isAsked: (partClass: number) => boolean,
): ReadonlyMap<number, number> {
  const found = new Map<number, number>();
  if (snapshot.contains.kit.length === 0) return found;
  for (const [kit, inside] of kitContents(snapshot, classes, isAsked)) {
    const aboard = stock.usable[kit] ?? 0;
    if (aboard <= 0 || isAsked(classes.classOf[kit] ?? -1)) continue;
    for (const { part, pieces } of inside) {
      const partClass = classes.classOf[part] ?? -1;
      found.set(partClass, (found.get(partClass) ?? 0) + pieces * aboard);
    }
  }
  return found;
}
