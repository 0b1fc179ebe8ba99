import { InvalidArgumentError } from "commander";
import { minorDigits } from "../../graph-schema/index.ts";
import { readNumber } from "./read-options.ts";

export interface MoneyTyped {
  readonly minor: number;
  readonly currency: string;
}

export interface LockerTyped {
  readonly locker: string;
  readonly massKg?: number;
  readonly volumeLitres?: number;
}

export interface TierWeights {
  readonly safety: number;
  readonly passage: number;
  readonly comfort: number;
}

/** `2000EUR`, `EUR 2000`, `2 000,50 EUR`: an amount and its currency, in minor units. */
export function readMoney(text: string): MoneyTyped {
  const code = text.match(/[A-Za-z]{3}/)?.[0]?.toUpperCase();
  const digits = text.replace(/[A-Za-z\s\u00a0\u202f]/g, "");
  if (code === undefined || !/^-?\d+([.,]\d{1,3})?$/.test(digits))
    throw new InvalidArgumentError("It must be an amount with its currency, such as 2000EUR.");
  const value = readNumber(digits);
  const minor = Math.round(value * 10 ** minorDigits(code));
  if (Math.abs(minor - value * 10 ** minorDigits(code)) > 1e-6)
    throw new InvalidArgumentError(`${code} has ${minorDigits(code)} digits after the point.`);
  return { minor, currency: code };
}

/** `LOCKER`, `LOCKER=40l`, `LOCKER=40l,20kg`, gathered over repeated options; the last = parts the two. */
export function gatherLocker(text: string, known: readonly LockerTyped[] = []): LockerTyped[] {
  const at = text.lastIndexOf("=");
  const locker = (at < 0 ? text : text.slice(0, at)).trim();
  if (locker === "") throw new InvalidArgumentError('It must name a locker: "Saloon > Box 3=40l".');
  let massKg: number | undefined;
  let volumeLitres: number | undefined;
  const typed = at < 0 ? "" : text.slice(at + 1);
  const sized = /(-?\d+(?:[.,]\d+)?)\s*(kg|litres?|liters?|l)\b/gi;
  if (at >= 0 && (typed.trim() === "" || typed.replace(sized, "").replace(/[\s,;]/g, "") !== ""))
    throw new InvalidArgumentError('It must be litres, kilograms or both: "Box 3=40l,20kg".');
  for (const [, amount = "", unit = ""] of typed.matchAll(sized)) {
    if (unit.toLowerCase() === "kg") massKg = readNumber(amount);
    else volumeLitres = readNumber(amount);
  }
  return [
    ...known,
    {
      locker,
      ...(massKg === undefined ? {} : { massKg }),
      ...(volumeLitres === undefined ? {} : { volumeLitres }),
    },
  ];
}

/** `1,1,0.25`: weights of safety, passage and comfort. */
export function readWeights(text: string): TierWeights {
  const [safety, passage, comfort, ...rest] = text.split(/[,;\s]+/).filter((word) => word !== "");
  if (safety === undefined || passage === undefined || comfort === undefined || rest.length > 0)
    throw new InvalidArgumentError("It must be three numbers, such as 1,1,0.25.");
  return {
    safety: readNumber(safety),
    passage: readNumber(passage),
    comfort: readNumber(comfort),
  };
}
