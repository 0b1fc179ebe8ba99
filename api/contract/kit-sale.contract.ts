import { z } from "zod";
import { moneyDocument, reference } from "./figures.ts";

/** One line of what to buy (or, of a kind, to open): units as they are sold, and what they give. */
export const kitPurchase = z
  .object({
    kind: z.enum(["piece", "pack", "service kit", "service kit aboard"]),
    part: reference,
    maker: z.string(),
    description: z.string(),
    supplier: z.string().optional(),
    supplierCode: z.string().optional(),
    leadTimeDays: z.number().optional(),
    units: z.number().int(),
    pack: z.number().int(),
    leastUnits: z.number().int(),
    unitPrice: moneyDocument,
    cost: moneyDocument,
    priceAssumed: z.boolean(),
    massKg: z.number().optional(),
    volumeLitres: z.number().optional(),
    contents: z.array(
      z.object({
        part: reference,
        description: z.string(),
        pieces: z.number().int(),
        asked: z.boolean().meta({ description: "Whether anything fitted asks for it" }),
      }),
    ),
    lockers: z.array(z.object({ locker: z.string(), units: z.number().int() })),
    words: z.string(),
  })
  .meta({ id: "KitPurchase" });

/** How the kit was found, what limits it and how near the best it is proven to be. */
export const kitSale = z
  .object({
    method: z.enum(["single pieces", "packs and service kits", "mixed-integer programme"]),
    aim: z.enum(["least", "most"]),
    value: z.number().meta({
      description: "What was made least, or the weighted ln sufficiency that was made most",
    }),
    bound: z.number().meta({ description: "No kit within the caps does better than this" }),
    gap: z.number(),
    repaired: z.boolean().meta({
      description: "The solver's own kit missed a target by its tolerance; this one does not",
    }),
    caps: z.array(
      z.object({
        what: z.enum(["money", "mass", "volume", "locker"]),
        locker: z.string().optional(),
        unit: z.string(),
        allowed: z.number(),
        used: z.number(),
        unknownPieces: z.number().int().meta({
          description: "Pieces bought whose size is not stated: a median stands in for each",
        }),
      }),
    ),
    shortfalls: z
      .array(
        z.object({
          what: z.enum(["money", "mass", "volume"]),
          unit: z.string(),
          allowed: z.number(),
          needed: z.number(),
          short: z.number(),
          inTheWay: z.array(z.object({ part: reference, words: z.string() })),
          words: z.string(),
        }),
      )
      .meta({ description: "Caps below what the safety tier needs, and by how much" }),
  })
  .meta({ id: "KitSale" });

export type KitPurchase = z.infer<typeof kitPurchase>;
export type KitSale = z.infer<typeof kitSale>;
