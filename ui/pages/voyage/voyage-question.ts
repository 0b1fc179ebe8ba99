import type { VoyageRequest } from "../../../api/contract/voyage.contract.ts";
import { kitQuestion } from "../crossing/kit-question.ts";

type Query = ReadonlyMap<string, string>;

/** A leg as typed: its port, days, longest days, days of stay there, country. */
export type TypedLeg = NonNullable<VoyageRequest["legs"]>[number];

const days = (text: string | undefined, least: number): number | undefined => {
  const value = Number(text);
  return text !== undefined && text !== "" && value >= least && value <= 3650 ? value : undefined;
};

const plain = (text: string): string => text.replaceAll(/[~|]/g, " ").trim().slice(0, 200);

/** Legs as they stand in the address: `Praia~2~3~4~Cabo Verde|Bridgetown~15~~~`. */
export const writeLegs = (legs: readonly TypedLeg[]): string =>
  legs
    .map(({ to, days: expected, longestDays, stayDays, country }) =>
      [plain(to), expected, longestDays ?? "", stayDays ?? "", plain(country ?? "")].join("~"),
    )
    .join("|");

/** Legs out of an address; one without a port or its days is left out. */
export function readLegs(text: string | undefined): readonly TypedLeg[] {
  return (text ?? "")
    .split("|")
    .slice(0, 40)
    .flatMap((piece): TypedLeg[] => {
      const [to = "", expected, longest, stay, country = ""] = piece.split("~");
      const daysExpected = days(expected, 0.01);
      if (plain(to) === "" || daysExpected === undefined) return [];
      const longestDays = days(longest, 0.01);
      const stayDays = days(stay, 0);
      return [
        {
          to: plain(to),
          days: daysExpected,
          ...(longestDays === undefined ? {} : { longestDays }),
          ...(stayDays === undefined ? {} : { stayDays }),
          ...(plain(country) === "" ? {} : { country: plain(country) }),
        },
      ];
    });
}

/** The voyage asked for, read from the address: the kit's question with legs in place of days. */
export function voyageQuestion(query: Query): VoyageRequest {
  const { daysExpected: _days, daysLongest: _longest, ...kit } = kitQuestion(query);
  const legs = readLegs(query.get("legs"));
  const from = plain(query.get("from") ?? "");
  const stayDays = days(query.get("stay"), 0);
  const reliability = Number(query.get("delivers"));
  return {
    ...kit,
    ...(legs.length === 0 ? {} : { legs: [...legs] }),
    ...(from === "" ? {} : { from }),
    ...(stayDays === undefined ? {} : { stayDays }),
    ...(query.has("delivers") && reliability >= 0 && reliability <= 1 ? { reliability } : {}),
    ...(query.get("abroad") === "yes" ? { fromAbroad: true } : {}),
  };
}
