import {
  failureEffects,
  rarityClasses,
  rateBases,
  rateSources,
} from "../../../../graph-schema/index.ts";
import type { Snapshot } from "../../../scoring/snapshot/snapshot.ts";
import { codes, numberOf, numbers, yesNos } from "./cells.ts";
import type { Row } from "./row-source.ts";

/** The properties of a parts-list line that say what is on it, in the order `listColumns` reads them. */
export const listProperties = ["quantity", "failureEffect", "fittableAtSea"] as const;

/** Their columns; unstated: a failure stops the item, the part can be fitted at sea. */
export const listColumns = (
  rows: readonly Row[],
): Pick<Snapshot["uses"], (typeof listProperties)[number]> => ({
  quantity: numbers(rows, 0),
  failureEffect: codes(rows, 1, failureEffects, 0, 0),
  fittableAtSea: yesNos(rows, 2, 1),
});

/** The properties of a parts-list line that the picture needs, in the order `usesColumns` reads them. */
export const usesProperties = [
  ...listProperties,
  "rate",
  "rateBasis",
  "mtbfHours",
  "meanLifeHours",
  "weibullShape",
  "usedCount",
  "usedOverYears",
  "rarity",
  "rateSource",
  "rateConfirmed",
] as const;
const at = (name: (typeof usesProperties)[number]): number => usesProperties.indexOf(name);

/** A rate is kept per thousand hours; a mean time between failures becomes one where no rate is stated. */
const perThousandHours = 1;

/** All columns of USES. */
export function usesColumns(rows: readonly Row[]): Omit<Snapshot["uses"], "start" | "target"> {
  const rate = numbers(rows, at("rate"));
  const rateBasis = codes(rows, at("rateBasis"), rateBases, 1, 0);
  rows.forEach((row, line) => {
    const hours = numberOf(row[at("mtbfHours")]);
    const stated = rate[line] ?? Number.NaN;
    if (Number.isNaN(stated) && !Number.isNaN(hours)) {
      rate[line] = 1000 / hours;
      rateBasis[line] = perThousandHours;
    }
  });
  return {
    ...listColumns(rows),
    rate,
    rateBasis,
    meanLifeHours: numbers(rows, at("meanLifeHours")),
    weibullShape: numbers(rows, at("weibullShape")),
    usedCount: numbers(rows, at("usedCount")),
    usedOverYears: numbers(rows, at("usedOverYears")),
    rarity: codes(rows, at("rarity"), rarityClasses, 1, 0),
    rateSource: codes(rows, at("rateSource"), rateSources, 1, 0),
    rateConfirmed: yesNos(rows, at("rateConfirmed"), 0),
  };
}
