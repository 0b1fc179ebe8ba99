import { z } from "zod";
import { node } from "../declaration.ts";
import { date, document, requiredChoice, requiredText } from "../property.ts";

export const order = node({
  label: "Order",
  meaning: "What is bought of one supplier at one time",
  identifiedBy: ["reference"],
  nameFrom: "reference",
  properties: {
    reference: requiredText({
      meaning: "Our own order number",
      headers: { en: ["order", "order no", "order reference"] },
    }),
    status: requiredChoice(["planned", "placed", "arrived", "cancelled"], {
      meaning: "How far it has come",
    }),
    placed: date({ meaning: "Day it was placed" }),
    neededBy: date({ meaning: "Day by which it must be aboard" }),
    lines: document(
      z.array(
        z.object({
          part: z.string(),
          quantity: z.number().int().positive(),
          priceMinor: z.number().int().nonnegative().optional(),
          currency: z.string().optional(),
        }),
      ),
      { meaning: "Parts and quantities" },
    ),
  },
});
