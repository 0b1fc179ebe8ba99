import { Switch } from "react-aria-components";
import type { OverviewAnswer } from "../../../api/contract/find.contract.ts";
import type { VoyageAnswer } from "../../../api/contract/voyage.contract.ts";
import { changeQuery, writeRoute } from "../../routing/route.ts";
import { LimitBox } from "../crossing/limit-box.tsx";
import { VesselAndCrossing } from "../crossing/vessel-and-crossing.tsx";

const figure = (text: string | undefined): number | undefined =>
  text === undefined || text === "" || Number.isNaN(Number(text)) ? undefined : Number(text);

const inAddress = (value: number | undefined): string => (value === undefined ? "" : String(value));

/** What the voyage's question can be changed by, beside its legs. */
export function VoyageForm({
  answer,
  overview,
  query,
}: {
  readonly answer: VoyageAnswer;
  readonly overview: OverviewAnswer | undefined;
  readonly query: ReadonlyMap<string, string>;
}) {
  return (
    <div className="question">
      <div className="settings">
        <VesselAndCrossing
          vessel={answer.vessel}
          crossing={{ ...answer.crossing, id: answer.crossing.id ?? query.get("crossing") ?? null }}
          overview={overview}
          ownDays={["legs", "from"]}
        />
        <LimitBox
          label="Days in port, if not said"
          placeholder="3"
          most={3650}
          value={figure(query.get("stay"))}
          onChange={(stay) => changeQuery({ stay: inAddress(stay) })}
        />
        <LimitBox
          label="Chance a port delivers"
          placeholder="0.9"
          most={1}
          value={figure(query.get("delivers"))}
          onChange={(chance) => changeQuery({ delivers: inAddress(chance) })}
        />
        <Switch
          className="switch"
          isSelected={query.get("abroad") === "yes"}
          onChange={(isOn) => changeQuery({ abroad: isOn ? "yes" : "" })}
        >
          <span className="switch-track" aria-hidden="true" />
          Suppliers abroad that deliver within the stay count too
        </Switch>
      </div>
      <p className="said">
        Targets, and what counts as aboard, are set with{" "}
        <a href={writeRoute("crossing", query)}>the crossing</a>. Caps do not hold here.
      </p>
    </div>
  );
}
