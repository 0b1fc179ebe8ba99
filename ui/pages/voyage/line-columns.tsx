import type { VoyageAnswer } from "../../../api/contract/voyage.contract.ts";
import {
  chanceText,
  measureText,
  plural,
  sufficiencyText,
  wholeText,
} from "../../components/figures.ts";
import type { Column } from "../../components/table/column.ts";

type Line = VoyageAnswer["departures"][number]["lines"][number];

/** The chances that a part must last one, two ... legs, where there is more than one such chance. */
function lastingWords({ lasts }: Line): string {
  const told = lasts.flatMap((chance, at) =>
    chance > 0 ? [`${plural(at + 1, "leg")} ${sufficiencyText(chance)}`] : [],
  );
  return told.length <= 1 ? "" : ` Chance that it must last so far: ${told.join(", ")}.`;
}

const fromStock: readonly Column<Line>[] = [
  {
    id: "aboard",
    name: "Aboard",
    kind: "number",
    cell: ({ aboard }) => wholeText(aboard),
    value: ({ aboard }) => aboard,
  },
  {
    id: "buy",
    name: "Buy",
    kind: "number",
    className: "strong",
    cell: ({ buy }) => (buy === 0 ? "–" : wholeText(buy)),
    value: ({ buy }) => buy,
    why: (line) => ({
      what: `${plural(line.buy, "piece")} of ${line.part.name} to buy before the first departure.`,
      how: `${line.carry} to carry less ${line.aboard} usable aboard, by the piece.`,
      change: "What is aboard, or anything that changes what must be carried.",
    }),
  },
];

/** Columns of the kit at a departure: the first counts what is aboard, a port of call tops up. */
export const lineColumns = (isFirst: boolean): readonly Column<Line>[] => [
  {
    id: "part",
    name: "Part",
    kind: "name",
    className: "stick name-wraps",
    cell: ({ part, description }) => (
      <>
        <span className="part-number">{part.name}</span>{" "}
        <span className="part-description">{description}</span>
      </>
    ),
    value: ({ part, description }) => `${part.name} ${description}`,
  },
  {
    id: "carry",
    name: isFirst ? "Carry" : "Top up to",
    kind: "number",
    className: "strong",
    cell: ({ carry }) => wholeText(carry),
    value: ({ carry }) => carry,
    why: (line) => ({
      what: `${plural(line.carry, "piece")} of ${line.part.name} when sailing, meant to last to ${line.lastsTo}.`,
      how: `${measureText(line.meanDemand)} are expected to be asked for until a port that supplies the part delivers it. The number is part of the least kit that reaches every tier's target from this departure.${lastingWords(line)}`,
      change:
        "A port that supplies the part, a longer stay there, surer delivery, a shorter leg, or another target.",
    }),
  },
  ...(isFirst ? fromStock : []),
  {
    id: "short",
    name: "Short with kit",
    kind: "number",
    cell: ({ shortWithKit }) => chanceText(shortWithKit),
    value: ({ shortWithKit }) => shortWithKit,
    why: (line) => ({
      what: `With ${plural(line.carry, "piece")} when sailing, the chance is ${chanceText(line.shortWithKit)} that more of ${line.part.name} are asked for before it can be had again.`,
      how: `${measureText(line.meanDemand)} are expected to be asked for; how often it is more than ${line.carry} follows from the failures and services of all gear that takes the part, over the legs it must last.${lastingWords(line)}`,
      change: "One piece more or less, another rate, hours a day, or days of the legs.",
    }),
  },
  { id: "lasts", name: "Meant to last to", cell: ({ lastsTo }) => lastsTo },
];
