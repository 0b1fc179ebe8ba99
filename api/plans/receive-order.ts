import { type NodeId, nodeKey } from "../../graph-schema/index.ts";
import type { NodeRecord, ProposedChange } from "../../importers/change-set.ts";
import type { ReceiveAnswer, ReceiveRequest } from "../contract/orders.contract.ts";
import { Problem } from "../errors/problem.ts";
import type { GraphStore } from "../store/graph-store.ts";
import { cautions } from "./cautions.ts";
import { nodeByWord } from "./choose-scope.ts";
import { recordByWord } from "./records/find-record.ts";
import { freeId } from "./records/free-id.ts";
import { type Writer, writeChange } from "./records/write-record.ts";
import { plural } from "./words.ts";

interface OrderedLine {
  readonly part: string;
  readonly quantity: number;
}

/**
 * Turns an order that has come into stock lots where they were put, and marks it arrived: one change that can be
 * undone. Pieces like those of a lot already there (same place, part, dates) are added to it.
 *
 * @param today ISO day, the caller's clock
 * Errors: `not-found` (order, locker, vessel, part), `input-invalid` (already arrived or cancelled; a dated part that
 * was not ordered; no vessel known), `write-stale`.
 */
export async function receiveOrder(
  store: GraphStore,
  word: string,
  request: ReceiveRequest,
  today: string,
  writer: Writer,
): Promise<ReceiveAnswer> {
  const order = await recordByWord(store, word, ["Order"]);
  const reference = String(order.properties["reference"]);
  const status = String(order.properties["status"]);
  if (status === "arrived" || status === "cancelled") {
    throw new Problem(
      "input-invalid",
      `Only an order that is still to come can be stowed; ${reference} ${status === "arrived" ? "has arrived already" : "was cancelled"}. Undo that change first if it was a mistake.`,
      { places: [{ pointer: "/status", detail: status }] },
    );
  }
  const lines = (order.properties["lines"] ?? []) as unknown as readonly OrderedLine[];
  const place = await placeOf(store, order, request);
  const dates = new Map<string, { expires?: string; made?: string }>();
  for (const [at, { part, ...dated }] of (request.dates ?? []).entries()) {
    const { id } = await recordByWord(store, part, ["Part"]);
    if (!lines.some((line) => line.part === id)) {
      throw new Problem(
        "input-invalid",
        `A date must be of a part in the order; ${part} is not in ${reference}. Leave that date out, or give the part that was ordered.`,
        { places: [{ pointer: `/dates/${at}/part`, detail: "not in the order" }] },
      );
    }
    dates.set(id, {
      ...(dated.expires === undefined ? {} : { expires: dated.expires }),
      ...(dated.made === undefined ? {} : { made: dated.made }),
    });
  }
  const on = request.on ?? today;
  const changes: ProposedChange[] = [
    { kind: "update-node", id: order.id, basedOn: order.version, set: { status: "arrived" } },
  ];
  const lots: ReceiveAnswer["lots"] = [];
  const undated: string[] = [];
  const gone: string[] = [];
  for (const { part: id, quantity } of pooled(lines)) {
    const part = await store.node(id as NodeId);
    if (part === undefined) {
      gone.push(id);
      continue;
    }
    const dated = { condition: "new", ...dates.get(id) };
    const partName = String(part.properties["partNumber"] ?? "");
    if (part.properties["shelfLifeMonths"] !== undefined && dates.get(id) === undefined) {
      undated.push(partName);
    }
    const key = nodeKey("StockLot", dated, (type) => (type === "LOT_OF" ? part.key : place.key));
    const known = await store.nodeByKey("StockLot", key);
    const lot = known?.id ?? (await freeId(store, "StockLot", key));
    if (known === undefined) {
      changes.push(
        {
          kind: "create-node",
          label: "StockLot",
          id: lot,
          key,
          properties: { quantity, ...dated },
        },
        { kind: "create-link", type: "LOT_OF", from: lot, to: part.id, properties: {} },
        { kind: "create-link", type: "STOWED_IN", from: lot, to: place.id, properties: {} },
      );
    } else {
      changes.push({
        kind: "update-node",
        id: lot,
        basedOn: known.version,
        set: { quantity: Number(known.properties["quantity"] ?? 0) + quantity },
      });
    }
    lots.push({
      lot,
      part: { id, name: partName },
      description: String(part.properties["description"] ?? ""),
      pieces: quantity,
      place: String(place.properties["name"] ?? ""),
      added: known !== undefined,
    });
  }
  const pieces = lots.reduce((sum, lot) => sum + lot.pieces, 0);
  const what = `${reference} came on ${on}: ${plural(pieces, "piece")} of ${plural(lots.length, "part")} stowed in ${String(place.properties["name"] ?? "")}`;
  const { sequence } = await writeChange(store, changes, writer, what);
  const notices = [
    ...(undated.length === 0
      ? []
      : [
          {
            code: "date-missing",
            text: `Of what perishes, ${undated.join(", ")} came without a date and does not count as aboard yet: read the packet and write its date on the Lockers page.`,
          },
        ]),
    ...(gone.length === 0
      ? []
      : [
          {
            code: "part-gone",
            text: `${plural(gone.length, "ordered part was", "ordered parts were")} taken out of the parts list since, and nothing was stowed for ${gone.length === 1 ? "it" : "them"}: ${gone.join(", ")}.`,
          },
        ]),
  ];
  return {
    sentence: `${what}.`,
    sequence,
    order: { id: order.id, name: reference },
    lots,
    notices,
    cautions: [...cautions],
  };
}

/** Lines of the same part, added. */
function pooled(lines: readonly OrderedLine[]): readonly OrderedLine[] {
  const sum = new Map<string, number>();
  for (const { part, quantity } of lines) sum.set(part, (sum.get(part) ?? 0) + quantity);
  return [...sum].map(([part, quantity]) => ({ part, quantity }));
}

/** The locker, or the vessel, the pieces go to. */
async function placeOf(
  store: GraphStore,
  order: NodeRecord,
  { into, vessel }: ReceiveRequest,
): Promise<NodeRecord> {
  if (into !== undefined) return recordByWord(store, into, ["Locker"]);
  if (vessel !== undefined) return nodeByWord(store, "Vessel", vessel);
  const [own] = await store.linksFrom(order.id, "ORDERED_FOR");
  const found = own === undefined ? undefined : await store.node(own.to);
  if (found !== undefined) return found;
  throw new Problem(
    "input-invalid",
    "What has come must go somewhere: this order names no vessel, and no locker was chosen. Choose where it was put.",
    { places: [{ pointer: "/into", detail: "not given" }] },
  );
}
