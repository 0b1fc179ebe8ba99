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
import type { Units } from "../../components/units.ts";
import type { Explanation } from "../../components/why.tsx";
import { usePreferences } from "../../data/preferences.ts";

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

const columnsOf = ({
  objective,
  currency,
  isCapped,
  units,
}: Pick<KitAnswer, "objective" | "currency"> & {
  readonly isCapped: boolean;
  readonly units: Units;
}): readonly Column<Tier>[] => [
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
    why: (tier) => ({
      what: `The ${tier.tier} tier is asked not to run short on ${sufficiencyText(tier.target)} of such crossings: short on ${chanceText(1 - tier.target)}.`,
      how: "Chosen, not reckoned. Where nothing is said it is 0.99 for safety, 0.95 for passage and 0.80 for comfort.",
      change: "The slider, the box beside it, or a point of the curve “What more sureness costs”.",
    }),
  },
  {
    id: "reached",
    name: "Reached",
    cell: (tier) =>
      tier.withKit >= tier.target - 1e-9 ? (
        <span className="met">✓ reached</span>
      ) : (
        <span className="unmet">
          {isCapped && tier.reachable >= tier.target
            ? "✕ not within the caps"
            : `✕ no more than ${sufficiencyText(tier.reachable)} can be`}
        </span>
      ),
    value: (tier) => (tier.withKit >= tier.target - 1e-9 ? "reached" : "not reached"),
  },
  chance("withAboard", "Aboard now"),
  chance("withNone", "With none"),
  {
    id: "cost",
    name: "To buy",
    kind: "number",
    cell: ({ cost }) => objectiveText(cost, objective, currency, units),
    value: ({ cost }) => cost,
    why: (tier) => ({
      what: `What is bought for the ${tier.tier} tier comes to ${objectiveText(tier.cost, objective, currency, units)}.`,
      how: "Pieces to buy for the parts of this tier, each at its share of the pack or service kit it comes in, added up.",
      change:
        "A lower target, pieces already aboard, another price, or gear that shares its parts.",
    }),
  },
  {
    id: "parts",
    name: "Parts",
    kind: "number",
    cell: ({ parts }) => wholeText(parts),
    value: ({ parts }) => parts,
    why: (tier) => ({
      what: `${plural(tier.parts, "part")} of the gear can stop or degrade a function of the ${tier.tier} tier.`,
      how: "Parts that interchange are counted as one. A part belongs to the strictest function it can stop; where it only degrades, one tier looser.",
      rests:
        "Parts with a rate, a life, a history, a service or a rarity class. Those without evidence are listed below and not counted.",
      change: "Another parts list, another tier of a function, or interchange that is confirmed.",
    }),
  },
  {
    id: "assumed",
    name: "On assumed rates",
    kind: "number",
    cell: ({ assumedShare }) => `${Math.round(assumedShare * 100)} %`,
    value: ({ assumedShare }) => assumedShare,
    why: (tier) => ({
      what: `${Math.round(tier.assumedShare * 100)} % of the pieces expected to be asked for in the ${tier.tier} tier rest on rates nobody has measured.`,
      how: "Expected pieces from assumed rates, divided by all expected pieces of the tier.",
      change:
        "A rate from the maker, an own history kept by recording what is used, or a service interval.",
    }),
  },
];

/** Each tier's chance of not running short: with no spares, with those aboard, with the kit. */
export function TierTable({ answer }: { readonly answer: KitAnswer }) {
  const { units } = usePreferences();
  const columns = useMemo(
    () => columnsOf({ ...answer, isCapped: answer.sale.caps.length > 0, units }),
    [answer, units],
  );
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
