import type { OverviewAnswer } from "../../../api/contract/find.contract.ts";
import type { ReadinessAnswer } from "../../../api/contract/readiness.contract.ts";
import { Cautions } from "../../components/cautions.tsx";
import { dayText, plural, wholeText } from "../../components/figures.ts";
import { FirstSteps } from "../../components/first-steps.tsx";
import { ImagineDeed } from "../../components/imagined/imagine-deed.tsx";
import { whatIfOf } from "../../components/imagined/imagined-changes.ts";
import { SideBySide } from "../../components/imagined/side-by-side.tsx";
import { Answered, Notices, ProblemNote } from "../../components/notice.tsx";
import type { Column } from "../../components/table/column.ts";
import { DataTable } from "../../components/table/data-table.tsx";
import { ask } from "../../data/ask.ts";
import { useAnswer } from "../../data/use-answer.ts";
import { writeRoute } from "../../routing/route.ts";
import { useFleetReadiness } from "./use-fleet-readiness.ts";
import { VesselReadinessBlock } from "./vessel-readiness.tsx";

const countOf = (overview: OverviewAnswer, label: string) => overview.counts[label] ?? 0;

function overviewSentence(overview: OverviewAnswer): string {
  const items = countOf(overview, "FittedItem");
  if (items === 0 && overview.vessels.length === 0)
    return "Nothing is here yet. Bring in a list of the gear aboard, of its parts, or both in one.";
  return (
    `${plural(overview.vessels.length, "vessel")} with ${plural(items, "fitted item")} of ` +
    `${plural(countOf(overview, "Model"), "model")}, ${plural(countOf(overview, "Part"), "part")} and ` +
    `${plural(countOf(overview, "Supplier"), "supplier")} are on file; ` +
    `${plural(overview.crossings.length, "crossing")} to provide for.`
  );
}

type VesselRow = OverviewAnswer["vessels"][number];
type CategoryRow = OverviewAnswer["categories"][number];

const vesselColumns: readonly Column<VesselRow>[] = [
  {
    id: "vessel",
    name: "Vessel",
    kind: "name",
    cell: ({ id, name }) => (
      <a className="row-link" href={writeRoute("gear", [["vessel", id]])}>
        {name}
      </a>
    ),
  },
  {
    id: "items",
    name: "Fitted items",
    kind: "number",
    cell: ({ items }) => wholeText(items),
    value: ({ items }) => items,
    why: ({ name, items }) => ({
      what: `${plural(items, "item")} of gear ${items === 1 ? "is" : "are"} fitted on ${name}.`,
      how: "Counted: positions on file for the vessel, each with the gear in it.",
      rests: "The gear lists that were taken in, and what was added by hand.",
      change: "Adding or taking out an item under Gear, or another list.",
    }),
  },
  {
    id: "alike",
    name: "Alike?",
    cell: ({ id, name }) => (
      <a className="row-link" href={writeRoute("commonality", [["vessel", id]])}>
        Commonality<span className="hidden"> of {name}</span>
      </a>
    ),
  },
];

const categoryColumns: readonly Column<CategoryRow>[] = [
  {
    id: "category",
    name: "Category",
    kind: "name",
    cell: ({ category }) => (
      <a className="row-link" href={writeRoute("commonality", [["category", category]])}>
        {category}
      </a>
    ),
  },
  {
    id: "models",
    name: "Models",
    kind: "number",
    cell: ({ models }) => wholeText(models),
    value: ({ models }) => models,
    why: ({ category, models }) => ({
      what: `${plural(models, "model")} of ${category} ${models === 1 ? "is" : "are"} on file, fitted or not.`,
      how: "Counted: makes and designations in the category.",
      rests: "The category each model carries; a model without one stands under “no category”.",
      change: "A model added, or its category corrected.",
    }),
  },
  {
    id: "items",
    name: "Fitted",
    kind: "number",
    cell: ({ items }) => wholeText(items),
    value: ({ items }) => items,
    why: ({ category, items }) => ({
      what: `${plural(items, "item")} of ${category} ${items === 1 ? "is" : "are"} fitted, on all vessels together.`,
      how: "Counted: positions whose gear is of a model in the category.",
      rests: "The gear lists on file.",
      change: "Gear fitted or taken off, or a model's category corrected.",
    }),
  },
];

function Contents({ overview }: { readonly overview: OverviewAnswer }) {
  return (
    <div className="pair">
      <section aria-labelledby="vessels-title">
        <h2 id="vessels-title">Vessels</h2>
        <DataTable
          caption="Vessels and their gear"
          columns={vesselColumns}
          rows={overview.vessels}
          rowKey={({ id }) => id}
        />
      </section>
      <section aria-labelledby="gear-title">
        <h2 id="gear-title">Gear</h2>
        <DataTable
          caption="Gear by category"
          className="tall"
          columns={categoryColumns}
          rows={overview.categories}
          rowKey={({ category }) => category}
        />
      </section>
    </div>
  );
}

