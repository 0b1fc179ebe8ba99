import { Printer, ShoppingCart } from "lucide-react";
import { useEffect } from "react";
import { Button } from "react-aria-components";
import type { OverviewAnswer } from "../../../api/contract/find.contract.ts";
import type { KitAnswer } from "../../../api/contract/kit.contract.ts";
import { Cautions } from "../../components/cautions.tsx";
import { Choice } from "../../components/choice.tsx";
import { dayText, moneyAmountText, plural } from "../../components/figures.ts";
import { ImagineDeed } from "../../components/imagined/imagine-deed.tsx";
import { SideBySide } from "../../components/imagined/side-by-side.tsx";
import { Answered, Notices, ProblemNote } from "../../components/notice.tsx";
import { massText, massUnit, roomText, roomUnit } from "../../components/units.ts";
import { useIsPrinting } from "../../components/use-printing.ts";
import { ask, post } from "../../data/ask.ts";
import { usePreferences } from "../../data/preferences.ts";
import { useAnswer } from "../../data/use-answer.ts";
import { changeQuery, writeRoute } from "../../routing/route.ts";
import { DoubtSection } from "./doubt-section.tsx";
import { kitQuestion } from "./kit-question.ts";
import { KitTable } from "./kit-table.tsx";
import { MinimumsSection } from "./minimums-section.tsx";
import { settledTerms } from "./money-terms.ts";
import { PrepareSection } from "./prepare-section.tsx";
import { QuestionForm } from "./question-form.tsx";
import { FunctionTable, NoEvidenceTable, UnsparableTable } from "./risk-tables.tsx";
import { lineChoices, shownLines } from "./shown-lines.ts";
import { SimulationSection } from "./simulation-section.tsx";
import { SoldAsList } from "./sold-as-list.tsx";
import { TierTable } from "./tier-table.tsx";
import { TradeOffPicture } from "./trade-off-picture.tsx";

const objectiveWord = { cost: "money", mass: "weight", volume: "room", pieces: "pieces" } as const;

/** A sum of which some pieces' share is unknown: said, never passed off as the whole. */
function sumText(sum: string, unit: string, unknown: number, pieces: number, what: string): string {
  if (pieces > 0 && unknown >= pieces) return `${what} not known`;
  return `${sum} ${unit}${unknown > 0 ? ` and ${plural(unknown, "piece")} of unknown ${what}` : ""}`;
}

function Totals({
  answer,
  units,
}: {
  readonly answer: KitAnswer;
  readonly units: "metric" | "imperial";
}) {
  const { total } = answer;
  return (
    <p className="totals">
      To buy: {plural(total.buyPieces, "piece")} for{" "}
      {moneyAmountText(total.cost.minor, total.cost.currency)} {total.cost.currency}
      {total.priceAssumedPieces > 0
        ? ` (${plural(total.priceAssumedPieces, "price")} assumed)`
        : ""}
      ,{" "}
      {sumText(
        massText(total.massKg, units),
        massUnit(units),
        total.massUnknownPieces,
        total.buyPieces,
        "weight",
      )}
      ,{" "}
      {sumText(
        roomText(total.volumeLitres, units),
        roomUnit(units),
        total.volumeUnknownPieces,
        total.buyPieces,
        "size",
      )}
      . To carry in all: {plural(total.carryPieces, "piece")} of{" "}
      {plural(total.distinctParts, "part")}.{" "}
      {answer.status === "optimal"
        ? `Proven: no kit smaller in ${objectiveWord[answer.objective]} reaches these targets.`
        : answer.status === "time-limited"
          ? `Stopped by the clock: at most ${Math.ceil((100 * answer.sale.gap) / Math.max(1, answer.sale.value))} % above the least possible.`
          : "A target is out of reach of any stock."}
    </p>
  );
}

/** What must we carry for this crossing, and why? */
export function CrossingPage({ query }: { readonly query: ReadonlyMap<string, string> }) {
  const request = kitQuestion(query);
  const overview = useAnswer<OverviewAnswer>("overview", (signal) =>
    ask<OverviewAnswer>("/api/overview", { signal }),
  );
  const answer = useAnswer<KitAnswer>(`kit ${JSON.stringify(request)}`, (signal) =>
    post<KitAnswer>("/api/kit", request, signal),
  );
  const kit = answer.value;
  const set = usePreferences();
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
      {kit === undefined && answer.waiting && <p className="loading">Working out the kit…</p>}
      {kit !== undefined && (
        <>
          <p className="passage-line">
            {kit.vessel.name}, {kit.crossing.name}: departs {dayText(kit.crossing.departs)},{" "}
            {kit.crossing.daysExpected} days expected, {kit.crossing.daysLongest} at longest; dates
            must hold until {dayText(kit.crossing.usableUntil)}.
          </p>
          <p className="paper-date">Reckoned and printed {dayText(new Date().toISOString())}.</p>
          <Answered sentence={kit.sentence} waiting={answer.waiting} />
          <SideBySide comparison={kit.comparison} of="the kit" />
          <ImagineDeed query={query} vessel={kit.vessel.id} />
          <div className="pair pair-question">
            <QuestionForm answer={kit} overview={overview.value} query={query} />
            <div>
              <TierTable answer={kit} />
              <Totals answer={kit} units={set.units} />
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
          <SoldAsList answer={kit} />
          <PrepareSection request={request} said={kit.notices} />
          <DoubtSection request={request} />
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
