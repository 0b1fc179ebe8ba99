import { Label, Radio, RadioGroup } from "react-aria-components";
import { NumberBox } from "../../components/number-box.tsx";
import { SchemeSwitch } from "../../components/scheme.tsx";
import { TextBox } from "../../components/text-box.tsx";
import { type Preferences, setPreferences, usePreferences } from "../../data/preferences.ts";
import { writeRoute } from "../../routing/route.ts";
import { About } from "./about.tsx";
import { ChangeList } from "./change-list.tsx";
import { RateTable } from "./rate-table.tsx";
import { TakeAway } from "./take-away.tsx";

function OneOf<Name extends "units" | "paper">({
  label,
  name,
  options,
}: {
  readonly label: string;
  readonly name: Name;
  readonly options: readonly { readonly id: Preferences[Name]; readonly words: string }[];
}) {
  const value = usePreferences()[name];
  return (
    <RadioGroup
      className="field one-of"
      value={value}
      onChange={(id) => {
        const chosen = options.find((option) => option.id === id);
        if (chosen !== undefined) setPreferences({ [name]: chosen.id });
      }}
    >
      <Label>{label}</Label>
      {options.map(({ id, words }) => (
        <Radio key={id} value={id} className="one-of-option">
          <span className="radio-mark" aria-hidden="true" />
          {words}
        </Radio>
      ))}
    </RadioGroup>
  );
}

/** What this reader sets once: light, units, money, margin, paper. Kept in this browser, on this device. */
export function SettingsPage() {
  const set = usePreferences();
  return (
    <>
      <h1>How shall it be shown and reckoned?</h1>
      <p className="sentence">
        {set.units === "metric" ? "Kilograms and litres" : "Pounds and cubic feet"}, money in{" "}
        {set.currency === "" ? "the currency most offers are in" : set.currency}
        {set.rates.length > 0 && ` with ${set.rates.length} exchange rates of your own`}, dates kept{" "}
        {set.marginDays} days past the longest arrival.
      </p>
      <p className="said">
        These hold in this browser, on this device. A shared address carries the figures it was
        reckoned with.
      </p>
      <section aria-labelledby="light-title">
        <h2 id="light-title">Light</h2>
        <SchemeSwitch />
        <p className="said">
          Day for glare, dusk for lamplight, night in red on black alone, to keep your eyes used to
          the dark. Motion follows what your device asks for.
        </p>
      </section>
      <section aria-labelledby="units-title">
        <h2 id="units-title">Units and paper</h2>
        <div className="settings">
          <OneOf
            label="Weights and room"
            name="units"
            options={[
              { id: "metric", words: "kilograms, litres" },
              { id: "imperial", words: "pounds, cubic feet" },
            ]}
          />
          <OneOf
            label="Paper"
            name="paper"
            options={[
              { id: "A4", words: "A4, 210 × 297 mm" },
              { id: "Letter", words: "Letter, 8.5 × 11 in" },
            ]}
          />
        </div>
      </section>
      <section aria-labelledby="money-title">
        <h2 id="money-title">Money</h2>
        <div className="settings">
          <TextBox
            label="Planning currency, three letters"
            placeholder="as in the offers"
            value={set.currency}
            onChange={(text) => {
              const code = text.toUpperCase();
              if (code === "" || /^[A-Z]{3}$/.test(code)) setPreferences({ currency: code });
            }}
          />
        </div>
        <RateTable rates={set.rates} currency={set.currency} />
      </section>
      <section aria-labelledby="dates-title">
        <h2 id="dates-title">Dates</h2>
        <div className="settings">
          <NumberBox
            label="Margin after longest arrival, days"
            value={set.marginDays}
            min={0}
            max={365}
            onChange={(marginDays) => setPreferences({ marginDays })}
          />
        </div>
        <p className="said">
          A spare counts as aboard only if its last day is later than the longest arrival and this
          margin.
        </p>
      </section>
      <section aria-labelledby="labels-title">
        <h2 id="labels-title">Bin labels</h2>
        <div className="settings">
          <TextBox
            label="Address phones reach this program by"
            placeholder={window.location.origin}
            value={set.labelAddress}
            onChange={(labelAddress) => setPreferences({ labelAddress })}
          />
        </div>
        <p className="said">
          Printed in the square code of each label, so that a phone opens the locker it hangs on.
        </p>
      </section>
      <TakeAway />
      <ChangeList />
      <About />
      <p>
        <a href={writeRoute("patterns")}>The pattern book</a> shows every piece this screen is built
        of.
      </p>
    </>
  );
}
