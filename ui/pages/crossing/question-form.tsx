import { Switch } from "react-aria-components";
import type { OverviewAnswer } from "../../../api/contract/find.contract.ts";
import type { KitAnswer } from "../../../api/contract/kit.contract.ts";
import { Choice } from "../../components/choice.tsx";
import { NumberBox } from "../../components/number-box.tsx";
import { changeQuery } from "../../routing/route.ts";
import { CapFields } from "./cap-fields.tsx";
import { limitCount, readLimits } from "./cap-question.ts";
import { MoneyBoxes } from "./money-boxes.tsx";
import { TargetField } from "./target-field.tsx";
import { VesselAndCrossing } from "./vessel-and-crossing.tsx";

/** What the limits allow, where nothing else is to be kept small. */
const surest = {
  id: "most",
  name: "nothing: be surest",
  meaning: "As sure as the caps allow, the safety target first.",
} as const;

const objectives = [
  { id: "cost", name: "money" },
  { id: "mass", name: "weight" },
  { id: "volume", name: "room" },
  { id: "pieces", name: "pieces" },
] as const;

const rules = [
  {
    id: "kit",
    name: "the tier as a whole",
    meaning: "The least kit whose parts together reach the tier's target.",
  },
  {
    id: "each part",
    name: "each part by itself",
    meaning: "Every part reaches the target alone: simple, and usually dearer.",
  },
] as const;

/** The question, as it stands in the address: vessel, crossing, days, targets, what to keep small. */
export function QuestionForm({
  answer,
  overview,
  query,
}: {
  readonly answer: KitAnswer;
  readonly overview: OverviewAnswer | undefined;
  readonly query: ReadonlyMap<string, string>;
}) {
  const isCapped = limitCount(readLimits(query)) > 0;
  return (
    <div className="question">
      <div className="settings">
        <VesselAndCrossing
          vessel={answer.vessel}
          crossing={{ ...answer.crossing, id: answer.crossing.id ?? null }}
          overview={overview}
          ownDays={["days", "longest"]}
        />
        <NumberBox
          label="Days expected"
          value={answer.crossing.daysExpected}
          min={1}
          max={3650}
          onChange={(days) => changeQuery({ days: String(days) })}
        />
        <NumberBox
          label="Days at longest"
          value={answer.crossing.daysLongest}
          min={1}
          max={3650}
          onChange={(days) => changeQuery({ longest: String(days) })}
        />
        <NumberBox
          label="Dates hold longer by, days"
          value={Number(query.get("margin") ?? 0)}
          min={0}
          max={365}
          onChange={(days) => changeQuery({ margin: String(days) })}
        />
      </div>
      <div className="targets">
        {answer.tiers.map((tier) => (
          <TargetField
            key={tier.tier}
            tier={tier.tier}
            target={tier.target}
            onChange={(target) => changeQuery({ [tier.tier]: String(target) })}
          />
        ))}
      </div>
      <div className="settings">
        <Choice
          label="Keep small"
          value={isCapped && !query.has("least") ? "most" : answer.objective}
          groups={[{ name: "", options: isCapped ? [surest, ...objectives] : objectives }]}
          onChange={(least) =>
            changeQuery({ least: least === (isCapped ? "most" : "cost") ? "" : least })
          }
        />
        <Choice
          label="The target holds for"
          value={query.get("rule") === "each part" ? "each part" : "kit"}
          groups={[{ name: "", options: rules }]}
          onChange={(rule) => changeQuery({ rule: rule === "kit" ? "" : rule })}
        />
        <MoneyBoxes query={query} usual={answer.currency} />
        <Switch
          className="switch"
          isSelected={query.get("aboard") === "no"}
          onChange={(isOn) => changeQuery({ aboard: isOn ? "no" : "" })}
        >
          <span className="switch-track" aria-hidden="true" />
          As if the lockers were empty
        </Switch>
        <Switch
          className="switch"
          isSelected={query.get("robbing") !== "no"}
          onChange={(isOn) => changeQuery({ robbing: isOn ? "" : "no" })}
        >
          <span className="switch-track" aria-hidden="true" />
          Parts may be taken from redundant gear
        </Switch>
        <Switch
          className="switch"
          isSelected={query.get("confirmed") === "yes"}
          onChange={(isOn) => changeQuery({ confirmed: isOn ? "yes" : "" })}
        >
          <span className="switch-track" aria-hidden="true" />
          Only interchange that is confirmed
        </Switch>
      </div>
      <CapFields query={query} currency={answer.currency} vessel={answer.vessel} />
    </div>
  );
}
