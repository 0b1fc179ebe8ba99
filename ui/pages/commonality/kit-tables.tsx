import type { CommonalityAnswer } from "../../../api/contract/commonality.contract.ts";
import { moneyRoundText, plural, wholeText } from "../../components/figures.ts";
import type { Column } from "../../components/table/column.ts";
import { DataTable } from "../../components/table/data-table.tsx";
import type { Explanation } from "../../components/why.tsx";

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
    why: (kit) => ({
      what: `This one kit serves ${wholeText(kit.items)} fitted items: ${namesOf(kit)}.`,
      how: "Counted: the positions in which any model with exactly this set of parts is fitted.",
      rests: `${plural(kit.models.length, "parts list")} that ask for the same ${plural(kit.parts, "part")} at sea.`,
      change: "One line more or less on a model's list, or another model in a position.",
    }),
  },
  {
    id: "parts",
    name: "Parts",
    kind: "number",
    cell: (kit) => wholeText(kit.parts),
    value: (kit) => kit.parts,
    why: (kit) => ({
      what: `${plural(kit.parts, "different part")} make up this kit. ${kit.maximal ? "No other kit holds them all." : "Another kit holds them all, so it needs no box of its own."}`,
      how: "Counted from the parts list: parts that can be fitted at sea; parts that interchange count once.",
      change:
        "An interchange confirmed or taken back, or a line of the list marked as not fittable at sea.",
    }),
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

const count = (
  id: string,
  name: string,
  value: (chance: Chance) => number,
  how: string,
): Column<Chance> => ({
  id,
  name,
  kind: "number",
  cell: (chance) => wholeText(value(chance)),
  value,
  why: (chance) => whyChance(chance, how),
});

const whyChance = ({ words }: Chance, how: string): Explanation => ({
  what: words,
  how,
  rests:
    "Parts lists, interchanges and offers on file. Whether the other model meets the duty of each position is not judged here.",
  change: "Another pair of models, a line on either list, an interchange confirmed or taken back.",
});

const chanceColumns: readonly Column<Chance>[] = [
  { id: "replace", name: "Replace", kind: "name", cell: ({ replace }) => replace.name },
  { id: "by", name: "By", cell: ({ by }) => by.name },
  count(
    "items",
    "Fitted",
    ({ items }) => items,
    "Counted: positions in which the model to be replaced is fitted.",
  ),
  count(
    "vanish",
    "Parts gone",
    ({ partsVanishing }) => partsVanishing,
    "Parts on the replaced model's list that no other fitted model takes.",
  ),
  count(
    "added",
    "Parts added",
    ({ partsAdded }) => partsAdded,
    "Parts of the other model that nothing fitted takes yet: none, as it is fitted already.",
  ),
  count(
    "suppliers",
    "Suppliers gone",
    ({ suppliersVanishing }) => suppliersVanishing,
    "Suppliers of which all that is still used is among the parts that go.",
  ),
  count(
    "kits",
    "Kits gone",
    ({ kitsVanishing }) => kitsVanishing,
    "One where no other model has the same set of spares, none else.",
  ),
  {
    id: "freed",
    name: "Stock freed",
    kind: "number",
    cell: ({ stockValueFreed }) =>
      stockValueFreed === undefined
        ? "–"
        : moneyRoundText(stockValueFreed.minor, stockValueFreed.currency),
    value: ({ stockValueFreed }) => stockValueFreed?.minor ?? null,
    why: (chance) =>
      whyChance(
        chance,
        "Pieces in stock of the parts that go, each at its least price on file; pieces without a price count nothing.",
      ),
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
