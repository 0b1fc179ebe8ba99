import { z } from "zod";
import { needNames } from "../../graph-schema/index.ts";
import { currencyCode } from "./currency-code.ts";
import { noticeDocument } from "./figures.ts";
import { columnMatch, importReport, rowFault } from "./import.contract.ts";

const word = z.string().min(1).max(500);
const vessel = word.optional().meta({
  description: "Id or name of the vessel the item is on; that of the request when absent",
});

/** Figures of gear or of a position, by declared need. */
export const needFigures = z
  .strictObject(
    Object.fromEntries(needNames.map((name) => [name, z.number().nonnegative().optional()])),
  )
  .meta({ id: "NeedFigures" });

/** A model typed in on the spot: it lives in this question only and is written nowhere. */
export const typedModel = z
  .strictObject({
    maker: word,
    designation: word,
    category: word.optional(),
    priceMinor: z.number().int().nonnegative().optional(),
    currency: currencyCode.optional(),
    massKg: z.number().nonnegative().optional(),
    can: needFigures.optional(),
    partsCsv: z.string().max(400_000).optional().meta({
      description:
        "Its parts list as CSV, columns as in an import; a column naming the model is not needed",
    }),
    offersCsv: z
      .string()
      .max(400_000)
      .optional()
      .meta({ description: "Who sells its parts, as CSV, columns as in an import" }),
  })
  .meta({ id: "TypedModel" });

/** How a list that came with a typed model was understood. */
export const listReading = z
  .object({
    model: z.string(),
    list: z.enum(["parts", "offers"]),
    sentence: z.string(),
    columns: z.array(columnMatch).meta({ description: "The list's own columns, in order" }),
    rows: importReport.shape.rows,
    faults: z.array(rowFault).meta({ description: "The first 50; lines are those of the list" }),
    faultsTotal: z.number().int(),
    notices: z.array(noticeDocument),
  })
  .meta({ id: "ListReading" });

/** What was understood of the lists of one typed model, before anything is asked of it. */
export const typedReading = z.object({ lists: z.array(listReading) }).meta({ id: "TypedReading" });

/** Changes to imagine before a question is answered; nothing is written. */
export const whatIf = z
  .strictObject({
    models: z.array(typedModel).max(50).optional(),
    replace: z
      .array(z.strictObject({ item: word, vessel, model: word }))
      .max(500)
      .optional()
      .meta({ description: "Fit another model, new, in the place of an item" }),
    add: z
      .array(
        z.strictObject({
          position: word,
          vessel,
          model: word,
          count: z.number().int().min(1).max(50).optional(),
          serves: z.array(word).optional(),
          hoursPerDay: z.number().min(0).max(24).optional(),
          operationsPerDay: z.number().nonnegative().optional(),
        }),
      )
      .max(500)
      .optional(),
    remove: z
      .array(z.strictObject({ item: word, vessel }))
      .max(500)
      .optional(),
    rates: z
      .array(
        z
          .strictObject({
            part: word,
            model: word
              .optional()
              .meta({ description: "Only in this model; everywhere if absent" }),
            times: z.number().positive().max(1000).optional(),
            rate: z.number().nonnegative().max(1e6).optional(),
            basis: z.enum(["1000 hours", "year", "1000 operations"]).optional(),
          })
          .refine(
            ({ times, rate, basis }) =>
              (times !== undefined) !== (rate !== undefined && basis !== undefined),
            "A changed rate needs either times, or a rate with its basis",
          ),
      )
      .max(500)
      .optional(),
    loseSuppliers: z.array(word).max(500).optional(),
  })
  .meta({ id: "WhatIf" });

/** Figures before and after what was imagined, side by side. */
export const comparison = z
  .object({
    changes: z.array(z.string()).meta({ description: "What was imagined, in words" }),
    sentence: z.string(),
    figures: z.array(
      z.object({
        figure: z.string(),
        kind: z
          .enum(["money", "count", "chance", "kg", "litres", "index"])
          .meta({ description: "money is in minor units of its currency" }),
        currency: z.string().optional(),
        before: z.number().nullable(),
        after: z.number().nullable(),
        difference: z.number().nullable(),
      }),
    ),
    parts: z
      .array(
        z.object({
          part: z.string(),
          before: z.number().int(),
          after: z.number().int(),
          difference: z.number().int(),
        }),
      )
      .meta({ description: "Pieces to buy that differ; where the answer buys any" }),
    listed: z
      .array(
        z.object({
          what: z.string(),
          before: z.string().nullable(),
          after: z.string().nullable(),
        }),
      )
      .optional()
      .meta({
        description: "What the answer lists otherwise; null where it does not list it on that side",
      }),
    notices: z.array(z.string()),
  })
  .meta({ id: "Comparison" });

export const imaginedRequest = z.strictObject({ whatIf }).meta({ id: "ImaginedRequest" });

/** What is imagined, in words, each with its place in the question. */
export const imaginedAnswer = z
  .object({
    changes: z.array(
      z.object({
        list: z.enum(["models", "replace", "add", "remove", "rates", "loseSuppliers"]),
        at: z.number().int().meta({ description: "Place in that list" }),
        words: z.string(),
      }),
    ),
    notices: z.array(z.string()),
  })
  .meta({ id: "ImaginedAnswer" });

export type ImaginedRequest = z.infer<typeof imaginedRequest>;
export type ImaginedAnswer = z.infer<typeof imaginedAnswer>;
export type WhatIf = z.infer<typeof whatIf>;
export type ListReading = z.infer<typeof listReading>;
export type TypedReading = z.infer<typeof typedReading>;
export type TypedModel = z.infer<typeof typedModel>;
export type Comparison = z.infer<typeof comparison>;
