import type { SuppliersAnswer } from "../../../api/contract/suppliers.contract.ts";
import { wholeText } from "../../components/figures.ts";
import { TierSign } from "../../components/signs.tsx";
import type { Column } from "../../components/table/column.ts";
import { DataTable } from "../../components/table/data-table.tsx";
import { writeRoute } from "../../routing/route.ts";

const whole = <Row,>(id: string, name: string, value: (row: Row) => number): Column<Row> => ({
  id,
  name,
  kind: "number",
  cell: (row) => wholeText(value(row)),
  value,
});

type Supplier = SuppliersAnswer["suppliers"][number];

const supplierColumns: readonly Column<Supplier>[] = [
  {
    id: "supplier",
    name: "Supplier",
    kind: "name",
    cell: ({ supplier }) => (
      <a className="row-link" href={writeRoute("suppliers", [["supplier", supplier.id]])}>
        {supplier.name}
      </a>
    ),
    value: ({ supplier }) => supplier.name,
  },
  {
    ...whole("whole", "Items whole", ({ gearWhole }: Supplier) => gearWhole),
    why: ({ supplier, gearWhole, gearPartly, parts }) => ({
      what: `${supplier.name} offers every part that can be replaced at sea of ${gearWhole} fitted items, and some of ${gearPartly}.`,
      how: "An item counts whole when each part class it takes is offered: the part itself or one proven to interchange with it. Parts no spare helps with are left out.",
      rests: `Offers of ${parts} part classes on file, whether or not they carry a price. An offer is a price on a list, not a piece on a shelf.`,
      change:
        "One missing part keeps an item from counting whole: the table of what it sells shows which.",
    }),
  },
  {
    ...whole("partly", "Items partly", ({ gearPartly }: Supplier) => gearPartly),
    why: ({ supplier, gearPartly, gearWhole }) => ({
      what: `${supplier.name} offers at least one part of ${wholeText(gearPartly)} fitted items, and every part of ${wholeText(gearWhole)}.`,
      how: "Counted: items of whose parts at least one, or one proven to interchange with it, is offered.",
      rests: "Parts lists, interchanges and offers on file.",
      change: "An offer more or less, or an interchange confirmed.",
    }),
  },
  {
    ...whole("parts", "Parts", ({ parts }: Supplier) => parts),
    why: ({ supplier, parts }) => ({
      what: `${supplier.name} offers ${wholeText(parts)} of the parts the fitted gear takes.`,
      how: "Counted: parts that interchange count once; parts nothing fitted takes are left out.",
      rests: "Offers on file, whether or not they carry a price.",
      change: "An offer more or less, or other gear fitted.",
    }),
  },
  {
    ...whole("only", "Only source of", ({ onlySourceOf }: Supplier) => onlySourceOf),
    why: ({ supplier, onlySourceOf }) => ({
      what: `${wholeText(onlySourceOf)} parts the gear takes are offered by ${supplier.name} and by nobody else on file.`,
      how: "Counted: parts, interchanges included, with exactly one supplier.",
      rests: "Offers on file. Another may sell them without being on file here.",
      change: "A second offer, or an interchange with a part that others sell.",
    }),
  },
  { id: "place", name: "Place", cell: ({ place }) => (place === "" ? "unknown" : place) },
  {
    id: "contact",
    name: "Contact",
    kind: "wordy",
    cell: ({ contact }) => (contact === "" ? "unknown" : contact),
  },
];

/** Every supplier by its own reach. */
export const SupplierTable = ({ rows }: { readonly rows: SuppliersAnswer["suppliers"] }) => (
  <DataTable
    caption="Suppliers by what they cover"
    className="tall"
    sorts
    columns={supplierColumns}
    rows={rows}
    rowKey={({ supplier }) => supplier.id}
  />
);

type AtStake = SuppliersAnswer["singleSource"][number] | SuppliersAnswer["unsold"][number];

const sourceOf = (row: AtStake): string =>
  "supplier" in row
    ? row.supplier.name
    : row.soldInside.length > 0
      ? `nobody singly; inside ${row.soldInside.join(", ")}`
      : "nobody";

const stakeColumns: readonly Column<AtStake>[] = [
  { id: "part", name: "Part", kind: "name", cell: ({ part }) => part.name },
  { id: "description", name: "Description", kind: "wordy", cell: ({ description }) => description },
  {
    id: "tier",
    name: "Tier",
    cell: ({ tier }) => <TierSign tier={tier} />,
    value: ({ tier }) => tier,
  },
  {
    ...whole("stops", "Stops", ({ itemsStopped }: AtStake) => itemsStopped),
    why: ({ part, itemsStopped }) => ({
      what: `Without ${part.name}, ${wholeText(itemsStopped)} fitted items stop when it fails.`,
      how: "Counted: items on whose parts list a failure of this part stops the item and the part can be fitted at sea.",
      rests:
        "What the parts lists say a failure does; where they say nothing, that it stops the item.",
      change: "Another effect stated on the line, or other gear in the position.",
    }),
  },
  {
    ...whole("items", "Fitted in", ({ items }: AtStake) => items),
    why: ({ part, items }) => ({
      what: `${wholeText(items)} fitted items take ${part.name}.`,
      how: "Counted: items whose model's parts list holds it or a part that interchanges with it.",
      change: "Gear fitted or taken off, or a line of a list.",
    }),
  },
  { id: "source", name: "Sold by", kind: "wordy", cell: sourceOf },
];

/** Parts with one source or none, the ones that stop most first. */
export const StakeTable = ({
  caption,
  rows,
}: {
  readonly caption: string;
  readonly rows: readonly AtStake[];
}) => (
  <DataTable
    caption={caption}
    className="tall"
    sorts
    columns={stakeColumns}
    rows={rows}
    rowKey={({ part }) => part.id}
  />
);
