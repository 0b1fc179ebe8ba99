import { Printer } from "lucide-react";
import { Button } from "react-aria-components";
import type { StandardiseAnswer } from "../../../api/contract/standardise.contract.ts";
import { minorDigits } from "../../../graph-schema/minor-digits.ts";
import { AskedSection } from "../../components/asked-section.tsx";
import { Cautions } from "../../components/cautions.tsx";
import { Choice } from "../../components/choice.tsx";
import { dayText, measureText, plural, wholeText } from "../../components/figures.ts";
import { SideBySide } from "../../components/imagined/side-by-side.tsx";
import { Answered, Notices } from "../../components/notice.tsx";
import { NumberBox } from "../../components/number-box.tsx";
import { useIsPrinting } from "../../components/use-printing.ts";
import { usePreferences } from "../../data/preferences.ts";
import { changeQuery } from "../../routing/route.ts";
import { standardQuestion, standardTerms, usualTerms } from "./standard-question.ts";
import { OpportunityTable, SidesTable, StepTable } from "./standard-tables.tsx";

type Query = ReadonlyMap<string, string>;
interface Vessel {
  readonly id: string;
  readonly name: string;
}

const every = "every";

function Inputs({
  query,
  vessels,
  currency,
}: {
  readonly query: Query;
  readonly vessels: readonly Vessel[];
  readonly currency: string;
}) {
  const terms = standardTerms(query);
  const money = (label: string, name: string, field: keyof typeof usualTerms) => (
    <NumberBox
      label={`${label}, ${currency}`}
      value={terms[field]}
      min={0}
      max={1e9}
      decimals={minorDigits(currency)}
      onChange={(value) =>
        changeQuery({ [name]: value === usualTerms[field] ? "" : String(value) })
      }
    />
  );
  return (
    <div className="settings">
      {money("Most to spend on changes", "budget", "budget")}
      {money("A supplier costs a year", "supplieryear", "supplierYearly")}
      {money("A spares kit costs a year", "kityear", "kitYearly")}
      {money("Fitting one item costs", "fitting", "fitting")}
      <NumberBox
        label="Years looked ahead"
        value={terms.years}
        min={0}
        max={50}
        onChange={(value) =>
          changeQuery({ years: value === usualTerms.years ? "" : String(value) })
        }
      />
      {vessels.length > 1 && (
        <Choice
          label="Boats"
          value={query.get("fleet") ?? every}
          groups={[{ name: "", options: [{ id: every, name: "All of them" }, ...vessels] }]}
          onChange={(id) => changeQuery({ fleet: id === every ? "" : id })}
        />
      )}
    </div>
  );
}

const List = ({ lines }: { readonly lines: readonly string[] }) => (
  <ul className="plain-list">
    {lines.map((line) => (
      <li key={line}>{line}</li>
    ))}
  </ul>
);

function Result({ answer, query }: { readonly answer: StandardiseAnswer; readonly query: Query }) {
  const terms = standardTerms(query);
  return (
    <>
      <p className="paper-date">Reckoned and printed {dayText(new Date().toISOString())}.</p>
      <Answered sentence={answer.sentence} waiting={false} />
      <SideBySide comparison={answer.comparison} of="what to standardise on" />
      <p className="said">
        Asked: at most {wholeText(terms.budget)} {answer.currency} for changes,{" "}
        {measureText(terms.supplierYearly)} a year for each supplier and{" "}
        {measureText(terms.kitYearly)} for each spares kit, {measureText(terms.fitting)} for fitting
        one item, over {measureText(terms.years)} years.
      </p>
      <SidesTable answer={answer} />
      <p className="said">{answer.model.words}</p>
      <Notices notices={answer.notices} />
      <h3>In the order that pays best</h3>
      {answer.sequence.length === 0 ? (
        <p>No change pays on these terms.</p>
      ) : (
        <StepTable answer={answer} />
      )}
      <h3>What speaks against it</h3>
      <List lines={answer.counterweight} />
      {answer.opportunities.length > 0 && (
        <>
          <h3>One make for another, kind by kind</h3>
          <OpportunityTable answer={answer} />
        </>
      )}
      {answer.held.length > 0 && (
        <>
          <h3>
            What stays as it is:{" "}
            {plural(
              answer.held.reduce((sum, { positions }) => sum + positions, 0),
              "position",
            )}
          </h3>
          <List lines={answer.held.map(({ reason }) => reason)} />
        </>
      )}
      <Cautions title="Read with every change of make" cautions={answer.cautions} />
    </>
  );
}

/** What to keep and what to change so that fewer makes cost less; worked out on a press. */
export function StandardSection({
  query,
  vessels,
  planning,
}: {
  readonly query: Query;
  readonly vessels: readonly Vessel[];
  /** The currency of most offers: money is in it where the reader has set none. */
  readonly planning: string;
}) {
  const set = usePreferences();
  const currency = set.currency === "" ? planning : set.currency;
  useIsPrinting();
  return (
    <AskedSection<StandardiseAnswer>
      id="standard"
      title="Would fewer makes cost less?"
      lead="Every position outside the safety tier is tried with every other priced make of its kind that meets its needs; the kits of all boats are then solved again."
      deed="Work out what to keep and change"
      working="Weighing makes against each other, up to half a minute; leaving the page stops it…"
      path="/api/standardise"
      request={standardQuestion(query, set, currency)}
      inputs={<Inputs query={query} vessels={vessels} currency={currency} />}
      tools={
        <Button className="act" onPress={() => window.print()}>
          <Printer size={18} aria-hidden="true" /> Print
        </Button>
      }
    >
      {(answer) => <Result answer={answer} query={query} />}
    </AskedSection>
  );
}
