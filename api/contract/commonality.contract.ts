import { z } from "zod";
import { moneyDocument, noticeDocument, reference } from "./figures.ts";
import { comparison, whatIf } from "./what-if.contract.ts";

export const commonalityRequest = z
  .strictObject({
    vessel: z.string().optional().meta({ description: "Id or name; the whole fleet when absent" }),
    category: z.string().optional(),
    whatIf: whatIf.optional(),
  })
  .meta({ id: "CommonalityRequest" });

export const commonalityIndices = z
  .object({
    models: z.number().int(),
    items: z.number().int(),
    distinctParts: z.number().int(),
    lines: z.number().int(),
    usedByOneModelOnly: z.number().int(),
    degreeOfCommonality: z.number().nullable().meta({ description: "Collier 1981" }),
    totalConstantCommonality: z
      .number()
      .nullable()
      .meta({ description: "Wacker and Treleven 1986" }),
    componentCommonality: z.number().nullable().meta({ description: "Martin and Ishii 1997" }),
    weightedCommonality: z
      .number()
      .nullable()
      .meta({ description: "Jiao and Tseng 2000; null where no prices are known" }),
    distinctKits: z.number().int(),
    maximalKits: z.number().int(),
  })
  .meta({ id: "CommonalityIndices" });

export const sparesKit = z
  .object({
    models: z.array(reference),
    items: z.number().int(),
    parts: z.number().int(),
    maximal: z.boolean(),
    containedIn: z.array(z.number().int()).meta({ description: "Indices into kits" }),
  })
  .meta({ id: "SparesKit" });

export const replacementOpportunity = z
  .object({
    category: z.string(),
    replace: reference,
    by: reference,
    items: z.number().int(),
    partsVanishing: z.number().int(),
    partsAdded: z.number().int(),
    suppliersVanishing: z.number().int(),
    kitsVanishing: z.number().int(),
    stockValueFreed: moneyDocument.optional(),
    words: z.string(),
  })
  .meta({ id: "ReplacementOpportunity" });

export const commonalityAnswer = z
  .object({
    scope: z.object({ vessel: reference.optional(), category: z.string().optional() }),
    sentence: z.string(),
    whole: commonalityIndices,
    categories: z.array(commonalityIndices.extend({ category: z.string() })),
    vessels: z.array(commonalityIndices.extend({ vessel: reference })),
    kits: z.array(sparesKit),
    likeness: z
      .array(
        z.object({ a: reference, b: reference, shared: z.number().int(), jaccard: z.number() }),
      )
      .meta({ description: "Pairs of models that share at least one part, most alike first" }),
    opportunities: z.array(replacementOpportunity),
    matrix: z.object({
      models: z.array(
        reference.extend({
          category: z.string(),
          maker: z.string(),
          items: z.number().int(),
          parts: z.number().int(),
        }),
      ),
      parts: z.array(
        reference.extend({ description: z.string(), maker: z.string(), models: z.number().int() }),
      ),
      cells: z
        .array(z.tuple([z.number().int(), z.number().int(), z.number()]))
        .meta({ description: "[row, column, quantity], rows and columns in the order to draw" }),
    }),
    comparison: comparison.optional(),
    notices: z.array(noticeDocument),
  })
  .meta({ id: "CommonalityAnswer" });

export type CommonalityRequest = z.infer<typeof commonalityRequest>;
export type CommonalityAnswer = z.infer<typeof commonalityAnswer>;
