import { useSyncExternalStore } from "react";

/** The value of one unit of a currency in the planning currency, as read on a day. */
export interface ExchangeRate {
  readonly currency: string;
  readonly value: number;
  /** ISO day on which it was read; empty where not said. */
  readonly asOf: string;
}

/** What one supplier asks beside its prices, in whole units of the currency. */
export interface SupplierTerms {
  /** Id of the supplier. */
  readonly supplier: string;
  readonly currency: string;
  readonly delivery?: number;
  readonly freeFrom?: number;
  readonly least?: number;
  readonly dutyPercent?: number;
}

/** A minimum list of the reader's own, as CSV text. */
export interface OwnList {
  readonly name: string;
  readonly text: string;
}

/** What a reader sets once, kept in this browser. */
export interface Preferences {
  readonly units: "metric" | "imperial";
  /** The planning currency; empty = as the program finds it in the offers. */
  readonly currency: string;
  readonly rates: readonly ExchangeRate[];
  readonly marginDays: number;
  readonly paper: "A4" | "Letter";
  /** Where phones on the boat's network reach the program, printed on bin labels; empty = this address. */
  readonly labelAddress: string;
  readonly terms: readonly SupplierTerms[];
  readonly ownList: OwnList | null;
}

const usual: Preferences = {
  units: "metric",
  currency: "",
  rates: [],
  marginDays: 0,
  paper: "A4",
  labelAddress: "",
  terms: [],
  ownList: null,
};

const shelf = "sparewright.preferences";

function read(): Preferences {
  try {
    const kept: unknown = JSON.parse(window.localStorage.getItem(shelf) ?? "{}");
    return typeof kept === "object" && kept !== null ? { ...usual, ...kept } : usual;
  } catch {
    return usual;
  }
}

let now: Preferences | undefined;
const listeners = new Set<() => void>();

export const preferences = (): Preferences => {
  now ??= typeof window === "undefined" ? usual : read();
  return now;
};

/** Sets some of them; they hold at once on every page. */
export function setPreferences(changes: Partial<Preferences>): void {
  now = { ...preferences(), ...changes };
  try {
    window.localStorage.setItem(shelf, JSON.stringify(now));
  } catch {
    // Storage may be refused; they then last as long as the page.
  }
  for (const listener of listeners) listener();
}

const subscribe = (listener: () => void) => {
  listeners.add(listener);
  return () => {
    listeners.delete(listener);
  };
};

export const usePreferences = (): Preferences =>
  useSyncExternalStore(subscribe, preferences, () => usual);
