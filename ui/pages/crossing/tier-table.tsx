import { useMemo } from "react";
import type { KitAnswer } from "../../../api/contract/kit.contract.ts";
import {
  chanceText,
  objectiveText,
  plural,
  sufficiencyText,
  wholeText,
} from "../../components/figures.ts";
import { TierSign } from "../../components/signs.tsx";
import type { Column } from "../../components/table/column.ts";
import { DataTable } from "../../components/table/data-table.tsx";
import type { Explanation } from "../../components/why.tsx";

type Tier = KitAnswer["tiers"][number];

const carried = {
  withKit: "the kit is aboard",
  withAboard: "only what is aboard now is there",
  withNone: "no spare is aboard",
} as const;

/** Why a tier's chance is what it is. */
const whyChance = (tier: Tier, id: keyof typeof carried): Explanation => ({
  what: `On ${sufficiencyText(tier[id])} of such crossings no part of the ${tier.tier} tier is asked for more often than there are pieces, when ${carried[id]}; ${chanceText(1 - tier[id])} runs short of something.`,
  how: `For each of the ${plural(tier.parts, "part")} of the tier: the chance that failures and services ask for no more pieces than are carried and may be taken from gear that can be spared. All of them must hold, so the chances are multiplied.`,
  rests: `${Math.round(tier.assumedShare * 100)} % of the expected demand rests on assumed rates; the rest on measured rates, own history and service intervals.`,
  change:
    "Another target, a shorter crossing, fewer hours a day, or better evidence of how often parts fail. “What if a rate is wrong?” below shows which rates matter.",
});

const chance = (id: keyof typeof carried, name: string, className = ""): Column<Tier> => ({
  id,
  name,
  kind: "number",
  className,
  cell: (tier) => sufficiencyText(tier[id]),
  value: (tier) => tier[id],
  why: (tier) => whyChance(tier, id),
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
  {
    id: "target",
    name: "Target",
    kind: "number",
    cell: ({ target }) => sufficiencyText(target),
    value: ({ target }) => target,
  },
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
