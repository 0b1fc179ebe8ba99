import { z } from "zod";
import {
  cautionList,
  evidenceName,
  moneyDocument,
  noticeDocument,
  reference,
  tierName,
} from "./figures.ts";
import { kitRequest } from "./kit.contract.ts";
import { comparison } from "./what-if.contract.ts";

/** What a planner asks: the kit as for `kit`, and how rough passages may be. */
export const doubtRequest = kitRequest
  .omit({ caps: true, aim: true, weights: true, seconds: true })
  .extend({
    roughShape: z.number().positive().max(1e6).optional().meta({
      description:
        "Shape of the gamma factor (mean 1) by which a rough passage multiplies every failure rate; 1.283 when absent",
    }),
    most: z
      .number()
      .int()
      .min(1)
      .max(10_000)
      .optional()
      .meta({ description: "Rates listed, widest swing first; 25 when absent" }),
  })
  .meta({ id: "DoubtRequest" });

const swung = z
  .object({
    feasible: z.boolean(),
    cost: z.number().int().meta({ description: "Change of the kit in units of the objective" }),
    pieces: z.number().int(),
    changes: z.array(z.object({ part: reference, from: z.number().int(), to: z.number().int() })),
  })
  .meta({ id: "SwungKit" });

const range = z
  .object({ low: z.number(), high: z.number() })
  .meta({ id: "Range", description: "Where a figure lies if what is assumed is off" });

export const doubtAnswer = z
  .object({
    vessel: reference,
    crossing: z.object({ name: z.string(), departs: z.iso.date(), daysLongest: z.number() }),
    sentence: z.string(),
    objective: z.enum(["cost", "mass", "volume", "pieces"]),
    currency: z.string(),
    kit: z.object({ cost: z.number().int(), money: moneyDocument, pieces: z.number().int() }),
    assumed: z
      .object({
        demand: z.number().meta({ description: "Of the pieces expected to be used" }),
        risk: z.number().meta({ description: "Of what is left of the chance of running short" }),
        pieces: z.number().meta({ description: "Of the pieces to buy" }),
        money: z.number().meta({ description: "Of the money they cost" }),
        cost: range.meta({ description: "Kit with every assumed rate halved, and doubled" }),
        buyPieces: range,
      })
      .meta({ description: "What rests on assumed rates, as shares in [0, 1], and what if" }),
    tiers: z.array(
      z.object({
        tier: tierName,
        parts: z.number().int(),
        target: z.number(),
        withKit: z.number(),
        assumedDemand: z.number(),
        assumedRisk: z.number(),
        withKitRange: range.meta({
          description: "The same kit if every assumed rate is twice, and half, what was assumed",
        }),
        roughWithKit: z.number().meta({
          description: "The same kit when one rough-passage factor multiplies every failure rate",
        }),
        roughNominal: z.number().nullable().meta({
          description: "Target to ask of plain passages so that rough ones reach the tier's own",
        }),
      }),
    ),
    rough: z.object({
      shape: z.number(),
      basis: z.string(),
      reached: z.boolean(),
      cost: z.number().int().meta({ description: "Extra cost of a kit for rough passages" }),
      pieces: z.number().int(),
      words: z.string(),
    }),
    rates: z.array(
      z
        .object({
          part: reference,
          description: z.string(),
          gear: z.string(),
          tier: tierName,
          evidence: evidenceName,
          words: z.string(),
          expected: z.number(),
          likely: range.meta({
            description: "Expected pieces at the 10 % and 90 % points of what is believed",
          }),
          halved: swung,
          doubled: swung,
        })
        .meta({ id: "RateSwing" }),
    ),
    ratesInAll: z.number().int(),
    ratesThatMatter: z.number().int().meta({ description: "Rates that change the kit at all" }),
    notices: z.array(noticeDocument),
    comparison: comparison.optional(),
    cautions: cautionList,
  })
  .meta({ id: "DoubtAnswer" });

export type DoubtRequest = z.infer<typeof doubtRequest>;
export type DoubtAnswer = z.infer<typeof doubtAnswer>;
