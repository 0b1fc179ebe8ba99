import { useMemo } from "react";
import type { ChooseAnswer } from "../../../api/contract/choose.contract.ts";
import { Cautions } from "../../components/cautions.tsx";
import { Choice } from "../../components/choice.tsx";
import { measureText, plural } from "../../components/figures.ts";
import { ImagineDeed } from "../../components/imagined/imagine-deed.tsx";
import { Answered, Notices, ProblemNote } from "../../components/notice.tsx";
import type { Column } from "../../components/table/column.ts";
import { DataTable } from "../../components/table/data-table.tsx";
import { post } from "../../data/ask.ts";
import { useAnswer } from "../../data/use-answer.ts";
import { useRecords } from "../../data/use-records.ts";
import { changeQuery, writeRoute } from "../../routing/route.ts";
import { CandidateTable } from "./candidate-table.tsx";
import { choiceQuestion, type FittedMake, fittedMakes } from "./choice-question.ts";
import { CostPicture } from "./cost-picture.tsx";
import { StandardSection } from "./standard-section.tsx";

function Needs({ answer }: { readonly answer: ChooseAnswer }) {
  const { needs, words } = answer.position;
  return (
    <p className="said">
      {words}
      {needs.length > 0 &&
        ` It must have ${needs
          .map(
            ({ need, rule, value, unit, from }) =>
              `${need} ${rule === "equal" ? "of exactly" : "of at least"} ${measureText(value)} ${unit} (as ${from === "question" ? "asked" : from === "position" ? "its position says" : "the gear there now"})`,
          )
          .join(", ")}.`}
    </p>
  );
}

const makeColumns: readonly Column<FittedMake>[] = [
  {
    id: "model",
    name: "Make",
    kind: "name",
    cell: ({ model, vessel, items }) => (
      <a
        className="row-link"
        href={writeRoute("choosing", [
          ["vessel", vessel.id],
          ["items", items.map(({ id }) => id).join(",")],
        ])}
      >
        {model.name}
      </a>
    ),
    value: ({ model }) => model.name,
  },
  { id: "vessel", name: "Vessel", cell: ({ vessel }) => vessel.name },
  { id: "items", name: "Fitted", kind: "number", cell: ({ items }) => items.length },
  {
    id: "where",
    name: "Where",
    kind: "wordy",
    cell: ({ items }) => items.map(({ name }) => name).join(", "),
  },
];

/** The verdict: its first sentence as the answer, the rest as the reasons they are. */
function Verdict({
  answer,
  waiting,
}: {
  readonly answer: ChooseAnswer;
  readonly waiting: boolean;
}) {
  const [first = "", ...rest] = answer.verdict.split(/(?<=\.) (?=[A-Z"“])/);
  return (
    <Answered sentence={first} waiting={waiting}>
      <p>{rest.join(" ")}</p>
    </Answered>
  );
}

function Result({ answer }: { readonly answer: ChooseAnswer }) {
  return (
    <>
      <Needs answer={answer} />
      <Notices notices={answer.notices} />
      {answer.candidates.length > 0 && (
        <>
          <section aria-labelledby="cost-title">
            <h2 id="cost-title">What the boat would cost with each</h2>
            <CostPicture answer={answer} />
          </section>
          <section aria-labelledby="makes-title">
            <h2 id="makes-title">Side by side</h2>
            <CandidateTable answer={answer} />
          </section>
        </>
      )}
      <section aria-labelledby="turning-title">
        <h2 id="turning-title">What would turn the verdict</h2>
        {answer.turning.length === 0 ? (
          <p>Nothing that was tried.</p>
        ) : (
          <ul className="plain-list">
            {answer.turning.map((point) => (
              <li key={point.words}>{point.words}</li>
            ))}
          </ul>
        )}
        <p className="said">{answer.tried}</p>
      </section>
      {answer.rejected.length > 0 && (
        <section aria-labelledby="rejected-title">
          <h2 id="rejected-title">{plural(answer.rejected.length, "make")} that will not do</h2>
          <ul className="plain-list">
            {answer.rejected.map(({ model, reasons }) => (
              <li key={model.id}>
                <strong>{model.name}</strong>: {reasons.join("; ")}
              </li>
            ))}
          </ul>
        </section>
      )}
      <Cautions title="Read with every choice" cautions={answer.cautions} />
    </>
  );
}

/** Which make should the next one be? */
export function ChoosingPage({ query }: { readonly query: ReadonlyMap<string, string> }) {
  const items = useRecords({ label: "FittedItem" }, true);
  const makes = useMemo(() => fittedMakes(items.rows), [items.rows]);
  const request = choiceQuestion(query);
  const key = JSON.stringify(request ?? null);
  const answer = useAnswer<ChooseAnswer | undefined>(`choose ${key}`, (signal) =>
    request === undefined
      ? Promise.resolve(undefined)
      : post<ChooseAnswer>("/api/choose", request, signal),
  );
  const chosen = makes.find(
    (make) => make.items.map(({ id }) => id).join(",") === query.get("items"),
  );
  const vessels = [...new Map(makes.map(({ vessel }) => [vessel.id, vessel])).values()];
  const pick = (make: FittedMake | undefined) =>
    changeQuery({
      vessel: make?.vessel.id ?? "",
      items: make?.items.map(({ id }) => id).join(",") ?? "",
    });
  return (
    <>
      <h1>Which make should the next one be?</h1>
      {items.problem !== undefined && <ProblemNote problem={items.problem} again={items.again} />}
      {answer.problem !== undefined && (
        <ProblemNote problem={answer.problem} again={answer.again} />
      )}
      {answer.value !== undefined && <Verdict answer={answer.value} waiting={answer.waiting} />}
      {request === undefined && (
        <p className="sentence screen-only">
          Pick what is to be replaced; every make on file that meets its needs is weighed by what
          the whole boat then costs.
        </p>
      )}
      <div className="settings">
        <Choice
          label="Replace"
          value={chosen?.key ?? null}
          placeholder={items.isWaiting ? "Fetching the gear…" : "Choose gear"}
          groups={vessels.map((vessel) => ({
            name: vessel.name,
            options: makes
              .filter((make) => make.vessel.id === vessel.id)
              .map((make) => ({
                id: make.key,
                name: `${make.model.name}, ${make.items.length} fitted`,
                meaning: make.items.map(({ name }) => name).join(", "),
              })),
          }))}
          onChange={(id) => pick(makes.find((make) => make.key === id))}
        />
      </div>
      <ImagineDeed query={query} vessel={query.get("vessel")} />
      {items.total === 0 && !items.isWaiting && (
        <p>
          <a href={writeRoute("import")}>Import a list of gear</a> first.
        </p>
      )}
      {request === undefined && makes.length > 0 && (
        <DataTable
          caption="Gear that could be replaced"
          className="tall screen-only"
          sorts
          columns={makeColumns}
          rows={makes}
          rowKey={({ key: make }) => make}
        />
      )}
      {request !== undefined && answer.value === undefined && answer.waiting && (
        <p className="loading" role="status">
          Working out a kit for each make, and what would turn the verdict…
        </p>
      )}
      {answer.value !== undefined && <Result answer={answer.value} />}
      {makes.length > 0 && <StandardSection query={query} vessels={vessels} />}
    </>
  );
}
