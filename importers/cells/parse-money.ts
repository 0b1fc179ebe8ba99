import { minorDigits } from "../../graph-schema/index.ts";
import { type Cell, type CellNote, emptyCell, faultCell, isNothing, valueCell } from "./cell.ts";
import { currencyOf } from "./currencies.ts";
import { roughly, roughNote } from "./figure-range.ts";
import { type NumberConvention, parseNumber } from "./parse-number.ts";

/** An amount in whole minor units (cents) with its ISO 4217 code. */
export interface Money {
  readonly minor: number;
  readonly currency: string;
}

export interface MoneyRule {
  readonly convention: NumberConvention;
  /** Currency of a bare figure: from the row's currency column, the header, or the file as a whole. */
  readonly currency?: string | undefined;
}

/** Told wherever a bare $ was taken for US dollars. */
export const dollarPresumed: CellNote = {
  code: "dollar-presumed",
  text: "A bare $ was read as US dollars (USD). If it means another dollar, give the file's currency (--currency).",
};

/** Words that stand where a price would, for none given. */
const onRequest =
  /^(?:n\.?\s?c\.?|p\.?o\.?a\.?|t\.?b\.?[ac]\.?|(?:price )?on (?:request|application)|ask|(?:auf|a\.) ?anfrage|a\.a\.|sur demande|nous consulter|a consultar|consultar|bajo pedido|op aanvraag|(?:prijs )?n\.?o\.?t\.?k\.?|su richiesta|sob consulta)$/iu;
const range = /\d\s*(?:[-–—]|\bto\b|\bbis\b|à|\btot\b)\s*\D{0,3}\d/u;
/** "12.-" and "12,--": no cents. */
const roundAmount = /(\d)[.,]\s?[-–—]+/;
const figureWithin = /[+\-−–(]?\s*\d(?:[\d.,]|[ '’\u00a0\u2007\u2009\u202f](?=\d))*\)?/;

/**
 * An amount of money: a figure with a sign or code on either side ("€ 12.50", "12,50 €", "EUR 1.234,50", "12.-").
 * Rules: a bare figure needs the currency of its column, row or file, else `currency-missing`. $ takes the
 * given currency if that is a dollar, else USD, noted. kr, ¥ and fr take the given currency if they can mean it,
 * else `currency-ambiguous`. More decimals than ISO 4217 gives the currency are a fault unless they are zeros.
 */
export function parseMoney(cell: string, rule: MoneyRule): Cell<Money> {
  const exact = cell.trim().replace(roundAmount, "$1");
  if (isNothing(exact) || onRequest.test(exact)) return emptyCell;
  const text = exact.replace(roughly, "");
  const note = text === exact ? undefined : roughNote;
  if (range.test(text)) {
    return faultCell(
      "money-unreadable",
      "A price must be one figure; this is a range",
      "Write the figure to reckon with, the upper end to be on the safe side.",
    );
  }
  const found = figureWithin.exec(text);
  const unreadable = faultCell(
    "money-unreadable",
    "A price must be one figure with its currency beside it",
    'Write it like "12.50 EUR" or "€ 12,50"; leave the cell empty if the price is not known.',
  );
  if (found === null) return unreadable;
  const before = text.slice(0, found.index).trim();
  const after = text.slice(found.index + found[0].length).trim();
  if (before !== "" && after !== "" && before.toLowerCase() !== after.toLowerCase()) {
    const [first, second] = [currencyOf(before), currencyOf(after)];
    const agree =
      (first.kind === "shared" && second.kind === "one" && first.among.includes(second.currency)) ||
      (second.kind === "shared" && first.kind === "one" && second.among.includes(first.currency));
    if (!agree) return unreadable;
  }
  const negativeSign = /^-\s*/.exec(before);
  const signs = [before.replace(/^[-−]\s*/, ""), after].filter((sign) => sign !== "");
  const currency = decideCurrency(signs, rule.currency);
  if (currency.kind !== "value") return currency.kind === "fault" ? currency : unreadable;
  const digits = minorDigits(currency.value);
  const amount = parseAmount(found[0], rule.convention, digits);
  if (amount.kind !== "value") return amount;
  const value = negativeSign ? -amount.value : amount.value;
  if (value < 0) {
    return faultCell(
      "number-out-of-range",
      "A price must not be below zero",
      "Correct the sign, or leave the cell empty if the price is not known.",
    );
  }
  const scaled = value * 10 ** digits;
  const minor = Math.round(scaled);
  if (Math.abs(scaled - minor) > 1e-6 * Math.max(1, scaled)) {
    return faultCell(
      "money-unreadable",
      `A price in ${currency.value} has at most ${digits} decimals (ISO 4217)`,
      `Round it to ${digits} decimals, or price a larger pack.`,
    );
  }
  if (!Number.isSafeInteger(minor)) return unreadable;
  return valueCell({ minor, currency: currency.value }, currency.note ?? note);
}

/** A figure of money: three decimals can only be thousands where the currency has two or none. */
function parseAmount(figure: string, convention: NumberConvention, digits: number): Cell<number> {
  const mark = /^\D*[1-9]\d{0,2}([.,])\d{3}\D*$/.exec(figure)?.[1];
  const undecided = convention === "unknown" || (convention === "point-presumed" && mark === ",");
  if (undecided && digits < 3 && mark !== undefined) {
    return parseNumber(figure.replace(/[.,]/, ""), { convention });
  }
  return parseNumber(figure, { convention });
}

function decideCurrency(signs: readonly string[], given: string | undefined): Cell<string> {
  if (signs.length === 0) {
    if (given !== undefined) return valueCell(given);
    return faultCell(
      "currency-missing",
      "A price must name its currency",
      'Add a sign or code ("12.50 EUR"), a currency column, or a header like "Price (EUR)", or give the file\'s currency (--currency).',
    );
  }
  let shared: Extract<ReturnType<typeof currencyOf>, { kind: "shared" }> | undefined;
  for (const sign of signs) {
    const means = currencyOf(sign);
    if (means.kind === "one") {
      if (given !== undefined && given !== means.currency) {
        return faultCell(
          "currency-ambiguous",
          `A price must be in one currency; the cell says ${means.currency}, its column or row ${given}`,
          "Correct one of the two.",
        );
      }
      return valueCell(means.currency);
    }
    if (means.kind === "unknown") {
      return faultCell(
        "money-unreadable",
        "A price must be one figure with a currency sign or an ISO 4217 code beside it",
        `"${sign}" is not a currency we know; write its three-letter code, and keep remarks in a column of their own.`,
      );
    }
    shared = means;
  }
  if (shared === undefined) return emptyCell;
  if (given !== undefined && shared.among.includes(given)) return valueCell(given);
  if (shared.sign === "$" && given === undefined) return valueCell("USD", dollarPresumed);
  return faultCell(
    "currency-ambiguous",
    `A price must name one currency; "${shared.sign}" may mean ${shared.among.slice(0, 4).join(", ")}`,
    "Write the three-letter code, or give the file's currency (--currency).",
  );
}
