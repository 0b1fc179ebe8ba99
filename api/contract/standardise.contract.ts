import { z } from "zod";
import { cautionList, moneyDocument, noticeDocument, reference } from "./figures.ts";
import { kitRequest } from "./kit.contract.ts";
import { comparison } from "./what-if.contract.ts";

const { objective: _objective, rule: _rule, ...kitTerms } = kitRequest.shape;
const minor = z.number().int().nonnegative().max(1e13);

/** What to keep and what to change, within a budget. */
export const standardiseRequest = z
  .strictObject({
    ...(Object.fromEntries(Object.entries(kitTerms).filter(([name]) => name !== "vessel")) as Omit<
      typeof kitTerms,
      "vessel"
    >),
    vessel: z
      .string()
      .optional()
      .meta({ description: "Id or name; every vessel with gear when absent" }),
    categories: z
      .array(z.string().min(1).max(200))
      .max(100)
      .optional()
      .meta({ description: "Kinds of gear that may change; all when absent" }),
    budgetMinor: minor
      .optional()
      .meta({ description: "Most that changes may cost, minor units; no limit when absent" }),
    horizonYears: z.number().min(0).max(50).optional().meta({ description: "5 when absent" }),
    supplierYearlyMinor: minor
      .optional()
      .meta({ description: "What dealing with one supplier costs a year; 10000 when absent" }),
    kitYearlyMinor: minor
      .optional()
      .meta({ description: "What keeping one more spares kit costs a year; 2500 when absent" }),
    fittingMinor: minor
      .optional()
      .meta({ description: "What fitting one item costs, beside its price; 0 when absent" }),
    seconds: z
      .number()
      .min(1)
      .max(600)
      .optional()
      .meta({ description: "Time for the search and its proof; 20 when absent" }),
  })
  .meta({ id: "StandardiseRequest" });

const sideFigures = z
  .object({
    kit: moneyDocument.nullable().meta({
      description:
        "Kits of all vessels at the same protection, solved exactly; null if out of reach",
    }),
    kits: z.number().int().meta({ description: "Different spares kits" }),
    suppliers: z.number().int().meta({
      description: "Least number of suppliers that sell everything on sale",
    }),
    yearly: moneyDocument.meta({ description: "Charges for suppliers and spares kits in a year" }),
    total: moneyDocument
      .nullable()
      .meta({ description: "Change cost, kits, and the yearly charges over the horizon" }),
  })
  .meta({ id: "StandardSide" });

const move = {
  vessel: reference,
  category: z.string(),
  positions: z.array(z.string()),
  from: reference,
  to: reference,
  cost: moneyDocument,
};

export const standardiseAnswer = z
  .object({
    scope: z.object({ vessel: reference.optional() }),
    currency: z.string(),
    sentence: z.string().meta({ description: "The answer in words, made from its figures" }),
    status: z.enum(["optimal", "stopped"]).meta({
      description: "Of the planning model: proven, or the best found within the time",
    }),
    model: z
      .object({
        total: moneyDocument,
        lowerBound: moneyDocument,
        gap: z.number(),
        foundBy: z.enum(["programme", "local search"]),
        positions: z.number().int().meta({ description: "Positions that may change" }),
        words: z.string(),
      })
      .meta({ description: "What was minimised, and how far it is proven" }),
    budget: moneyDocument.nullable(),
    horizonYears: z.number(),
    changeCost: moneyDocument,
    saving: moneyDocument
      .nullable()
      .meta({ description: "Total before less total after, change cost counted; exact kits" }),
    paybackYears: z.number().nullable().meta({
      description: "0 where the kits alone pay; null where nothing changes or it never pays",
    }),
    before: sideFigures,
    after: sideFigures,
    changes: z.array(z.object(move).meta({ id: "StandardChange" })),
    sequence: z.array(
      z
        .object({
          ...move,
          kitSaving: moneyDocument,
          yearlySaving: moneyDocument,
          paybackYears: z.number().nullable(),
          words: z.string(),
        })
        .meta({ id: "StandardStep" }),
    ),
    opportunities: z.array(
      z
        .object({
          category: z.string(),
          replace: reference,
          by: reference,
          items: z.number().int(),
          changeCost: moneyDocument,
          kitSaving: moneyDocument.nullable(),
          yearlySaving: moneyDocument,
          partsVanishing: z.number().int(),
          partsAdded: z.number().int(),
          kitsVanishing: z.number().int(),
          suppliersVanishing: z.number().int(),
          savingPerCost: z.number().nullable(),
          words: z.string(),
        })
        .meta({ id: "StandardOpportunity" }),
    ),
    held: z.array(z.object({ positions: z.number().int(), reason: z.string() })),
    counterweight: z.array(z.string()),
    comparison: comparison.optional(),
    notices: z.array(noticeDocument),
    cautions: cautionList,
  })
  .meta({ id: "StandardiseAnswer" });

export type StandardiseRequest = z.infer<typeof standardiseRequest>;
export type StandardiseAnswer = z.infer<typeof standardiseAnswer>;
