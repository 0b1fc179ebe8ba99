import type { RecordDocument } from "../../../api/contract/records.contract.ts";
import { textOf } from "../records/record-columns.ts";

const words: Readonly<Record<string, string>> = {
  planned: "kept, not yet sent",
  placed: "sent to the supplier",
  arrived: "has come",
  cancelled: "cancelled",
};

/** How far an order has come, in words. */
export const statusWords = (status: string): string => words[status] ?? status;

/** Whether an order may still be received. */
export const isToCome = (order: RecordDocument): boolean =>
  ["planned", "placed"].includes(textOf(order, "status"));
