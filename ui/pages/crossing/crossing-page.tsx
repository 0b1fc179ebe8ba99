import { Anchor, Printer, ShoppingCart } from "lucide-react";
import { useEffect } from "react";
import { Button } from "react-aria-components";
import type { OverviewAnswer } from "../../../api/contract/find.contract.ts";
import type { KitAnswer } from "../../../api/contract/kit.contract.ts";
import { Cautions } from "../../components/cautions.tsx";
import { Choice } from "../../components/choice.tsx";
import { Elapsed } from "../../components/elapsed.tsx";
import { dayText } from "../../components/figures.ts";
import { ImagineDeed } from "../../components/imagined/imagine-deed.tsx";
import { SideBySide } from "../../components/imagined/side-by-side.tsx";
import { Answered, Notices, ProblemNote } from "../../components/notice.tsx";
import { unitsAsked } from "../../components/units.ts";
import { useIsPrinting } from "../../components/use-printing.ts";
import { ask, post } from "../../data/ask.ts";
import { usePreferences } from "../../data/preferences.ts";
import { useAnswer } from "../../data/use-answer.ts";
import { changeQuery, writeRoute } from "../../routing/route.ts";
import { cappedQuestion } from "./cap-question.ts";
import { DoubtSection } from "./doubt-section.tsx";
import { kitQuestion } from "./kit-question.ts";
import { KitTable } from "./kit-table.tsx";
import { KitTotals } from "./kit-totals.tsx";
import { LimitsTable } from "./limits-table.tsx";
import { MinimumsSection } from "./minimums-section.tsx";
import { settledTerms } from "./money-terms.ts";
import { PrepareSection } from "./prepare-section.tsx";
import { QuestionForm } from "./question-form.tsx";
import { FunctionTable, NoEvidenceTable, UnsparableTable } from "./risk-tables.tsx";
import { lineChoices, shownLines } from "./shown-lines.ts";
import { SimulationSection } from "./simulation-section.tsx";
import { SoldAsList } from "./sold-as-list.tsx";
import { StowTable } from "./stow-table.tsx";
import { TierTable } from "./tier-table.tsx";
import { TradeOffPicture } from "./trade-off-picture.tsx";

/** Seconds after which the program answers with the best kit it has. */
const usualSeconds = 20;

/** What must we carry for this crossing, and why? */
export function CrossingPage({ query }: { readonly query: ReadonlyMap<string, string> }) {
  const set = usePreferences();
  const speaks = unitsAsked(set.units);
  const request = { ...cappedQuestion(query), ...speaks };
  /** For what is reckoned without limits on what is bought. */
  const free = { ...kitQuestion(query), ...speaks };
  const overview = useAnswer<OverviewAnswer>("overview", (signal) =>
    ask<OverviewAnswer>("/api/overview", { signal }),
  );
  const answer = useAnswer<KitAnswer>(`kit ${JSON.stringify(request)}`, (signal) =>
    post<KitAnswer>("/api/kit", request, signal),
  );
  const kit = answer.value;
  const terms = settledTerms(query, set);
  const missing = JSON.stringify(terms);
  // The reader's own margin and rates go into the address, so that a shared one asks the same question.
  useEffect(() => {
    if (missing !== "{}") changeQuery(JSON.parse(missing) as Record<string, string>, true);
  }, [missing]);
  useIsPrinting();
  const part = query.get("part");
  const shown = shownLines(query.get("show"));
  return (
    <>
      <h1>What must we carry for this crossing?</h1>
      {answer.problem !== undefined && (
        <>
          <ProblemNote problem={answer.problem} again={answer.again} />
          {kit === undefined && (
            <p>
              {query.size > 0 ? (
                <a className="act" href={writeRoute("crossing")}>
                  Ask about the next crossing instead
                </a>
              ) : (
                <a className="act" href={writeRoute("import")}>
                  Import a list of gear and parts
                </a>
              )}
            </p>
          )}
        </>
      )}
      {kit === undefined && answer.waiting && (
        <p className="loading">
          Working out the kit… <Elapsed most={usualSeconds} />
        </p>
      )}
      {kit !== undefined && (
        <>
          <p className="passage-line">
            {kit.vessel.name}, {kit.crossing.name}: departs {dayText(kit.crossing.departs)},{" "}
            {kit.crossing.daysExpected} days expected, {kit.crossing.daysLongest} at longest; dates
            must hold until {dayText(kit.crossing.usableUntil)}.
          </p>
          <p className="paper-date">Reckoned and printed {dayText(new Date().toISOString())}.</p>
          <Answered
            sentence={kit.sentence}
            waiting={answer.waiting}
            stop={answer.stop}
            most={usualSeconds}
          />
          <SideBySide comparison={kit.comparison} of="the kit" />
          <ImagineDeed query={query} vessel={kit.vessel.id} />
          <div className="pair pair-question">
            <QuestionForm answer={kit} overview={overview.value} query={query} />
            <div>
              <TierTable answer={kit} />
              <KitTotals answer={kit} units={set.units} />
              <LimitsTable answer={kit} />
              <Notices notices={kit.notices} />
            </div>
          </div>
          <Cautions title="Read with every kit" cautions={kit.cautions} />
          <section aria-labelledby="curve-title" className="screen-only">
            <h2 id="curve-title">What more sureness costs</h2>
            <div className="curves">
              {kit.tiers.map((tier) => (
                <TradeOffPicture
                  key={tier.tier}
                  answer={kit}
                  tier={tier}
                  onTarget={(target) => changeQuery({ [tier.tier]: String(target) })}
                />
              ))}
            </div>
          </section>
          <section aria-labelledby="kit-title" className="kit-section">
            <div className="heading-line">
              <h2 id="kit-title">The kit, and why</h2>
              <Choice
                label="Lines to show"
                labelHidden
                value={shown}
                groups={[{ name: "", options: lineChoices(kit) }]}
                onChange={(show) => changeQuery({ show: show === "kit" ? "" : show })}
              />
              <a className="quiet" href={writeRoute("voyage", query)}>
                <Anchor size={18} aria-hidden="true" /> Ports of call
              </a>
              <a className="quiet" href={writeRoute("order", query)}>
                <ShoppingCart size={18} aria-hidden="true" /> What to order
              </a>
              <Button className="act" onPress={() => window.print()}>
                <Printer size={18} aria-hidden="true" /> Print
              </Button>
            </div>
            {kit.lines.length === 0 ? (
              <p>No part is asked for: nothing fitted has a part with evidence of failing.</p>
            ) : (
              <KitTable answer={kit} shown={shown} {...(part === undefined ? {} : { part })} />
            )}
          </section>
          <StowTable answer={kit} />
          <SoldAsList answer={kit} />
          {request.caps !== undefined && (
            <p className="said screen-only">
              The caps hold for the kit above, for playing the crossing and for the minimum lists.
              What to do before leaving, the doubt about rates, the voyage and the order are
              reckoned without them.
            </p>
          )}
          <PrepareSection request={free} said={kit.notices} />
          <DoubtSection request={free} />
          <FunctionTable answer={kit} />
          <SimulationSection request={request} said={kit.notices} />
          <MinimumsSection request={request} said={kit.notices} />
          <UnsparableTable answer={kit} />
          <NoEvidenceTable answer={kit} />
        </>
      )}
    </>
  );
}
