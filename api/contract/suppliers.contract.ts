import { z } from "zod";
import { cautionList, noticeDocument, reference, tierName } from "./figures.ts";
import { comparison, whatIf } from "./what-if.contract.ts";

export const suppliersRequest = z
  .strictObject({
    vessel: z.string().optional().meta({ description: "Id or name; the whole fleet when absent" }),
    weights: z
      .array(z.strictObject({ supplier: z.string(), weight: z.number().nonnegative() }))
      .optional()
      .meta({
        description:
          "What dealing with a supplier costs, in any one unit; 1 for those not named. Asks for the least total too",
      }),
    whatIf: whatIf.optional(),
  })
  .meta({ id: "SuppliersRequest" });

const proofStatus = z
  .enum(["optimal", "stopped"])
  .meta({ description: "optimal: proven; stopped: the best found, with a bound that holds" });

const chosenSuppliers = z
  .object({
    status: proofStatus,
    suppliers: z.array(reference),
    reached: z.number().int(),
    upperBound: z.number().meta({ description: "No choice of as many suppliers reaches more" }),
    gap: z.number(),
    withoutAnyOne: z.number().int().meta({
      description: "Of what is reached, what stays reached whichever one of them drops out",
    }),
  })
  .meta({ id: "ChosenSuppliers" });

const supplierCover = z
  .object({
    status: proofStatus,
    suppliers: z.array(reference),
    cost: z.number(),
    lowerBound: z.number(),
    gap: z.number(),
    greedy: z.object({ suppliers: z.array(reference), cost: z.number() }).meta({
      description: "Step by step, most new parts first: never better than the exact answer",
    }),
  })
  .meta({ id: "SupplierCover" });

const partAtStake = {
  part: reference,
  description: z.string(),
  tier: tierName,
  itemsStopped: z.number().int().meta({ description: "Fitted items its failure stops" }),
  items: z.number().int().meta({ description: "Fitted items that take it" }),
};

export const suppliersAnswer = z
  .object({
    scope: z.object({ vessel: reference.optional() }),
    sentence: z.string(),
    gear: z.object({
      items: z.number().int().meta({ description: "Fitted items with something to spare" }),
      coverable: z.number().int().meta({ description: "Items all of whose parts someone sells" }),
      parts: z.number().int().meta({ description: "Part classes that can be replaced at sea" }),
      partsSold: z.number().int(),
    }),
    suppliers: z.array(
      z
        .object({
          supplier: reference,
          place: z.string(),
          contact: z.string(),
          gearWhole: z.number().int().meta({ description: "Items all of whose parts it offers" }),
          gearPartly: z
            .number()
            .int()
            .meta({ description: "Items some of whose parts it offers, those whole included" }),
          parts: z.number().int(),
          onlySourceOf: z.number().int(),
        })
        .meta({ id: "SupplierReach" }),
    ),
    curve: z.array(
      z.object({
        count: z.number().int().min(1),
        gearWhole: chosenSuppliers,
        gearPartly: chosenSuppliers,
        parts: chosenSuppliers,
      }),
    ),
    least: supplierCover,
    leastWeighted: supplierCover.optional(),
    overlaps: z.array(
      z.object({
        a: reference,
        b: reference,
        shared: z.number().int(),
        jaccard: z.number().meta({ description: "Shared parts over parts either offers" }),
      }),
    ),
    singleSource: z.array(
      z.object({ ...partAtStake, supplier: reference }).meta({ id: "SingleSourcePart" }),
    ),
    unsold: z.array(
      z
        .object({
          ...partAtStake,
          soldInside: z.array(z.string()).meta({ description: "Kit parts on offer that hold it" }),
        })
        .meta({ id: "UnsoldPart" }),
    ),
    comparison: comparison.optional(),
    counterweight: z.string(),
    cautions: cautionList,
    notices: z.array(noticeDocument),
  })
  .meta({ id: "SuppliersAnswer" });

export type SuppliersRequest = z.infer<typeof suppliersRequest>;
export type SuppliersAnswer = z.infer<typeof suppliersAnswer>;
