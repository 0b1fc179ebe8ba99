import type { KitRequest } from "../../../api/contract/kit.contract.ts";
import { whatIfOf } from "../../components/imagined/imagined-changes.ts";
import { readRates } from "./money-terms.ts";

type Query = ReadonlyMap<string, string>;

const positive = (text: string | undefined, most: number): number | undefined => {
  const value = Number(text);
  return text !== undefined && value > 0 && value <= most ? value : undefined;
};

const probability = (text: string | undefined): number | undefined => {
  const value = Number(text);
  return text !== undefined && value > 0 && value < 1 ? value : undefined;
};

const objectives = ["cost", "mass", "volume", "pieces"] as const;

/** The kit asked for, read from the address; what the address does not say is left to the program. */
export function kitQuestion(query: Query): KitRequest {
  const vessel = query.get("vessel");
  const crossing = query.get("crossing");
  const daysExpected = positive(query.get("days"), 3650);
  const daysLongest = positive(query.get("longest"), 3650);
  const safety = probability(query.get("safety"));
  const passage = probability(query.get("passage"));
  const comfort = probability(query.get("comfort"));
  const objective = objectives.find((name) => name === query.get("least"));
  const marginDays = Number(query.get("margin"));
  const currency = query.get("currency")?.toUpperCase();
  const rates = readRates(query.get("rates"));
  const targets = {
    ...(safety === undefined ? {} : { safety }),
    ...(passage === undefined ? {} : { passage }),
    ...(comfort === undefined ? {} : { comfort }),
  };
  const whatIf = whatIfOf(query);
  return {
    ...(whatIf === undefined ? {} : { whatIf }),
    ...(vessel === undefined ? {} : { vessel }),
    ...(crossing === undefined ? {} : { crossing }),
    ...(daysExpected === undefined ? {} : { daysExpected }),
    ...(daysLongest === undefined ? {} : { daysLongest }),
    ...(Object.keys(targets).length === 0 ? {} : { targets }),
    ...(objective === undefined ? {} : { objective }),
    ...(query.get("rule") === "each part" ? { rule: "each part" as const } : {}),
    ...(query.get("robbing") === "no" ? { robbing: false } : {}),
    ...(query.get("aboard") === "no" ? { ignoreAboard: true } : {}),
    ...(query.get("confirmed") === "yes" ? { confirmedOnly: true } : {}),
    ...(marginDays > 0 && marginDays <= 365 ? { marginDays } : {}),
    ...(currency !== undefined && /^[A-Z]{3}$/.test(currency) ? { currency } : {}),
    ...(Object.keys(rates).length === 0 ? {} : { rates }),
  };
}
