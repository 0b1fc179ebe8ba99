import { z } from "zod";
import { cautionList, moneyDocument, noticeDocument, reference, tierName } from "./figures.ts";
import { kitRequest } from "./kit.contract.ts";
import { comparison, listReading, needFigures, typedModel } from "./what-if.contract.ts";

const { objective: _objective, rule: _rule, ...kitTerms } = kitRequest.shape;
const word = z.string().min(1).max(500);

/** Which make a position should have: the position, its needs, and the makes to weigh. */
export const chooseRequest = z
  .strictObject({
    ...kitTerms,
    replace: z
      .array(word)
      .min(1)
      .max(50)
      .optional()
      .meta({ description: "Fitted items to replace, by id or position, all by the same make" }),
    position: z
      .strictObject({
        name: word.optional(),
        category: word,
        count: z.number().int().min(1).max(50).optional(),
        serves: z.array(word).max(20).optional(),
        hoursPerDay: z.number().min(0).max(24).optional(),
        operationsPerDay: z.number().nonnegative().max(100_000).optional(),
      })
      .optional()
      .meta({ description: "A new position, where nothing is replaced" }),
    needs: needFigures.optional().meta({
      description:
        "What the gear must meet; where absent what the position states, else what the gear fitted now can do",
    }),
    candidates: z
      .array(word)
      .max(50)
      .optional()
      .meta({ description: "Models to weigh; all of the category in the catalogue when absent" }),
    without: z
      .array(word)
      .max(200)
      .optional()
      .meta({ description: "Models of the catalogue to leave out" }),
    typed: z
      .array(typedModel)
      .max(20)
      .optional()
      .meta({ description: "Candidates typed in on the spot; nothing is written" }),
    turning: z
      .boolean()
      .optional()
      .meta({ description: "Whether to look for what would turn the verdict; true when absent" }),
  })
  .refine(
    ({ replace, position }) => (replace === undefined) !== (position === undefined),
    "A choice needs either items to replace or a new position",
  )
  .meta({ id: "ChooseRequest" });

const breakEven = z
  .object({
    against: reference,
    price: moneyDocument.meta({
      description: "Price of one unit at which both boats cost the same; may be below 0",
    }),
    room: z
      .number()
      .int()
      .nullable()
      .meta({ description: "How much more one unit may cost, minor units; below 0 = too dear by" }),
  })
  .meta({ id: "BreakEven" });

const candidate = z
  .object({
    model: reference,
    maker: z.string(),
    typedIn: z.boolean(),
    fittedNow: z.number().int().meta({ description: "Of the positions asked about, how many" }),
    rank: z
      .number()
      .int()
      .nullable()
      .meta({ description: "1 makes the cheapest boat; null where price or kit is unknown" }),
    price: moneyDocument.nullable().meta({ description: "Of one unit, in the planning currency" }),
    priceQuoted: moneyDocument.nullable().meta({ description: "As quoted" }),
    priceAll: moneyDocument.nullable(),
    kitUnknown: z
      .string()
      .nullable()
      .meta({ description: "Why the kit is unknown; null where it is known" }),
    kit: z
      .object({
        cost: moneyDocument.meta({ description: "Of the whole boat, at the same targets" }),
        extra: moneyDocument
          .nullable()
          .meta({ description: "Over today's kit; null where today's reaches no target" }),
        lowerBound: z.number(),
        pieces: z.number().int(),
        massKg: z.number(),
        massUnknownPieces: z.number().int(),
        volumeLitres: z.number(),
        volumeUnknownPieces: z.number().int(),
        priceAssumedPieces: z.number().int(),
      })
      .nullable(),
    boat: moneyDocument.nullable().meta({ description: "Price of all units plus the kit" }),
    newParts: z.number().int().nullable(),
    goneParts: z.number().int().nullable(),
    newKits: z.number().int().nullable(),
    newSuppliers: z.number().int().nullable().meta({
      description: "Change of the least number of suppliers that sell everything on sale",
    }),
    partsListed: z.number().int(),
    partsWithoutEvidence: z.number().int().meta({
      description: "Of its list, parts with no evidence of failing: not provided for",
    }),
    worstLeadTimeDays: z.number().nullable(),
    slowestPart: z.string().nullable(),
    leadTimeUnknownParts: z.number().int(),
    singleSourceParts: z.number().int(),
    unsoldParts: z.number().int(),
    massEachKg: z.number().nullable(),
    donorChance: z.number().nullable().meta({
      description: "That a failure that stops one finds the part in other gear that can be spared",
    }),
    functions: z.array(
      z.object({
        function: reference,
        tier: tierName,
        atEqualProtection: z.number(),
        atEqualSpend: z.number().meta({
          description: "With the surest spares for the money today's kit costs",
        }),
      }),
    ),
    breakEven: z.array(breakEven),
    words: z.string(),
  })
  .meta({ id: "ChoiceCandidate" });

export const chooseAnswer = z
  .object({
    vessel: reference,
    crossing: z.object({
      name: z.string(),
      departs: z.iso.date(),
      daysExpected: z.number(),
      daysLongest: z.number(),
    }),
    currency: z.string(),
    position: z.object({
      words: z.string(),
      items: z.array(z.string()),
      units: z.number().int(),
      category: z.string(),
      needs: z.array(
        z.object({
          need: z.string(),
          rule: z.enum(["at least", "equal"]),
          value: z.number(),
          unit: z.string(),
          from: z.enum(["position", "question", "gear fitted now"]),
        }),
      ),
      functions: z.array(z.object({ function: reference, tier: tierName })),
    }),
    verdict: z.string().meta({ description: "One paragraph, made from the figures" }),
    cheapest: reference.nullable(),
    before: z.object({
      kit: moneyDocument.nullable(),
      parts: z.number().int(),
      kits: z.number().int(),
      suppliers: z.number().int(),
    }),
    candidates: z.array(candidate).meta({ description: "Cheapest boat first, unknown ones last" }),
    lists: z
      .array(listReading)
      .meta({ description: "How the lists of candidates typed in were understood" }),
    rejected: z.array(z.object({ model: reference, reasons: z.array(z.string()) })),
    turning: z
      .array(
        z.object({
          kind: z.enum(["price", "units", "passage", "target"]),
          from: z.number(),
          at: z.number(),
          winner: reference,
          words: z.string(),
        }),
      )
      .meta({
        description: "What would turn the verdict, each found by solving again on both sides",
      }),
    tried: z.string().meta({ description: "How far the search for turning points went" }),
    comparison: comparison.optional(),
    notices: z.array(noticeDocument),
    cautions: cautionList,
  })
  .meta({ id: "ChooseAnswer" });

export type ChooseRequest = z.infer<typeof chooseRequest>;
export type ChooseAnswer = z.infer<typeof chooseAnswer>;
export type ChoiceCandidate = ChooseAnswer["candidates"][number];
