import { useMemo } from "react";
import type { KitAnswer } from "../../../api/contract/kit.contract.ts";
import { objectiveText, sufficiencyText, wholeText } from "../../components/figures.ts";
import { TierSign } from "../../components/signs.tsx";
import type { Column } from "../../components/table/column.ts";
import { DataTable } from "../../components/table/data-table.tsx";

type Tier = KitAnswer["tiers"][number];

const chance = (
  id: "withKit" | "target" | "withAboard" | "withNone",
  name: string,
  className = "",
): Column<Tier> => ({
  id,
  name,
  kind: "number",
  className,
  cell: (tier) => sufficiencyText(tier[id]),
  value: (tier) => tier[id],
});

const columnsOf = ({ objective, currency }: KitAnswer): readonly Column<Tier>[] => [
  {
    id: "tier",
    name: "Tier",
    kind: "name",
    cell: ({ tier }) => <TierSign tier={tier} />,
    value: ({ tier }) => tier,
  },
  chance("withKit", "With the kit", "strong"),
  chance("target", "Target"),
  {
    id: "reached",
    name: "Reached",
    cell: (tier) =>
      tier.withKit >= tier.target - 1e-9 ? (
        <span className="met">✓ reached</span>
      ) : (
        <span className="unmet">✕ no more than {sufficiencyText(tier.reachable)} can be</span>
      ),
    value: (tier) => (tier.withKit >= tier.target - 1e-9 ? "reached" : "not reached"),
  },
  chance("withAboard", "Aboard now"),
  chance("withNone", "With none"),
  {
    id: "cost",
    name: "To buy",
    kind: "number",
    cell: ({ cost }) => objectiveText(cost, objective, currency),
    value: ({ cost }) => cost,
  },
  { id: "parts", name: "Parts", kind: "number", cell: ({ parts }) => wholeText(parts) },
  {
    id: "assumed",
    name: "On assumed rates",
    kind: "number",
    cell: ({ assumedShare }) => `${Math.round(assumedShare * 100)} %`,
    value: ({ assumedShare }) => assumedShare,
  },
];

/** Each tier's chance of not running short: with no spares, with those aboard, with the kit. */
export function TierTable({ answer }: { readonly answer: KitAnswer }) {
  const columns = useMemo(() => columnsOf(answer), [answer]);
  return (
    <DataTable
      caption="Chance of not running short, by tier"
      captionShown
      columns={columns}
      rows={answer.tiers}
      rowKey={({ tier }) => tier}
    />
  );
}
