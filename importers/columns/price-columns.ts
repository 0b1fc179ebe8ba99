import type { Cell } from "../cells/cell.ts";
import { currencyOf } from "../cells/currencies.ts";
import { type Money, parseMoney } from "../cells/parse-money.ts";
import type { NumberConvention } from "../cells/parse-number.ts";
import type { RowBlock } from "../reading/row-block.ts";
import { showValue } from "../row-fault.ts";
import { CellNumbers } from "./cell-numbers.ts";
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
  readonly #priceCells: CellNumbers;
  readonly #currencyCells: CellNumbers | undefined;
  /** By number of the currency's cell (0 if there is none), then of the price's. */
  readonly #seen: (SeenPrice | undefined)[][] = [];

  constructor(
    priceAt: number,
    currencyAt: number | undefined,
    rowLimit: number,
    options: PriceOptions,
  ) {
    this.#priceAt = priceAt;
    this.#currencyAt = currencyAt;
    this.#options = options;
    this.#priceCells = new CellNumbers(priceAt);
    this.#currencyCells = currencyAt === undefined ? undefined : new CellNumbers(currencyAt);
    this.price = { codes: new Uint32Array(rowLimit), values: this.#prices.values };
    this.currency = { codes: new Uint32Array(rowLimit), values: this.#currencies.values };
  }

  read(block: RowBlock): void {
    const { first, rowCount } = block;
    const cells = this.#priceCells.of(block);
    const currencies = this.#currencyCells?.of(block);
    for (let index = 0; index < rowCount; index += 1) {
      const cell = cells[index] as number;
      if (cell === 0) continue;
      const named = currencies === undefined ? 0 : (currencies[index] as number);
      let ofCurrency = this.#seen[named];
      if (ofCurrency === undefined) {
        ofCurrency = [];
        this.#seen[named] = ofCurrency;
      }
      let seen = ofCurrency[cell];
      if (seen === undefined) {
        seen = this.#readNew(block.cell(index, this.#priceAt), this.#nameIn(block, index));
        ofCurrency[cell] = seen;
      }
      const row = first + index;
      if (seen.answer.kind === "fault") {
        const { code, rule, remedy } = seen.answer;
        const name = this.#nameIn(block, index);
        const shown = showValue(block.cell(index, this.#priceAt));
        const value = name === "" ? shown : `${shown} ${showValue(name)}`;
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

  #nameIn(block: RowBlock, index: number): string {
    return this.#currencyAt === undefined ? "" : block.cell(index, this.#currencyAt).trim();
  }

  #readNew(cell: string, named: string): SeenPrice {
    const answer = readOne(cell, named, this.#options);
    const isValue = answer.kind === "value";
    return {
      answer,
      price: isValue ? this.#prices.codeOf(answer.value.minor) : 0,
      currency: isValue ? this.#currencies.codeOf(answer.value.currency) : 0,
    };
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
