import { z } from "zod";
import { cautionList } from "./figures.ts";

export const findRequest = z
  .strictObject({
    text: z.string().min(1).max(200),
    limit: z.coerce.number().int().min(1).max(500).optional(),
  })
  .meta({ id: "FindRequest" });

export const findAnswer = z
  .object({
    text: z.string(),
    sentence: z.string(),
    hits: z.array(
      z.object({
        id: z.string(),
        label: z.string(),
        name: z.string(),
        detail: z.string(),
        matched: z.string(),
        aboard: z
          .array(
            z.object({
              vessel: z.string(),
              place: z.string(),
              quantity: z.number().int(),
              expires: z.string().nullable(),
              usable: z.boolean(),
              words: z.string(),
            }),
          )
          .optional(),
        usedBy: z.array(z.string()).optional(),
      }),
    ),
    cautions: cautionList,
  })
  .meta({ id: "FindAnswer" });

/** What is in the graph, for empty pages and headings. */
export const overviewAnswer = z
  .object({
    counts: z.record(z.string(), z.number().int()),
    currency: z.string().meta({
      description: "The planning currency where none is asked for: that of most offers",
    }),
    vessels: z.array(z.object({ id: z.string(), name: z.string(), items: z.number().int() })),
    crossings: z.array(
      z.object({
        id: z.string(),
        name: z.string(),
        departs: z.string().nullable(),
        daysExpected: z.number().nullable(),
        daysLongest: z.number().nullable(),
        vessels: z.array(z.string()),
      }),
    ),
    categories: z.array(
      z.object({ category: z.string(), models: z.number().int(), items: z.number().int() }),
    ),
  })
  .meta({ id: "OverviewAnswer" });

export type FindRequest = z.infer<typeof findRequest>;
export type FindAnswer = z.infer<typeof findAnswer>;
export type OverviewAnswer = z.infer<typeof overviewAnswer>;
