import { Printer } from "lucide-react";
import { useEffect } from "react";
import { Button } from "react-aria-components";
import type { OrderAnswer } from "../../../api/contract/order.contract.ts";
import type { ProblemDocument } from "../../../api/contract/problem.contract.ts";
import { Cautions } from "../../components/cautions.tsx";
import { ImagineDeed } from "../../components/imagined/imagine-deed.tsx";
import { SideBySide } from "../../components/imagined/side-by-side.tsx";
import { Answered, Notices, ProblemNote } from "../../components/notice.tsx";
import { useIsPrinting } from "../../components/use-printing.ts";
import { post } from "../../data/ask.ts";
import { usePreferences } from "../../data/preferences.ts";
import { useAnswer } from "../../data/use-answer.ts";
import { useRecords } from "../../data/use-records.ts";
import { changeQuery, writeRoute } from "../../routing/route.ts";
import { settledTerms } from "../crossing/money-terms.ts";
import { KeepDeed } from "./keep-deed.tsx";
import { KeptOrders } from "./kept-orders.tsx";
import { OrderForm } from "./order-form.tsx";
import { leftOut, orderQuestion } from "./order-question.ts";
import { OrderSheet } from "./order-sheet.tsx";
import { TermsTable } from "./terms-table.tsx";
import { UnmetTable } from "./unmet-table.tsx";

interface PageProps {
  readonly query: ReadonlyMap<string, string>;
}

/** A refusal, taken apart by what it is about: the days, a supplier's terms, or the rest. */
function causesOf(problem: ProblemDocument | undefined, suppliers: readonly string[]) {
  const faults = new Map<string, string>();
  for (const { pointer } of problem?.errors ?? []) {
    const supplier = suppliers[Number(/^\/terms\/(\d+)/.exec(pointer)?.[1] ?? -1)];
    if (supplier !== undefined) faults.set(supplier, problem?.detail ?? "");
  }
  const isOfDays = problem?.errors?.some(({ pointer }) => /^\/(needed|ordered)/.test(pointer));
  return {
    faults,
    dayFault: isOfDays === true ? problem?.detail : undefined,
    rest: isOfDays === true || faults.size > 0 ? undefined : problem,
  };
}

function OrderView({
  query,
  suppliers,
}: PageProps & { readonly suppliers: readonly { readonly id: string; readonly name: string }[] }) {
  const set = usePreferences();
  const request = orderQuestion(query, set, new Set(suppliers.map(({ id }) => id)));
  const answer = useAnswer<OrderAnswer>(`order ${JSON.stringify(request)}`, (signal) =>
    post<OrderAnswer>("/api/order", request, signal),
  );
  const { value } = answer;
  const { faults, dayFault, rest } = causesOf(
    answer.problem,
    (request.terms ?? []).map(({ supplier }) => supplier),
  );
  return (
    <>
      {rest !== undefined && <ProblemNote problem={rest} again={answer.again} />}
      {answer.problem !== undefined && value !== undefined && (
        <p className="doubt off-paper">
          What stands here is the order before the last change, which could not be reckoned.
        </p>
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
          <SideBySide comparison={value.comparison} of="the order" />
          <ImagineDeed query={query} vessel={value.vessel.id} />
          <div className="deed off-paper">
            <Button
              className="act"
              isDisabled={value.sheets.length === 0}
              onPress={() => window.print()}
            >
              <Printer size={18} aria-hidden="true" /> Print the orders
            </Button>
            <KeepDeed
              request={request}
              count={value.sheets.length}
              isOff={answer.waiting || answer.problem !== undefined || request.whatIf !== undefined}
            />
            {request.whatIf !== undefined && (
              <span className="deed-note">What is imagined cannot be kept.</span>
            )}
            <a href={writeRoute("crossing", query)}>Back to the kit</a>
          </div>
        </>
      )}
      <OrderForm answer={value} query={query} dayFault={dayFault} />
      <TermsTable
        suppliers={suppliers}
        answer={value}
        currency={value?.currency ?? query.get("currency") ?? "EUR"}
        without={leftOut(query)}
        faults={faults}
      />
      {value !== undefined && (
        <>
          <Notices notices={value.notices} />
          {value.sheets.length === 0 && (
            <p>
              Nothing is to be ordered
              {value.unmet.length > 0
                ? ": what is missing cannot be had like this, as said below."
                : "."}
            </p>
          )}
          {value.sheets.map((sheet) => (
            <OrderSheet key={sheet.supplier.id} sheet={sheet} answer={value} />
          ))}
          <UnmetTable unmet={value.unmet} />
        </>
      )}
      <KeptOrders />
      {value !== undefined && <Cautions title="Read with every order" cautions={value.cautions} />}
    </>
  );
}

/** What do we order, and from whom? The kit's pieces to buy, at the least money all in all; and what was ordered. */
export function OrderPage({ query }: PageProps) {
  const suppliers = useRecords({ label: "Supplier" }, true);
  const missing = JSON.stringify(settledTerms(query, usePreferences()));
  // The reader's own margin and rates go into the address, so that a shared one asks the same question.
  useEffect(() => {
    if (missing !== "{}") changeQuery(JSON.parse(missing) as Record<string, string>, true);
  }, [missing]);
  useIsPrinting();
  const isReady = !suppliers.isWaiting || suppliers.total > 0;
  return (
    <>
      <h1>What do we order, and from whom?</h1>
      {suppliers.problem !== undefined && (
        <ProblemNote problem={suppliers.problem} again={suppliers.again} />
      )}
      {suppliers.problem !== undefined && suppliers.total === 0 ? null : isReady ? (
        <OrderView query={query} suppliers={suppliers.rows} />
      ) : (
        <p className="loading">Fetching the suppliers…</p>
      )}
    </>
  );
}
