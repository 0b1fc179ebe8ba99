import { Printer } from "lucide-react";
import { useEffect, useMemo, useState } from "react";
import { Button } from "react-aria-components";
import type { ChooseAnswer } from "../../../api/contract/choose.contract.ts";
import type { OverviewAnswer } from "../../../api/contract/find.contract.ts";
import { ImagineDeed } from "../../components/imagined/imagine-deed.tsx";
import { SideBySide } from "../../components/imagined/side-by-side.tsx";
import { ProblemNote } from "../../components/notice.tsx";
import type { Column } from "../../components/table/column.ts";
import { DataTable } from "../../components/table/data-table.tsx";
import { useIsPrinting } from "../../components/use-printing.ts";
import { ask, post } from "../../data/ask.ts";
import { usePreferences } from "../../data/preferences.ts";
import { useAnswer } from "../../data/use-answer.ts";
import { useRecords } from "../../data/use-records.ts";
import { changeQuery, writeRoute } from "../../routing/route.ts";
import { settledTerms } from "../crossing/money-terms.ts";
import { textOf } from "../records/record-columns.ts";
import {
  asksForNew,
  choiceQuestion,
  type FittedMake,
  fittedMakes,
  idsIn,
} from "./choice-question.ts";
import { ChoiceResult, Verdict } from "./choice-result.tsx";
import { MakesSection } from "./makes-section.tsx";
import { kindNeeds } from "./needs-fields.tsx";
import { QuestionSection } from "./question-section.tsx";
import { StandardSection } from "./standard-section.tsx";

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

/** Which make should the next one be? */
export function ChoosingPage({ query }: { readonly query: ReadonlyMap<string, string> }) {
  const overview = useAnswer<OverviewAnswer>("overview", (signal) =>
    ask<OverviewAnswer>("/api/overview", { signal }),
  );
  const items = useRecords({ label: "FittedItem" }, true);
  const models = useRecords({ label: "Model" }, true);
  const makes = useMemo(() => fittedMakes(items.rows), [items.rows]);
  const known = overview.value;
  const isNew = asksForNew(query);
  const request = choiceQuestion(query, known?.vessels[0]?.id);
  const isAsked = request !== undefined;
  // Asked from the start, the question is folded away under its answer.
  const [isOpen, setOpen] = useState(query.get(isNew ? "kind" : "items") === undefined);
  const key = JSON.stringify(request ?? null);
  const answer = useAnswer<ChooseAnswer | undefined>(`choose ${key}`, (signal) =>
    request === undefined
      ? Promise.resolve(undefined)
      : post<ChooseAnswer>("/api/choose", request, signal),
  );
  const choice = isAsked ? answer.value : undefined;
  const set = usePreferences();
  const missing = JSON.stringify(isAsked ? settledTerms(query, set) : {});
  // The reader's own margin and rates go into the address, so that a shared one asks the same question.
  useEffect(() => {
    if (missing !== "{}") changeQuery(JSON.parse(missing) as Record<string, string>, true);
  }, [missing]);
  useIsPrinting();

  const [replaced] = idsIn(query.get("items"));
  const fitted = makes.find((make) => make.items.some(({ id }) => id === replaced));
  const model = models.rows.find(({ id }) => id === fitted?.model.id);
  const category = isNew
    ? (query.get("kind") ?? "")
    : model === undefined
      ? ""
      : textOf(model, "category");
  const ofKind = useMemo(
    () =>
      models.rows.filter(
        (row) =>
          category !== "" && textOf(row, "category").toLowerCase() === category.toLowerCase(),
      ),
    [models.rows, category],
  );
  const kind = useMemo(() => kindNeeds(ofKind), [ofKind]);
  const out = useMemo(() => idsIn(query.get("out")), [query]);
  const vessels = [...new Map(makes.map(({ vessel }) => [vessel.id, vessel])).values()];
  return (
    <>
      <h1>Which make should the next one be?</h1>
      {[items, overview].map(
        ({ problem, again }) =>
          problem !== undefined && (
            <ProblemNote key={problem.detail} problem={problem} again={again} />
          ),
      )}
      {isAsked && answer.problem !== undefined && (
        <ProblemNote problem={answer.problem} again={answer.again} />
      )}
      {choice !== undefined && answer.problem === undefined && (
        <Verdict answer={choice} waiting={answer.waiting} />
      )}
      {!isAsked && (
        <p className="sentence screen-only">
          {isNew
            ? "Say what kind of gear it is; every make on file that meets its needs is weighed by what the whole boat then costs."
            : "Pick what is to be replaced, or describe a new position; every make on file that meets its needs is weighed by what the whole boat then costs."}
        </p>
      )}
      {isAsked && choice === undefined && answer.waiting && (
        <p className="loading" role="status">
          Working out a kit for each make, and what would turn the verdict…
        </p>
      )}
      {known !== undefined && (
        <section aria-label="What it is for" className="off-paper">
          <details open={isOpen} onToggle={(event) => setOpen(event.currentTarget.open)}>
            <summary className="fold">What it is for</summary>
            <QuestionSection
              query={query}
              overview={known}
              makes={makes}
              isWaiting={items.isWaiting}
              kind={kind}
              isAsked={isAsked}
            />
          </details>
        </section>
      )}
      <ImagineDeed query={query} vessel={query.get("vessel")} />
      {items.total === 0 && !items.isWaiting && items.problem === undefined && !isNew && (
        <p>
          Nothing fitted is on file. <a href={writeRoute("import")}>Import a list of gear</a> first.
        </p>
      )}
      {isAsked && known !== undefined && (
        <MakesSection
          query={query}
          category={category}
          onFile={ofKind.map(({ id, title }) => ({ id, name: title.replace(" / ", " ") }))}
          kind={kind}
          readings={choice?.lists ?? []}
          currency={query.get("currency") ?? (set.currency || known.currency)}
        />
      )}
      {!isAsked && !isNew && makes.length > 0 && (
        <section aria-label="Gear that could be replaced" className="screen-only">
          <DataTable
            caption="Gear that could be replaced"
            className="tall"
            sorts
            columns={makeColumns}
            rows={makes}
            rowKey={({ key: make }) => make}
          />
        </section>
      )}
      {choice !== undefined && answer.problem === undefined && (
        <>
          <SideBySide comparison={choice.comparison} of="the choice" />
          <ChoiceResult
            answer={choice}
            out={out}
            tools={
              <Button className="act" onPress={() => window.print()}>
                <Printer size={18} aria-hidden="true" /> Print
              </Button>
            }
          />
        </>
      )}
      {makes.length > 0 && known !== undefined && (
        <StandardSection query={query} vessels={vessels} planning={known.currency} />
      )}
    </>
  );
}
