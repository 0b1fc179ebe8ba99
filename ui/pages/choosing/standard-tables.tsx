import { useMemo } from "react";
import type { StandardiseAnswer } from "../../../api/contract/standardise.contract.ts";
import { measureText, moneyAmountText, wholeText } from "../../components/figures.ts";
import type { Column } from "../../components/table/column.ts";
import { DataTable } from "../../components/table/data-table.tsx";

type Money = StandardiseAnswer["changeCost"];
type Step = StandardiseAnswer["sequence"][number];
type Opportunity = StandardiseAnswer["opportunities"][number];

const amount = (money: Money | null): string =>
  money === null ? "out of reach" : moneyAmountText(money.minor, money.currency);

interface Side {
  readonly figure: string;
  readonly before: string;
  readonly after: string;
}

const sideColumns: readonly Column<Side>[] = [
  {
    id: "figure",
    name: "Figure",
    kind: "name",
    className: "name-wraps",
    cell: ({ figure }) => figure,
  },
  { id: "before", name: "Before", kind: "number", cell: ({ before }) => before },
  { id: "after", name: "After", kind: "number", className: "strong", cell: ({ after }) => after },
];

/** Kits, suppliers and money as they are and as they would be. */
export function SidesTable({ answer }: { readonly answer: StandardiseAnswer }) {
  const { before, after, currency, horizonYears } = answer;
  const rows: readonly Side[] = [
    {
      figure: `Kits at the same protection, ${currency}`,
      before: amount(before.kit),
      after: amount(after.kit),
    },
    {
      figure: "Different spares kits",
      before: wholeText(before.kits),
      after: wholeText(after.kits),
    },
    {
      figure: "Suppliers, at least",
      before: wholeText(before.suppliers),
      after: wholeText(after.suppliers),
    },
    {
      figure: `Charges a year, ${currency}`,
      before: amount(before.yearly),
      after: amount(after.yearly),
    },
    { figure: `The changes, ${currency}`, before: "–", after: amount(answer.changeCost) },
    {
      figure: `In all over ${measureText(horizonYears)} years, ${currency}`,
      before: amount(before.total),
      after: amount(after.total),
    },
  ];
  return (
    <DataTable
      caption="Before and after the changes"
      captionShown
      columns={sideColumns}
      rows={rows}
      rowKey={({ figure }) => figure}
    />
  );
}

const paybackText = (years: number | null): string =>
  years === null ? "never" : years === 0 ? "at once" : measureText(years);

const stepColumns = (
  currency: string,
  order: ReadonlyMap<Step, number>,
): readonly Column<Step>[] => [
  {
    id: "step",
    name: "Step",
    kind: "number",
    cell: (step) => order.get(step) ?? "",
    value: (step) => order.get(step) ?? null,
  },
  {
    id: "change",
    name: "Change",
    kind: "name",
    className: "stick name-wraps",
    cell: ({ from, to, vessel }) => (
      <>
        <span className="part-number">{to.name}</span> in place of {from.name}{" "}
        <span className="part-description">{vessel.name}</span>
      </>
    ),
    value: ({ from, to, vessel }) => `${to.name} in place of ${from.name}, ${vessel.name}`,
  },
  {
    id: "where",
    name: "Where",
    kind: "wordy",
    cell: ({ positions, category }) => `${category}: ${positions.join(", ")}`,
  },
  {
    id: "cost",
    name: `Costs, ${currency}`,
    kind: "number",
    cell: ({ cost }) => amount(cost),
    value: ({ cost }) => cost.minor,
  },
  {
    id: "kit",
    name: `Kits less by, ${currency}`,
    kind: "number",
    cell: ({ kitSaving }) => amount(kitSaving),
    value: ({ kitSaving }) => kitSaving.minor,
    why: ({ words }) => ({
      what: words,
      how: "The kits of all vessels are solved again, exactly, with this step and those before it taken, at the same targets.",
    }),
  },
  {
    id: "yearly",
    name: `A year less by, ${currency}`,
    kind: "number",
    cell: ({ yearlySaving }) => amount(yearlySaving),
    value: ({ yearlySaving }) => yearlySaving.minor,
  },
  {
    id: "payback",
    name: "Pays by itself within, years",
    kind: "number",
    cell: ({ paybackYears }) => paybackText(paybackYears),
    value: ({ paybackYears }) => paybackYears,
  },
];

