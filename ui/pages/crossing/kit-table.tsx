import { useMemo } from "react";
import type { KitAnswer, KitLine } from "../../../api/contract/kit.contract.ts";
import {
  chanceText,
  measureText,
  moneyAmountText,
  plural,
  sufficiencyText,
  wholeText,
} from "../../components/figures.ts";
import { EvidenceSign, TierSign } from "../../components/signs.tsx";
import type { Column } from "../../components/table/column.ts";
import { DataTable } from "../../components/table/data-table.tsx";
import { LineReasons } from "./line-reasons.tsx";
import { isShown, type ShownLines } from "./shown-lines.ts";

type Money = NonNullable<KitLine["unitPrice"]>;

const moneyCell = (money: Money | undefined, currency: string, isAssumed: boolean) => {
  if (money === undefined) return "–";
  const amount = moneyAmountText(money.minor, money.currency);
  const text = money.currency === currency ? amount : `${amount} ${money.currency}`;
  return isAssumed ? (
    <span className="doubt" title="price assumed">
      about {text}
    </span>
  ) : (
    text
  );
};

const columnsOf = (currency: string): readonly Column<KitLine>[] => [
  {
    id: "part",
    name: "Part",
    kind: "name",
    className: "stick",
    cell: (line) => (
      <>
        <span className="part-number">{line.partNumber}</span>{" "}
        <span className="part-maker">{line.maker}</span>
        <span className="part-description">{line.description}</span>
      </>
    ),
    value: (line) => `${line.partNumber} ${line.maker} ${line.description}`,
  },
  {
    id: "carry",
    name: "Carry",
    kind: "number",
    className: "strong",
    cell: ({ carry }) => (carry === 0 ? "none" : wholeText(carry)),
    value: ({ carry }) => carry,
    why: (line) => ({
      what: `${plural(line.carry, "piece")} of ${line.partNumber} when sailing: ${line.aboard} usable aboard and ${line.buy} to buy.`,
      how: "Of all kits whose parts together reach the targets, the least. A part gets another piece as long as that lowers the chance of running short more, for what it takes, than a piece of any other.",
      rests: line.words,
      change:
        "The target, the days at sea, the rates of its gear, its price, or a part that interchanges with it.",
    }),
  },
  {
    id: "aboard",
    name: "Aboard",
    kind: "number",
    cell: ({ aboard, notUsable }) => (
      <>
        {wholeText(aboard)}
        {notUsable > 0 && <span className="doubt"> +{wholeText(notUsable)} unusable</span>}
      </>
    ),
    value: ({ aboard }) => aboard,
    why: (line) => ({
      what: `${plural(line.aboard, "usable piece")} aboard${line.notUsable > 0 ? `, and ${plural(line.notUsable, "piece")} that cannot be counted` : ""}.`,
      how: "Pieces in any locker whose condition is good and whose date holds past the longest-case arrival and the margin. An unknown date counts as expired.",
      rests: line.stowedIn.length === 0 ? "No lot is known." : line.stowedIn.join("; "),
      change:
        "A count of the locker, a date read from the packet, or a longer or shorter crossing.",
    }),
  },
  {
    id: "buy",
    name: "Buy",
    kind: "number",
    className: "strong",
    cell: ({ buy }) => (buy === 0 ? "–" : wholeText(buy)),
    value: ({ buy }) => buy,
    why: (line) => ({
      what: `${plural(line.buy, "piece")} to buy${line.fromKits > 0 ? `, ${line.fromKits} of them from service kits` : ""}${line.leftover > 0 ? `; ${line.leftover} more than the target needs, since it is sold so` : ""}.`,
      how: "Pieces to carry less the usable ones aboard, rounded up to whole packs, least orders and service kits where these are cheaper or the only way.",
      rests: line.words,
      change: "What is aboard, how it is sold, or anything that changes what must be carried.",
    }),
  },
  {
    id: "none",
    name: "Short with none",
    kind: "number",
    leftOut: "on paper",
    cell: ({ shortWithNone }) => chanceText(shortWithNone),
    value: ({ shortWithNone }) => shortWithNone,
    why: (line) => ({
      what: `With no piece aboard, the chance that ${line.partNumber} is lacking is ${chanceText(line.shortWithNone)}.`,
      how: `The chance that at least one is asked for and none can be taken from other gear; ${measureText(line.meanDemand)} pieces are expected to be asked for.`,
      rests: `Evidence: ${line.evidence}.`,
      change: "Rates of its gear, hours a day, days at sea, or gear that can be spared.",
    }),
  },
  {
    id: "short",
    name: "Short with kit",
    kind: "number",
    cell: ({ shortWithKit }) => chanceText(shortWithKit),
    value: ({ shortWithKit }) => shortWithKit,
    why: (line) => ({
      what: `With ${plural(line.carry, "piece")} carried, ${chanceText(line.shortWithKit)} crossings asks for more of ${line.partNumber} than there are; with none carried, ${chanceText(line.shortWithNone)}.`,
      how: `${measureText(line.meanDemand)} pieces are expected to be asked for. How often more than ${line.carry} are follows from the failures and services of all gear that takes the part${line.credit > 0 ? `, less ${plural(line.credit, "piece")} that may be taken from gear that can be spared` : ""}.`,
      rests: `Evidence: ${line.evidence}${line.assumedShare > 0 ? `; ${Math.round(line.assumedShare * 100)} % of the demand is assumed` : ""}. ${line.words}`,
      change:
        "One piece more or less, another rate for a line of its gear, hours a day, or days at sea. Open the line for its gear.",
    }),
  },
  {
    id: "evidence",
    name: "Evidence",
    cell: ({ evidence }) => <EvidenceSign evidence={evidence} />,
    value: ({ evidence }) => evidence,
  },
  {
    id: "each",
    name: `Each, ${currency}`,
    kind: "number",
    leftOut: "on paper",
    cell: ({ unitPrice, priceAssumed }) => moneyCell(unitPrice, currency, priceAssumed),
    value: ({ unitPrice }) => unitPrice?.minor ?? null,
    why: (line) => ({
      what: line.unitPrice === undefined ? "No price is known." : "What one piece costs.",
      how: line.priceAssumed
        ? "No offer has a price in this currency, or a rate to it: the median of the known prices stands in."
        : `The least price per piece over all offers of the part and of those that interchange with it${line.supplier === undefined ? "" : `, from ${line.supplier}`}.`,
      change: "A newer price list, an exchange rate, or another supplier.",
    }),
  },
  {
    id: "line",
    name: `Line, ${currency}`,
    kind: "number",
    cell: ({ buy, lineCost, priceAssumed }) =>
      buy === 0 ? "–" : moneyCell(lineCost, currency, priceAssumed),
    value: ({ lineCost }) => lineCost?.minor ?? null,
    why: (line) => ({
      what: line.buy === 0 ? "Nothing is bought." : "What the pieces to buy cost.",
      how: "The units bought for this part, whole packs, times their price; a service kit's price is shared out among the parts it is bought for.",
      ...(line.priceAssumed
        ? { rests: "The price is assumed: the median of the known ones." }
        : {}),
      change: "Pieces to buy, price, pack, or supplier.",
    }),
  },
  {
    id: "supplier",
    name: "Supplier",
    cell: ({ supplier, buy, leadTimeDays }) => (
      <>
        {supplier ?? "–"}
        {buy > 0 && leadTimeDays !== undefined && (
          <span className="lead"> {plural(leadTimeDays, "day")}</span>
        )}
      </>
    ),
    value: ({ supplier }) => supplier ?? null,
  },
  {
    id: "stowed",
    name: "Stowed in",
    cell: ({ stowedIn }) => (stowedIn.length === 0 ? "–" : stowedIn.join(", ")),
  },
];

