import type { DoubtAnswer } from "../../contract/doubt.contract.ts";
import type { Beside } from "../what-if/beside-before.ts";

/** Sets the doubt about two kits side by side. */
export const doubtSideBySide: Beside<DoubtAnswer> = {
  scene: (before) => ({ vessel: before.vessel.id, fittedOn: before.crossing.departs }),
  figures: ({ kit, assumed, tiers, ratesThatMatter }) => [
    { figure: "kit to buy", kind: "money", currency: kit.money.currency, value: kit.money.minor },
    { figure: "pieces to buy", kind: "count", value: kit.pieces },
    { figure: "share of the risk that is assumed", kind: "chance", value: assumed.risk },
    { figure: "rates that would change the kit", kind: "count", value: ratesThatMatter },
    ...tiers.map((tier) => ({
      figure: `not short, ${tier.tier}, on passages of uneven roughness`,
      kind: "chance" as const,
      value: tier.roughWithKit,
    })),
  ],
  sentence: (before, after) => {
    const percent = (share: number): string => `${Math.round(share * 100)} %`;
    return `With the change ${percent(after.assumed.risk)} of the risk that is left rests on assumed rates instead of ${percent(before.assumed.risk)}.`;
  },
};
