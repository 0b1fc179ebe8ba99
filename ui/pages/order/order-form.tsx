import { Switch } from "react-aria-components";
import type { OrderAnswer } from "../../../api/contract/order.contract.ts";
import { DayBox } from "../../components/day-box.tsx";
import { changeQuery } from "../../routing/route.ts";
import { MoneyBoxes } from "../crossing/money-boxes.tsx";

/** When it is ordered, when it must be aboard, and in what money. */
export function OrderForm({
  answer,
  query,
  dayFault,
}: {
  readonly answer: OrderAnswer | undefined;
  readonly query: ReadonlyMap<string, string>;
  /** What the program had against the days. */
  readonly dayFault: string | undefined;
}) {
  return (
    <div className="question order-question">
      <div className="settings">
        <DayBox
          label="Ordered on"
          placeholder="today"
          value={query.get("ordered") ?? ""}
          onChange={(ordered) => changeQuery({ ordered })}
        />
        <DayBox
          label="Needed aboard by"
          placeholder="any day"
          value={query.get("needed") ?? ""}
          fault={dayFault}
          onChange={(needed) => changeQuery({ needed })}
        />
        <MoneyBoxes query={query} usual={answer?.currency ?? "as in the offers"} />
        <Switch
          className="switch"
          isSelected={query.get("unknown") === "yes"}
          onChange={(isOn) => changeQuery({ unknown: isOn ? "yes" : "" })}
        >
          <span className="switch-track" aria-hidden="true" />
          Accept offers whose delivery time is not known
        </Switch>
      </div>
    </div>
  );
}
