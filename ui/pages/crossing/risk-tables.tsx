import type { KitAnswer } from "../../../api/contract/kit.contract.ts";
import { chanceText, plural, sufficiencyText } from "../../components/figures.ts";
import { ScrollTable } from "../../components/scroll-table.tsx";
import { TierSign } from "../../components/signs.tsx";

/** Whether each function survives the crossing: with what is aboard, and with the kit. */
export function FunctionTable({ answer }: { readonly answer: KitAnswer }) {
  if (answer.functions.length === 0) return null;
  return (
    <section aria-labelledby="functions-title">
      <h2 id="functions-title">What still works on arrival</h2>
      <ScrollTable caption="Chance that each function lasts the crossing" captionHidden>
        <thead>
          <tr>
            <th scope="col">Function</th>
            <th scope="col">Tier</th>
            <th scope="col" className="number">
              Needs
            </th>
            <th scope="col" className="number">
              Aboard now
            </th>
            <th scope="col" className="number">
              With the kit
            </th>
            <th scope="col">Reckoned by</th>
            <th scope="col">In words</th>
          </tr>
        </thead>
        <tbody>
          {answer.functions.map((row) => (
            <tr key={row.function.id}>
              <th scope="row">{row.function.name}</th>
              <td>
                <TierSign tier={row.tier} />
              </td>
              <td className="number">
                {row.need} of {row.fitted}
              </td>
              <td className="number">{sufficiencyText(row.withAboard)}</td>
              <td className="number strong">{sufficiencyText(row.withKit)}</td>
              <td>{row.method}</td>
              <td className="wordy">{row.words}</td>
            </tr>
          ))}
        </tbody>
      </ScrollTable>
    </section>
  );
}

/** Failures no spare helps with: not fittable at sea. */
export function UnsparableTable({ answer }: { readonly answer: KitAnswer }) {
  if (answer.unsparable.length === 0) return null;
  return (
    <section aria-labelledby="unsparable-title">
      <h2 id="unsparable-title">What no spare will mend at sea</h2>
      <ScrollTable caption="Failures that cannot be mended at sea" captionHidden>
        <thead>
          <tr>
            <th scope="col">Part</th>
            <th scope="col">Gear</th>
            <th scope="col">Tier</th>
            <th scope="col" className="number">
              Chance it fails
            </th>
            <th scope="col">If it does</th>
          </tr>
        </thead>
        <tbody>
          {answer.unsparable.map((risk) => (
            <tr key={risk.part.id + risk.gear}>
              <th scope="row">
                {risk.part.name} <span className="part-description">{risk.description}</span>
              </th>
              <td>{risk.gear}</td>
              <td>
                <TierSign tier={risk.tier} />
              </td>
              <td className="number">{chanceText(risk.chance)}</td>
              <td>{risk.stops ? "the gear stops" : "the gear goes on, worse"}</td>
            </tr>
          ))}
        </tbody>
      </ScrollTable>
    </section>
  );
}

/** Parts nothing is known of: not provided for, and said so. */
export function NoEvidenceTable({ answer }: { readonly answer: KitAnswer }) {
  const rows = answer.withoutEvidence;
  if (rows.length === 0) return null;
  return (
    <section aria-labelledby="no-evidence-title">
      <h2 id="no-evidence-title">Not provided for, for want of evidence</h2>
      <p>
        Of {plural(rows.length, "part")} it is not known how often it fails: none is in the kit, and
        none is in the figures above.
      </p>
      <details className="on-paper">
        <summary>{plural(rows.length, "part")} without evidence</summary>
        <ScrollTable caption="Parts without evidence" captionHidden className="tall">
          <thead>
            <tr>
              <th scope="col">Part</th>
              <th scope="col">Description</th>
              <th scope="col">Gear</th>
            </tr>
          </thead>
          <tbody>
            {rows.map((row) => (
              <tr key={row.part.id + row.gear}>
                <th scope="row">{row.part.name}</th>
                <td>{row.description}</td>
                <td>{row.gear}</td>
              </tr>
            ))}
          </tbody>
        </ScrollTable>
      </details>
    </section>
  );
}
