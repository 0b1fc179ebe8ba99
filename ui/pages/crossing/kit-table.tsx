import { ChevronRight } from "lucide-react";
import { Fragment, useState } from "react";
import { Button } from "react-aria-components";
import type { KitAnswer, KitLine } from "../../../api/contract/kit.contract.ts";
import {
  chanceText,
  measureText,
  moneyAmountText,
  plural,
  sufficiencyText,
  wholeText,
} from "../../components/figures.ts";
import { ScrollTable } from "../../components/scroll-table.tsx";
import { EvidenceSign, TierSign } from "../../components/signs.tsx";
import { isShown, type ShownLines } from "./shown-lines.ts";

type Money = NonNullable<KitLine["unitPrice"]>;
const columnCount = 11;

const moneyCell = (money: Money | undefined, currency: string, isAssumed: boolean) => {
  if (money === undefined) return "–";
  const amount = moneyAmountText(money.minor, money.currency);
  const text = money.currency === currency ? amount : `${amount} ${money.currency}`;
  return isAssumed ? (
    <span className="doubt" title="price assumed">
      about {text}
    </span>
  ) : (
    text
  );
};

/** Why a part is on the list: each gear that asks, by which evidence, in words. */
function LineReasons({ line }: { readonly line: KitLine }) {
  return (
    <div className="why">
      <p>{line.words}</p>
      {line.reasons.length > 0 && (
        <ScrollTable
          caption={`Gear that asks for ${line.partNumber}`}
          captionHidden
          className="why-table"
        >
          <thead>
            <tr>
              <th scope="col">Gear</th>
              <th scope="col" className="number">
                Fitted
              </th>
              <th scope="col" className="number">
                Each takes
              </th>
              <th scope="col" className="number">
                Expected need
              </th>
              <th scope="col">Evidence</th>
              <th scope="col">Reason</th>
            </tr>
          </thead>
          <tbody>
            {line.reasons.map((reason) => (
              <tr key={reason.gear + reason.model.id}>
                <th scope="row">{reason.gear}</th>
                <td className="number">{wholeText(reason.items)}</td>
                <td className="number">{measureText(reason.quantityEach)}</td>
                <td className="number">{measureText(reason.meanDemand)}</td>
                <td>
                  <EvidenceSign evidence={reason.evidence} />
                </td>
                <td className="wordy">
                  {reason.words}
                  {reason.stops ? "" : " (does not stop it)"}
                </td>
              </tr>
            ))}
          </tbody>
        </ScrollTable>
      )}
      <dl className="why-facts">
        <div>
          <dt>Running short with what is aboard</dt>
          <dd>{chanceText(line.shortWithAboard)}</dd>
        </div>
        <div>
          <dt>Expected need in all</dt>
          <dd>{measureText(line.meanDemand)}</dd>
        </div>
        {line.assumedShare > 0 && (
          <div>
            <dt>Share resting on assumed rates</dt>
            <dd className="doubt">{sufficiencyText(line.assumedShare)}</dd>
          </div>
        )}
        {line.credit > 0 && (
          <div>
            <dt>May be taken from redundant gear</dt>
            <dd>{plural(line.credit, "piece")}</dd>
          </div>
        )}
        {line.notUsable > 0 && (
          <div>
            <dt>Aboard but not counted (out of date or condition)</dt>
            <dd className="doubt">{plural(line.notUsable, "piece")}</dd>
          </div>
        )}
        {line.alternates.length > 0 && (
          <div>
            <dt>Interchanges with</dt>
            <dd>{line.alternates.map((part) => part.name).join(", ")}</dd>
          </div>
        )}
        {line.massKg !== undefined && (
          <div>
            <dt>Weight of a piece</dt>
            <dd>{measureText(line.massKg)} kg</dd>
          </div>
        )}
      </dl>
    </div>
  );
}

