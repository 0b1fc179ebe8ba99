import { z } from "zod";
import { currencyCode } from "./currency-code.ts";
import {
  cautionList,
  evidenceName,
  moneyDocument,
  noticeDocument,
  reference,
  tierName,
  unitSystem,
} from "./figures.ts";
import { kitPurchase, kitSale } from "./kit-sale.contract.ts";
import { comparison, whatIf } from "./what-if.contract.ts";

const target = z.number().gt(0).lt(1);

const amount = z.number().min(0).max(1e9);

/** What may be bought and stowed at most. Sizes are of what is bought; what is aboard already is not counted. */
export const kitCaps = z
  .strictObject({
    cost: z
      .strictObject({
        minor: z.number().int().min(0).max(1e15),
        currency: currencyCode,
      })
      .optional(),
    massKg: amount.optional(),
    volumeLitres: amount.optional(),
    lockers: z
      .array(
        z.strictObject({
          locker: z.string().min(1).max(200),
          massKg: amount.optional(),
          volumeLitres: amount.optional(),
        }),
      )
      .min(1)
      .max(20)
      .optional()
      .meta({
        description:
          "Lockers that must hold all that is bought, by name or path (outer > inner). Litres absent: the room free in the locker's stated capacity",
      }),
  })
  .meta({ id: "KitCaps" });

/** What a planner asks: a vessel, a crossing, and how sure each tier must be. */
export const kitRequest = z
  .strictObject({
    vessel: z
      .string()
      .optional()
      .meta({ description: "Id or name; the only vessel, or the first that sails, when absent" }),
    crossing: z
      .string()
      .optional()
      .meta({ description: "Id or name; the next crossing when absent" }),
    departs: z.iso.date().optional(),
    daysExpected: z.number().positive().max(3650).optional(),
    daysLongest: z.number().positive().max(3650).optional(),
    marginDays: z.number().min(0).max(365).optional().meta({
      description: "Days after longest-case arrival for which dates must still hold; 0 when absent",
    }),
    targets: z
      .strictObject({
        safety: target.optional(),
        passage: target.optional(),
        comfort: target.optional(),
      })
      .optional()
      .meta({ description: "Probability of sufficiency per tier; .99, .95, .80 when absent" }),
    objective: z.enum(["cost", "mass", "volume", "pieces"]).optional(),
    rule: z.enum(["kit", "each part"]).optional(),
    robbing: z.boolean().optional(),
    ignoreAboard: z
      .boolean()
      .optional()
      .meta({ description: "Size the kit as if the lockers were empty" }),
    confirmedOnly: z.boolean().optional().meta({
      description:
        "Use only interchange marked confirmed; likely and unmarked pairs too when absent",
    }),
    currency: currencyCode.optional(),
    rates: z
      .record(currencyCode, z.number().positive())
      .optional()
      .meta({ description: "Value of one unit of another currency in the planning currency" }),
    units: unitSystem.optional().meta({
      description:
        "Units of weight and room in the answer's sentences; metric when absent. Figures stay in kilograms and litres",
    }),
    whatIf: whatIf.optional(),
    caps: kitCaps.optional(),
    aim: z.enum(["least", "most"]).optional().meta({
      description:
        "least: the least objective that reaches every target within the caps. most: within the caps the greatest weighted ln sufficiency, the safety target held first. When absent: most where caps are given and no objective, else least",
    }),
    weights: z
      .strictObject({
        safety: z.number().min(0).max(1000).optional(),
        passage: z.number().min(0).max(1000).optional(),
        comfort: z.number().min(0).max(1000).optional(),
      })
      .optional()
      .meta({ description: "Weight of each tier where the most is sought; 1, 1, .25 when absent" }),
    seconds: z.number().min(0.1).max(600).optional().meta({
      description:
        "Time allowed for the proof; 20 when absent. Then the best kit found, with its gap",
    }),
  })
  .meta({ id: "KitRequest" });

/** Why a part is on the list: which gear asks, by which evidence. */
export const demandReason = z
  .object({
    gear: z.string(),
    items: z.number().int(),
    model: reference,
    quantityEach: z.number(),
    evidence: evidenceName,
    meanDemand: z.number(),
    stops: z.boolean(),
    words: z.string(),
  })
  .meta({ id: "DemandReason" });

export const kitLine = z
  .object({
    part: reference,
    maker: z.string(),
    partNumber: z.string(),
    description: z.string(),
    alternates: z.array(reference),
    interchange: z
      .array(
        z.object({
          one: reference,
          other: reference,
          confidence: z.enum(["confirmed", "likely", "not stated"]),
          source: z.string(),
        }),
      )
      .meta({ description: "The statements that make the alternates one class, with who says so" }),
    chain: z
      .object({
        newer: z
          .array(reference)
          .meta({ description: "Parts that supersede this one, the nearest first" }),
        older: z.array(reference).meta({ description: "Parts this one serves too" }),
        source: z.string(),
        words: z.string(),
      })
      .optional()
      .meta({ description: "Present where supersession ties the part to others of the kit" }),
    tier: tierName,
    safety: z.boolean(),
    aboard: z.number().int(),
    notUsable: z.number().int(),
    credit: z.number().int().meta({ description: "Pieces that may be taken from redundant gear" }),
    carry: z
      .number()
      .int()
      .meta({ description: "Pieces the kit needs in all: usable aboard kept plus to buy" }),
    buy: z.number().int().meta({
      description: "Pieces that what is bought gives, in packs and service kits included",
    }),
    fromKits: z.number().int().meta({ description: "Pieces of these from service kits bought" }),
    leftover: z.number().int().meta({
      description: "Pieces of these that could stay ashore, this part alone, with the target kept",
    }),
    meanDemand: z.number(),
    shortWithNone: z.number(),
    shortWithAboard: z.number(),
    shortWithKit: z.number(),
    evidence: evidenceName,
    assumedShare: z
      .number()
      .meta({ description: "Share of expected demand resting on assumed rates" }),
    unitPrice: moneyDocument.optional(),
    priceAssumed: z.boolean(),
    lineCost: moneyDocument.optional(),
    massKg: z.number().optional(),
    volumeLitres: z.number().optional(),
    gainPerCost: z.number().optional().meta({
      description:
        "Fall in ln of the chance of running short per unit of money for the last piece bought",
    }),
    supplier: z.string().optional(),
    leadTimeDays: z.number().optional(),
    stowedIn: z.array(z.string()),
    reasons: z.array(demandReason),
    words: z.string(),
  })
  .meta({ id: "KitLine" });

