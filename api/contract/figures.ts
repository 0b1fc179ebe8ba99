import { z } from "zod";
import { currencyCode } from "./currency-code.ts";

/** Money on the wire: integer minor units with their ISO 4217 code. */
export const moneyDocument = z
  .object({ minor: z.number().int(), currency: currencyCode })
  .meta({ id: "Money" });

export const tierName = z.enum(["safety", "passage", "comfort"]);

/** How the reader counts weight and room; sentences speak in these, figures stay in kilograms and litres. */
export const unitSystem = z.enum(["metric", "imperial"]);

/** Where a figure's evidence comes from, weakest word wins for a part. */
export const evidenceName = z.enum(["measured", "own history", "assumed", "scheduled"]);

/** The cautions shown with every kit and list. */
export const cautionList = z.array(z.string()).min(1);

/** Something the reader must know about how the answer was reached. */
export const noticeDocument = z
  .object({ code: z.string(), text: z.string() })
  .meta({ id: "Notice" });

export const reference = z.object({ id: z.string(), name: z.string() }).meta({ id: "Reference" });
