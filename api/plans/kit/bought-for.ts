import { logTarget } from "../../scoring/kit/log-target.ts";
import type { SoldKit } from "../../scoring/provision/kit-sale.ts";
import type { VesselOffer } from "../../scoring/provision/sale-offers.ts";
import { tierLogSufficiency } from "../../scoring/provision/vessel-kit.ts";
import { logSufficiencyAt } from "../../scoring/sufficiency/log-sufficiency.ts";
import { plural } from "../words.ts";

/** What is bought that gives pieces of one part. */
export interface Bought {
  /** Pieces of the part that come out of service kits bought. */
  readonly fromKits: number;
  /** What is paid for the part by itself, in pieces or packs. */
  readonly costMinor: number;
  readonly first: VesselOffer | undefined;
  /** "2 packs of 5", "3" */
  readonly words: string;
}

/** Returns what is bought for each row of the kit. O(rows + purchases). */
export function boughtForRows(kit: SoldKit): readonly Bought[] {
  const found = kit.rows.map(() => ({
    fromKits: 0,
    costMinor: 0,
    first: undefined as VesselOffer | undefined,
    words: [] as string[],
  }));
  for (const { offer, units, rows } of kit.sale.purchases) {
    if (offer.kind === "aboard") continue;
    for (const { row, pieces } of rows) {
      const own = found[row];
      if (own === undefined) continue;
      if (offer.kind === "kit") {
        own.fromKits += pieces * units;
        own.words.push(plural(units * offer.pack, "service kit"));
      } else {
        own.first ??= offer;
        own.costMinor += kit.prices.anyKnown ? offer.priceMinor * units : 0;
        if (offer.pack > 1) own.words.push(`${plural(units, "pack")} of ${offer.pack}`);
        else own.words.push(String(units));
      }
    }
  }
  return found.map((own) => ({ ...own, words: own.words.join(" and ") }));
}

const nothing: Bought = { fromKits: 0, costMinor: 0, first: undefined, words: "" };

/** What is bought for one row of those. */
export const boughtAt = (all: readonly Bought[], row: number): Bought => all[row] ?? nothing;

/**
 * Returns, per row, the pieces bought that could stay ashore, one part at a time, with the tier's target kept.
 * Rows of a supersession tree, whose pieces stand in for one another, are not judged: 0.
 */
export function leftovers(kit: SoldKit): Int32Array {
  const spare = ([0, 1, 2] as const).map((tier) => {
    const target = kit.sale.problem.targets[tier];
    if (target === undefined) return -1;
    const now = tierLogSufficiency(kit, tier, (at) => {
      const row = kit.rows[at];
      return row === undefined ? 0 : row.usable + row.buy;
    });
    return now - logTarget(target);
  });
  return Int32Array.from(kit.rows, (row) => {
    const room = spare[row.part.tier] ?? -1;
    if (room < 0 || (kit.groups[row.group]?.rows.length ?? 1) > 1) return 0;
    const base = row.usable + row.demand.credit;
    const now = logSufficiencyAt(row.demand.pmf, base + row.buy);
    let kept = row.buy;
    while (kept > 0 && now - logSufficiencyAt(row.demand.pmf, base + kept - 1) <= room) kept--;
    return row.buy - kept;
  });
}