/** The kit, tier by tier; each line opens to say why it is there. */
export function KitTable({
  answer,
  shown,
}: {
  readonly answer: KitAnswer;
  readonly shown: ShownLines;
}) {
  const [open, setOpen] = useState<ReadonlySet<string>>(new Set());
  const toggle = (id: string) =>
    setOpen((before) => {
      const next = new Set(before);
      if (!next.delete(id)) next.add(id);
      return next;
    });
  const { currency } = answer;
  return (
    <ScrollTable caption="The kit, part by part" captionHidden className="kit-box">
      <thead>
        <tr>
          <th scope="col" className="stick">
            Part
          </th>
          <th scope="col" className="number">
            Carry
          </th>
          <th scope="col" className="number">
            Aboard
          </th>
          <th scope="col" className="number">
            Buy
          </th>
          <th scope="col" className="number off-paper">
            Short with none
          </th>
          <th scope="col" className="number">
            Short with kit
          </th>
          <th scope="col">Evidence</th>
          <th scope="col" className="number off-paper">
            Each, {currency}
          </th>
          <th scope="col" className="number">
            Line, {currency}
          </th>
          <th scope="col">Supplier</th>
          <th scope="col">Stowed in</th>
        </tr>
      </thead>
      {answer.tiers.map((tier) => {
        const lines = answer.lines.filter(
          (line) => line.tier === tier.tier && isShown(line, shown),
        );
        if (lines.length === 0) return null;
        return (
          <tbody key={tier.tier}>
            <tr className="row-group">
              <th scope="rowgroup" colSpan={columnCount}>
                <span className="group-name">
                  <TierSign tier={tier.tier} /> {plural(lines.length, "part")}, not short with the
                  kit: {sufficiencyText(tier.withKit)} (target {sufficiencyText(tier.target)})
                </span>
              </th>
            </tr>
            {lines.map((line) => {
              const isOpen = open.has(line.part.id);
              const reasonsId = `why-${line.part.id}`;
              return (
                <Fragment key={line.part.id}>
                  <tr className={line.buy > 0 ? "to-buy" : ""}>
                    <th scope="row" className="stick">
                      <Button
                        className="opener"
                        aria-expanded={isOpen}
                        {...(isOpen ? { "aria-controls": reasonsId } : {})}
                        aria-label={`Why ${line.partNumber} ${line.description}`}
                        onPress={() => toggle(line.part.id)}
                      >
                        <ChevronRight size={16} aria-hidden="true" className="opener-mark" />
                        <span className="opener-text">
                          <span className="part-number">{line.partNumber}</span>{" "}
                          <span className="part-maker">{line.maker}</span>
                          <span className="part-description">{line.description}</span>
                        </span>
                      </Button>
                    </th>
                    <td className="number strong">
                      {line.carry === 0 ? "none" : wholeText(line.carry)}
                    </td>
                    <td className="number">
                      {wholeText(line.aboard)}
                      {line.notUsable > 0 && (
                        <span className="doubt"> +{wholeText(line.notUsable)} unusable</span>
                      )}
                    </td>
                    <td className="number strong">{line.buy === 0 ? "–" : wholeText(line.buy)}</td>
                    <td className="number off-paper">{chanceText(line.shortWithNone)}</td>
                    <td className="number">{chanceText(line.shortWithKit)}</td>
                    <td>
                      <EvidenceSign evidence={line.evidence} />
                    </td>
                    <td className="number off-paper">
                      {moneyCell(line.unitPrice, currency, line.priceAssumed)}
                    </td>
                    <td className="number">
                      {line.buy === 0 ? "–" : moneyCell(line.lineCost, currency, line.priceAssumed)}
                    </td>
                    <td>
                      {line.supplier ?? "–"}
                      {line.buy > 0 && line.leadTimeDays !== undefined && (
                        <span className="lead"> {plural(line.leadTimeDays, "day")}</span>
                      )}
                    </td>
                    <td>{line.stowedIn.length === 0 ? "–" : line.stowedIn.join(", ")}</td>
                  </tr>
                  {isOpen && (
                    <tr className="why-row" id={reasonsId}>
                      <td colSpan={columnCount}>
                        <LineReasons line={line} />
                      </td>
                    </tr>
                  )}
                </Fragment>
              );
            })}
          </tbody>
        );
      })}
    </ScrollTable>
  );
}
