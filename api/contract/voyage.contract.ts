import { z } from "zod";
import { cautionList, moneyDocument, noticeDocument, reference, tierName } from "./figures.ts";
import { kitRequest } from "./kit.contract.ts";
import { comparison } from "./what-if.contract.ts";

const days = z.number().positive().max(3650);

/** A leg as typed with the question, in place of those of the crossing. */
export const voyageLeg = z
  .strictObject({
    to: z.string().min(1).max(200),
    days,
    longestDays: days.optional(),
    stayDays: z.number().min(0).max(3650).optional(),
    country: z.string().max(200).optional(),
  })
  .meta({ id: "VoyageLeg" });

/** The kit as for `kit`, by the piece, over a voyage of legs. */
export const voyageRequest = kitRequest
  .omit({
    daysExpected: true,
    daysLongest: true,
    caps: true,
    aim: true,
    weights: true,
    seconds: true,
  })
  .extend({
    from: z.string().max(200).optional(),
    legs: z
      .array(voyageLeg)
      .min(1)
      .max(40)
      .optional()
      .meta({ description: "Legs in order; those of the crossing when absent" }),
    stayDays: z.number().min(0).max(3650).optional().meta({
      description: "Days at each port of call where not said otherwise; 3 when absent",
    }),
    reliability: z.number().min(0).max(1).optional().meta({
      description: "Chance that what was asked for at a port has come when sailing; .9 when absent",
    }),
    fromAbroad: z.boolean().optional().meta({
      description:
        "Count suppliers of other countries too, where their lead time is within the stay",
    }),
  })
  .meta({ id: "VoyageRequest" });

const line = z
  .object({
    part: reference,
    description: z.string(),
    tier: tierName,
    carry: z.number().int().meta({ description: "Pieces to have aboard when sailing" }),
    aboard: z.number().int().meta({
      description: "Of which aboard already; known at the first departure only, 0 after",
    }),
    buy: z.number().int().meta({ description: "carry less aboard" }),
    meanDemand: z.number(),
    shortWithKit: z.number(),
    lastsTo: z.string().meta({ description: "Port up to which it is meant to last" }),
    lasts: z
      .array(z.number())
      .meta({ description: "Chance that it must last exactly 1, 2, ... legs from here" }),
  })
  .meta({ id: "VoyageLine" });

const departure = z
  .object({
    from: z.string(),
    to: z.string(),
    departs: z.iso.date().meta({ description: "By the longest case of the legs before" }),
    daysExpected: z.number(),
    daysLongest: z.number(),
    status: z.enum(["optimal", "infeasible", "time-limited"]),
    supplies: z.object({
      country: z.string(),
      stayDays: z.number(),
      suppliers: z.array(z.string()),
      parts: z.number().int().meta({ description: "Parts the gear asks for that can be had" }),
    }),
    kit: z.object({
      cost: moneyDocument.meta({
        description: "Of what is to be bought; after the first departure, of the whole level",
      }),
      massKg: z.number(),
      pieces: z.number().int(),
    }),
    tiers: z.array(
      z.object({
        tier: tierName,
        parts: z.number().int(),
        target: z.number(),
        withKit: z.number(),
        reachable: z.number(),
      }),
    ),
    lines: z.array(line),
  })
  .meta({ id: "VoyageDeparture" });

export const voyageAnswer = z
  .object({
    vessel: reference,
    crossing: z.object({ name: z.string(), id: z.string().optional() }),
    sentence: z.string().meta({ description: "The answer in one sentence, made from its figures" }),
    objective: z.enum(["cost", "mass", "volume", "pieces"]),
    currency: z.string(),
    departures: z.array(departure),
    tiers: z.array(z.object({ tier: tierName, target: z.number(), whole: z.number() })).meta({
      description:
        "target: asked at each departure. whole: the product over departures, the chance of running short of nothing on the whole voyage (or less)",
    }),
    withoutCalls: z
      .object({ cost: moneyDocument, massKg: z.number(), pieces: z.number().int() })
      .meta({ description: "The kit at the first departure if nothing could be had on the way" }),
    reliability: z.number(),
    assumptions: z.array(z.string()).meta({ description: "What the figures take for granted" }),
    notices: z.array(noticeDocument),
    cautions: cautionList,
    comparison: comparison.optional(),
  })
  .meta({ id: "VoyageAnswer" });

export type VoyageRequest = z.infer<typeof voyageRequest>;
export type VoyageAnswer = z.infer<typeof voyageAnswer>;
