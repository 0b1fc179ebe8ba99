import type { SimulationAnswer } from "../../contract/simulation.contract.ts";
import type { Beside } from "./beside-before.ts";

/** Sets two simulated crossings side by side: how likely each tier and function is to last. */
export const simulationsSideBySide: Beside<SimulationAnswer> = {
  scene: (before) => ({ vessel: before.vessel.id, fittedOn: before.crossing.departs }),
  figures: ({ demandsPerCrossing, tiers, functions }) => [
    { figure: "pieces asked for in a crossing", kind: "index", value: demandsPerCrossing },
    ...tiers.flatMap((tier) => [
      {
        figure: `not short, ${tier.tier}, with what is aboard`,
        kind: "chance" as const,
        value: tier.withAboard.simulated.value,
      },
      {
        figure: `not short, ${tier.tier}, with the kit`,
        kind: "chance" as const,
        value: tier.withKit.simulated.value,
      },
    ]),
    ...functions.map((one) => ({
      figure: `${one.function.name}, with the kit`,
      kind: "chance" as const,
      value: one.withKit.asLived.value,
    })),
  ],
  sentence: (before, after) => {
    const step = after.demandsPerCrossing - before.demandsPerCrossing;
    const demand =
      Math.abs(step) < 0.005 ? "the same demand" : `${step > 0 ? "more" : "less"} demand`;
    return `With the change a crossing makes ${demand} for spares: ${after.demandsPerCrossing.toFixed(2)} pieces instead of ${before.demandsPerCrossing.toFixed(2)}. Each side is played with its own kit.`;
  },
};
