import { z } from "zod";
import { cautionList } from "./figures.ts";

export const sampleAnswer = z
  .object({
    sentence: z.string(),
    files: z.array(
      z.object({
        name: z.string(),
        read: z.number().int().meta({ description: "Rows of data in the file" }),
        accepted: z.number().int(),
      }),
    ),
    cautions: cautionList,
  })
  .meta({ id: "SampleAnswer" });

export type SampleAnswer = z.infer<typeof sampleAnswer>;
