import { Radio, RadioGroup } from "react-aria-components";
import type { OverviewAnswer } from "../../../api/contract/find.contract.ts";
import { Choice } from "../../components/choice.tsx";
import { FigureBox } from "../../components/figure-box.tsx";
import { NumberBox } from "../../components/number-box.tsx";
import { changeQuery } from "../../routing/route.ts";
import { readRates, writeRates } from "../crossing/money-terms.ts";
import { asksForNew, type FittedMake, readNeeds, writeNeeds } from "./choice-question.ts";
import { type KindNeeds, NeedsFields } from "./needs-fields.tsx";
import { PositionForm } from "./position-form.tsx";

type Query = ReadonlyMap<string, string>;

/** Gear fitted now, by vessel, one of which is to be replaced. */
function ReplaceChoice({
  query,
  makes,
  isWaiting,
}: {
  readonly query: Query;
  readonly makes: readonly FittedMake[];
  readonly isWaiting: boolean;
}) {
  const vessels = [...new Map(makes.map(({ vessel }) => [vessel.id, vessel])).values()];
  const idsOf = (make: FittedMake) => make.items.map(({ id }) => id).join(",");
  const chosen = makes.find((make) => idsOf(make) === query.get("items"));
  return (
    <div className="settings">
      <Choice
        label="Replace"
        value={chosen?.key ?? null}
        placeholder={isWaiting ? "Fetching the gear…" : "Choose gear"}
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
        onChange={(id) => {
          const make = makes.find(({ key }) => key === id);
          if (make !== undefined)
            changeQuery({ vessel: make.vessel.id, items: idsOf(make), needs: "", out: "" });
        }}
      />
    </div>
  );
}

const ratesText = (rates: Readonly<Record<string, number>>): string =>
  Object.entries(rates)
    .map(([code, value]) => `${code} ${value}`)
    .join(", ");

/** What the makes are weighed on: the crossing, and the money they are compared in. */
function Terms({ query, overview }: { readonly query: Query; readonly overview: OverviewAnswer }) {
  const { crossings } = overview;
  const asked = crossings.find(({ id }) => id === query.get("crossing")) ?? crossings[0];
  const longest = Number(query.get("longest") ?? asked?.daysLongest ?? asked?.daysExpected ?? 20);
  return (
    <div className="settings">
      {crossings.length > 1 && (
        <Choice
          label="Crossing"
          value={asked?.id ?? null}
          groups={[{ name: "", options: crossings.map(({ id, name }) => ({ id, name })) }]}
          onChange={(crossing) => changeQuery({ crossing, days: "", longest: "" })}
        />
      )}
      <NumberBox
        label="Days at sea, at longest"
        value={longest}
        min={1}
        max={3650}
        onChange={(days) => changeQuery({ longest: String(days) })}
      />
      <FigureBox
        label="Money in, three letters"
        placeholder={overview.currency}
        shown={query.get("currency") ?? ""}
        read={(text) => {
          const code = text.trim().toUpperCase();
          return code === "" || /^[A-Z]{3}$/.test(code)
            ? { value: code }
            : { fault: "Write three letters, as EUR." };
        }}
        onChange={(currency) => changeQuery({ currency })}
      />
      <FigureBox
        label="Worth of one of another currency"
        placeholder="GBP 1.17, USD 0.92"
        shown={ratesText(readRates(query.get("rates")))}
        read={(text) => {
          const rates = readRates(text);
          const typed = text.split(/[,;]\s*|\n/).filter((piece) => piece.trim() !== "");
          return Object.keys(rates).length === typed.length
            ? { value: writeRates(rates) }
            : { fault: "Write it as GBP 1.17, one after another with commas between." };
        }}
        onChange={(rates) => changeQuery({ rates })}
      />
    </div>
  );
}

const modes = [
  { id: "fitted", name: "gear fitted now, to be replaced" },
  { id: "new", name: "a position that is new" },
] as const;

/** What is wanted: gear to replace or a new position, what it must meet, and what it is weighed on. */
export function QuestionSection({
  query,
  overview,
  makes,
  isWaiting,
  kind,
  isAsked,
}: {
  readonly query: Query;
  readonly overview: OverviewAnswer;
  readonly makes: readonly FittedMake[];
  readonly isWaiting: boolean;
  readonly kind: KindNeeds;
  /** Whether enough is said to ask. */
  readonly isAsked: boolean;
}) {
  const isNew = asksForNew(query);
  return (
    <>
      <RadioGroup
        className="field one-of"
        value={isNew ? "new" : "fitted"}
        onChange={(id) =>
          changeQuery({ for: id === "new" ? "new" : "", needs: "", out: "", items: "" })
        }
        aria-label="What it is for"
      >
        {modes.map(({ id, name }) => (
          <Radio key={id} value={id} className="one-of-option">
            <span className="radio-mark" aria-hidden="true" />
            For {name}
          </Radio>
        ))}
      </RadioGroup>
      {isNew ? (
        <PositionForm query={query} overview={overview} />
      ) : (
        <ReplaceChoice query={query} makes={makes} isWaiting={isWaiting} />
      )}
      {isAsked && (
        <>
          <h3>What it must meet</h3>
          {!isNew && (
            <p className="said">
              Where a figure is left empty, what the position states counts, else what is fitted
              there now.
            </p>
          )}
          <NeedsFields
            needs={readNeeds(query.get("needs"))}
            kind={kind}
            asks
            onChange={(needs) => changeQuery({ needs: writeNeeds(needs) })}
          />
          <h3>What the makes are weighed on</h3>
          <Terms query={query} overview={overview} />
        </>
      )}
    </>
  );
}
