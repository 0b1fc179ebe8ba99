import type { CommonalityAnswer } from "../../contract/commonality.contract.ts";
import type { PartClasses } from "../../scoring/classes/part-classes.ts";
import { FirstOf } from "../../scoring/commonality/first-of.ts";
import type { FittedScope } from "../../scoring/commonality/fitted-scope.ts";
import { type Replacement, replacements } from "../../scoring/commonality/replacement.ts";
import type { PriceList } from "../../scoring/provision/class-price.ts";
import type { GearPicture } from "../../scoring/snapshot/snapshot.ts";
import { modelReference } from "../kit/kit-lines.ts";
import { plural } from "../words.ts";

const mostShown = 40;

/** Per category with more than one model: what would vanish by fitting one of them throughout, most parts first. */
export function replacementOpportunities(
  snapshot: GearPicture,
  classes: PartClasses,
  scope: FittedScope,
  prices: PriceList,
  currency: string,
): CommonalityAnswer["opportunities"] {
  const rowsOf = new Map<string, number[]>();
  scope.models.forEach((model, row) => {
    const category = snapshot.models.category[model] ?? "";
    if (category !== "") rowsOf.set(category, [...(rowsOf.get(category) ?? []), row]);
  });
  const suppliersOf = suppliersByClass(snapshot, classes);
  const sold = classesSold(scope, suppliersOf);
  const stockOf = stockByClass(snapshot, classes);
  const best = new FirstOf<Swap>(mostShown, byPartsVanishing);
  for (const [category, rows] of rowsOf) {
    if (rows.length < 2) continue;
    for (const swap of replacements(scope, rows)) {
      // Most parts first, so those left have none.
      if (swap.partsVanishing.length === 0) break;
      best.offer({ ...swap, category });
    }
  }
  return best.list().map((swap) => {
    const gone = new Set(swap.partsVanishing.map((column) => scope.partClasses[column] ?? -1));
    const replace = modelReference(snapshot, scope.models[swap.replaced] ?? 0);
    const by = modelReference(snapshot, scope.models[swap.by] ?? 0);
    const freed = [...gone].reduce((sum, c) => {
      const price = prices.price(c);
      return sum + (price.assumed ? 0 : price.minor * (stockOf.get(c) ?? 0));
    }, 0);
    const suppliersVanishing = vanishingSuppliers(gone, suppliersOf, sold);
    return {
      category: swap.category,
      replace,
      by,
      items: swap.items,
      partsVanishing: gone.size,
      partsAdded: 0,
      suppliersVanishing,
      kitsVanishing: swap.kitsVanishing,
      ...(prices.anyKnown ? { stockValueFreed: { minor: freed, currency } } : {}),
      words: `Fitting ${by.name} in place of ${plural(swap.items, "item")} of ${replace.name} does away with ${plural(gone.size, "part")}, ${plural(swap.kitsVanishing, "spares kit")} and ${plural(suppliersVanishing, "supplier")}, if it meets the duty there. What is shared also shares a defect, a bad batch and a single maker.`,
    };
  });
}

interface Swap extends Replacement {
  readonly category: string;
}
const byPartsVanishing = (a: Swap, b: Swap): number =>
  b.partsVanishing.length / b.items - a.partsVanishing.length / a.items ||
  b.partsVanishing.length - a.partsVanishing.length;

function suppliersByClass(
  snapshot: GearPicture,
  classes: PartClasses,
): ReadonlyMap<number, ReadonlySet<number>> {
  const found = new Map<number, Set<number>>();
  const { offers, suppliers } = snapshot;
  for (let supplier = 0; supplier < suppliers.id.length; supplier++) {
    for (let i = offers.start[supplier] ?? 0; i < (offers.start[supplier + 1] ?? 0); i++) {
      const partClass = classes.classOf[offers.target[i] ?? 0] ?? -1;
      const set = found.get(partClass) ?? new Set<number>();
      found.set(partClass, set.add(supplier));
    }
  }
  return found;
}

function stockByClass(snapshot: GearPicture, classes: PartClasses): ReadonlyMap<number, number> {
  const found = new Map<number, number>();
  snapshot.lots.part.forEach((part, lot) => {
    const partClass = classes.classOf[part] ?? -1;
    found.set(partClass, (found.get(partClass) ?? 0) + (snapshot.lots.quantity[lot] ?? 0));
  });
  return found;
}

/** How many of the part classes in scope each supplier sells. */
function classesSold(
  scope: FittedScope,
  suppliersOf: ReadonlyMap<number, ReadonlySet<number>>,
): ReadonlyMap<number, number> {
  const sold = new Map<number, number>();
  for (const partClass of scope.partClasses) {
    for (const supplier of suppliersOf.get(partClass) ?? []) {
      sold.set(supplier, (sold.get(supplier) ?? 0) + 1);
    }
  }
  return sold;
}

/** Suppliers that sell something vanishing and nothing that stays in use: all they sell vanishes. */
function vanishingSuppliers(
  gone: ReadonlySet<number>,
  suppliersOf: ReadonlyMap<number, ReadonlySet<number>>,
  sold: ReadonlyMap<number, number>,
): number {
  const vanishing = new Map<number, number>();
  for (const partClass of gone) {
    for (const supplier of suppliersOf.get(partClass) ?? []) {
      vanishing.set(supplier, (vanishing.get(supplier) ?? 0) + 1);
    }
  }
  return [...vanishing].filter(([supplier, count]) => count === sold.get(supplier)).length;
}
