import { z } from "zod";

export const restoreAnswer = z
  .object({
    restored: z.boolean().meta({ description: "False where the graph held exactly this already" }),
    records: z.number().int(),
    sha256: z.string().meta({ description: "Of all lines but the last, hexadecimal" }),
    sentence: z.string(),
  })
  .meta({ id: "RestoreAnswer" });

export type RestoreAnswer = z.infer<typeof restoreAnswer>;
