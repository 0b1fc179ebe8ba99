import type { KitRequest } from "../../../api/contract/kit.contract.ts";
import { minorDigits } from "../../../graph-schema/minor-digits.ts";
import { kitQuestion } from "./kit-question.ts";

type Query = ReadonlyMap<string, string>;

/** Room in one locker; what is not said is left to the locker's stated capacity. */
export interface LockerLimit {
  readonly locker: string;
  readonly litres?: number;
  readonly kg?: number;
}

/** What may be bought at most, as it stands in the address: whole units of money, kilograms, litres. */
export interface Limits {
  readonly money?: { readonly amount: number; readonly currency: string };
  readonly kg?: number;
  readonly litres?: number;
  readonly lockers: readonly LockerLimit[];
}

/** Most lockers a kit can be stowed in, as the program takes them. */
export const mostLockers = 20;

const amount = (text: string | undefined): number | undefined => {
  const value = Number(text);
  return text !== undefined && text !== "" && value >= 0 && value <= 1e9 ? value : undefined;
};

/** The limits in an address; what is none is left out. */
export function readLimits(query: Query): Limits {
  const money = /^(\d+(?:\.\d+)?)([A-Z]{3})$/.exec(query.get("mostmoney") ?? "");
  const spend = amount(money?.[1]);
  const kg = amount(query.get("mostkg"));
  const litres = amount(query.get("mostlitres"));
  const lockers = (query.get("stow") ?? "")
    .split(",")
    .filter((text) => text !== "")
    .slice(0, mostLockers)
    .map((text): LockerLimit => {
      const [locker = "", room, load] = text.split("~");
      const [inLitres, inKg] = [amount(room), amount(load)];
      return {
        locker,
        ...(inLitres === undefined ? {} : { litres: inLitres }),
        ...(inKg === undefined ? {} : { kg: inKg }),
      };
    });
  return {
    ...(spend === undefined || money?.[2] === undefined
      ? {}
      : { money: { amount: spend, currency: money[2] } }),
    ...(kg === undefined ? {} : { kg }),
    ...(litres === undefined ? {} : { litres }),
    lockers,
  };
}

/** Lockers as they stand in the address. */
export const writeLockers = (lockers: readonly LockerLimit[]): string =>
  lockers.map(({ locker, litres, kg }) => `${locker}~${litres ?? ""}~${kg ?? ""}`).join(",");

/** How many limits are set. */
export const limitCount = ({ money, kg, litres, lockers }: Limits): number =>
  [money, kg, litres].filter((limit) => limit !== undefined).length + lockers.length;

/** The kit asked for within the limits of the address. Of plans that know no limits, ask `kitQuestion`. */
export function cappedQuestion(query: Query): KitRequest {
  const limits = readLimits(query);
  const { money, kg, litres, lockers } = limits;
  if (limitCount(limits) === 0) return kitQuestion(query);
  return {
    ...kitQuestion(query),
    caps: {
      ...(money === undefined
        ? {}
        : {
            cost: {
              minor: Math.round(money.amount * 10 ** minorDigits(money.currency)),
              currency: money.currency,
            },
          }),
      ...(kg === undefined ? {} : { massKg: kg }),
      ...(litres === undefined ? {} : { volumeLitres: litres }),
      ...(lockers.length === 0
        ? {}
        : {
            lockers: lockers.map((one) => ({
              locker: one.locker,
              ...(one.litres === undefined ? {} : { volumeLitres: one.litres }),
              ...(one.kg === undefined ? {} : { massKg: one.kg }),
            })),
          }),
    },
  };
}
