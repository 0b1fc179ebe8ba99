import { z } from "zod";

/** A currency by its code of ISO 4217. */
export const currencyCode = z
  .string()
  .regex(/^[A-Z]{3}$/, "must be a three-letter code of ISO 4217, such as EUR");
