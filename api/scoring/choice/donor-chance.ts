import type { PartClasses } from "../classes/part-classes.ts";
import type { VesselDemand } from "../provision/vessel-demand.ts";
import type { Snapshot } from "../snapshot/snapshot.ts";

/**
 * Returns the chance that a failure that stops one of the given items finds the same part in other gear aboard.
 *
 * Sum over the model's stopping lines of mean demand × [a donor holds the part class], over the sum of the means. A
 * donor is another fitted item that takes the class, serves a function, and can be spared by each function it serves
 * (more items serve it than are needed; none of the safety tier). Parts marked safety have none. Undefined where no
 * stopping line has evidence of failing.
 *
 * It tells of the first failure: parts given away since are not counted. O(lines × items).
 * Source: METHODS, robbing; own definition, worked by hand in the tests.
 */
export function donorChance(
  snapshot: Snapshot,
  classes: PartClasses,
  demand: VesselDemand,
  model: number,
): number | undefined {
  const tight = new Set(
    demand.functions
      .filter((f) => f.tier === 0 || f.items.length <= f.need)
      .flatMap((f) => f.items),
  );
  const serving = new Set(demand.functions.flatMap((f) => f.items));
  const own = demand.lines.filter(
    (line) => line.model === model && line.origin === "failure" && line.effect === 0,
  );
  const all = own.reduce((sum, line) => sum + line.mean, 0);
  if (all <= 0) return undefined;
  const spare = [...serving].filter((item) => !tight.has(item));
  const holders = new Map<number, number>();
  for (const item of spare) {
    const of = snapshot.items.model[item] ?? -1;
    const held = new Set<number>();
    for (let l = snapshot.uses.start[of] ?? 0; l < (snapshot.uses.start[of + 1] ?? 0); l++) {
      held.add(classes.classOf[snapshot.uses.target[l] ?? 0] ?? -1);
    }
    for (const partClass of held) holders.set(partClass, (holders.get(partClass) ?? 0) + 1);
  }
  let found = 0;
  for (const line of own) {
    const partClass = classes.classOf[line.part] ?? -1;
    const isSafety = (classes.members[partClass] ?? []).some(
      (part) => snapshot.parts.isSafety[part] === 1,
    );
    if (isSafety) continue;
    // An item is no donor to itself: among the items of the line that can be spared, one must be another.
    const ownSpare = line.items.filter((item) => serving.has(item) && !tight.has(item)).length;
    const others = (holders.get(partClass) ?? 0) - ownSpare;
    const failing = line.items.length;
    const withDonor = others > 0 || ownSpare > 1 ? failing : ownSpare === 1 ? failing - 1 : 0;
    found += (line.mean * withDonor) / failing;
  }
  return found / all;
}
