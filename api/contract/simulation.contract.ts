import { z } from "zod";
import { cautionList, noticeDocument, reference, tierName } from "./figures.ts";
import { kitRequest } from "./kit.contract.ts";
import { comparison } from "./what-if.contract.ts";

/** The crossing and kit as for a kit, and how often it is to be played. */
export const simulationRequest = z
  .strictObject({
    ...kitRequest.shape,
    crossings: z
      .number()
      .int()
      .min(1000)
      .max(10_000_000)
      .optional()
      .meta({ description: "Crossings to play; 100000 when absent" }),
    seed: z.number().int().min(0).max(4_294_967_295).optional().meta({
      description: "The same seed gives the same figures on any machine; 1 when absent",
    }),
  })
  .meta({ id: "SimulationRequest" });

const estimate = z
  .object({ value: z.number(), low: z.number(), high: z.number() })
  .meta({ id: "Estimate", description: "A simulated share and its 95 % interval (Wilson)" });

const compared = z
  .object({
    simulated: estimate,
    computed: z.number(),
    inside: z.boolean().meta({
      description: "Whether the computed figure lies in the interval; 1 in 20 does not by chance",
    }),
  })
  .meta({ id: "Compared" });

const survival = z
  .object({
    asCounted: estimate.meta({
      description: "Every demand falls on running gear, as the formulas count",
    }),
    asLived: estimate.meta({
      description: "Stopped gear rests; failures that no spare mends stop their item",
    }),
    computed: z.number().meta({ description: "By the formulas, at least" }),
    computedAtMost: z.number(),
  })
  .meta({ id: "SimulatedSurvival" });

const stopped = z.object({
  itemsStopped: z.number().meta({ description: "Mean per crossing, as lived" }),
  piecesRobbed: z.number().meta({ description: "Mean per crossing, as lived" }),
});

export const simulationAnswer = z
  .object({
    vessel: reference,
    crossing: z.object({ name: z.string(), departs: z.iso.date(), daysLongest: z.number() }),
    sentence: z.string().meta({ description: "The answer in words, made from its figures" }),
    crossings: z.number().int(),
    seed: z.number().int(),
    demandsPerCrossing: z.number(),
    tiers: z.array(
      z.object({
        tier: tierName,
        parts: z.number().int(),
        withAboard: compared,
        withKit: compared,
      }),
    ),
    functions: z.array(
      z.object({
        function: reference,
        tier: tierName,
        need: z.number().int(),
        fitted: z.number().int(),
        withAboard: survival,
        withKit: survival,
        words: z.string(),
      }),
    ),
    parts: z
      .array(
        z.object({
          part: reference,
          description: z.string(),
          tier: tierName,
          aboard: z.number().int(),
          buy: z.number().int(),
          shortWithAboard: compared,
          shortWithKit: compared,
        }),
      )
      .meta({ description: "Chance of running short, the likeliest with the kit first" }),
    aboard: stopped,
    kit: stopped,
    differences: z
      .array(z.string())
      .meta({ description: "Where simulation and formulas differ by design" }),
    comparison: comparison.optional(),
    notices: z.array(noticeDocument),
    cautions: cautionList,
  })
  .meta({ id: "SimulationAnswer" });

export type SimulationRequest = z.infer<typeof simulationRequest>;
export type SimulationAnswer = z.infer<typeof simulationAnswer>;
