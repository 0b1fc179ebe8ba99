import { type Command, Option } from "commander";
import type { UnitSystem } from "../../graph-schema/index.ts";
import type { KitRequest } from "../contract/kit.contract.ts";
import type { GlobalOptions } from "./open-graph.ts";
import {
  gatherLocker,
  type LockerTyped,
  type MoneyTyped,
  readMoney,
  readWeights,
  type TierWeights,
} from "./read-caps.ts";
import { gatherRate, given, readNumber } from "./read-options.ts";
import {
  addWhatIfOptions,
  type WhatIfOptions,
  whatIfMember,
  whatIfOptionName,
} from "./what-if-options.ts";

/** What says which kit is meant, as commander gives it. */
export interface KitOptions extends GlobalOptions, WhatIfOptions {
  readonly vessel?: string;
  readonly crossing?: string;
  readonly days?: number;
  readonly longest?: number;
  readonly departs?: string;
  readonly margin?: number;
  readonly targetSafety?: number;
  readonly targetPassage?: number;
  readonly targetComfort?: number;
  readonly objective?: string;
  readonly rule?: string;
  readonly robbing: boolean;
  readonly confirmedOnly?: boolean;
  readonly currency?: string;
  readonly rate?: Readonly<Record<string, number>>;
  readonly maxCost?: MoneyTyped;
  readonly maxKg?: number;
  readonly maxLitres?: number;
  readonly lockerCap?: readonly LockerTyped[];
  readonly least?: string;
  readonly aim?: string;
  readonly weights?: TierWeights;
  readonly seconds?: number;
  readonly units?: UnitSystem;
}

/** Option of each member of the request, so that a fault names what was typed. */
const optionNames: Readonly<Record<string, string>> = {
  "/daysExpected": "--days",
  "/daysLongest": "--longest",
  "/marginDays": "--margin",
  "/targets/safety": "--target-safety",
  "/targets/passage": "--target-passage",
  "/targets/comfort": "--target-comfort",
  "/caps/cost/minor": "--max-cost",
  "/caps/cost/currency": "--max-cost",
  "/caps/massKg": "--max-kg",
  "/caps/volumeLitres": "--max-litres",
};

/** The option that a place in the request came from. */
export const kitOptionName = (pointer: string): string =>
  optionNames[pointer] ??
  (pointer.startsWith("/caps/lockers") ? "--locker-cap" : undefined) ??
  whatIfOptionName(pointer) ??
  (pointer.startsWith("/rates") ? "--rate" : pointer.replace(/^\/(\w+).*/, "--$1"));

/** The members of the request that were typed, not yet checked. */
export function kitMembers(options: KitOptions): { [K in keyof KitRequest]?: unknown } {
  const targets = given({
    safety: options.targetSafety,
    passage: options.targetPassage,
    comfort: options.targetComfort,
  });
  const caps = given({
    cost: options.maxCost,
    massKg: options.maxKg,
    volumeLitres: options.maxLitres,
    lockers: options.lockerCap,
  });
  return given({
    vessel: options.vessel,
    crossing: options.crossing,
    departs: options.departs,
    daysExpected: options.days,
    daysLongest: options.longest,
    marginDays: options.margin,
    targets: Object.keys(targets).length === 0 ? undefined : targets,
    objective: options.least ?? options.objective,
    rule: options.rule,
    robbing: options.robbing ? undefined : false,
    confirmedOnly: options.confirmedOnly,
    currency: options.currency?.toUpperCase(),
    rates: options.rate,
    units: options.units,
    whatIf: whatIfMember(options),
    caps: Object.keys(caps).length === 0 ? undefined : caps,
    aim: options.aim,
    weights: options.weights,
    seconds: options.seconds,
  });
}

/** Adds the options that say what may be bought and stowed at most. */
export function addCapOptions(command: Command): Command {
  return command
    .option("--max-cost <money>", "most money to spend, such as 2000EUR", readMoney)
    .option("--max-kg <kg>", "most kilograms to buy", readNumber)
    .option("--max-litres <litres>", "most litres to buy", readNumber)
    .option(
      "--locker-cap <locker>",
      'stow all that is bought here, such as "Saloon > Box 3=40l" or "=40l,20kg"; its stated room when bare',
      gatherLocker,
    )
    .addOption(
      new Option("--least <what>", "keep this least at the targets, within the caps").choices([
        "cost",
        "mass",
        "volume",
      ]),
    )
    .addOption(
      new Option("--aim <aim>", "the least at the targets, or the most the caps allow").choices([
        "least",
        "most",
      ]),
    )
    .option(
      "--weights <three>",
      "weights of the tiers where the most is sought, 1,1,0.25",
      readWeights,
    )
    .option("--seconds <time>", "time allowed for the proof, 20 when absent", readNumber);
}

/** Adds the options that say which kit is meant. */
export function addKitOptions(command: Command): Command {
  return addWhatIfOptions(command)
    .option("--vessel <name>", "id or name; the first that sails when absent")
    .option("--crossing <name>", "id or name; the next crossing when absent")
    .option("--days <days>", "days the crossing should take", readNumber)
    .option("--longest <days>", "days of the longest case; the kit is sized on it", readNumber)
    .option("--departs <date>", "day of departure, YYYY-MM-DD")
    .option("--margin <days>", "days after arrival for which dates must still hold", readNumber)
    .option("--target-safety <chance>", "chance of not running short, .99 when absent", readNumber)
    .option("--target-passage <chance>", "the same, .95 when absent", readNumber)
    .option("--target-comfort <chance>", "the same, .80 when absent", readNumber)
    .option("--objective <what>", "what to keep least: cost, mass, volume or pieces")
    .option("--rule <rule>", '"kit" (the whole tier) or "each part"')
    .option("--no-robbing", "parts are not taken from redundant gear")
    .option("--confirmed-only", "only confirmed interchange makes two parts one")
    .option("--currency <code>", "currency to reckon in, such as EUR")
    .option("--rate <pair>", "what another currency is worth, such as USD=0.92", gatherRate)
    .addOption(
      new Option(
        "--units <system>",
        "weight and room in kilograms and litres, or pounds and cubic feet",
      ).choices(["metric", "imperial"]),
    );
}
