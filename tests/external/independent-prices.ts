import type { NodeId } from "../../graph-schema/index.ts";
import type { NodeRecord } from "../../importers/change-set.ts";
import { figure, type RawGraph, word } from "./independent-graph.ts";
import { kitsHolding } from "./independent-sale.ts";

/** The least price of a piece over all offers of what stands for a part; undefined where nobody asks one in the currency. */
export function priceOf(
  graph: RawGraph,
  currency: string,
  classOf: (part: NodeId) => readonly NodeId[],
): (part: NodeId) => number | undefined {
  return (part) => {
    const asked = classOf(part)
      .flatMap((member) => graph.to(member, "OFFERS"))
      .filter((offer) => word(offer, "currency") === currency)
      .flatMap((offer) => {
        const price = figure(offer, "priceMinor") ?? 0;
        const pack = figure(offer, "packSize") ?? 1;
        // Whole division, rounded up, without a fraction ever arising.
        return price > 0 ? [(price - (price % pack)) / pack + (price % pack > 0 ? 1 : 0)] : [];
      });
    return asked.length === 0 ? undefined : Math.min(...asked);
  };
}

/**
 * The parts the vessel has to do with: used or serviced by its gear, or lying aboard; what is said to stand in for
 * them, proven or not; the newer numbers of any of these; kits that hold them, and what is inside kits. Only the median of
 * the known prices, a stand-in, is taken over these.
 */
export function partsInScope(
  graph: RawGraph,
  models: readonly NodeId[],
  lots: readonly NodeRecord[],
): ReadonlySet<NodeId> {
  const scope = new Set([
    ...models.flatMap((model) => graph.from(model, "USES").map(({ to }) => to)),
    ...models
      .flatMap((model) => graph.to(model, "SERVICE_OF"))
      .flatMap(({ from: service }) => graph.from(service, "CONSUMES").map(({ to }) => to)),
    ...lots.flatMap((lot) => graph.from(lot.id, "LOT_OF").map(({ to }) => to)),
  ]);
  for (const part of scope) {
    for (const { to } of graph.from(part, "INTERCHANGES_WITH")) scope.add(to);
    for (const { from } of graph.to(part, "INTERCHANGES_WITH")) scope.add(from);
    for (const { to } of graph.from(part, "SUPERSEDED_BY")) scope.add(to);
    for (const { to } of graph.from(part, "CONTAINS")) scope.add(to);
  }
  // Service kits that hold any of these, and what else is in them.
  for (const kit of kitsHolding(graph, [...scope])) scope.add(kit);
  for (const part of scope) for (const { to } of graph.from(part, "CONTAINS")) scope.add(to);
  return scope;
}
