import { z } from "zod";

/** RFC 9457 problem details, as every error is answered over HTTP. */
export const problemDocument = z
  .object({
    type: z.string(),
    title: z.string(),
    status: z.number().int(),
    detail: z.string(),
    code: z.string(),
    errors: z.array(z.object({ detail: z.string(), pointer: z.string() })).optional(),
    facts: z.record(z.string(), z.unknown()).optional(),
  })
  .meta({ id: "Problem" });

export type ProblemDocument = z.infer<typeof problemDocument>;
