import { useMemo } from "react";
import type { RecordDocument } from "../../../api/contract/records.contract.ts";
import { plural } from "../../components/figures.ts";
import { ProblemNote } from "../../components/notice.tsx";
import type { Column } from "../../components/table/column.ts";
import { DataTable } from "../../components/table/data-table.tsx";
import { useRecords } from "../../data/use-records.ts";
import { dateColumn, ownerColumn, ownerOf, textOf } from "../records/record-columns.ts";
import { OrderDeeds } from "./order-deeds.tsx";
import { isToCome, statusWords } from "./order-status.ts";

/** The vessel stands in a column of its own where orders are for several. */
const columnsOf = (isFleet: boolean): readonly Column<RecordDocument>[] => [
  {
    id: "reference",
    name: "Reference",
    kind: "name",
    className: "name-wraps",
    cell: (order) => (
      <>
        {order.name}
        {isFleet && (
          <span className="part-description narrow-only">
            {ownerOf(order, "ORDERED_FOR")?.name ?? "no vessel"}
          </span>
        )}
      </>
    ),
    value: ({ name }) => name,
  },
  {
    id: "status",
    name: "Status",
    className: "status-wraps",
    cell: (order) => statusWords(textOf(order, "status")),
    value: (order) => textOf(order, "status"),
  },
  dateColumn("expected", "Expected"),
  ...(isFleet
    ? [
        ownerColumn("ORDERED_FOR", "For", { leftOut: "when narrow" } satisfies Partial<
          Column<RecordDocument>
        >),
      ]
    : []),
  ownerColumn("ORDERED_FROM", "Supplier", { className: "status-wraps" }),
];

/** Those still to come before the others, the soonest first. */
const soonest = (order: RecordDocument) =>
  `${isToCome(order) ? 0 : 1} ${textOf(order, "expected") || "9999"} ${order.name}`;

/** The orders that were kept, and what to do when one has come. */
export function KeptOrders() {
  const orders = useRecords({ label: "Order" }, true);
  const rows = orders.rows
    .filter(({ label }) => label !== "")
    .sort((a, b) => soonest(a).localeCompare(soonest(b), "en", { numeric: true }));
  const coming = rows.filter(isToCome).length;
  const isFleet = new Set(orders.rows.map((order) => ownerOf(order, "ORDERED_FOR")?.id)).size > 1;
  const columns = useMemo(() => columnsOf(isFleet), [isFleet]);
  return (
    <section aria-labelledby="kept-title" className="off-paper">
      <h2 id="kept-title">Orders kept</h2>
      {orders.problem !== undefined && (
        <ProblemNote problem={orders.problem} again={orders.again} />
      )}
      {rows.length === 0 ? (
        orders.problem === undefined && (
          <p>
            {orders.isWaiting
              ? "Fetching the orders…"
              : "No order is kept yet. Keep the one above when it is as you want it; when the parcel comes, open it here."}
          </p>
        )
      ) : (
        <>
          <p className="said">
            {coming === 0
              ? "Nothing is still to come."
              : `${plural(coming, "order is", "orders are")} still to come. Open one when it has come.`}
          </p>
          <DataTable
            caption="Orders kept"
            sorts
            columns={columns}
            rows={rows}
            rowKey={({ id }) => id}
            rowClass={(order) => (isToCome(order) ? "" : "undone")}
            detail={{
              words: (order) => `Open ${order.name}`,
              show: (order) => <OrderDeeds order={order} />,
            }}
          />
        </>
      )}
    </section>
  );
}
