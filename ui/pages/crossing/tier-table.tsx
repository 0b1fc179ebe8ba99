import type { KitAnswer } from "../../../api/contract/kit.contract.ts";
import { objectiveText, sufficiencyText, wholeText } from "../../components/figures.ts";
import { ScrollTable } from "../../components/scroll-table.tsx";
import { TierSign } from "../../components/signs.tsx";

/** Each tier's chance of not running short: with no spares, with those aboard, with the kit. */
export function TierTable({ answer }: { readonly answer: KitAnswer }) {
  return (
    <ScrollTable caption="Chance of not running short, by tier">
      <thead>
        <tr>
          <th scope="col">Tier</th>
          <th scope="col" className="number">
            With the kit
          </th>
          <th scope="col" className="number">
            Target
          </th>
          <th scope="col">Reached</th>
          <th scope="col" className="number">
            Aboard now
          </th>
          <th scope="col" className="number">
            With none
          </th>
          <th scope="col" className="number">
            To buy
          </th>
          <th scope="col" className="number">
            Parts
          </th>
          <th scope="col" className="number">
            On assumed rates
          </th>
        </tr>
      </thead>
      <tbody>
        {answer.tiers.map((tier) => (
          <tr key={tier.tier}>
            <th scope="row">
              <TierSign tier={tier.tier} />
            </th>
            <td className="number strong">{sufficiencyText(tier.withKit)}</td>
            <td className="number">{sufficiencyText(tier.target)}</td>
            <td>
              {tier.withKit >= tier.target - 1e-9 ? (
                <span className="met">✓ reached</span>
              ) : (
                <span className="unmet">
                  ✕ no more than {sufficiencyText(tier.reachable)} can be
                </span>
              )}
            </td>
            <td className="number">{sufficiencyText(tier.withAboard)}</td>
            <td className="number">{sufficiencyText(tier.withNone)}</td>
            <td className="number">
              {objectiveText(tier.cost, answer.objective, answer.currency)}
            </td>
            <td className="number">{wholeText(tier.parts)}</td>
            <td className="number">{Math.round(tier.assumedShare * 100)} %</td>
          </tr>
        ))}
      </tbody>
    </ScrollTable>
  );
}
