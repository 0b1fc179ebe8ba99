import type { ReactNode } from "react";
import type { ChooseAnswer } from "../../../api/contract/choose.contract.ts";
import { needNames, needOf } from "../../../graph-schema/needs.ts";
import { Cautions } from "../../components/cautions.tsx";
import { dayText, measureText, plural } from "../../components/figures.ts";
import { needWithUnit } from "../../components/need-units.ts";
import { Answered, Notices } from "../../components/notice.tsx";
import { usePreferences } from "../../data/preferences.ts";
import { CandidateTables } from "./candidate-table.tsx";
import { CostPicture } from "./cost-picture.tsx";
import { ListReadingShown } from "./list-reading.tsx";

type Need = ChooseAnswer["position"]["needs"][number];

const source: Readonly<Record<Need["from"], string>> = {
  question: "as asked",
  position: "as its position says",
  "gear fitted now": "as the gear there now has",
};

function Needs({ answer }: { readonly answer: ChooseAnswer }) {
  const { units } = usePreferences();
  const { needs, words, category, functions } = answer.position;
  const figure = ({ need, value, unit }: Need): string => {
    const name = needNames.find((one) => needOf(one).words === need);
    return name === undefined ? `${measureText(value)} ${unit}` : needWithUnit(name, value, units);
  };
  const served = functions.map(({ function: { name } }) => name).join(", ");
  return (
    <p className="said">
      Asked for: {words} ({category}) on {answer.vessel.name}. {answer.crossing.name},{" "}
      {plural(answer.crossing.daysLongest, "day")} at longest, leaving{" "}
      {dayText(answer.crossing.departs)}.{" "}
      {served === "" ? "It serves no named function." : `It serves: ${served}.`}
      {needs.length > 0 &&
        ` It must have ${needs
          .map(
            (need) =>
              `${need.need} ${need.rule === "equal" ? "of exactly" : "of at least"} ${figure(need)} (${source[need.from]})`,
          )
          .join(", ")}.`}
    </p>
  );
}

/** The verdict: its first sentence as the answer, the rest as the reasons they are. */
export function Verdict({
  answer,
  waiting,
}: {
  readonly answer: ChooseAnswer;
  readonly waiting: boolean;
}) {
  const [first = "", ...rest] = answer.verdict.split(/(?<=\.) (?=[A-Z"“])/);
  return (
    <>
      <p className="paper-date">Reckoned and printed {dayText(new Date().toISOString())}.</p>
      <Answered sentence={first} waiting={waiting}>
        {rest.length > 0 && <p>{rest.join(" ")}</p>}
      </Answered>
      <Needs answer={answer} />
    </>
  );
}

/** Everything under the verdict: picture, makes side by side, what would turn it, those refused, cautions. */
export function ChoiceResult({
  answer,
  out,
  tools,
}: {
  readonly answer: ChooseAnswer;
  readonly out: readonly string[];
  /** What can be done with the answer, beside its first heading. */
  readonly tools: ReactNode;
}) {
  return (
    <>
      {answer.candidates.length > 0 && (
        <>
          <section aria-labelledby="cost-title">
            <div className="heading-line">
              <h2 id="cost-title">What the boat would cost with each</h2>
              {tools}
            </div>
            <CostPicture answer={answer} />
          </section>
          <section aria-labelledby="makes-title" className="asked">
            <h2 id="makes-title">Side by side</h2>
            <CandidateTables answer={answer} out={out} />
          </section>
          <section aria-labelledby="turning-title">
            <h2 id="turning-title">What would turn the verdict</h2>
            {answer.turning.length === 0 ? (
              <p>
                {answer.tried === ""
                  ? "There is nothing to turn it to."
                  : "Nothing that was tried."}
              </p>
            ) : (
              <ul className="plain-list">
                {answer.turning.map((point) => (
                  <li key={point.words}>{point.words}</li>
                ))}
              </ul>
            )}
            <p className="said">{answer.tried}</p>
          </section>
        </>
      )}
      {answer.rejected.length > 0 && (
        <section aria-labelledby="rejected-title">
          <h2 id="rejected-title">{plural(answer.rejected.length, "make")} that will not do</h2>
          <ul className="plain-list">
            {answer.rejected.map(({ model, reasons }) => (
              <li key={model.id}>
                <strong>{model.name}</strong>: {reasons.join("; ")}.
              </li>
            ))}
          </ul>
        </section>
      )}
      {answer.lists.length > 0 && (
        <section aria-label="Lists typed in" className="paper-only">
          {answer.lists.map((reading) => (
            <ListReadingShown key={`${reading.model} ${reading.list}`} reading={reading} />
          ))}
        </section>
      )}
      {answer.notices.length > 0 && (
        <section aria-labelledby="reached-title">
          <h2 id="reached-title">How this was reached</h2>
          <Notices notices={answer.notices} />
        </section>
      )}
      <Cautions title="Read with every choice" cautions={answer.cautions} />
    </>
  );
}
