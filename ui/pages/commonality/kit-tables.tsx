import type { CommonalityAnswer } from "../../../api/contract/commonality.contract.ts";
import { moneyRoundText, wholeText } from "../../components/figures.ts";
import type { Column } from "../../components/table/column.ts";
import { DataTable } from "../../components/table/data-table.tsx";

type Kit = CommonalityAnswer["kits"][number];
type Chance = CommonalityAnswer["opportunities"][number];

const namesOf = (kit: Kit) => kit.models.map((model) => model.name).join(", ");

const kitColumns: readonly Column<Kit>[] = [
  { id: "kit", name: "Kit", kind: "number", cell: (_, index) => index + 1 },
  { id: "models", name: "Models it serves", kind: "name", className: "wordy", cell: namesOf },
  {
    id: "items",
    name: "Fitted",
    kind: "number",
    cell: (kit) => wholeText(kit.items),
    value: (kit) => kit.items,
  },
  {
    id: "parts",
    name: "Parts",
    kind: "number",
    cell: (kit) => wholeText(kit.parts),
    value: (kit) => kit.parts,
  },
  {
    id: "standing",
    name: "Standing",
    kind: "wordy",
    cell: (kit) =>
      kit.maximal
        ? "on its own"
        : `inside kit ${kit.containedIn.map((inside) => inside + 1).join(", ")}`,
  },
];

/** Kits of spares: which models each serves, and which other kit holds it. */
export const KitsTable = ({ answer }: { readonly answer: CommonalityAnswer }) => (
  <DataTable
    caption="Kits and the models they serve"
    className="tall"
    columns={kitColumns}
    rows={answer.kits}
    rowKey={(kit) => kit.models.map((model) => model.id).join()}
  />
);

const count = (id: string, name: string, value: (chance: Chance) => number): Column<Chance> => ({
  id,
  name,
  kind: "number",
  cell: (chance) => wholeText(value(chance)),
  value,
});

const chanceColumns: readonly Column<Chance>[] = [
  { id: "replace", name: "Replace", kind: "name", cell: ({ replace }) => replace.name },
  { id: "by", name: "By", cell: ({ by }) => by.name },
  count("items", "Fitted", ({ items }) => items),
  count("vanish", "Parts gone", ({ partsVanishing }) => partsVanishing),
  count("added", "Parts added", ({ partsAdded }) => partsAdded),
  count("suppliers", "Suppliers gone", ({ suppliersVanishing }) => suppliersVanishing),
  count("kits", "Kits gone", ({ kitsVanishing }) => kitsVanishing),
  {
    id: "freed",
    name: "Stock freed",
    kind: "number",
    cell: ({ stockValueFreed }) =>
      stockValueFreed === undefined
        ? "–"
        : moneyRoundText(stockValueFreed.minor, stockValueFreed.currency),
    value: ({ stockValueFreed }) => stockValueFreed?.minor ?? null,
  },
  { id: "words", name: "In words", kind: "wordy", cell: ({ words }) => words },
];

/** What replacing one model by another already fitted would save. */
export function OpportunityTable({ answer }: { readonly answer: CommonalityAnswer }) {
  if (answer.opportunities.length === 0)
    return <p>No replacement by a model already fitted would save a part.</p>;
  return (
    <DataTable
      caption="Replacing one model by another already fitted"
      className="tall"
      sorts
      columns={chanceColumns}
      rows={answer.opportunities}
      rowKey={({ replace, by }) => `${replace.id} ${by.id}`}
    />
  );
}
