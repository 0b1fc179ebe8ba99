import type { Attention, VesselReadiness } from "../../../api/contract/readiness.contract.ts";
import { depthOf } from "../../charts/depth.ts";
import { plural, sufficiencyText } from "../../components/figures.ts";
import { TierSign } from "../../components/signs.tsx";
import { followAddress } from "./follow-address.ts";

const barWidth = 96;

/** How far what is aboard reaches towards the target, in tenfold falls of the chance of running short. */
function ReachBar({
  withAboard,
  target,
}: {
  readonly withAboard: number;
  readonly target: number;
}) {
  const share = Math.min(1, depthOf(withAboard) / Math.max(1e-9, depthOf(target)));
  return (
    <svg width={barWidth} height="10" aria-hidden="true" className="reach-lane">
      <rect width={barWidth} height="10" className="bar-lane" />
      <rect width={Math.max(1, barWidth * share)} height="10" className="bar" />
    </svg>
  );
}

const weights = [
  { id: "now", title: "Now", sign: "✕" },
  { id: "before leaving", title: "Before leaving", sign: "▵" },
  { id: "to know", title: "To know", sign: "·" },
] as const;

function AttentionList({ attention }: { readonly attention: readonly Attention[] }) {
  return weights.map(({ id, title, sign }) => {
    const lines = attention.filter(({ weight }) => weight === id);
    if (lines.length === 0) return null;
    return (
      <div key={id} className="attention">
        <h4>{title}</h4>
        <ul>
          {lines.map((line) => (
            <li key={line.kind + line.words}>
              <a href={followAddress(line.follow)} className={`attention-${id.replace(" ", "-")}`}>
                <span aria-hidden="true" className="attention-sign">
                  {sign}
                </span>
                {line.words}
              </a>
            </li>
          ))}
        </ul>
      </div>
    );
  });
}

/** One vessel: is it ready for its next crossing, and what to see to first. */
export function VesselReadinessBlock({ about }: { readonly about: VesselReadiness }) {
  const titleId = `ready ${about.vessel.id}`;
  return (
    <section className="readiness" aria-labelledby={titleId}>
      <h3 id={titleId}>
        {about.vessel.name}{" "}
        <span className={about.ready ? "met" : "unmet"}>
          {about.ready ? "✓ ready" : "✕ not ready"}
        </span>
      </h3>
      <p>{about.sentence}</p>
      <ul className="tier-reach">
        {about.tiers.map((tier) => (
          <li key={tier.tier}>
            <a href={followAddress(tier.follow)}>
              <TierSign tier={tier.tier} />
              <ReachBar withAboard={tier.withAboard} target={tier.target} />
              <span className="tier-words">
                {sufficiencyText(tier.withAboard)} of {sufficiencyText(tier.target)}
                <span className="hidden"> asked, with what is aboard</span>
              </span>
            </a>
          </li>
        ))}
      </ul>
      {about.toBuy.pieces > 0 && (
        <p>
          <a className="row-link" href={followAddress(about.toBuy.follow)}>
            {plural(about.toBuy.pieces, "piece")} to buy
          </a>
        </p>
      )}
      <AttentionList attention={about.attention} />
    </section>
  );
}
