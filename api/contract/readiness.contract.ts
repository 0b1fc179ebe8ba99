import { z } from "zod";
import { replacementOpportunity } from "./commonality.contract.ts";
import { cautionList, moneyDocument, noticeDocument, reference, tierName } from "./figures.ts";
import { comparison, whatIf } from "./what-if.contract.ts";

export const readinessRequest = z
  .strictObject({
    vessel: z.string().optional().meta({ description: "Id or name; every vessel when absent" }),
    whatIf: whatIf.optional(),
  })
  .meta({ id: "ReadinessRequest" });

/** The question as an address can hold it. */
export const readinessQuery = readinessRequest.omit({ whatIf: true });

/** Where the whole of a figure is to be seen: a page of the screen with its query, and the command that prints it. */
export const whereToLook = z
  .object({
    page: z.enum(["crossing", "lockers", "suppliers", "commonality", "gear"]),
    query: z.record(z.string(), z.string()),
    command: z.string(),
  })
  .meta({ id: "WhereToLook" });

/** One thing that needs looking at, most pressing kinds first. */
export const attention = z
  .object({
    kind: z.enum([
      "short",
      "out of date",
      "date unknown",
      "not serviceable",
      "falls due",
      "service overdue",
      "service due",
      "service short of parts",
      "single source",
      "nobody sells",
      "without evidence",
      "assumed",
      "cannot be mended at sea",
    ]),
    weight: z.enum(["now", "before leaving", "to know"]),
    count: z.number().int(),
    words: z.string(),
    follow: whereToLook,
  })
  .meta({ id: "Attention" });

export const vesselReadiness = z
  .object({
    vessel: reference,
    items: z.number().int(),
    crossing: z.object({
      name: z.string(),
      id: z.string().optional(),
      departs: z.iso.date(),
      daysExpected: z.number(),
      daysLongest: z.number(),
      usableUntil: z.iso.date(),
      daysAway: z.number().int().meta({ description: "Until departure; below 0 once it is past" }),
    }),
    ready: z.boolean().meta({
      description: "Every tier reaches its target with what is aboard, as far as evidence goes",
    }),
    sentence: z.string(),
    tiers: z.array(
      z.object({
        tier: tierName,
        parts: z.number().int(),
        target: z.number(),
        withAboard: z.number(),
        withKit: z.number(),
        reached: z.boolean().meta({ description: "The target, with what is aboard" }),
        follow: whereToLook,
      }),
    ),
    toBuy: z.object({
      pieces: z.number().int(),
      parts: z.number().int(),
      cost: moneyDocument.nullable().meta({ description: "null where no price is known" }),
      status: z.enum(["optimal", "infeasible", "time-limited"]),
      first: z
        .array(
          z.object({
            part: reference,
            description: z.string(),
            tier: tierName,
            buy: z.number().int(),
            shortWithAboard: z.number(),
            words: z.string(),
          }),
        )
        .meta({ description: "The five most pressing parts" }),
      follow: whereToLook,
    }),
    stock: z.object({
      outOfDate: z.number().int(),
      dateUnknown: z.number().int(),
      notServiceable: z.number().int(),
      fallsDue: z.number().int().meta({ description: "Lots out of date before arrival" }),
      follow: whereToLook,
    }),
    services: z.object({
      due: z
        .number()
        .int()
        .meta({ description: "Due before departure, or not known when last done" }),
      onPassage: z
        .number()
        .int()
        .meta({ description: "Falling due between departure and arrival" }),
      lastDoneUnknown: z.number().int(),
      shortOfParts: z.number().int(),
      follow: whereToLook,
    }),
    singleSource: z.object({
      parts: z.number().int(),
      stopping: z.number().int().meta({ description: "Of them, those whose failure stops gear" }),
      unsoldStopping: z.number().int().meta({ description: "Stopping parts nobody sells" }),
      first: z.array(
        z.object({
          part: reference,
          description: z.string(),
          tier: tierName,
          itemsStopped: z.number().int(),
          supplier: reference,
        }),
      ),
      follow: whereToLook,
    }),
    evidence: z.object({
      lines: z.number().int().meta({ description: "Part classes the gear asks for" }),
      assumed: z.number().int().meta({ description: "Of them, those resting on an assumed rate" }),
      without: z.number().int().meta({ description: "Parts-list lines without any evidence" }),
      unsparable: z.number().int().meta({ description: "Failures no spare mends at sea" }),
      follow: whereToLook,
    }),
    attention: z.array(attention),
  })
  .meta({ id: "VesselReadiness" });

export const readinessAnswer = z
  .object({
    today: z.string(),
    sentence: z.string(),
    vessels: z.array(vesselReadiness),
    standardise: replacementOpportunity.extend({ follow: whereToLook }).nullable().meta({
      description: "The replacement of gear by gear already fitted that does away with most parts",
    }),
    notices: z.array(noticeDocument),
    cautions: cautionList,
    comparison: comparison.optional(),
  })
  .meta({ id: "ReadinessAnswer" });

export type ReadinessRequest = z.infer<typeof readinessRequest>;
export type ReadinessAnswer = z.infer<typeof readinessAnswer>;
export type VesselReadiness = z.infer<typeof vesselReadiness>;
export type Attention = z.infer<typeof attention>;
export type WhereToLook = z.infer<typeof whereToLook>;