export const functionSurvival = z
  .object({
    function: reference,
    tier: tierName,
    need: z.number().int(),
    fitted: z.number().int(),
    sameModel: z.boolean(),
    withAboard: z.number().meta({ description: "At least; the chance itself where exact" }),
    withAboardAtMost: z.number(),
    withKit: z.number().meta({ description: "At least; the chance itself where exact" }),
    withKitAtMost: z.number(),
    isExact: z.boolean().meta({
      description:
        "False: services or other gear compete for the parts, or makes share them, and the order of events decides within the two figures; the simulation says where between",
    }),
    method: z.enum([
      "robbing",
      "convolution of mixed models",
      "makes that share parts",
      "no robbing",
      "no credit",
    ]),
    words: z.string(),
  })
  .meta({ id: "FunctionSurvival" });

export const unsparableRisk = z
  .object({
    part: reference,
    description: z.string(),
    gear: z.string(),
    tier: tierName,
    chance: z.number(),
    stops: z.boolean(),
    stopsFunctions: z
      .array(reference)
      .meta({ description: "Functions that need all their gear, so that this failure stops them" }),
  })
  .meta({ id: "UnsparableRisk" });

/** One piece whose loss stops a function. */
const singlePoint = z
  .object({
    function: reference,
    tier: tierName,
    part: reference,
    description: z.string(),
    gear: z.string(),
    why: z.enum(["no spare", "no mending at sea"]),
    chance: z.number().meta({ description: "That the gear named loses one at all" }),
    words: z.string(),
  })
  .meta({ id: "SinglePoint" });

/** An item that can be given up to mend others. */
const donor = z
  .object({
    item: reference,
    model: reference,
    functions: z.array(reference),
    parts: z.array(
      z.object({ part: reference, description: z.string(), pieces: z.number().int() }),
    ),
    words: z.string(),
  })
  .meta({ id: "Donor" });

export const frontierPoint = z.object({
  cost: z.number(),
  sufficiency: z.number(),
  pieces: z.number().int(),
});

export const kitAnswer = z
  .object({
    vessel: reference,
    crossing: z.object({
      name: z.string(),
      id: z.string().optional(),
      departs: z.iso.date(),
      daysExpected: z.number(),
      daysLongest: z.number(),
      usableUntil: z.iso.date(),
    }),
    sentence: z.string().meta({ description: "The answer in one sentence, made from its figures" }),
    status: z.enum(["optimal", "infeasible", "time-limited"]),
    objective: z.enum(["cost", "mass", "volume", "pieces"]),
    units: unitSystem.meta({ description: "Units of the sentences" }),
    currency: z.string(),
    total: z.object({
      cost: moneyDocument,
      lowerBound: z.number(),
      gap: z.number(),
      massKg: z.number(),
      massUnknownPieces: z.number().int(),
      volumeLitres: z.number(),
      volumeUnknownPieces: z.number().int(),
      buyPieces: z.number().int(),
      carryPieces: z.number().int(),
      distinctParts: z.number().int(),
      priceAssumedPieces: z.number().int(),
    }),
    tiers: z.array(
      z.object({
        tier: tierName,
        parts: z.number().int(),
        target: z.number(),
        withNone: z.number(),
        withAboard: z.number(),
        withKit: z.number(),
        reachable: z.number(),
        cost: z.number(),
        assumedShare: z.number(),
      }),
    ),
    lines: z.array(kitLine),
    purchases: z.array(kitPurchase),
    sale: kitSale,
    functions: z.array(functionSurvival),
    unsparable: z.array(unsparableRisk),
    singlePoints: z.array(singlePoint).meta({
      description: "Pieces whose loss alone stops a function: no spare, no donor, or no mending",
    }),
    donors: z
      .array(donor)
      .meta({ description: "Gear that its functions can spare, and the parts it can give" }),
    withoutEvidence: z
      .array(z.object({ part: reference, description: z.string(), gear: z.string() }))
      .meta({
        description: "Parts with no evidence of failing at all: not provided for, and said so",
      }),
    frontier: z
      .object({
        safety: z.array(frontierPoint),
        passage: z.array(frontierPoint),
        comfort: z.array(frontierPoint),
      })
      .meta({
        description:
          "Per tier, kits proven least for their own sufficiency, cheapest first, every piece at its share of a pack and no service kit opened; the kit bought may lie beside the curve",
      }),
    comparison: comparison.optional(),
    notices: z.array(noticeDocument),
    cautions: cautionList,
  })
  .meta({ id: "KitAnswer" });

export type KitRequest = z.infer<typeof kitRequest>;
export type KitAnswer = z.infer<typeof kitAnswer>;
export type KitLine = z.infer<typeof kitLine>;
