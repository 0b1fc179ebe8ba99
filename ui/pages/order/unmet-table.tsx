import type { OrderAnswer } from "../../../api/contract/order.contract.ts";
import { plural, wholeText } from "../../components/figures.ts";
import type { Column } from "../../components/table/column.ts";
import { DataTable } from "../../components/table/data-table.tsx";

type Unmet = OrderAnswer["unmet"][number];

const unmetColumns: readonly Column<Unmet>[] = [
  {
    id: "part",
    name: "Part",
    kind: "name",
    cell: ({ part, description, words }) => (
      <>
        {part.name} <span className="part-description">{description}</span>
        <span className="unmet-words">{words}</span>
      </>
    ),
    value: ({ part }) => part.name,
  },
  { id: "pieces", name: "Pieces", kind: "number", cell: ({ pieces }) => wholeText(pieces) },
  { id: "why", name: "Why not", leftOut: "when narrow", cell: ({ why }) => why },
];

/** What nobody can send in time, at a known price, and why. */
export function UnmetTable({ unmet }: { readonly unmet: readonly Unmet[] }) {
  if (unmet.length === 0) return null;
  return (
    <section aria-labelledby="unmet-title">
      <h2 id="unmet-title">{plural(unmet.length, "part")} that cannot be had like this</h2>
      <DataTable
        caption="Parts that cannot be had"
        sorts
        columns={unmetColumns}
        rows={unmet}
        rowKey={({ part, why }) => part.id + why}
      />
    </section>
  );
}
