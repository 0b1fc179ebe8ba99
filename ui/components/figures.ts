import {
  massIn,
  massUnit,
  moneyDigits,
  roomIn,
  roomUnit,
  type UnitSystem,
} from "../../graph-schema/amounts.ts";
import { minorDigits } from "../../graph-schema/minor-digits.ts";

/**
 * How figures are written on the screen. Digits follow what the figure can bear; probabilities of
 * not running short are rounded down, so that none is shown better than it is.
 */

/** 0.97, 0.998: as many decimals as the first digit of the shortfall needs (two at least, five at most), rounded down. */
export function sufficiencyText(p: number): string {
  if (!(p >= 0)) return "unknown";
  if (p >= 1) return "1";
  if (p >= 0.99999) return "0.99999";
  if (p < 0.01) return "under 0.01";
  const decimals = Math.min(5, Math.max(2, Math.ceil(-Math.log10(1 - p) - 0.05)));
  const factor = 10 ** decimals;
  return (Math.floor(p * factor + 1e-6) / factor).toFixed(decimals);
}

/** Two digits at most, rounded down: a chance of 1 in so many is never shown smaller than it is. */
const twoDigits = (n: number) => {
  const magnitude = 10 ** Math.max(0, Math.floor(Math.log10(n)) - 1);
  return Math.floor(n / magnitude + 1e-9) * magnitude;
};

/** Making a format takes longer than using it a hundred times, and a page writes thousands of figures. */
const formats = new Map<string, Intl.NumberFormat>();

/** A number with a point for decimals and thin spaces between thousands, as in the program's sentences. */
function spaced(n: number, options: Intl.NumberFormatOptions): string {
  const key = `${options.maximumSignificantDigits} ${options.minimumFractionDigits}`;
  let format = formats.get(key);
  if (format === undefined) {
    format = new Intl.NumberFormat("en", options);
    formats.set(key, format);
  }
  return format.format(n).replaceAll(",", "\u202f");
}

/** "1 in 40" for a small chance, "0.35" for a large one, "under 1 in a million", "none". */
export function chanceText(p: number): string {
  if (!(p >= 0)) return "unknown";
  if (p === 0) return "none";
  if (p < 1e-6) return "under 1 in a million";
  if (p >= 0.2) return (Math.ceil(p * 100 - 1e-9) / 100).toFixed(2);
  return `1 in ${wholeText(twoDigits(1 / p))}`;
}

export const wholeText = (n: number): string => spaced(Math.round(n), {});

/** Three significant digits at most, for means and masses. */
export const measureText = (n: number): string =>
  spaced(n, { maximumSignificantDigits: n >= 100 ? 4 : n >= 1 ? 3 : 2 });

export const indexText = (n: number | null): string => (n === null ? "–" : n.toFixed(2));

/** The amount without its currency, for columns whose header names it. */
export const moneyAmountText = moneyDigits;

/** The amount in whole units with its code, where cents do not matter. */
export function moneyRoundText(minor: number, currency: string): string {
  const digits = minorDigits(currency);
  return `${wholeText(minor / 10 ** digits)} ${currency}`;
}

export type Objective = "cost" | "mass" | "volume" | "pieces";

/** What is minimised, in words with its unit. */
export const objectiveUnit = (
  objective: Objective,
  currency: string,
  units: UnitSystem = "metric",
): string =>
  ({ cost: currency, mass: massUnit(units), volume: roomUnit(units), pieces: "pieces" })[objective];

/** Kits are weighed in cents, grams, millilitres or pieces: how many make one of the unit people use. */
export const objectiveScale = (
  objective: Objective,
  currency: string,
  units: UnitSystem = "metric",
): number =>
  ({
    cost: 10 ** minorDigits(currency),
    mass: 1000 / massIn(1, units),
    volume: 1000 / roomIn(1, units),
    pieces: 1,
  })[objective];

export const objectiveText = (
  amount: number,
  objective: Objective,
  currency: string,
  units: UnitSystem = "metric",
): string => {
  const value = amount / objectiveScale(objective, currency, units);
  const text =
    objective === "mass" || objective === "volume" ? measureText(value) : wholeText(value);
  return `${text} ${objectiveUnit(objective, currency, units)}`;
};

/** 12 Jan 2027 for an ISO day; dates are kept in UTC so that a day never slips. */
export const dayText = (iso: string): string =>
  dayFormat.format(new Date(`${iso.slice(0, 10)}T00:00:00Z`));

const dayFormat = new Intl.DateTimeFormat("en-GB", {
  day: "numeric",
  month: "short",
  year: "numeric",
  timeZone: "UTC",
});

export const plural = (n: number, one: string, many = `${one}s`): string =>
  `${wholeText(n)} ${n === 1 ? one : many}`;
