import type { OrderAnswer } from "../../../api/contract/order.contract.ts";
import { dayText, moneyAmountText, plural, wholeText } from "../../components/figures.ts";
import type { Column } from "../../components/table/column.ts";
import { DataTable } from "../../components/table/data-table.tsx";

type Sheet = OrderAnswer["sheets"][number];
type Line = Sheet["lines"][number];
type Money = Line["goods"];

const amount = ({ minor, currency }: Money) => moneyAmountText(minor, currency);

const lineColumns: readonly Column<Line>[] = [
  {
    id: "part",
    name: "Part",
    kind: "name",
    cell: (line) => (
      <>
        <span className="part-number">{line.partNumber}</span>{" "}
        <span className="part-maker">{line.maker}</span>
        <span className="part-description"> {line.description}</span>
      </>
    ),
    value: (line) => `${line.partNumber} ${line.maker} ${line.description}`,
  },
  { id: "code", name: "Their code", cell: ({ supplierCode }) => supplierCode || "–" },
  {
    id: "pieces",
    name: "Pieces",
    kind: "number",
    className: "strong",
    cell: ({ pieces, packs, packSize }) =>
      packSize > 1 ? `${pieces} (${packs} × ${packSize})` : wholeText(pieces),
    value: ({ pieces }) => pieces,
    why: (line) => ({
      what: `${plural(line.pieces, "piece")} of ${line.partNumber}, as ${plural(line.packs, "pack")} of ${wholeText(line.packSize)}.`,
      how: "The kit's pieces to buy, shared out among the suppliers at the least money all in all, rounded up to whole packs and their least order.",
      rests: "The kit for this crossing and the offers on file.",
      change: "Another target or crossing, stock put in, a supplier left out, or other terms.",
    }),
  },
  {
    id: "pack",
    name: "A pack",
    kind: "number",
    cell: ({ packPrice }) => `${amount(packPrice)} ${packPrice.currency}`,
    value: ({ packPrice }) => packPrice.minor,
    why: ({ packPrice, packSize }) => ({
      what: `A pack of ${plural(packSize, "piece")} costs ${amount(packPrice)} ${packPrice.currency}.`,
      how: "As the supplier's offer on file says, in its own money.",
      rests: "The offer on file; ask for the price of today before ordering.",
      change: "A newer offer of the supplier.",
    }),
  },
  {
    id: "goods",
    name: "Line",
    kind: "number",
    cell: ({ goods }) => amount(goods),
    value: ({ goods }) => goods.minor,
    why: ({ goods, packs, packPrice }) => ({
      what: `${plural(packs, "pack")} at ${amount(packPrice)} ${packPrice.currency} come to ${amount(goods)} ${goods.currency}.`,
      how: "Packs times the price of a pack, put into the planning money by the rate given where it is in another, rounded up to the nearest minor unit.",
      rests: "The offer on file and the rates under Settings. Duty and delivery stand below.",
      change: "The price, the rate, the pieces or the pack.",
    }),
  },
  {
    id: "arrives",
    name: "Here by",
    cell: ({ arrives }) => (arrives === undefined ? "not known" : dayText(arrives)),
    value: ({ arrives }) => arrives ?? null,
  },
];

/** One supplier's order: whom to write to, what, what it comes to. */
export function OrderSheet({
  sheet,
  answer,
}: {
  readonly sheet: Sheet;
  readonly answer: OrderAnswer;
}) {
  const titleId = `order-${sheet.supplier.id}`;
  return (
    <section aria-labelledby={titleId} className="order-sheet">
      <h2 id={titleId}>{sheet.supplier.name}</h2>
      <p>
        {[sheet.place, sheet.contact].filter((word) => word !== "").join(" · ") ||
          "No contact is known."}
      </p>
      <p className="paper-date">
        Order for {answer.vessel.name}, {dayText(answer.orderedOn)}
        {answer.neededBy === undefined ? "" : `, needed by ${dayText(answer.neededBy)}`}
      </p>
      <DataTable
        caption={`Order to ${sheet.supplier.name}`}
        sorts
        columns={lineColumns}
        rows={sheet.lines}
        rowKey={({ part, supplierCode }) => part.id + supplierCode}
      />
      <p>
        Goods {amount(sheet.goods)}
        {sheet.duty.minor > 0 && `, duty ${amount(sheet.duty)}`}
        {sheet.delivery.minor > 0 && `, delivery ${amount(sheet.delivery)}`}:{" "}
        <strong>
          {amount(sheet.total)} {sheet.total.currency}
        </strong>
        . {sheet.words}
      </p>
      <h3>For the parcel's papers</h3>
      <ul className="parcel-lines">
        {sheet.lines.map(({ part, supplierCode, parcel }) => (
          <li key={part.id + supplierCode}>{parcel}</li>
        ))}
      </ul>
    </section>
  );
}
