import { BookmarkPlus } from "lucide-react";
import { useState } from "react";
import { Button } from "react-aria-components";
import type { OrderRequest } from "../../../api/contract/order.contract.ts";
import type { SavedOrders } from "../../../api/contract/orders.contract.ts";
import type { ProblemDocument } from "../../../api/contract/problem.contract.ts";
import { plural } from "../../components/figures.ts";
import { ProblemNote } from "../../components/notice.tsx";
import { send } from "../../data/ask.ts";
import { tellChange } from "../../data/last-change.ts";
import { problemOf } from "../../data/use-answer.ts";

/** Keeps the orders that stand on the page, one for each supplier, so that they can be ticked off when they come. */
export function KeepDeed({
  request,
  count,
  isOff,
}: {
  readonly request: OrderRequest;
  readonly count: number;
  readonly isOff: boolean;
}) {
  const [isBusy, setBusy] = useState(false);
  const [problem, setProblem] = useState<ProblemDocument>();
  const keep = async () => {
    setBusy(true);
    setProblem(undefined);
    try {
      const { saved, sequence, sentence, order } = await send<SavedOrders>("/api/orders", request);
      const [only] = saved;
      tellChange({
        sequence,
        sentence:
          only === undefined
            ? sentence
            : saved.length === 1
              ? `Order kept: ${only.order.name}.`
              : `${plural(saved.length, "order")} kept for ${order.vessel.name}, under Orders kept.`,
      });
    } catch (error) {
      setProblem(problemOf(error));
    }
    setBusy(false);
  };
  return (
    <>
      <Button
        className="quiet"
        isDisabled={isOff || isBusy || count === 0}
        onPress={() => void keep()}
      >
        <BookmarkPlus size={18} aria-hidden="true" />{" "}
        {isBusy ? "Keeping…" : count > 1 ? `Keep the ${count} orders` : "Keep the order"}
      </Button>
      {problem !== undefined && <ProblemNote problem={problem} />}
    </>
  );
}
