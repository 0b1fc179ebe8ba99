import { useMemo } from "react";
import type { KitAnswer } from "../../../api/contract/kit.contract.ts";
import type { KitPurchase } from "../../../api/contract/kit-sale.contract.ts";
import { plural, wholeText } from "../../components/figures.ts";
import type { Column } from "../../components/table/column.ts";
import { DataTable } from "../../components/table/data-table.tsx";
import { massText, massUnit, roomText, roomUnit, type Units } from "../../components/units.ts";
import { usePreferences } from "../../data/preferences.ts";

interface Stowed {
  readonly purchase: KitPurchase;
  readonly units: number;
}

/** A purchase's size, shared out over its units. */
const share = (whole: number | undefined, { purchase, units }: Stowed): number | undefined =>
  whole === undefined ? undefined : (whole / purchase.units) * units;

const unitsText = ({ purchase, units }: Stowed): string =>
  purchase.kind === "pack"
    ? `${plural(units, "pack")} of ${purchase.pack}`
    : purchase.kind === "service kit"
      ? plural(units, "service kit")
      : wholeText(units);

const columnsOf = (units: Units): readonly Column<Stowed>[] => [
  {
    id: "part",
    name: "Part",
    kind: "name",
    className: "name-wraps",
    cell: ({ purchase }) => (
      <>
        <span className="part-number">{purchase.part.name}</span>{" "}
        <span className="part-description">{purchase.description}</span>
      </>
    ),
    value: ({ purchase }) => `${purchase.part.name} ${purchase.description}`,
  },
  {
    id: "units",
    name: "Units",
    kind: "number",
    className: "strong",
    cell: unitsText,
    value: (row) => row.units,
    why: (row) => ({
      what: `${row.units} of ${row.purchase.units} units bought go here.`,
      how: "The solver puts every unit whole into one of the lockers named, so that no room or load is exceeded. Another sharing out may do as well.",
      rests:
        row.purchase.massKg === undefined || row.purchase.volumeLitres === undefined
          ? "A size that is not stated counts as the median of the stated ones."
          : "Stated sizes.",
      change: "Other lockers, or another room or load.",
    }),
  },
  {
    id: "mass",
    name: `Weight, ${massUnit(units)}`,
    kind: "number",
    cell: (row) => {
      const kg = share(row.purchase.massKg, row);
      return kg === undefined ? "–" : massText(kg, units);
    },
    value: (row) => share(row.purchase.massKg, row) ?? null,
  },
  {
    id: "room",
    name: `Room, ${roomUnit(units)}`,
    kind: "number",
    cell: (row) => {
      const litres = share(row.purchase.volumeLitres, row);
      return litres === undefined ? "–" : roomText(litres, units);
    },
    value: (row) => share(row.purchase.volumeLitres, row) ?? null,
  },
];

/** Which locker each unit that is bought goes into; only where lockers were named as limits. */
export function StowTable({ answer }: { readonly answer: KitAnswer }) {
  const { units } = usePreferences();
  const columns = useMemo(() => columnsOf(units), [units]);
  const groups = useMemo(() => {
    const byLocker = new Map<string, Stowed[]>();
    for (const purchase of answer.purchases)
      for (const { locker, units: count } of purchase.lockers)
        byLocker.set(locker, [...(byLocker.get(locker) ?? []), { purchase, units: count }]);
    return [...byLocker]
      .sort(([a], [b]) => a.localeCompare(b, "en", { numeric: true }))
      .map(([locker, rows]) => ({
        key: locker,
        heading: (
          <span className="group-name">
            {locker}:{" "}
            {plural(
              rows.reduce((sum, row) => sum + row.units, 0),
              "unit",
            )}
          </span>
        ),
        rows: rows.sort((a, b) => a.purchase.part.name.localeCompare(b.purchase.part.name, "en")),
      }));
  }, [answer.purchases]);
  if (groups.length === 0) return null;
  return (
    <section aria-labelledby="stow-title">
      <h2 id="stow-title">Where what is bought goes</h2>
      <DataTable
        caption="Units to stow, locker by locker"
        className="kit-box"
        columns={columns}
        rows={groups}
        rowKey={({ purchase }) => `${purchase.part.id} ${purchase.kind} ${purchase.supplier ?? ""}`}
      />
    </section>
  );
}
