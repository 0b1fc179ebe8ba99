import { parseMoney } from "../../../importers/index.ts";
import type { OrderRequest } from "../../contract/order.contract.ts";
import { type OwnRow, readOwnList } from "../read-own-list.ts";

type Terms = NonNullable<OrderRequest["terms"]>[number];
type Column = keyof Terms;

const columns = {
  supplier: ["Supplier"],
  deliveryMinor: ["Delivery", "delivery charge"],
  freeFromMinor: ["Free from", "free delivery from"],
  minimumMinor: ["Least order", "minimum order"],
  dutyPercent: ["Duty %", "duty"],
  currency: ["Currency"],
} as const satisfies Record<Column, readonly string[]>;

/**
 * Suppliers' terms from a CSV: Supplier, Delivery, Free from, Least order, Duty %, Currency, in any order; amounts with
 * their currency ("12,50 EUR") or in that of the Currency column. Errors: those of `readOwnList`.
 */
export function readTerms(content: Uint8Array | string): readonly Terms[] {
  const kind = {
    columns,
    needed: ["supplier"] as const,
    name: "The list of suppliers' terms",
    withheld: "nothing was ordered",
  };
  return readOwnList(content, kind, readRow).rows;
}

function readRow({ cell, fault }: OwnRow<Column>): Terms {
  let currency = cell("currency").toUpperCase();
  const amount = (
    key: "deliveryMinor" | "freeFromMinor" | "minimumMinor",
  ): { [K in typeof key]?: number } => {
    const text = cell(key);
    if (text === "") return {};
    const read = parseMoney(text, {
      convention: "unknown",
      ...(currency === "" ? {} : { currency }),
    });
    if (read.kind === "fault") fault(key, read.rule, read.remedy);
    if (read.kind !== "value") return {};
    if (currency !== "" && read.value.currency !== currency) {
      fault(
        key,
        `All amounts of a row must be in one currency, ${currency}`,
        "Split the row's amounts.",
      );
    }
    currency = read.value.currency;
    if (read.value.minor >= 0) return { [key]: read.value.minor };
    fault(key, "An amount must be 0 or more", "Correct it, or leave it empty.");
    return {};
  };
  const duty = Number(cell("dutyPercent").replace("%", "").replace(",", ".").trim());
  if (!Number.isFinite(duty) || duty < 0 || duty > 500) {
    fault("dutyPercent", "Duty must be 0 to 500 per cent", "Write it like 5 or 12.5 %.");
  }
  if (cell("supplier") === "") fault("supplier", "A row must name its supplier", "Name it.");
  const amounts = {
    ...amount("deliveryMinor"),
    ...amount("freeFromMinor"),
    ...amount("minimumMinor"),
  };
  return {
    supplier: cell("supplier"),
    ...amounts,
    ...(cell("dutyPercent") === "" ? {} : { dutyPercent: duty }),
    ...(currency === "" ? {} : { currency }),
  };
}
