import { useState } from "react";
import { Button } from "react-aria-components";
import type { OverviewAnswer } from "../../../api/contract/find.contract.ts";
import type { ReceiveAnswer } from "../../../api/contract/orders.contract.ts";
import type { ProblemDocument } from "../../../api/contract/problem.contract.ts";
import type { RecordDocument } from "../../../api/contract/records.contract.ts";
import { Choice } from "../../components/choice.tsx";
import { DayBox } from "../../components/day-box.tsx";
import { ProblemNote } from "../../components/notice.tsx";
import { ask, send } from "../../data/ask.ts";
import { tellChange } from "../../data/last-change.ts";
import { problemOf, useAnswer } from "../../data/use-answer.ts";
import { useRecords } from "../../data/use-records.ts";
import { placesOf } from "../lockers/stowage.ts";
import type { OrderedPart } from "./ordered-parts.ts";

/** An order that has come: where it is put, and the dates on packets of what perishes. */
export function ArrivalForm({
  order,
  parts,
  onCome,
}: {
  readonly order: RecordDocument;
  readonly parts: readonly OrderedPart[];
  readonly onCome: (come: ReceiveAnswer) => void;
}) {
  const overview = useAnswer<OverviewAnswer>("overview", (signal) =>
    ask<OverviewAnswer>("/api/overview", { signal }),
  );
  const lockers = useRecords({ label: "Locker" }, true);
  const [place, setPlace] = useState<string | null>(null);
  const [on, setOn] = useState("");
  const [dates, setDates] = useState<ReadonlyMap<string, string>>(new Map());
  const [isBusy, setBusy] = useState(false);
  const [problem, setProblem] = useState<ProblemDocument>();
  const places = placesOf(overview.value?.vessels ?? [], lockers.rows);
  const groups = places
    .filter(({ isVessel }) => isVessel)
    .map((vessel) => ({
      name: vessel.name,
      options: places
        .filter(({ id }) => vessel.within.has(id))
        .map(({ id, path, isVessel }) => ({
          id,
          name: isVessel ? `${path}, no locker` : path,
        })),
    }));
  const chosen = places.find(({ id }) => id === place);
  const isOfPlace = problem?.errors?.some(({ pointer }) => pointer === "/into") === true;
  const perishing = parts.filter(({ perishes }) => perishes);
  const receive = async () => {
    setBusy(true);
    setProblem(undefined);
    try {
      const come = await send<ReceiveAnswer>(
        `/api/orders/${encodeURIComponent(order.id)}/arrival`,
        {
          ...(chosen === undefined
            ? {}
            : chosen.isVessel
              ? { vessel: chosen.id }
              : { into: chosen.id }),
          ...(on === "" ? {} : { on }),
          dates: [...dates]
            .filter(([, expires]) => expires !== "")
            .map(([part, expires]) => ({ part, expires })),
        },
      );
      onCome(come);
      tellChange({ sentence: come.sentence, sequence: come.sequence });
    } catch (error) {
      setProblem(problemOf(error));
    }
    setBusy(false);
  };
  return (
    <div className="arrival">
      <h3>When it has come</h3>
      <div className="settings">
        <Choice
          label="Put into"
          value={place}
          placeholder="Choose a locker"
          groups={groups}
          onChange={(id) => {
            setPlace(id);
            setProblem(undefined);
          }}
        />
        <DayBox label="Came on" placeholder="today" value={on} onChange={setOn} />
      </div>
      {isOfPlace && (
        <p className="field-fault" role="alert">
          {problem?.detail}
        </p>
      )}
      {perishing.length > 0 && (
        <>
          <p className="said">
            These perish. Read the date on each packet: without one they do not count as aboard.
          </p>
          <div className="settings">
            {perishing.map(({ id, partNumber, description }) => (
              <DayBox
                key={id}
                label={`Use by: ${partNumber}${description === "" ? "" : `, ${description}`}`}
                value={dates.get(id) ?? ""}
                onChange={(day) => setDates((before) => new Map([...before, [id, day]]))}
              />
            ))}
          </div>
        </>
      )}
      {problem !== undefined && !isOfPlace && <ProblemNote problem={problem} />}
      <Button className="act" isDisabled={isBusy} onPress={() => void receive()}>
        {isBusy ? "Stowing…" : "It has come"}
      </Button>
    </div>
  );
}
