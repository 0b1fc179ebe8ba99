import { type PackOffer, packOffer, partCover } from "../packs/part-cover.ts";
import type { SaleAnswer, SaleProblem } from "../packs/sale-problem.ts";
import { soleRow } from "./bind-sale.ts";
import type { VesselKit } from "./vessel-kit.ts";

/** The step of a tree that buys what its rows buy; 0 where they buy nothing. */
function stepTaken(kit: VesselKit, place: number): number {
  const group = kit.groups[place];
  const own = group?.rows.map((row) => kit.rows[row]?.buy ?? 0) ?? [];
  const found = group?.steps?.buys.findIndex((buys) => own.every((buy, at) => buys[at] === buy));
  return Math.max(0, found ?? 0);
}

/**
 * Units of single pieces that give the kit as the fast method found it; undefined where something is sold otherwise
 * at a price that might pay: a pack or a service kit, or a least order on what is bought.
 */
export function singleUnits(
  kit: VesselKit,
  { offers, objective }: SaleProblem,
): Int32Array | undefined {
  const units = new Int32Array(offers.length);
  const best = new Int32Array(kit.groups.length).fill(-1);
  for (const [u, offer] of offers.entries()) {
    const [only] = offer.contents;
    if (only === undefined || offer.contents.length > 1) return undefined;
    if (offer.oneOf !== undefined) {
      if (only.pieces === stepTaken(kit, only.part)) units[u] = 1;
      continue;
    }
    if (only.pieces !== 1 || (offer.least ?? 1) > 1) return undefined;
    const known = offers[best[only.part] ?? -1];
    if (known === undefined || offer.uses[objective] < known.uses[objective]) best[only.part] = u;
  }
  for (const place of kit.groups.keys()) {
    const row = soleRow(kit, place);
    if (row === undefined) continue;
    const u = best[place] ?? -1;
    if (u < 0 || offers[u]?.uses[objective] !== row.part.unitCost) return undefined;
    units[u] = row.buy;
  }
  return units;
}

/** Buys what the kit asks for by the cheapest packs of each part by itself. */
export function byPacks(
  kit: VesselKit,
  { offers, objective }: SaleProblem,
): Pick<SaleAnswer, "units" | "method" | "repaired"> {
  const units = new Int32Array(offers.length);
  const packs = kit.groups.map((): PackOffer[] => []);
  offers.forEach((offer, u) => {
    const [only] = offer.contents;
    if (offer.oneOf !== undefined) {
      if (only !== undefined && only.pieces === stepTaken(kit, only.part)) units[u] = 1;
    } else if (offer.contents.length === 1 && only !== undefined && only.pieces > 0)
      packs[only.part]?.push(packOffer(offer, u, offer.uses[objective]));
  });
  kit.groups.forEach((_, place) => {
    const row = soleRow(kit, place);
    if (row === undefined || row.buy === 0) return;
    for (const [u, count] of partCover(packs[place] ?? [], row.buy).units(row.buy))
      units[u] = (units[u] ?? 0) + count;
  });
  return { units, method: "packs", repaired: false };
}
