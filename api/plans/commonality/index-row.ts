import type { CommonalityAnswer } from "../../contract/commonality.contract.ts";
import type { FittedScope } from "../../scoring/commonality/fitted-scope.ts";
import { commonalityIndices } from "../../scoring/commonality/indices.ts";
import { distinctKits } from "../../scoring/commonality/kits.ts";
import type { PriceList } from "../../scoring/provision/class-price.ts";

/** The indices of one scope as the document holds them. The weighted index needs at least one known price. */
export function commonalityIndicesOf(
  scope: FittedScope,
  prices: PriceList,
): CommonalityAnswer["whole"] {
  const kits = distinctKits(scope.sparable);
  const weights = {
    price: scope.partClasses.map((partClass) => prices.price(partClass).minor),
    quantity: scope.quantity,
    volume: scope.items,
  };
  const figures = commonalityIndices(scope.all, prices.anyKnown ? weights : undefined);
  return {
    models: scope.models.length,
    items: scope.items.reduce((sum, n) => sum + n, 0),
    distinctParts: figures.distinctParts,
    lines: figures.uses,
    usedByOneModelOnly: figures.usedByOneModel,
    degreeOfCommonality: figures.degreeOfCommonality,
    totalConstantCommonality: figures.totalConstantCommonality,
    componentCommonality: figures.commonality,
    weightedCommonality: figures.weightedByCost,
    distinctKits: kits.kitCount,
    maximalKits: kits.maximalKits.length,
  };
}
