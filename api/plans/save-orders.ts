import { joinKey, keyPiece, type NodeId, type NodeKey } from "../../graph-schema/index.ts";
import type { ProposedChange } from "../../importers/change-set.ts";
import type { OrderAnswer, OrderRequest } from "../contract/order.contract.ts";
import type { SavedOrders } from "../contract/orders.contract.ts";
import { Problem } from "../errors/problem.ts";
import type { GraphStore } from "../store/graph-store.ts";
import { type OrderWork, orderKit } from "./order-kit.ts";
import { freeId } from "./records/free-id.ts";
import { type Writer, writeChange } from "./records/write-record.ts";
import { plural } from "./words.ts";

/**
 * Plans the order as `orderKit` does and keeps it: an Order per supplier, planned, as one change that can be undone.
 * Errors: those of `orderKit`; `input-invalid` where the request imagines changes.
 */
export async function saveOrders(
  store: GraphStore,
  request: OrderRequest,
  today: string,
  writer: Writer,
  work: OrderWork = {},
): Promise<SavedOrders> {
  if (request.whatIf !== undefined) {
    throw new Problem(
      "input-invalid",
      "Orders are kept for the boat as it is; this one imagines changes. Ask for it without what is imagined, or make the changes first.",
      { places: [{ pointer: "/whatIf", detail: "cannot be kept" }] },
    );
  }
  const order = await orderKit(store, request, today, work);
  const changes: ProposedChange[] = [];
  const saved: SavedOrders["saved"] = [];
  for (const sheet of order.sheets) {
    const { reference, key } = await freeReference(store, order, sheet.supplier.name);
    const id = await freeId(store, "Order", key);
    changes.push(
      {
        kind: "create-node",
        label: "Order",
        id,
        key,
        properties: {
          reference,
          status: "planned",
          lines: sheet.lines.map((line) => ({
            part: line.part.id,
            quantity: line.pieces,
            priceMinor: Math.round(line.packPrice.minor / line.packSize),
            currency: line.packPrice.currency,
          })),
          ...(order.neededBy === undefined ? {} : { neededBy: order.neededBy }),
          ...(sheet.arrives === undefined ? {} : { expected: sheet.arrives }),
        },
      },
      link("ORDERED_FROM", id, sheet.supplier.id),
      link("ORDERED_FOR", id, order.vessel.id),
    );
    saved.push({ order: { id, name: reference }, supplier: sheet.supplier });
  }
  const what = `${plural(saved.length, "order")} for ${order.vessel.name} kept`;
  const sequence =
    changes.length === 0 ? null : (await writeChange(store, changes, writer, what)).sequence;
  return {
    sentence:
      saved.length === 0
        ? `Nothing was kept. ${order.sentence}`
        : `${what}: ${saved.map(({ order: { name } }) => name).join(", ")}. ${order.sentence}`,
    sequence,
    saved,
    order,
  };
}

const link = (type: "ORDERED_FROM" | "ORDERED_FOR", from: NodeId, to: string): ProposedChange => ({
  kind: "create-link",
  type,
  from,
  to: to as NodeId,
  properties: {},
});

/** "2026-11-25 Ysolvane Nordquay", with a number behind where that is taken. */
async function freeReference(
  store: GraphStore,
  { orderedOn, vessel }: OrderAnswer,
  supplier: string,
): Promise<{ readonly reference: string; readonly key: NodeKey }> {
  for (let attempt = 1; ; attempt++) {
    const reference = [orderedOn, vessel.name, supplier, ...(attempt > 1 ? [attempt] : [])].join(
      " ",
    );
    const key = joinKey(keyPiece(reference));
    if ((await store.nodeByKey("Order", key)) === undefined) return { reference, key };
  }
}
