import type { SoldKit } from "../../scoring/provision/kit-sale.ts";

/** What all that is bought for a kit weighs, takes up and costs. */
export interface PurchaseTotals {
  readonly costMinor: number;
  readonly massKg: number;
  readonly massUnknownPieces: number;
  readonly volumeLitres: number;
  readonly volumeUnknownPieces: number;
  readonly priceAssumedPieces: number;
}

/** Adds up the purchases of a kit; what has no stated size or price is counted in pieces. Cost 0 where no price is known. */
export function purchaseTotals(kit: SoldKit): PurchaseTotals {
  let massKg = 0;
  let massUnknownPieces = 0;
  let volumeLitres = 0;
  let volumeUnknownPieces = 0;
  let price = 0;
  let priceAssumedPieces = 0;
  for (const { offer, units } of kit.sale.purchases) {
    if (offer.kind === "aboard") continue;
    const pieces = offer.sale.uses.pieces * units;
    if (offer.isMassKnown) massKg += (offer.sale.uses.mass * units) / 1000;
    else massUnknownPieces += pieces;
    if (offer.isVolumeKnown) volumeLitres += (offer.sale.uses.volume * units) / 1000;
    else volumeUnknownPieces += pieces;
    price += offer.priceMinor * units;
    if (offer.supplier < 0) priceAssumedPieces += pieces;
  }
  return {
    costMinor: kit.prices.anyKnown ? price : 0,
    massKg,
    massUnknownPieces,
    volumeLitres,
    volumeUnknownPieces,
    priceAssumedPieces,
  };
}
