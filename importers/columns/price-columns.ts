import type { Cell } from "../cells/cell.ts";
import { currencyOf } from "../cells/currencies.ts";
import { type Money, parseMoney } from "../cells/parse-money.ts";
import type { NumberConvention } from "../cells/parse-number.ts";
import { showValue } from "../row-fault.ts";
import {
  type BlockReader,
  type CellFault,
  type CodedColumn,
  countNote,
  type NoteCount,
  ValueCodes,
} from "./coded-column.ts";

export interface PriceOptions {
  readonly convention: NumberConvention;
  /** Currency the header names, or the file as a whole. */
  readonly given: string | undefined;
}

/**
 * Reads prices with the currency of their row: from the row's currency column if there is one, else the header or
 * the file, else the cell itself. A currency that is not one of ISO 4217's is a fault of its row.
 */
export class PriceReader implements BlockReader {
  readonly price: CodedColumn;
  readonly currency: CodedColumn;
  readonly faults: CellFault[] = [];
  readonly notes = new Map<string, NoteCount>();
  readonly #priceAt: number;
  readonly #currencyAt: number | undefined;
  readonly #options: PriceOptions;
  readonly #prices = new ValueCodes();
  readonly #currencies = new ValueCodes();
  readonly #seen = new Map<string, Map<string, SeenPrice>>();
  #lastNamed = "";
  #lastSeen: Map<string, SeenPrice> | undefined;

  constructor(
    priceAt: number,
    currencyAt: number | undefined,
    rowLimit: number,
    options: PriceOptions,
  ) {
    this.#priceAt = priceAt;
    this.#currencyAt = currencyAt;
    this.#options = options;
    this.price = { codes: new Uint32Array(rowLimit), values: this.#prices.values };
    this.currency = { codes: new Uint32Array(rowLimit), values: this.#currencies.values };
  }

  read(rows: readonly (readonly string[])[], first: number): void {
    for (let index = 0; index < rows.length; index += 1) {
      const row = first + index;
      const cells = rows[index] as readonly string[];
      const cell = cells[this.#priceAt] as string;
      if (cell === "") continue;
      const named = this.#currencyAt === undefined ? "" : (cells[this.#currencyAt] ?? "").trim();
      const seen = this.#price(cell, named);
      if (seen.answer.kind === "fault") {
        const { code, rule, remedy } = seen.answer;
        const value = named === "" ? showValue(cell) : `${showValue(cell)} ${showValue(named)}`;
        this.faults.push({ row, code, rule, remedy, value });
        continue;
      }
      this.price.codes[row] = seen.price;
      this.currency.codes[row] = seen.currency;
      if (seen.answer.kind === "value" && seen.answer.note) {
        countNote(this.notes, seen.answer.note, row);
      }
    }
  }

  #price(cell: string, named: string): SeenPrice {
    let seen = named === this.#lastNamed ? this.#lastSeen : this.#seen.get(named);
    if (seen === undefined) {
      seen = new Map();
      this.#seen.set(named, seen);
    }
    this.#lastNamed = named;
    this.#lastSeen = seen;
    const before = seen.get(cell);
    if (before !== undefined) return before;
    const answer = readOne(cell, named, this.#options);
    const isValue = answer.kind === "value";
    const price = {
      answer,
      price: isValue ? this.#prices.codeOf(answer.value.minor) : 0,
      currency: isValue ? this.#currencies.codeOf(answer.value.currency) : 0,
    };
    seen.set(cell, price);
    return price;
  }
}

/** A price cell read once: the answer and the codes of its amount and currency. */
interface SeenPrice {
  readonly answer: Cell<Money>;
  readonly price: number;
  readonly currency: number;
}

function readOne(cell: string, named: string, { convention, given }: PriceOptions): Cell<Money> {
  if (named === "") return parseMoney(cell, { convention, currency: given });
  const means = currencyOf(named);
  if (means.kind === "one") return parseMoney(cell, { convention, currency: means.currency });
  if (means.kind === "shared") {
    if (given !== undefined && means.among.includes(given)) {
      return parseMoney(cell, { convention, currency: given });
    }
    return parseMoney(/\d\s*$/.test(cell) ? `${cell} ${named}` : cell, { convention });
  }
  return {
    kind: "fault",
    code: "currency-missing",
    rule: "A currency must be a three-letter code of ISO 4217 or a sign we know",
    remedy: 'Write it as a code, such as "EUR".',
  };
}
