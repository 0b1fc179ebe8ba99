import type { Cell } from "../cells/cell.ts";
import { currencyOf } from "../cells/currencies.ts";
import { type Money, parseMoney } from "../cells/parse-money.ts";
import type { NumberConvention } from "../cells/parse-number.ts";
import { showValue } from "../row-fault.ts";
import type { Scalar } from "./cell-reader.ts";
import type { CellFault, CodedColumn, ReadColumn } from "./coded-column.ts";

export interface PriceColumns {
  readonly price: ReadColumn;
  readonly currency: CodedColumn;
}

export interface PriceOptions {
  readonly convention: NumberConvention;
  /** Currency the header names, or the file as a whole. */
  readonly given: string | undefined;
}

/**
 * Reads prices with the currency of their row: from the row's currency column if there is one, else the header or
 * the file, else the cell itself. A currency that is not one of ISO 4217's is a fault of its row.
 */
export function readPrices(
  rows: readonly (readonly string[])[],
  priceAt: number,
  currencyAt: number | undefined,
  options: PriceOptions,
): PriceColumns {
  const price = new Coder(rows.length);
  const currency = new Coder(rows.length);
  const faults: CellFault[] = [];
  const notes: Map<
    string,
    { note: { code: string; text: string }; count: number; firstRow: number }
  > = new Map();
  const byCurrency = new Map<string, Map<string, Cell<Money>>>();
  for (let row = 0; row < rows.length; row += 1) {
    const cell = rows[row]?.[priceAt] ?? "";
    if (cell === "") continue;
    const named = currencyAt === undefined ? "" : (rows[row]?.[currencyAt] ?? "").trim();
    let seen = byCurrency.get(named);
    if (seen === undefined) {
      seen = new Map();
      byCurrency.set(named, seen);
    }
    let answer = seen.get(cell);
    if (answer === undefined) {
      answer = readOne(cell, named, options);
      seen.set(cell, answer);
    }
    if (answer.kind === "empty") continue;
    if (answer.kind === "fault") {
      const { code, rule, remedy } = answer;
      const value = named === "" ? showValue(cell) : `${showValue(cell)} ${showValue(named)}`;
      faults.push({ row, code, rule, remedy, value });
      continue;
    }
    price.set(row, answer.value.minor);
    currency.set(row, answer.value.currency);
    if (answer.note) {
      const before = notes.get(answer.note.code);
      if (before) before.count += 1;
      else notes.set(answer.note.code, { note: answer.note, count: 1, firstRow: row });
    }
  }
  return {
    price: { codes: price.codes, values: price.values, faults, notes },
    currency: { codes: currency.codes, values: currency.values },
  };
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

/** Values and their codes as they are met. */
class Coder {
  readonly codes: Uint32Array;
  readonly values: Scalar[] = [""];
  readonly #known = new Map<Scalar, number>();

  constructor(length: number) {
    this.codes = new Uint32Array(length);
  }

  set(row: number, value: Scalar): void {
    let code = this.#known.get(value);
    if (code === undefined) {
      code = this.values.length;
      this.values.push(value);
      this.#known.set(value, code);
    }
    this.codes[row] = code;
  }
}
