import { z } from "zod";
import { cautionList, moneyDocument, noticeDocument, reference } from "./figures.ts";
import { kitRequest } from "./kit.contract.ts";
import { comparison } from "./what-if.contract.ts";

/** The kit as for `kit`, bought as it is sold; asked is what to do in port first. */
export const prepareRequest = kitRequest
  .omit({ caps: true, aim: true, weights: true, seconds: true })
  .meta({ id: "PrepareRequest" });

const figures = z
  .object({
    cost: moneyDocument,
    massKg: z.number(),
    pieces: z.number().int(),
    feasible: z.boolean().meta({ description: "False: some target is out of reach" }),
    withAboard: z
      .object({ safety: z.number(), passage: z.number(), comfort: z.number() })
      .meta({ description: "Chance of not running short with what is aboard now, per tier" }),
  })
  .meta({ id: "PreparedKit" });

const savedFigures = z
  .object({
    cost: moneyDocument.meta({ description: "May be below 0 where a part is needed sooner" }),
    massKg: z.number(),
    pieces: z.number().int(),
  })
  .meta({ id: "PreparedSaving" });

export const prepareJob = z
  .object({
    kind: z.enum(["service", "replacement"]),
    item: reference,
    model: reference,
    what: z.string().meta({ description: "Name of the service, or the part to renew" }),
    dueOn: z.iso.date().optional().meta({ description: "First day it falls due; services only" }),
    overdue: z.boolean(),
    assumed: z
      .boolean()
      .meta({ description: "When it was last done is not known, so it was taken as due at once" }),
    takes: z
      .array(z.object({ part: reference, pieces: z.number() }))
      .meta({ description: "Parts the work itself uses up, to be had ashore" }),
    takesCost: moneyDocument,
    kit: figures.meta({ description: "The kit solved again with the work done" }),
    saves: savedFigures,
    words: z.string(),
  })
  .meta({ id: "PrepareJob" });

export const prepareAnswer = z
  .object({
    vessel: reference,
    crossing: z.object({ name: z.string(), departs: z.iso.date(), daysLongest: z.number() }),
    sentence: z.string().meta({ description: "The answer in one sentence, made from its figures" }),
    kit: figures.meta({ description: "The kit as things stand" }),
    jobs: z
      .array(prepareJob)
      .meta({ description: "Work that lowers the kit or its risk, what saves most money first" }),
    all: z
      .object({ kit: figures, saves: savedFigures, takesCost: moneyDocument })
      .meta({ description: "With all of the jobs done" }),
    looked: z.number().int().meta({ description: "Pieces of work tried" }),
    notices: z.array(noticeDocument),
    cautions: cautionList,
    comparison: comparison.optional(),
  })
  .meta({ id: "PrepareAnswer" });

export type PrepareRequest = z.infer<typeof prepareRequest>;
export type PrepareAnswer = z.infer<typeof prepareAnswer>;
export type PrepareJob = z.infer<typeof prepareJob>;