function Crossings({ overview }: { readonly overview: OverviewAnswer }) {
  return (
    <section aria-labelledby="crossings-title">
      <h2 id="crossings-title">Crossings</h2>
      {overview.crossings.length === 0 ? (
        <p>
          None yet. <a href={writeRoute("crossing")}>Plan a kit by days alone</a>, or import a list
          with a crossing in it.
        </p>
      ) : (
        <ul className="passages">
          {overview.crossings.map((crossing) => (
            <li key={crossing.id}>
              <h3>{crossing.name}</h3>
              <p>
                {crossing.departs === null
                  ? "No departure day"
                  : `Departs ${dayText(crossing.departs)}`}
                {crossing.daysExpected === null
                  ? ""
                  : `, ${plural(crossing.daysExpected, "day")} expected`}
                {crossing.daysLongest === null ? "" : `, ${crossing.daysLongest} at longest`}
              </p>
              <ul className="vessel-links">
                {(crossing.vessels.length > 0
                  ? overview.vessels.filter(
                      (vessel) =>
                        crossing.vessels.includes(vessel.id) ||
                        crossing.vessels.includes(vessel.name),
                    )
                  : overview.vessels
                ).map((vessel) => (
                  <li key={vessel.id}>
                    <a
                      href={writeRoute("crossing", [
                        ["crossing", crossing.id],
                        ["vessel", vessel.id],
                      ])}
                    >
                      Kit for {vessel.name}
                    </a>
                  </li>
                ))}
              </ul>
            </li>
          ))}
        </ul>
      )}
    </section>
  );
}

function Readiness({ answer }: { readonly answer: ReadinessAnswer }) {
  const { standardise } = answer;
  return (
    <>
      <section aria-labelledby="ready-title">
        <h2 id="ready-title">What needs attention</h2>
        <Notices notices={answer.notices} />
        <div className="fleet">
          {answer.vessels.map((about) => (
            <VesselReadinessBlock key={about.vessel.id} about={about} />
          ))}
        </div>
      </section>
      {standardise !== null && (
        <section aria-labelledby="standardise-title">
          <h2 id="standardise-title">What would be best made alike</h2>
          <p>
            {standardise.words}{" "}
            <a
              href={writeRoute("commonality", [
                ["replace", standardise.replace.id],
                ["by", standardise.by.id],
              ])}
            >
              See what vanishes
            </a>
          </p>
        </section>
      )}
    </>
  );
}

/** What needs attention before the next crossing, what is on file, and the first useful step where nothing is. */
export function OverviewPage({ query }: { readonly query: ReadonlyMap<string, string> }) {
  const answer = useAnswer<OverviewAnswer>("overview", (signal) =>
    ask<OverviewAnswer>("/api/overview", { signal }),
  );
  const overview = answer.value;
  const isEmpty =
    overview !== undefined && overview.vessels.length === 0 && countOf(overview, "Part") === 0;
  const hasVessels = overview !== undefined && overview.vessels.length > 0;
  const whatIf = whatIfOf(query);
  const readiness = useFleetReadiness(overview, whatIf);
  if (overview === undefined)
    return (
      <>
        <h1>Are we ready to go?</h1>
        {answer.problem === undefined ? (
          <p className="loading">Looking…</p>
        ) : (
          <ProblemNote problem={answer.problem} again={answer.again} />
        )}
      </>
    );
  return (
    <>
      <h1>{isEmpty ? "What is on file?" : "Are we ready to go?"}</h1>
      <Answered
        sentence={readiness.value?.sentence ?? overviewSentence(overview)}
        waiting={readiness.waiting && hasVessels}
      />
      {readiness.value !== undefined && <p className="said">{overviewSentence(overview)}</p>}
      {isEmpty ? (
        <section className="first-step">
          <p>
            Any spreadsheet saved as CSV will do, headings in whatever language and order you keep
            them. You see what it would change before anything is written, and can undo it whole.
          </p>
          <FirstSteps />
        </section>
      ) : (
        <>
          {readiness.problem !== undefined && (
            <ProblemNote problem={readiness.problem} again={readiness.again} />
          )}
          <SideBySide comparison={readiness.value?.comparison} of="readiness" />
          <ImagineDeed query={query} />
          {overview.vessels.length > readiness.looksInto && (
            <p className="said" role="status">
              {readiness.waiting
                ? `Looked into ${wholeText(readiness.value?.vessels.length ?? 0)} of ${plural(readiness.looksInto, "vessel")} so far. `
                : ""}
              Of {plural(overview.vessels.length, "vessel")} the {wholeText(readiness.looksInto)}{" "}
              that sail first are looked into here; the others' kits stand under{" "}
              <a href={writeRoute("crossing")}>Crossing</a>.
            </p>
          )}
          {readiness.value !== undefined && <Readiness answer={readiness.value} />}
          {whatIf !== undefined && (
            <p className="said">What follows is as on file, without what is imagined.</p>
          )}
          <Crossings overview={overview} />
          <Contents overview={overview} />
          {readiness.value !== undefined && (
            <Cautions title="Read with every list" cautions={readiness.value.cautions} />
          )}
        </>
      )}
    </>
  );
}