/** The changes, in the order in which they pay best. */
export function StepTable({ answer }: { readonly answer: StandardiseAnswer }) {
  const columns = useMemo(
    () => stepColumns(answer.currency, new Map(answer.sequence.map((step, at) => [step, at + 1]))),
    [answer],
  );
  return (
    <DataTable
      caption="Changes in the order that pays best"
      className="kit-box"
      columns={columns}
      rows={answer.sequence}
      rowKey={({ vessel, from, to, positions }) =>
        `${vessel.id} ${from.id} ${to.id} ${positions.join()}`
      }
    />
  );
}

const opportunityColumns = ({
  currency,
  horizonYears,
}: StandardiseAnswer): readonly Column<Opportunity>[] => [
  {
    id: "change",
    name: "Change",
    kind: "name",
    className: "stick name-wraps",
    cell: ({ by, replace }) => (
      <>
        <span className="part-number">{by.name}</span>{" "}
        <span className="part-description">in place of {replace.name}</span>
      </>
    ),
    value: ({ by, replace }) => `${by.name} in place of ${replace.name}`,
  },
  { id: "items", name: "Items", kind: "number", cell: ({ items }) => items },
  {
    id: "back",
    name: "Brings back, %",
    kind: "number",
    className: "strong",
    cell: ({ savingPerCost }) =>
      savingPerCost === null ? "not known" : wholeText(100 * savingPerCost),
    value: ({ savingPerCost }) => savingPerCost,
    why: ({ words }) => ({
      what: words,
      how: `What the change saves on the kits and on ${measureText(horizonYears)} years of charges, over what it costs.`,
    }),
  },
  {
    id: "cost",
    name: `Costs, ${currency}`,
    kind: "number",
    cell: ({ changeCost }) => amount(changeCost),
    value: ({ changeCost }) => changeCost.minor,
  },
  {
    id: "kit",
    name: `Kits less by, ${currency}`,
    kind: "number",
    cell: ({ kitSaving }) => (kitSaving === null ? "not known" : amount(kitSaving)),
    value: ({ kitSaving }) => kitSaving?.minor ?? null,
  },
  {
    id: "yearly",
    name: `A year less by, ${currency}`,
    kind: "number",
    cell: ({ yearlySaving }) => amount(yearlySaving),
    value: ({ yearlySaving }) => yearlySaving.minor,
  },
  { id: "gone", name: "Parts gone", kind: "number", cell: (row) => row.partsVanishing },
  { id: "new", name: "New parts", kind: "number", cell: (row) => row.partsAdded },
  { id: "kits", name: "Kits gone", kind: "number", cell: (row) => row.kitsVanishing },
  {
    id: "suppliers",
    name: "Suppliers gone",
    kind: "number",
    cell: (row) => row.suppliersVanishing,
  },
];

/** One make for another, kind by kind, whether it pays or not. */
export function OpportunityTable({ answer }: { readonly answer: StandardiseAnswer }) {
  const columns = useMemo(() => opportunityColumns(answer), [answer]);
  const groups = useMemo(
    () =>
      [...new Set(answer.opportunities.map(({ category }) => category))].map((category) => ({
        key: category,
        heading: <span className="group-name">{category}</span>,
        rows: answer.opportunities.filter((one) => one.category === category),
      })),
    [answer],
  );
  return (
    <DataTable
      caption="One make for another, kind by kind"
      className="kit-box"
      sorts
      columns={columns}
      rows={groups}
      rowKey={({ replace, by }) => `${replace.id} ${by.id}`}
    />
  );
}
