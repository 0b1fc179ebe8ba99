import { keyPiece, type NodeId } from "../../graph-schema/index.ts";
import { PairReader } from "./pair-reader.ts";
import { absent, type RowRefusal } from "./row-options.ts";

/** A line of an order as the graph keeps it. */
interface OrderLine {
  readonly part: NodeId;
  readonly quantity: number;
  readonly priceMinor?: number;
  readonly currency?: string;
  readonly expected?: string;
}

/** Reads the rows of orders: a row is a part on an order; the order keeps its lines as one document. */
export class OrderReader extends PairReader {
  readonly #lines = new Map<number, Map<number, { line: OrderLine; row: number }>>();
  readonly #supplierOf = new Map<number, { supplier: number; row: number }>();

  protected readOrderRow(row: number): RowRefusal | undefined {
    const supplier = this.supplier(row);
    if (supplier === absent) return this.missing("supplier", "An order must name its supplier");
    const part = this.part(row);
    if (typeof part !== "number") return part;
    if (part === absent) return this.missing("partNumber", "A line of an order must name its part");
    const quantity = this.code("ordered", row);
    if (quantity === 0) {
      return this.missing("ordered", "A line of an order must say how many pieces");
    }
    const order = this.#order(row, supplier);
    const refusal = this.#otherSupplier(order, supplier);
    if (refusal) return refusal;
    const line = this.#lineOf(row, part);
    const before = this.#lines.get(order)?.get(part);
    if (before !== undefined && JSON.stringify(before.line) !== JSON.stringify(line)) {
      this.orders.conflicts += 1;
      const at = this.options.lineOf(before.row);
      return {
        code: "rows-disagree",
        column: this.headerOf("ordered"),
        rule: `An order has one line for a part; line ${at} has this one, with another quantity, price or day`,
        value: this.field.ordered?.text(quantity) ?? "",
        remedy: `Add the pieces up on line ${at}, or give the second line an order number of its own.`,
      };
    }
    this.mention(this.suppliers, supplier);
    this.mention(this.parts, part);
    this.mention(this.orders, order);
    this.mention(this.orderedFrom, this.orderedFrom.link(order, supplier));
    this.keepRowWith(this.orders, order);
    this.pending.push((of) => {
      const lines = this.#lines.get(order) ?? new Map<number, { line: OrderLine; row: number }>();
      this.#lines.set(order, lines);
      if (!lines.has(part)) lines.set(part, { line, row: of });
      if (!this.#supplierOf.has(order)) this.#supplierOf.set(order, { supplier, row: of });
    });
    return undefined;
  }

  #order(row: number, supplier: number): number {
    const code = this.code("order", row);
    if (code !== 0 && this.field.order) {
      const { order } = this.field;
      return this.orders.node(order.piece(code), order.text(code), []);
    }
    this.remark("order-named", row);
    const day = this.field.placed?.text(this.code("placed", row));
    const isDated = this.code("placed", row) !== 0;
    const name = `${this.suppliers.names[supplier] ?? ""}${isDated ? ` ${day}` : ""}`;
    return this.orders.node(keyPiece(name), name, []);
  }

  #lineOf(row: number, part: number): OrderLine {
    const { ordered, price, currency, expected } = this.field;
    const day = this.code("expected", row);
    const priceCode = this.code("price", row);
    return {
      part: this.parts.id(part),
      quantity: Number(ordered?.text(this.code("ordered", row)) ?? 0),
      ...(price === undefined || currency === undefined || priceCode === 0
        ? {}
        : {
            priceMinor: Number(price.text(priceCode)),
            currency: currency.text(this.code("currency", row)),
          }),
      ...(expected === undefined || day === 0 ? {} : { expected: expected.text(day) }),
    };
  }

  #otherSupplier(order: number, supplier: number): RowRefusal | undefined {
    const inFile = this.#supplierOf.get(order);
    const id = this.orders.records[order]?.id;
    const known = [...this.orderedFrom.known.values()].find(({ from }) => from === id);
    const isOther =
      inFile === undefined
        ? known !== undefined && known.to !== this.suppliers.records[supplier]?.id
        : inFile.supplier !== supplier;
    if (!isOther) return undefined;
    this.orders.conflicts += 1;
    const says = inFile === undefined ? "the graph" : `line ${this.options.lineOf(inFile.row)}`;
    return {
      code: "rows-disagree",
      column: this.headerOf("supplier"),
      rule: `An order goes to one supplier; ${says} has another one for order ${this.orders.names[order]}`,
      value: this.suppliers.names[supplier] ?? "",
      remedy: "Correct the supplier, or give the order a number of its own.",
    };
  }

  /** Says of each order what its lines are, those of the graph that no row speaks of included, and how far it is. */
  protected finishOrders(): void {
    for (const [order, fromRows] of this.#lines) {
      const properties = this.orders.records[order]?.properties ?? {};
      const { lines: stored } = properties;
      const lines = new Map<string, OrderLine>();
      for (const line of Array.isArray(stored) ? (stored as OrderLine[]) : []) {
        lines.set(line.part, line);
      }
      for (const { line } of fromRows.values()) {
        // What the rows leave out of a line stays as it is known.
        lines.set(line.part, { ...lines.get(line.part), ...line });
      }
      const sorted = [...lines.values()].sort((a, b) => (a.part < b.part ? -1 : 1));
      this.orders.sayAside(order, "lines", sorted);
      const last =
        sorted
          .map(({ expected = "" }) => expected)
          .sort()
          .at(-1) ?? "";
      if (last !== "") this.orders.sayAside(order, "expected", last);
      if (properties["status"] !== undefined || this.#saysStatus(order)) continue;
      const said = this.orders.said(order);
      const isPlaced = said["placed"] !== undefined || said["expected"] !== undefined;
      this.orders.sayAside(order, "status", isPlaced ? "placed" : "planned");
      const [first] = fromRows.values();
      this.remark("order-status-presumed", first?.row ?? 0);
    }
  }

  #saysStatus(order: number): boolean {
    return this.orders.said(order)["status"] !== undefined;
  }
}
