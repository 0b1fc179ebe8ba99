import { z } from "zod";

/** Which program answers, and where its data lives. */
export const aboutAnswer = z
  .object({
    version: z.string(),
    database: z.string().meta({ description: "The file or server, in words" }),
    today: z.iso.date(),
    vessels: z.number().int().meta({ description: "Read from the database: it answers" }),
  })
  .meta({ id: "AboutAnswer" });

export type AboutAnswer = z.infer<typeof aboutAnswer>;
