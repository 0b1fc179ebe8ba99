import { parseMoney, readTable } from "../../../importers/index.ts";
import type { OrderRequest } from "../../contract/order.contract.ts";
import { Problem, type ProblemPlace } from "../../errors/problem.ts";

type Terms = NonNullable<OrderRequest["terms"]>[number];

const names = {
  supplier: ["supplier"],
  deliveryMinor: ["delivery", "delivery charge"],
  freeFromMinor: ["free from", "free delivery from"],
  minimumMinor: ["least order", "minimum order"],
  dutyPercent: ["duty", "duty %"],
  currency: ["currency"],
} as const satisfies Record<keyof Terms, readonly string[]>;

const plain = (header: string): string => header.trim().toLowerCase();

/**
 * Suppliers' terms from a CSV: Supplier, Delivery, Free from, Least order, Duty %, Currency, in any order; amounts with
 * their currency ("12,50 EUR") or in that of the Currency column. Errors: `file-empty`, `file-binary`,
 * `input-invalid` with every fault: line, column, rule, value, remedy.
 */
export function readTerms(content: Uint8Array | string): Terms[] {
  const known = new Set<string>(Object.values(names).flat());
  const { table, rows } = readTable(content, { isKnownName: (cell) => known.has(plain(cell)) });
  const columnOf = (key: keyof Terms): number =>
    table.header.findIndex((header) => (names[key] as readonly string[]).includes(plain(header)));
  const places: ProblemPlace[] = [];
  if (columnOf("supplier") < 0) {
    throw new Problem(
      "input-invalid",
      `A list of terms needs a column Supplier; its header is ${table.header.join(", ")}. Name the columns Supplier, Delivery, Free from, Least order, Duty %, Currency.`,
    );
  }
  const terms = rows.map((cells, index): Terms => {
    const line = table.lineOf(index);
    const cell = (key: keyof Terms): string => (cells[columnOf(key)] ?? "").trim();
    const fault = (key: keyof Terms, rule: string, remedy: string): void => {
      places.push({
        pointer: `/line/${line}/${key}`,
        detail: `line ${line}, ${table.header[columnOf(key)] ?? key}: ${rule}; received "${cell(key)}". ${remedy}`,
      });
    };
    let currency = cell("currency").toUpperCase();
    const amount = (
      key: "deliveryMinor" | "freeFromMinor" | "minimumMinor",
    ): number | undefined => {
      const text = cell(key);
      if (text === "") return undefined;
      const read = parseMoney(text, {
        convention: "unknown",
        ...(currency === "" ? {} : { currency }),
      });
      if (read.kind === "fault") fault(key, read.rule, read.remedy);
      if (read.kind !== "value") return undefined;
      if (currency !== "" && read.value.currency !== currency) {
        fault(
          key,
          `All amounts of a row must be in one currency, ${currency}`,
          "Split the row's amounts.",
        );
      }
      currency = read.value.currency;
      if (read.value.minor >= 0) return read.value.minor;
      fault(key, "An amount must be 0 or more", "Correct it, or leave it empty.");
      return undefined;
    };
    const duty = Number(cell("dutyPercent").replace("%", "").replace(",", ".").trim());
    if (!Number.isFinite(duty) || duty < 0 || duty > 500) {
      fault("dutyPercent", "Duty must be 0 to 500 per cent", "Write it like 5 or 12.5 %.");
    }
    if (cell("supplier") === "") fault("supplier", "A row must name its supplier", "Name it.");
    const found = {
      deliveryMinor: amount("deliveryMinor"),
      freeFromMinor: amount("freeFromMinor"),
      minimumMinor: amount("minimumMinor"),
    };
    return {
      supplier: cell("supplier"),
      ...(found.deliveryMinor === undefined ? {} : { deliveryMinor: found.deliveryMinor }),
      ...(found.freeFromMinor === undefined ? {} : { freeFromMinor: found.freeFromMinor }),
      ...(found.minimumMinor === undefined ? {} : { minimumMinor: found.minimumMinor }),
      ...(cell("dutyPercent") === "" ? {} : { dutyPercent: duty }),
      ...(currency === "" ? {} : { currency }),
    };
  });
  if (places.length > 0) {
    throw new Problem(
      "input-invalid",
      `The suppliers' terms have ${places.length} ${places.length === 1 ? "fault" : "faults"}; nothing was ordered. ${places
        .slice(0, 20)
        .map(({ detail }) => detail)
        .join(" ")}`,
      { places },
    );
  }
  return terms;
}
