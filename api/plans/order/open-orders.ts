import type { NodeId } from "../../../graph-schema/index.ts";
import type { GraphStore } from "../../store/graph-store.ts";
import { plural } from "../words.ts";

const mostOrders = 10_000;

/**
 * A notice of what is on order already for a vessel (orders that name no vessel count for any) among the parts wanted,
 * since an order planned now does not know what is on its way. undefined where nothing is.
 */
export async function openOrdersNotice(
  store: GraphStore,
  vessel: NodeId,
  wanted: ReadonlySet<string>,
): Promise<{ code: string; text: string } | undefined> {
  const references: string[] = [];
  let pieces = 0;
  for (const order of await store.list("Order", 0, mostOrders)) {
    const status = order.properties["status"];
    if (status !== "planned" && status !== "placed") continue;
    const [own] = await store.linksFrom(order.id, "ORDERED_FOR");
    if (own !== undefined && own.to !== vessel) continue;
    const lines = (order.properties["lines"] ?? []) as unknown as readonly {
      readonly part: string;
      readonly quantity: number;
    }[];
    const coming = lines.filter(({ part }) => wanted.has(part));
    if (coming.length === 0) continue;
    references.push(String(order.properties["reference"]));
    pieces += coming.reduce((sum, { quantity }) => sum + quantity, 0);
  }
  if (references.length === 0) return undefined;
  return {
    code: "on-order",
    text: `${plural(pieces, "piece")} of parts wanted here ${pieces === 1 ? "is" : "are"} on order already (${references.join(", ")}) and not counted: strike out what is coming, or stow it first if it has come.`,
  };
}