const detail = {
  words: (line: KitLine) => `Why ${line.partNumber} ${line.description}`,
  show: (line: KitLine) => <LineReasons line={line} />,
} as const;

/** The kit, tier by tier; each line opens to say why it is there. */
export function KitTable({
  answer,
  shown,
  part,
}: {
  readonly answer: KitAnswer;
  readonly shown: ShownLines;
  /** A part whose line is wanted open. */
  readonly part?: string;
}) {
  const columns = useMemo(() => columnsOf(answer.currency), [answer.currency]);
  const wanted = answer.lines.find(
    (line) => line.part.id === part || line.alternates.some(({ id }) => id === part),
  )?.part.id;
  const groups = useMemo(
    () =>
      answer.tiers
        .map((tier) => {
          const rows = answer.lines.filter(
            (line) => line.tier === tier.tier && isShown(line, shown),
          );
          return {
            key: tier.tier,
            rows,
            heading: (
              <span className="group-name">
                <TierSign tier={tier.tier} /> {plural(rows.length, "part")}, not short with the kit:{" "}
                {sufficiencyText(tier.withKit)} (target {sufficiencyText(tier.target)})
              </span>
            ),
          };
        })
        .filter(({ rows }) => rows.length > 0),
    [answer, shown],
  );
  return (
    <DataTable
      caption="The kit, part by part"
      className="kit-box"
      sorts
      columns={columns}
      rows={groups}
      rowKey={(line) => line.part.id}
      rowClass={(line) => (line.buy > 0 ? "to-buy" : "")}
      detail={detail}
      {...(wanted === undefined ? {} : { opened: wanted })}
    />
  );
}
