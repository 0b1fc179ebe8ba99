import type { TypedModel } from "../../../api/contract/what-if.contract.ts";
import { decimalsFault, inMinor, inWhole } from "../../components/money.ts";
import { readFigure } from "../../components/read-figure.ts";
import { massUnit } from "../../components/units.ts";
import type { Needs } from "./choice-question.ts";

/** A make as it is being typed. */
export interface MakeDraft {
  readonly maker: string;
  readonly designation: string;
  readonly price: string;
  readonly currency: string;
  readonly mass: string;
  readonly can: Needs;
  readonly parts: string;
  readonly offers: string;
  /** The make in the address it is to stand in place of; none for a new one. */
  readonly instead: string;
}

type Field = "maker" | "designation" | "price" | "currency" | "mass";
export type DraftFaults = Partial<Record<Field, string>>;

export const emptyDraft = (currency: string): MakeDraft => ({
  maker: "",
  designation: "",
  price: "",
  currency,
  mass: "",
  can: {},
  parts: "",
  offers: "",
  instead: "",
});

const kgPerPound = 0.45359237;

/** A make that was typed before, to be edited. */
export function draftOf(
  make: TypedModel,
  token: string,
  usualCurrency: string,
  units: "metric" | "imperial",
): MakeDraft {
  const { maker, designation, priceMinor, currency = usualCurrency, massKg, can = {} } = make;
  const perKg = units === "metric" ? 1 : 1 / kgPerPound;
  return {
    maker,
    designation,
    price: priceMinor === undefined ? "" : String(inWhole(priceMinor, currency)),
    currency,
    mass: massKg === undefined ? "" : String(Number((massKg * perKg).toPrecision(6))),
    can: can as Needs,
    parts: make.partsCsv ?? "",
    offers: make.offersCsv ?? "",
    instead: token,
  };
}

/** The make a draft describes, or what is missing or wrong, field by field. */
export function makeOfDraft(
  draft: MakeDraft,
  units: "metric" | "imperial",
): { readonly make: TypedModel } | { readonly faults: DraftFaults } {
  const faults: Partial<Record<Field, string>> = {};
  const [maker, designation] = [draft.maker.trim(), draft.designation.trim()];
  if (maker === "") faults.maker = "Say who makes it.";
  if (designation === "") faults.designation = "Say what its maker calls it.";
  const currency = draft.currency.trim().toUpperCase();
  if (!/^[A-Z]{3}$/.test(currency)) faults.currency = "Write three letters, as EUR.";
  const price = readFigure(draft.price, 1e9);
  if (typeof price === "string") faults.price = price;
  else if (price === 0)
    faults.price = "A price of 0 counts as none: leave it empty where it is not known.";
  else if (price !== undefined && faults.currency === undefined) {
    const fault = decimalsFault(price, currency);
    if (fault !== undefined) faults.price = fault;
  }
  const mass = readFigure(draft.mass, 1e6);
  if (typeof mass === "string") faults.mass = mass;
  if (Object.keys(faults).length > 0 || typeof price === "string" || typeof mass === "string")
    return { faults };
  const kg = mass === undefined ? undefined : mass * (massUnit(units) === "kg" ? 1 : kgPerPound);
  return {
    make: {
      maker,
      designation,
      currency,
      ...(price === undefined ? {} : { priceMinor: inMinor(price, currency) }),
      ...(kg === undefined ? {} : { massKg: Number(kg.toPrecision(9)) }),
      ...(Object.keys(draft.can).length === 0 ? {} : { can: { ...draft.can } }),
      ...(draft.parts.trim() === "" ? {} : { partsCsv: draft.parts }),
      ...(draft.offers.trim() === "" ? {} : { offersCsv: draft.offers }),
    },
  };
}

const shelf = "sparewright.make-draft";

/** The draft left behind by a reload of this tab. */
export function keptDraft(): MakeDraft | undefined {
  try {
    const kept: unknown = JSON.parse(window.sessionStorage.getItem(shelf) ?? "null");
    return typeof kept === "object" && kept !== null ? { ...emptyDraft(""), ...kept } : undefined;
  } catch {
    return undefined;
  }
}

export function keepDraft(draft: MakeDraft | undefined): void {
  try {
    if (draft === undefined) window.sessionStorage.removeItem(shelf);
    else window.sessionStorage.setItem(shelf, JSON.stringify(draft));
  } catch {
    // Storage may be refused; the draft then lasts as long as the page.
  }
}
