import { Printer } from "lucide-react";
import { Button } from "react-aria-components";
import type {
  CommonalityAnswer,
  CommonalityRequest,
} from "../../../api/contract/commonality.contract.ts";
import type { OverviewAnswer } from "../../../api/contract/find.contract.ts";
import { Choice } from "../../components/choice.tsx";
import { dayText, plural } from "../../components/figures.ts";
import { FirstSteps } from "../../components/first-steps.tsx";
import { ImagineDeed } from "../../components/imagined/imagine-deed.tsx";
import { imagining } from "../../components/imagined/imagined-changes.ts";
import { SideBySide } from "../../components/imagined/side-by-side.tsx";
import { Answered, Notices, ProblemNote } from "../../components/notice.tsx";
import { useIsPrinting } from "../../components/use-printing.ts";
import { ask, post } from "../../data/ask.ts";
import { useAnswer } from "../../data/use-answer.ts";
import { changeQuery } from "../../routing/route.ts";
import { IndexTable } from "./index-table.tsx";
import { KitsTable, OpportunityTable } from "./kit-tables.tsx";
import { LikenessPicture } from "./likeness-picture.tsx";
import { MatrixPicture } from "./matrix-picture.tsx";

const all = "all";

const requestOf = (query: ReadonlyMap<string, string>): CommonalityRequest => {
  const vessel = query.get("vessel");
  const category = query.get("category");
  return {
    ...(vessel === undefined ? {} : { vessel }),
    ...(category === undefined ? {} : { category }),
  };
};

/** How alike is our gear, and how many kits of spares does it need? */
export function CommonalityPage({ query }: { readonly query: ReadonlyMap<string, string> }) {
  const request = imagining(requestOf(query), query);
  const key = `commonality ${JSON.stringify(request)}`;
  const overview = useAnswer<OverviewAnswer>("overview", (signal) =>
    ask<OverviewAnswer>("/api/overview", { signal }),
  );
  const answer = useAnswer<CommonalityAnswer>(key, (signal) =>
    post<CommonalityAnswer>("/api/commonality", request, signal),
  );
  useIsPrinting();
  const value = answer.value;
  const filter = (
    <div className="settings">
      <Choice
        label="Vessel"
        value={value?.scope.vessel?.id ?? query.get("vessel") ?? all}
        groups={[
          {
            name: "",
            options: [{ id: all, name: "every vessel" }, ...(overview.value?.vessels ?? [])],
          },
        ]}
        onChange={(vessel) => changeQuery({ vessel: vessel === all ? "" : vessel })}
      />
      <Choice
        label="Category"
        value={query.get("category") ?? all}
        groups={[
          {
            name: "",
            options: [
              { id: all, name: "every category" },
              ...(overview.value?.categories ?? []).map((row) => ({
                id: row.category,
                name: row.category,
              })),
            ],
          },
        ]}
        onChange={(category) => changeQuery({ category: category === all ? "" : category })}
      />
    </div>
  );
  return (
    <>
      <h1>How alike is our gear?</h1>
      {answer.problem !== undefined && (
        <ProblemNote problem={answer.problem} again={answer.again} />
      )}
      {value === undefined ? (
        answer.waiting && <p className="loading">Comparing…</p>
      ) : (
        <>
          <p className="paper-date">Reckoned and printed {dayText(new Date().toISOString())}.</p>
          <Answered sentence={value.sentence} waiting={answer.waiting} />
          <SideBySide comparison={value.comparison} of="commonality" />
          <ImagineDeed query={query} vessel={value.scope.vessel?.id} />
          <div className="heading-line off-paper">
            {filter}
            <Button className="quiet" onPress={() => window.print()}>
              <Printer size={18} aria-hidden="true" /> Print the report
            </Button>
          </div>
          <Notices notices={value.notices} />
          {value.matrix.models.length === 0 ? (
            <>
              <p>No gear with a list of its parts is here yet to compare.</p>
              <FirstSteps list="Import a parts list" />
            </>
          ) : (
            <>
              <section aria-labelledby="matrix-title">
                <h2 id="matrix-title">Which models share which parts</h2>
                <MatrixPicture key={key} matrix={value.matrix} query={query} />
              </section>
              <section aria-labelledby="likeness-title">
                <h2 id="likeness-title">Which models are alike</h2>
                <LikenessPicture answer={value} />
              </section>
              <section aria-labelledby="index-title">
                <h2 id="index-title">By category and vessel</h2>
                <IndexTable answer={value} />
              </section>
              <section aria-labelledby="opportunity-title">
                <h2 id="opportunity-title">What standardising would save</h2>
                <OpportunityTable answer={value} />
                <p className="said">
                  Safety gear keeps its own spares: likeness never thins them out.
                </p>
              </section>
              <section aria-labelledby="kits-title">
                <h2 id="kits-title">{plural(value.kits.length, "kit")} of spares</h2>
                <KitsTable answer={value} />
              </section>
            </>
          )}
        </>
      )}
    </>
  );
}
