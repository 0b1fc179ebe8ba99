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
  },
  {
    id: "buy",
    name: "Buy",
    kind: "number",
    className: "strong",
    cell: ({ buy }) => (buy === 0 ? "–" : wholeText(buy)),
    value: ({ buy }) => buy,
  },
  {
    id: "none",
    name: "Short with none",
    kind: "number",
    leftOut: "on paper",
    cell: ({ shortWithNone }) => chanceText(shortWithNone),
    value: ({ shortWithNone }) => shortWithNone,
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
  },
  {
    id: "line",
    name: `Line, ${currency}`,
    kind: "number",
    cell: ({ buy, lineCost, priceAssumed }) =>
      buy === 0 ? "–" : moneyCell(lineCost, currency, priceAssumed),
    value: ({ lineCost }) => lineCost?.minor ?? null,
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
