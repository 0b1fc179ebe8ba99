import { z } from "zod";
import { cautionList, noticeDocument, reference } from "./figures.ts";
import { kitRequest } from "./kit.contract.ts";
import { comparison } from "./what-if.contract.ts";

/** What a planner asks: a crossing and its kit as for `kit`, and the lists to hold it to. */
export const minimumsRequest = kitRequest
  .extend({
    lists: z
      .array(z.string().min(1))
      .optional()
      .meta({ description: "Ids of published lists; all of them when absent and none is given" }),
    own: z
      .strictObject({ name: z.string().min(1), text: z.string().min(1).max(1_000_000) })
      .optional()
      .meta({ description: "A list of one's own, as CSV text in the columns of a published one" }),
  })
  .meta({ id: "MinimumsRequest" });

const sparePart = z
  .object({
    part: z.string(),
    aboard: z.number().int(),
    notUsable: z.number().int(),
    bought: z.number().int(),
  })
  .meta({ id: "MinimumSparePart" });

export const minimumCheck = z
  .object({
    place: z.string().meta({ description: "Where the text says it" }),
    asks: z.string(),
    source: z.string(),
    dated: z.string(),
    status: z.enum(["met", "met with kit", "short", "not applicable", "to be judged"]),
    required: z.number().int(),
    aboard: z.number().int().meta({ description: "Pieces aboard that count, no piece twice" }),
    withKit: z.number().int(),
    gear: z.array(z.string()),
    leftOut: z.array(z.string()),
    shares: z.array(
      z.object({
        forWhat: z.string(),
        required: z.number().int(),
        aboard: z.number().int(),
        withKit: z.number().int(),
      }),
    ),
    parts: z.array(sparePart),
    unlisted: z
      .array(sparePart)
      .meta({ description: "Answer to the words but are on no parts list of this gear" }),
    words: z.string(),
  })
  .meta({ id: "MinimumCheck" });

export const minimumsAnswer = z
  .object({
    vessel: reference,
    crossing: z.object({ name: z.string(), departs: z.iso.date(), usableUntil: z.iso.date() }),
    sentence: z.string(),
    lists: z.array(
      z.object({
        id: z.string(),
        title: z.string(),
        applies: z.string(),
        checks: z.array(minimumCheck),
      }),
    ),
    known: z.array(reference).meta({ description: "Every published list there is" }),
    notices: z.array(noticeDocument),
    comparison: comparison.optional(),
    cautions: cautionList,
  })
  .meta({ id: "MinimumsAnswer" });

export type MinimumsRequest = z.infer<typeof minimumsRequest>;
export type MinimumsAnswer = z.infer<typeof minimumsAnswer>;
