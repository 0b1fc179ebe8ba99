import { useState } from "react";
import type { ReceiveAnswer } from "../../../api/contract/orders.contract.ts";
import type { RecordDocument } from "../../../api/contract/records.contract.ts";
import { dayText, wholeText } from "../../components/figures.ts";
import { Notices, ProblemNote } from "../../components/notice.tsx";
import type { Column } from "../../components/table/column.ts";
import { DataTable } from "../../components/table/data-table.tsx";
import { writeRoute } from "../../routing/route.ts";
import { textOf } from "../records/record-columns.ts";
import { ArrivalForm } from "./arrival-form.tsx";
import { isToCome } from "./order-status.ts";
import { type OrderedPart, useOrderedParts } from "./ordered-parts.ts";
import { SentDeeds } from "./sent-deeds.tsx";

type Lot = ReceiveAnswer["lots"][number];

const partColumns: readonly Column<OrderedPart>[] = [
  {
    id: "part",
    name: "Part",
    kind: "name",
    cell: ({ id, partNumber, description }) => (
      <>
        <a href={writeRoute("parts", [["part", id]])}>{partNumber}</a>
        <span className="part-description"> {description}</span>
      </>
    ),
    value: ({ partNumber }) => partNumber,
  },
  { id: "pieces", name: "Pieces", kind: "number", cell: ({ pieces }) => wholeText(pieces) },
];

const lotColumns: readonly Column<Lot>[] = [
  {
    id: "part",
    name: "Part",
    kind: "name",
    cell: ({ part, description }) => (
      <>
        <a href={writeRoute("parts", [["part", part.id]])}>{part.name}</a>
        <span className="part-description"> {description}</span>
      </>
    ),
    value: ({ part }) => part.name,
  },
  { id: "pieces", name: "Pieces", kind: "number", cell: ({ pieces }) => wholeText(pieces) },
  {
    id: "place",
    name: "Went into",
    cell: ({ place, added }) => (added ? `${place}, to those there` : place),
  },
];

/** What a kept order asks for; while it is still to come, a form for when it has; then what went where. */
export function OrderDeeds({ order }: { readonly order: RecordDocument }) {
  const parts = useOrderedParts(order);
  const [come, setCome] = useState<ReceiveAnswer>();
  const needed = textOf(order, "neededBy");
  const isComing = isToCome(order);
  if (!isComing && come !== undefined && textOf(order, "status") === "arrived")
    return (
      <div className="why order-deeds">
        <p role="status">{come.sentence}</p>
        <Notices notices={come.notices} />
        <DataTable
          caption={`What went where: ${order.name}`}
          columns={lotColumns}
          rows={come.lots}
          rowKey={({ lot }) => lot}
        />
      </div>
    );
  return (
    <div className="why order-deeds">
      {parts.problem !== undefined && <ProblemNote problem={parts.problem} again={parts.again} />}
      {needed !== "" && <p>Needed aboard by {dayText(needed)}.</p>}
      {parts.value === undefined ? (
        parts.waiting && <p className="loading">Looking up its parts…</p>
      ) : (
        <>
          <DataTable
            caption={`Parts of ${order.name}`}
            columns={partColumns}
            rows={parts.value}
            rowKey={({ id }) => id}
          />
          {isComing && <SentDeeds order={order} />}
          {isComing && <ArrivalForm order={order} parts={parts.value} onCome={setCome} />}
        </>
      )}
    </div>
  );
}
