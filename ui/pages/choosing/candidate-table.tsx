import { useMemo } from "react";
import type { ChoiceCandidate, ChooseAnswer } from "../../../api/contract/choose.contract.ts";
import { moneyAmountText, plural, sufficiencyText, wholeText } from "../../components/figures.ts";
import { TierSign } from "../../components/signs.tsx";
import type { Column } from "../../components/table/column.ts";
import { DataTable } from "../../components/table/data-table.tsx";

type Money = NonNullable<ChoiceCandidate["price"]>;

const moneyText = (money: Money | null | undefined, currency: string): string =>
  money === null || money === undefined
    ? "not known"
    : `${moneyAmountText(money.minor, money.currency)}${money.currency === currency ? "" : ` ${money.currency}`}`;

const counted = (
  id: "newParts" | "goneParts" | "newKits" | "newSuppliers",
  name: string,
): Column<ChoiceCandidate> => ({
  id,
  name,
  kind: "number",
  cell: (candidate) => {
    const value = candidate[id];
    return value === null ? "–" : value > 0 && id !== "goneParts" ? `+${value}` : wholeText(value);
  },
  value: (candidate) => candidate[id],
});

const columnsOf = ({ currency }: ChooseAnswer): readonly Column<ChoiceCandidate>[] => [
  {
    id: "model",
    name: "Make",
    kind: "name",
    className: "stick",
    cell: ({ model, maker, fittedNow }) => (
      <>
        <span className="part-number">{model.name}</span>{" "}
        <span className="part-maker">{model.name.startsWith(maker) ? "" : maker}</span>
        {fittedNow > 0 && <span className="part-description">fitted now</span>}
      </>
    ),
    value: ({ model }) => model.name,
  },
  {
    id: "rank",
    name: "Rank",
    kind: "number",
    cell: ({ rank }) => rank ?? "–",
    value: ({ rank }) => rank,
  },
  {
    id: "boat",
    name: `Gear and kit, ${currency}`,
    kind: "number",
    className: "strong",
    cell: ({ boat }) => moneyText(boat, currency),
    value: ({ boat }) => boat?.minor ?? null,
    why: (candidate) => ({
      what: candidate.words,
      how: `The price of all units, ${moneyText(candidate.priceAll, currency)}, and the least spares kit of the whole boat with this make fitted, ${moneyText(candidate.kit?.cost, currency)}, both at the same targets.`,
      rests: `${plural(candidate.partsListed, "part")} on its list${candidate.partsWithoutEvidence > 0 ? `, ${candidate.partsWithoutEvidence} of them without evidence of failing: not provided for` : ""}${(candidate.kit?.priceAssumedPieces ?? 0) > 0 ? `; prices of ${candidate.kit?.priceAssumedPieces} pieces are assumed` : ""}.`,
      ...(candidate.breakEven.length === 0
        ? {}
        : {
            change: candidate.breakEven
              .map(
                ({ against, price }) =>
                  `At ${moneyText(price, currency)} a unit it would cost the same as ${against.name}.`,
              )
              .join(" "),
          }),
    }),
  },
  {
    id: "price",
    name: `A unit, ${currency}`,
    kind: "number",
    cell: ({ price }) => moneyText(price, currency),
    value: ({ price }) => price?.minor ?? null,
  },
  {
    id: "kit",
    name: `Kit beyond today's, ${currency}`,
    kind: "number",
    cell: ({ kit, kitUnknown }) =>
      kit === null ? (kitUnknown ?? "not known") : moneyText(kit.extra, currency),
    value: ({ kit }) => kit?.extra?.minor ?? null,
  },
  counted("newParts", "New parts"),
  counted("goneParts", "Parts gone"),
  counted("newKits", "Kits"),
  counted("newSuppliers", "Suppliers"),
  {
    id: "lead",
    name: "Slowest part, days",
    kind: "number",
    cell: ({ worstLeadTimeDays }) =>
      worstLeadTimeDays === null ? "not known" : wholeText(worstLeadTimeDays),
    value: ({ worstLeadTimeDays }) => worstLeadTimeDays,
  },
];

type FunctionRow = ChoiceCandidate["functions"][number];

const functionColumns: readonly Column<FunctionRow>[] = [
  { id: "function", name: "Function", kind: "name", cell: (row) => row.function.name },
  {
    id: "tier",
    name: "Tier",
    cell: ({ tier }) => <TierSign tier={tier} />,
    value: ({ tier }) => tier,
  },
  {
    id: "protection",
    name: "At the same targets",
    kind: "number",
    cell: ({ atEqualProtection }) => sufficiencyText(atEqualProtection),
  },
  {
    id: "spend",
    name: "For today's money",
    kind: "number",
    cell: ({ atEqualSpend }) => sufficiencyText(atEqualSpend),
  },
];

const detail = {
  words: ({ model }: ChoiceCandidate) => `More about ${model.name}`,
  show: (candidate: ChoiceCandidate) => (
    <div className="why">
      <p>{candidate.words}</p>
      <p className="said">
        {candidate.singleSourceParts > 0 &&
          `${plural(candidate.singleSourceParts, "part has", "parts have")} one source only. `}
        {candidate.unsoldParts > 0 &&
          `${plural(candidate.unsoldParts, "part is", "parts are")} sold by nobody. `}
        {candidate.slowestPart !== null && `Slowest to come: ${candidate.slowestPart}. `}
        {candidate.donorChance !== null &&
          `When a failure stops one, other gear that can be spared holds the part in ${sufficiencyText(candidate.donorChance)} of cases.`}
      </p>
      {candidate.functions.length > 0 && (
        <DataTable
          caption={`Functions with ${candidate.model.name}`}
          className="why-table"
          columns={functionColumns}
          rows={candidate.functions}
          rowKey={(row) => row.function.id}
        />
      )}
    </div>
  ),
} as const;

/** The makes side by side, the cheapest boat first; each opens to its functions and what is doubtful about it. */
export function CandidateTable({ answer }: { readonly answer: ChooseAnswer }) {
  const columns = useMemo(() => columnsOf(answer), [answer]);
  return (
    <DataTable
      caption="Makes side by side"
      className="kit-box"
      sorts
      columns={columns}
      rows={answer.candidates}
      rowKey={({ model }) => model.id}
      rowClass={({ rank }) => (rank === 1 ? "chosen" : "")}
      detail={detail}
    />
  );
}
