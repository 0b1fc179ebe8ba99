import { Printer } from "lucide-react";
import { Button } from "react-aria-components";
import type { OrderAnswer } from "../../../api/contract/order.contract.ts";
import { Cautions } from "../../components/cautions.tsx";
import { dayText, moneyAmountText, plural, wholeText } from "../../components/figures.ts";
import { Answered, Notices, ProblemNote } from "../../components/notice.tsx";
import type { Column } from "../../components/table/column.ts";
import { DataTable } from "../../components/table/data-table.tsx";
import { useIsPrinting } from "../../components/use-printing.ts";
import { post } from "../../data/ask.ts";
import { useAnswer } from "../../data/use-answer.ts";
import { writeRoute } from "../../routing/route.ts";
import { kitQuestion } from "../crossing/kit-question.ts";

type Sheet = OrderAnswer["sheets"][number];
type Line = Sheet["lines"][number];
type Unmet = OrderAnswer["unmet"][number];
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
        <span className="part-description">{line.description}</span>
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
  },
  {
    id: "pack",
    name: "A pack",
    kind: "number",
    cell: ({ packPrice }) => `${amount(packPrice)} ${packPrice.currency}`,
    value: ({ packPrice }) => packPrice.minor,
  },
  {
    id: "goods",
    name: "Line",
    kind: "number",
    cell: ({ goods }) => amount(goods),
    value: ({ goods }) => goods.minor,
  },
  {
    id: "arrives",
    name: "Here by",
    cell: ({ arrives }) => (arrives === undefined ? "not known" : dayText(arrives)),
    value: ({ arrives }) => arrives ?? null,
  },
];

const unmetColumns: readonly Column<Unmet>[] = [
  {
    id: "part",
    name: "Part",
    kind: "name",
    cell: ({ part, description }) => (
      <>
        {part.name} <span className="part-description">{description}</span>
      </>
    ),
    value: ({ part }) => part.name,
  },
  { id: "pieces", name: "Pieces", kind: "number", cell: ({ pieces }) => wholeText(pieces) },
  { id: "why", name: "Why not", cell: ({ why }) => why },
  { id: "words", name: "In words", kind: "wordy", cell: ({ words }) => words },
];

/** One supplier's order: whom to write to, what, what it comes to. */
function OrderSheet({ sheet, answer }: { readonly sheet: Sheet; readonly answer: OrderAnswer }) {
  const titleId = `order ${sheet.supplier.id}`;
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
    </section>
  );
}

/** What do we order, and from whom? The kit's pieces to buy, at the least money all in all. */
export function OrderPage({ query }: { readonly query: ReadonlyMap<string, string> }) {
  const request = kitQuestion(query);
  const answer = useAnswer<OrderAnswer>(`order ${JSON.stringify(request)}`, (signal) =>
    post<OrderAnswer>("/api/order", request, signal),
  );
  useIsPrinting();
  const value = answer.value;
  return (
    <>
      <h1>What do we order, and from whom?</h1>
      {answer.problem !== undefined && (
        <ProblemNote problem={answer.problem} again={answer.again} />
      )}
      {value === undefined ? (
        answer.waiting && (
          <p className="loading" role="status">
            Sharing the list out among the suppliers…
          </p>
        )
      ) : (
        <>
          <Answered sentence={value.sentence} waiting={answer.waiting} />
          <div className="deed off-paper">
            <Button
              className="act"
              isDisabled={value.sheets.length === 0}
              onPress={() => window.print()}
            >
              <Printer size={18} aria-hidden="true" /> Print the orders
            </Button>
            <a href={writeRoute("crossing", query)}>Back to the kit</a>
          </div>
          <Notices notices={value.notices} />
          {value.sheets.length === 0 && <p>Nothing is to be ordered.</p>}
          {value.sheets.map((sheet) => (
            <OrderSheet key={sheet.supplier.id} sheet={sheet} answer={value} />
          ))}
          {value.unmet.length > 0 && (
            <section aria-labelledby="unmet-title">
              <h2 id="unmet-title">
                {plural(value.unmet.length, "part")} that cannot be ordered like this
              </h2>
              <DataTable
                caption="Parts that cannot be ordered"
                sorts
                columns={unmetColumns}
                rows={value.unmet}
                rowKey={({ part, why }) => part.id + why}
              />
            </section>
          )}
          <Cautions title="Read with every order" cautions={value.cautions} />
        </>
      )}
    </>
  );
}
