import type { Cell, CellNote } from "../cells/cell.ts";
import { currencyOf } from "../cells/currencies.ts";
import { type Money, parseMoney } from "../cells/parse-money.ts";
import type { NumberConvention } from "../cells/parse-number.ts";
import { Pairing } from "../propose/pairing.ts";
import type { RowBlock } from "../reading/row-block.ts";
import { showValue } from "../row-fault.ts";
import { CellNumbers } from "./cell-numbers.ts";
import {
  type BlockReader,
  type CellFault,
  type CodedColumn,
  countNote,
  type Fault,
  Growing,
  isFault,
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
  /** Numbers of pairs of a currency's cell and a price's; without a currency's column the price's own number serves. */
  readonly #pairs = new Pairing();
  /** By number: the code of the price, or that there is a fault, and of the currency; then what else was found. */
  readonly #priceOf = new Growing();
  readonly #currencyOf = new Growing();
  readonly #faultOf = new Map<number, Fault>();
  readonly #noteOf = new Map<number, CellNote>();
  #named = new Uint32Array(512);

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
    this.#priceOf.push(0);
    this.#currencyOf.push(0);
  }

  read(block: RowBlock): void {
    const { first, rowCount } = block;
    const prices = this.price.codes;
    const currencies = this.currency.codes;
    this.#priceCells.put(block, prices, first);
    if (rowCount > this.#named.length) this.#named = new Uint32Array(rowCount * 2);
    this.#currencyCells?.put(block, this.#named, 0);
    for (let index = 0; index < rowCount; index += 1) {
      const row = first + index;
      const cell = prices[row] as number;
      if (cell === 0) continue;
      const number =
        this.#currencyCells === undefined
          ? cell
          : this.#pairs.number(this.#named[index] as number, cell) + 1;
      if (number === this.#priceOf.length) {
        this.#readNew(block.cell(index, this.#priceAt), this.#nameIn(block, index), number);
      }
      const code = this.#priceOf.values[number] as number;
      if (code === isFault) {
        prices[row] = 0;
        this.#addFault(row, number, block, index);
        continue;
      }
      prices[row] = code;
      currencies[row] = this.#currencyOf.values[number] as number;
      if (this.#noteOf.size === 0) continue;
      const note = this.#noteOf.get(number);
      if (note) countNote(this.notes, note, row);
    }
  }

  #addFault(row: number, number: number, block: RowBlock, index: number): void {
    const fault = this.#faultOf.get(number);
    if (fault === undefined) return;
    const { code, rule, remedy } = fault;
    const name = this.#nameIn(block, index);
    const shown = showValue(block.cell(index, this.#priceAt));
    const value = name === "" ? shown : `${shown} ${showValue(name)}`;
    this.faults.push({ row, code, rule, remedy, value });
  }

  #nameIn(block: RowBlock, index: number): string {
    return this.#currencyAt === undefined ? "" : block.cell(index, this.#currencyAt).trim();
  }

  #readNew(cell: string, named: string, number: number): void {
    const answer = readOne(cell, named, this.#options);
    const isValue = answer.kind === "value";
    if (answer.kind === "fault") this.#faultOf.set(number, answer);
    else if (isValue && answer.note) this.#noteOf.set(number, answer.note);
    const other = answer.kind === "fault" ? isFault : 0;
    this.#priceOf.push(isValue ? this.#prices.codeOf(answer.value.minor) : other);
    this.#currencyOf.push(isValue ? this.#currencies.codeOf(answer.value.currency) : 0);
  }
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
