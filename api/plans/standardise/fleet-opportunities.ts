import type { StandardiseAnswer } from "../../contract/standardise.contract.ts";
import type { PartClasses } from "../../scoring/classes/part-classes.ts";
import type { Snapshot } from "../../scoring/snapshot/snapshot.ts";
import type { BoundFleet } from "../../scoring/standardise/bind-fleet.ts";
import { modelReference } from "../kit/kit-lines.ts";
import { moneyWords, plural } from "../words.ts";
import type { FleetMove, FleetReckoner } from "./fleet-moves.ts";

type Opportunity = StandardiseAnswer["opportunities"][number];

/** Only so many are solved exactly; the rest are many pairs of one rare model with another. */
const mostSolved = 24;

/**
 * Per category, what goes when one make gives way to another wherever its positions admit it: parts, spares kits,
 * suppliers, and what the kits then cost at the same protection, solved exactly. Most saved per money first.
 */
export function fleetOpportunities(
  snapshot: Snapshot,
  classes: PartClasses,
  bound: BoundFleet,
  reckoner: FleetReckoner,
  vessels: readonly number[],
  years: number,
  currency: string,
  signal: AbortSignal | undefined,
): Opportunity[] {
  const pairs = swapsOf(snapshot, bound);
  const partsOf = partReader(snapshot, classes);
  const fitted = fittedCounts(snapshot, vessels);
  const before = unionOf([...fitted.keys()], partsOf);
  const now = reckoner.figures([]);
  const drafts = pairs.map((moves) => {
    const [{ from, to } = { from: -1, to: -1 }] = moves;
    const items = moves.reduce((sum, move) => sum + move.items.length, 0);
    const left = (fitted.get(from) ?? 0) > items;
    const models = [...fitted.keys()].filter((model) => model !== from || left);
    const after = unionOf([...models, to], partsOf);
    return {
      moves,
      from,
      to,
      items,
      cost: moves.reduce((sum, move) => sum + move.cost, 0),
      partsVanishing: [...before].filter((part) => !after.has(part)).length,
      partsAdded: [...after].filter((part) => !before.has(part)).length,
    };
  });
  drafts.sort(
    (a, b) =>
      (b.partsVanishing - b.partsAdded) / Math.max(1, b.cost) -
        (a.partsVanishing - a.partsAdded) / Math.max(1, a.cost) ||
      a.from - b.from ||
      a.to - b.to,
  );
  return drafts
    .slice(0, mostSolved)
    .map(({ moves, from, to, items, cost, partsVanishing, partsAdded }): Opportunity => {
      signal?.throwIfAborted();
      const then = reckoner.figures(moves);
      const kitSaving =
        now.kit === undefined || then.kit === undefined ? undefined : now.kit - then.kit;
      const yearly = now.yearly - then.yearly;
      const kitsVanishing = now.kits - then.kits;
      const suppliersVanishing = now.suppliers - then.suppliers;
      const replace = modelReference(snapshot, from);
      const by = modelReference(snapshot, to);
      const saved = kitSaving === undefined ? undefined : kitSaving + yearly * years;
      return {
        category: snapshot.models.category[from] ?? "",
        replace,
        by,
        items,
        changeCost: { minor: cost, currency },
        kitSaving: kitSaving === undefined ? null : { minor: kitSaving, currency },
        yearlySaving: { minor: yearly, currency },
        partsVanishing,
        partsAdded,
        kitsVanishing,
        suppliersVanishing,
        savingPerCost: saved === undefined || cost === 0 ? null : saved / cost,
        words: `Fitting ${by.name} in place of ${plural(items, "item")} of ${replace.name} costs ${moneyWords(cost, currency)}; ${plural(partsVanishing, "part")} ${partsVanishing === 1 ? "goes" : "go"} and ${partsAdded === 0 ? "none comes" : `${plural(partsAdded, "new one")} ${partsAdded === 1 ? "comes" : "come"}`}, ${countWords(kitsVanishing, "spares kit")}, ${countWords(suppliersVanishing, "supplier")}${kitSaving === undefined ? "" : `, and the kits cost ${kitSaving === 0 ? "the same" : `${moneyWords(Math.abs(kitSaving), currency)} ${kitSaving > 0 ? "less" : "more"}`}`}.`,
      };
    })
    .sort(
      (a, b) =>
        (b.savingPerCost ?? Number.NEGATIVE_INFINITY) -
        (a.savingPerCost ?? Number.NEGATIVE_INFINITY),
    );
}

const countWords = (gone: number, one: string): string =>
  gone === 0 ? `as many ${one}s` : `${plural(Math.abs(gone), one)} ${gone > 0 ? "fewer" : "more"}`;

/** For every ordered pair of models, the moves that fit the second wherever the first stands and admits it. */
function swapsOf(snapshot: Snapshot, bound: BoundFleet): FleetMove[][] {
  const swaps = new Map<string, Map<number, { items: number[]; cost: number }>>();
  bound.problem.groups.forEach(({ options }, g) => {
    const items = bound.items[g] ?? [];
    const from = options[0]?.model ?? -1;
    const vessel = snapshot.items.vessel[items[0] ?? 0] ?? -1;
    for (const { model, cost } of options.slice(1)) {
      const name = `${from} ${model}`;
      const byVessel = swaps.get(name) ?? new Map<number, { items: number[]; cost: number }>();
      const own = byVessel.get(vessel) ?? { items: [], cost: 0 };
      own.items.push(...items);
      own.cost += cost * items.length;
      byVessel.set(vessel, own);
      swaps.set(name, byVessel);
    }
  });
  return [...swaps].map(([name, byVessel]) => {
    const [from = -1, to = -1] = name.split(" ").map(Number);
    return [...byVessel].map(([vessel, { items, cost }]) => ({ vessel, from, to, items, cost }));
  });
}

function partReader(snapshot: Snapshot, classes: PartClasses) {
  const known = new Map<number, ReadonlySet<number>>();
  return (model: number): ReadonlySet<number> => {
    const before = known.get(model);
    if (before !== undefined) return before;
    const { start, target } = snapshot.uses;
    const fresh = new Set(
      [...target.subarray(start[model] ?? 0, start[model + 1] ?? 0)].map(
        (part) => classes.classOf[part] ?? -1,
      ),
    );
    known.set(model, fresh);
    return fresh;
  };
}

function fittedCounts(
  { items }: Snapshot,
  vessels: readonly number[],
): ReadonlyMap<number, number> {
  const counts = new Map<number, number>();
  items.model.forEach((model, item) => {
    if (model < 0 || !vessels.includes(items.vessel[item] ?? -1)) return;
    counts.set(model, (counts.get(model) ?? 0) + 1);
  });
  return counts;
}

function unionOf(
  models: readonly number[],
  partsOf: (model: number) => ReadonlySet<number>,
): ReadonlySet<number> {
  const all = new Set<number>();
  for (const model of models) for (const part of partsOf(model)) all.add(part);
  return all;
}
