import { Switch } from "react-aria-components";
import type { OrderAnswer } from "../../../api/contract/order.contract.ts";
import { plural } from "../../components/figures.ts";
import { decimalsFault } from "../../components/money.ts";
import { readFigure } from "../../components/read-figure.ts";
import type { Column } from "../../components/table/column.ts";
import { DataTable } from "../../components/table/data-table.tsx";
import { type SupplierTerms, setPreferences, usePreferences } from "../../data/preferences.ts";
import { changeQuery } from "../../routing/route.ts";
import { TermBox } from "./term-box.tsx";

interface Supplier {
  readonly id: string;
  readonly name: string;
}

type Figure = "delivery" | "freeFrom" | "least" | "dutyPercent";

const figures: readonly { id: Figure; name: string; most: number }[] = [
  { id: "delivery", name: "Delivery charge", most: 1e8 },
  { id: "freeFrom", name: "Delivered free from", most: 1e8 },
  { id: "least", name: "Least order", most: 1e8 },
  { id: "dutyPercent", name: "Duty, %", most: 500 },
];

/** What each supplier asks beside its prices, typed in place and kept on this device; and who is left out. */
export function TermsTable({
  suppliers,
  answer,
  currency,
  without,
  faults,
}: {
  readonly suppliers: readonly Supplier[];
  readonly answer: OrderAnswer | undefined;
  /** Taken for a supplier whose currency is not typed. */
  readonly currency: string;
  readonly without: readonly string[];
  /** What the program had against a supplier's terms, by the supplier's id. */
  readonly faults: ReadonlyMap<string, string>;
}) {
  const { terms } = usePreferences();
  const termsOf = (id: string) => terms.find(({ supplier }) => supplier === id);
  const keep = (id: string, changes: Readonly<Record<string, number | string | undefined>>) => {
    const next = Object.fromEntries(
      Object.entries({ supplier: id, currency, ...termsOf(id), ...changes }).filter(
        ([, value]) => value !== undefined,
      ),
    ) as unknown as SupplierTerms;
    const saysSomething = figures.some((figure) => next[figure.id] !== undefined);
    setPreferences({
      terms: [...terms.filter(({ supplier }) => supplier !== id), ...(saysSomething ? [next] : [])],
    });
  };
  const ordered = new Set((answer?.sheets ?? []).map(({ supplier }) => supplier.id));
  const rows = [...suppliers].sort(
    (a, b) =>
      Number(ordered.has(b.id)) - Number(ordered.has(a.id)) || a.name.localeCompare(b.name, "en"),
  );
  const columns: readonly Column<Supplier>[] = [
    {
      id: "supplier",
      name: "Supplier",
      kind: "name",
      cell: ({ id, name }) => (
        <>
          {name}
          {ordered.has(id) && <span className="part-description"> in this order</span>}
        </>
      ),
      value: ({ name }) => name,
    },
    ...figures.map(
      ({ id: figure, name, most }): Column<Supplier> => ({
        id: figure,
        name,
        kind: "number",
        cell: (supplier) => (
          <TermBox
            label={`${name}: ${supplier.name}`}
            shown={String(termsOf(supplier.id)?.[figure] ?? "")}
            read={(text) => {
              const value = readFigure(text, most);
              if (typeof value === "string") return { fault: value };
              const fault =
                value === undefined || figure === "dutyPercent"
                  ? undefined
                  : decimalsFault(value, termsOf(supplier.id)?.currency ?? currency);
              return fault === undefined ? { value } : { fault };
            }}
            onChange={(value) => keep(supplier.id, { [figure]: value })}
          />
        ),
      }),
    ),
    {
      id: "currency",
      name: "Currency",
      cell: (supplier) =>
        termsOf(supplier.id) === undefined ? (
          <span className="doubt">{currency}</span>
        ) : (
          <TermBox
            label={`Currency: ${supplier.name}`}
            shown={termsOf(supplier.id)?.currency ?? currency}
            placeholder={currency}
            fault={faults.get(supplier.id)}
            read={(text) => {
              const code = text.trim().toUpperCase();
              return /^[A-Z]{3}$/.test(code)
                ? { value: code }
                : { fault: "Write three letters, as EUR." };
            }}
            onChange={(code) => keep(supplier.id, { currency: code })}
          />
        ),
    },
    {
      id: "without",
      name: "Leave out",
      cell: ({ id, name }) => (
        <Switch
          className="switch"
          aria-label={`Leave out ${name}`}
          isSelected={without.includes(id)}
          onChange={(isOut) =>
            changeQuery({
              without: [...without.filter((other) => other !== id), ...(isOut ? [id] : [])].join(),
            })
          }
        >
          <span className="switch-track" aria-hidden="true" />
          {without.includes(id) ? "left out" : "asked"}
        </Switch>
      ),
    },
  ];
  const known = new Set(suppliers.map(({ id }) => id));
  const typed = terms.filter(({ supplier }) => known.has(supplier)).length;
  return (
    <section aria-labelledby="terms-title" className="off-paper">
      <h2 id="terms-title">What each supplier asks</h2>
      {suppliers.length === 0 ? (
        <p>No supplier is known yet. Import a list of offers, or type in the first one.</p>
      ) : (
        <>
          <p className="said">
            {typed === 0
              ? "Nothing is typed in yet, so the order counts prices alone."
              : `${plural(typed, "supplier")} of ${suppliers.length} with terms.`}{" "}
            Kept on this device. An empty box means no charge and no least order.
          </p>
          <DataTable
            caption="Terms of each supplier"
            className="tall terms"
            columns={columns}
            rows={rows}
            rowKey={({ id }) => id}
          />
        </>
      )}
    </section>
  );
}
