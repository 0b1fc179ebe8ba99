import { useMemo } from "react";
import type { KitAnswer } from "../../../api/contract/kit.contract.ts";
import { minorDigits } from "../../../graph-schema/minor-digits.ts";
import { moneyAmountText, plural } from "../../components/figures.ts";
import type { Column } from "../../components/table/column.ts";
import { DataTable } from "../../components/table/data-table.tsx";
import { massText, massUnit, roomText, roomUnit, type Units } from "../../components/units.ts";
import { usePreferences } from "../../data/preferences.ts";

type Cap = KitAnswer["sale"]["caps"][number];

/** What is limited, which the unit says: a locker may have two limits. */
const measured = ({ unit }: Cap): "money" | "weight" | "room" =>
  unit === "kg" ? "weight" : unit === "litre" ? "room" : "money";

function amountText(value: number, cap: Cap, units: Units): string {
  const what = measured(cap);
  if (what === "weight") return massText(value, units);
  if (what === "room") return roomText(value, units);
  return moneyAmountText(Math.round(value * 10 ** minorDigits(cap.unit)), cap.unit);
}

const unitText = (cap: Cap, units: Units): string => {
  const what = measured(cap);
  return what === "weight" ? massUnit(units) : what === "room" ? roomUnit(units) : cap.unit;
};

const nameOf = (cap: Cap, units: Units): string =>
  `${cap.locker === undefined ? "In all" : cap.locker}: ${measured(cap)}, ${unitText(cap, units)}`;

const standIn = ({ unknownPieces }: Cap, what: string): string =>
  unknownPieces === 0
    ? `The ${what} of every unit is stated.`
    : `${plural(unknownPieces, "piece")} of no stated ${what}: the median of the stated ones stands in for each.`;

const columnsOf = (units: Units): readonly Column<Cap>[] => [
  {
    id: "limit",
    name: "Cap",
    kind: "name",
    className: "name-wraps",
    cell: (cap) => nameOf(cap, units),
  },
  {
    id: "used",
    name: "Used",
    kind: "number",
    className: "strong",
    cell: (cap) => amountText(cap.used, cap, units),
    value: ({ used }) => used,
    why: (cap) => ({
      what: `The kit uses ${amountText(cap.used, cap, units)} of ${amountText(cap.allowed, cap, units)} ${unitText(cap, units)}.`,
      how:
        measured(cap) === "money"
          ? "Units to buy times the price of a unit, whole packs and least orders included."
          : `Units ${cap.locker === undefined ? "to buy" : "that go into this locker"} times the ${measured(cap)} of a unit. What is aboard already is not counted${cap.locker === undefined ? "" : " but takes from the room that is free"}.`,
      rests: measured(cap) === "money" ? "" : standIn(cap, measured(cap)),
      change: "A wider cap, another locker, or something else to keep small.",
    }),
  },
  {
    id: "allowed",
    name: "Allowed",
    kind: "number",
    cell: (cap) => amountText(cap.allowed, cap, units),
    value: ({ allowed }) => allowed,
  },
  {
    id: "left",
    name: "Left",
    kind: "number",
    cell: (cap) => amountText(Math.max(0, cap.allowed - cap.used), cap, units),
    value: ({ allowed, used }) => allowed - used,
  },
  {
    id: "unknown",
    name: "Of unknown size",
    kind: "number",
    cell: ({ unknownPieces }) => (unknownPieces === 0 ? "–" : plural(unknownPieces, "piece")),
    value: ({ unknownPieces }) => unknownPieces,
  },
];

/** What the limits allow and how much of each the kit takes; where they are too tight, what stands in the way. */
export function LimitsTable({ answer }: { readonly answer: KitAnswer }) {
  const { units } = usePreferences();
  const columns = useMemo(() => columnsOf(units), [units]);
  const { caps, shortfalls } = answer.sale;
  if (caps.length === 0) return null;
  return (
    <>
      <DataTable
        caption="Caps on what is bought"
        captionShown
        columns={columns}
        rows={caps}
        rowKey={(cap) => nameOf(cap, units)}
      />
      {shortfalls.map(({ what, words, inTheWay }) => (
        <div key={what} className="problem">
          <p>{words}</p>
          {inTheWay.length > 0 && (
            <>
              <p>What of the safety tier takes most of it:</p>
              <ul>
                {inTheWay.map((one) => (
                  <li key={one.part.id}>{one.words}</li>
                ))}
              </ul>
            </>
          )}
        </div>
      ))}
    </>
  );
}
