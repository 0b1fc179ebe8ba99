import { z } from "zod";
import { cautionList, noticeDocument, reference } from "./figures.ts";
import { orderAnswer } from "./order.contract.ts";

export const savedOrders = z
  .object({
    sentence: z.string(),
    sequence: z
      .number()
      .int()
      .nullable()
      .meta({ description: "Number of the change, by which it can be undone" }),
    saved: z.array(z.object({ order: reference, supplier: reference }).meta({ id: "SavedOrder" })),
    order: orderAnswer,
  })
  .meta({ id: "SavedOrders" });

/** An order that has come: where it is put, and the dates on the packets. */
export const receiveRequest = z
  .strictObject({
    into: z
      .string()
      .min(1)
      .optional()
      .meta({ description: "Locker, id or name; aboard without a locker when absent" }),
    vessel: z
      .string()
      .min(1)
      .optional()
      .meta({ description: "Vessel, id or name; the order's own when absent" }),
    on: z.iso.date().optional().meta({ description: "Day it came; today when absent" }),
    dates: z
      .array(
        z.strictObject({
          part: z.string().min(1).meta({ description: "Part, id or number" }),
          expires: z.iso.date().optional(),
          made: z.iso.date().optional(),
        }),
      )
      .optional(),
  })
  .meta({ id: "ReceiveRequest" });

export const receiveAnswer = z
  .object({
    sentence: z.string(),
    sequence: z.number().int().nullable(),
    order: reference,
    lots: z.array(
      z.object({
        lot: z.string(),
        part: reference,
        description: z.string(),
        pieces: z.number().int(),
        place: z.string(),
        added: z.boolean().meta({ description: "To a lot that was there" }),
      }),
    ),
    notices: z.array(noticeDocument),
    cautions: cautionList,
  })
  .meta({ id: "ReceiveAnswer" });

export type SavedOrders = z.infer<typeof savedOrders>;
export type ReceiveRequest = z.infer<typeof receiveRequest>;
export type ReceiveAnswer = z.infer<typeof receiveAnswer>;
