import { z } from "zod";
import { currencyCode } from "./currency-code.ts";
import { cautionList, moneyDocument, noticeDocument, reference } from "./figures.ts";
import { kitRequest } from "./kit.contract.ts";
import { comparison } from "./what-if.contract.ts";

const minor = z.number().int().min(0).max(1e12);

const supplierTerms = z
  .strictObject({
    supplier: z.string().min(1).meta({ description: "Id or name" }),
    deliveryMinor: minor.optional().meta({ description: "Charge for one delivery" }),
    freeFromMinor: minor.optional().meta({ description: "Goods worth this much come free" }),
    minimumMinor: minor.optional().meta({ description: "Goods worth less are not sold" }),
    dutyPercent: z.number().min(0).max(500).optional().meta({ description: "On the goods" }),
    currency: currencyCode
      .optional()
      .meta({ description: "Of the figures above; the planning currency when absent" }),
  })
  .meta({ id: "SupplierTerms" });

/** What a planner asks: the kit as for `kit`, by when, on what terms, and whom to leave out. */
export const orderRequest = kitRequest
  .omit({ caps: true, aim: true, weights: true, seconds: true })
  .extend({
    orderedOn: z.iso.date().optional().meta({ description: "Today when absent" }),
    neededBy: z.iso.date().optional().meta({ description: "Day by which it must be aboard" }),
    unknownLead: z.boolean().optional().meta({
      description:
        "With a needed-by date: count offers whose lead time is unknown; false if absent",
    }),
    terms: z.array(supplierTerms).max(1000).optional(),
    without: z.array(z.string().min(1)).optional().meta({ description: "Suppliers left out" }),
    ratesAsOf: z.iso.date().optional().meta({ description: "Day of the exchange rates given" }),
    seconds: z.number().positive().max(600).optional().meta({
      description: "Time allowed for the proof; 20 when absent",
    }),
  })
  .meta({ id: "OrderRequest" });

export const orderLine = z
  .object({
    part: reference,
    maker: z.string(),
    partNumber: z.string(),
    supplierCode: z.string(),
    description: z.string(),
    packs: z.number().int(),
    packSize: z.number().int(),
    pieces: z.number().int(),
    spare: z.number().int().meta({ description: "Pieces beyond what the kit asks for" }),
    packPrice: moneyDocument,
    goods: moneyDocument.meta({ description: "In the planning currency, duty left out" }),
    duty: moneyDocument,
    leadTimeDays: z.number().optional(),
    arrives: z.iso.date().optional(),
    parcel: z.string().meta({ description: "Line for the parcel's papers" }),
  })
  .meta({ id: "OrderLine" });

export const orderSheet = z
  .object({
    supplier: reference,
    contact: z.string(),
    place: z.string(),
    lines: z.array(orderLine),
    goods: moneyDocument,
    duty: moneyDocument,
    delivery: moneyDocument,
    total: moneyDocument,
    arrives: z.iso.date().optional().meta({ description: "When the last line should be here" }),
    words: z.string(),
  })
  .meta({ id: "OrderSheet" });

export const orderAnswer = z
  .object({
    vessel: reference,
    crossing: z.object({ name: z.string(), departs: z.iso.date() }),
    sentence: z.string(),
    status: z.enum(["optimal", "stopped", "infeasible"]),
    currency: z.string(),
    ratesAsOf: z.iso.date().optional(),
    orderedOn: z.iso.date(),
    neededBy: z.iso.date().optional(),
    total: moneyDocument,
    lowerBound: moneyDocument,
    gap: z.number(),
    eachAlone: moneyDocument.optional().meta({
      description: "Each part from whoever asks least for it: what it would have cost",
    }),
    sheets: z.array(orderSheet),
    unmet: z.array(
      z
        .object({
          part: reference,
          description: z.string(),
          pieces: z.number().int(),
          why: z.enum([
            "nobody offers",
            "no price",
            "no rate",
            "too late",
            "lead time unknown",
            "left out",
          ]),
          daysLate: z.number().int().optional(),
          words: z.string(),
        })
        .meta({ id: "UnmetNeed" }),
    ),
    notices: z.array(noticeDocument),
    comparison: comparison.optional(),
    cautions: cautionList,
  })
  .meta({ id: "OrderAnswer" });

export type OrderRequest = z.infer<typeof orderRequest>;
export type OrderAnswer = z.infer<typeof orderAnswer>;
