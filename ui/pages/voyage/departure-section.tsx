import { useMemo } from "react";
import type { VoyageAnswer } from "../../../api/contract/voyage.contract.ts";
import {
  dayText,
  measureText,
  moneyAmountText,
  plural,
  sufficiencyText,
  wholeText,
} from "../../components/figures.ts";
import { TierSign } from "../../components/signs.tsx";
import type { Column } from "../../components/table/column.ts";
import { DataTable } from "../../components/table/data-table.tsx";
import { massText, massUnit, type Units } from "../../components/units.ts";
import { WhyNumber } from "../../components/why.tsx";
import { lineColumns } from "./line-columns.tsx";

type Departure = VoyageAnswer["departures"][number];
type Tier = Departure["tiers"][number];

const tierColumns: readonly Column<Tier>[] = [
  {
    id: "tier",
    name: "Tier",
    kind: "name",
    cell: ({ tier }) => <TierSign tier={tier} />,
    value: ({ tier }) => tier,
  },
  {
    id: "kit",
    name: "With the kit",
    kind: "number",
    className: "strong",
    cell: ({ withKit }) => sufficiencyText(withKit),
    value: ({ withKit }) => withKit,
    why: (tier) => ({
      what: `On ${sufficiencyText(tier.withKit)} of such voyages nothing of the ${tier.tier} tier that is on this list runs short before it can be had again.`,
      how: `The chances of the ${plural(tier.parts, "part")} on this list, multiplied. Parts a later port does not supply are on the list of an earlier departure.`,
      change: "Another target, shorter legs, fewer hours a day, or better evidence.",
    }),
  },
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
    cell: ({ parts, withKit, target, reachable }) =>
      parts === 0 ? (
        "nothing on this list"
      ) : withKit >= target - 1e-9 ? (
        <span className="met">✓ reached</span>
      ) : (
        <span className="unmet">✕ no more than {sufficiencyText(reachable)} can be</span>
      ),
    value: ({ withKit, target }) => (withKit >= target - 1e-9 ? "reached" : "not reached"),
  },
  { id: "parts", name: "Parts", kind: "number", cell: ({ parts }) => wholeText(parts) },
];

/** What the port lends to the kit, in a sentence. */
const supplyWords = ({ from, supplies }: Departure): string =>
  supplies.suppliers.length === 0
    ? `Nobody known supplies in ${from}${supplies.country === "" ? ", whose country is not known," : ""} within ${plural(supplies.stayDays, "day")} in port.`
    : `${supplies.suppliers.join(", ")} can deliver in ${from} within ${plural(supplies.stayDays, "day")}: ${plural(supplies.parts, "part")} the gear asks for.`;

/** What the kit of a departure comes to; each figure opens its reason. */
function KitSum({
  departure: { from, kit },
  isFirst,
  units,
}: {
  readonly departure: Departure;
  readonly isFirst: boolean;
  readonly units: Units;
}) {
  const how = isFirst
    ? "Of all kits that reach the targets from this departure the least: its pieces to buy, by the piece, added up."
    : "The level of every part this port supplies, as if none were left on arrival, added up. What is left over need not be bought again.";
  const figure = (what: string, text: string, rests?: string) => (
    <WhyNumber
      name={`${what} when leaving ${from}`}
      explain={() => ({
        what: isFirst
          ? `${text} to buy, beside what is aboard.`
          : `At most ${text} to top up with.`,
        how,
        ...(rests === undefined ? {} : { rests }),
        change: "Another target, other legs, or a port that supplies more of the parts.",
      })}
    >
      {text}
    </WhyNumber>
  );
  return (
    <>
      {isFirst ? "To buy: " : "To top up to: "}
      {figure("pieces", plural(kit.pieces, "piece"))},{" "}
      {figure(
        "money",
        `${moneyAmountText(kit.cost.minor, kit.cost.currency)} ${kit.cost.currency}`,
        "The cheapest offer known of each part; a part without a price takes the median.",
      )}
      ,{" "}
      {figure(
        "weight",
        `${massText(kit.massKg, units)} ${massUnit(units)}`,
        "Parts whose weight is not stated are not in the sum.",
      )}
      .
    </>
  );
}

/** The kit when leaving one port: what to buy or to top up to, and how sure it makes the legs that follow. */
export function DepartureSection({
  departure,
  at,
  units,
}: {
  readonly departure: Departure;
  readonly at: number;
  readonly units: Units;
}) {
  const isFirst = at === 0;
  const { from, to, departs, daysExpected, daysLongest, kit, lines, tiers } = departure;
  const columns = useMemo(() => lineColumns(isFirst), [isFirst]);
  const groups = useMemo(
    () =>
      tiers
        .map(({ tier }) => {
          const rows = lines.filter((line) => line.tier === tier && line.carry > 0);
          const pieces = rows.reduce((sum, { carry }) => sum + carry, 0);
          return {
            key: tier,
            rows,
            heading: (
              <span className="group-name">
                <TierSign tier={tier} /> {plural(rows.length, "part")}, {plural(pieces, "piece")}
              </span>
            ),
          };
        })
        .filter(({ rows }) => rows.length > 0),
    [lines, tiers],
  );
  const title = `departure-${at}`;
  return (
    <section aria-labelledby={title}>
      <h2 id={title}>
        Leaving {from} for {to}, {dayText(departs)}
      </h2>
      <p>
        {measureText(daysExpected)} days expected, {measureText(daysLongest)} at longest.{" "}
        {!isFirst && supplyWords(departure)}{" "}
        {kit.pieces > 0 && <KitSum departure={departure} isFirst={isFirst} units={units} />}
      </p>
      {lines.length > 0 && (
        <>
          <DataTable
            caption={`Chance of not running short, leaving ${from}`}
            columns={tierColumns}
            rows={tiers}
            rowKey={({ tier }) => tier}
          />
          {groups.length > 0 && (
            <DataTable
              caption={`Kit when leaving ${from}`}
              className="kit-box"
              sorts
              columns={columns}
              rows={groups}
              rowKey={({ part }) => part.id}
            />
          )}
        </>
      )}
    </section>
  );
}
