import type { OverviewAnswer } from "../../../api/contract/find.contract.ts";
import type {
  SuppliersAnswer,
  SuppliersRequest,
} from "../../../api/contract/suppliers.contract.ts";
import { Cautions } from "../../components/cautions.tsx";
import { Choice } from "../../components/choice.tsx";
import { plural } from "../../components/figures.ts";
import { ImagineDeed } from "../../components/imagined/imagine-deed.tsx";
import { imagining } from "../../components/imagined/imagined-changes.ts";
import { SideBySide } from "../../components/imagined/side-by-side.tsx";
import { Answered, Notices, ProblemNote } from "../../components/notice.tsx";
import { ask, post } from "../../data/ask.ts";
import { useAnswer } from "../../data/use-answer.ts";
import { changeQuery, writeRoute } from "../../routing/route.ts";
import { OverlapPicture } from "./overlap-picture.tsx";
import { ReachPicture } from "./reach-picture.tsx";
import { StakeTable, SupplierTable } from "./supplier-tables.tsx";
import { WebSection } from "./web-section.tsx";

const all = "all";

const leastWords = ({ least }: SuppliersAnswer): string => {
  const names = least.suppliers.map(({ name }) => name).join(", ");
  const proof =
    least.status === "optimal"
      ? "Proven: no fewer will do"
      : `The best found; at least ${Math.ceil(least.lowerBound)} are needed`;
  return `${names}. ${proof}. Taking whoever adds most, step by step, ends with ${least.greedy.suppliers.length}.`;
};

/** Which suppliers cover the most of our gear, and what hangs on one of them alone? */
export function SuppliersPage({ query }: { readonly query: ReadonlyMap<string, string> }) {
  const vessel = query.get("vessel");
  const request: SuppliersRequest = imagining(vessel === undefined ? {} : { vessel }, query);
  const overview = useAnswer<OverviewAnswer>("overview", (signal) =>
    ask<OverviewAnswer>("/api/overview", { signal }),
  );
  const answer = useAnswer<SuppliersAnswer>(`suppliers ${JSON.stringify(request)}`, (signal) =>
    post<SuppliersAnswer>("/api/suppliers", request, signal),
  );
  const value = answer.value;
  return (
    <>
      <h1>Who sells what our gear takes?</h1>
      {answer.problem !== undefined && (
        <ProblemNote problem={answer.problem} again={answer.again} />
      )}
      {value === undefined ? (
        answer.waiting && <p className="loading">Comparing offers…</p>
      ) : (
        <>
          <Answered sentence={value.sentence} waiting={answer.waiting} />
          <SideBySide comparison={value.comparison} of="suppliers" />
          <ImagineDeed query={query} vessel={value.scope.vessel?.id} />
          <div className="settings">
            <Choice
              label="Vessel"
              value={value.scope.vessel?.id ?? vessel ?? all}
              groups={[
                {
                  name: "",
                  options: [{ id: all, name: "every vessel" }, ...(overview.value?.vessels ?? [])],
                },
              ]}
              onChange={(id) => changeQuery({ vessel: id === all ? "" : id })}
            />
          </div>
          <Notices notices={value.notices} />
          {value.gear.partsSold === 0 ? (
            <p>
              <a href={writeRoute("import")}>Import a list with suppliers</a> to compare them.
            </p>
          ) : (
            <>
              <section aria-labelledby="reach-title">
                <h2 id="reach-title">What the best few cover</h2>
                <ReachPicture answer={value} />
                <p className="said">{value.counterweight}</p>
              </section>
              <section aria-labelledby="least-title">
                <h2 id="least-title">
                  {plural(value.least.suppliers.length, "supplier")} for everything on sale
                </h2>
                <p>{leastWords(value)}</p>
              </section>
              <WebSection query={query} suppliers={value.suppliers} />
              <section aria-labelledby="each-title">
                <h2 id="each-title">Each supplier</h2>
                <SupplierTable rows={value.suppliers} />
              </section>
              {value.overlaps.length > 0 && (
                <section aria-labelledby="overlap-title">
                  <h2 id="overlap-title">Where one can stand in for another</h2>
                  <OverlapPicture answer={value} />
                </section>
              )}
            </>
          )}
          {value.singleSource.length > 0 && (
            <section aria-labelledby="single-title">
              <h2 id="single-title">
                {plural(value.singleSource.length, "part")} only one supplier sells
              </h2>
              <StakeTable caption="Parts with one source" rows={value.singleSource} />
            </section>
          )}
          {value.unsold.length > 0 && (
            <section aria-labelledby="unsold-title">
              <h2 id="unsold-title">{plural(value.unsold.length, "part")} nobody sells</h2>
              <StakeTable caption="Parts nobody sells" rows={value.unsold} />
            </section>
          )}
          <Cautions title="Read with every list" cautions={value.cautions} />
        </>
      )}
    </>
  );
}
