import { z } from "zod";
import { reference } from "./figures.ts";
import { journalLine } from "./records.contract.ts";

export const historyRequest = z
  .strictObject({
    limit: z.coerce
      .number()
      .int()
      .min(1)
      .max(500)
      .optional()
      .meta({ description: "50 when absent" }),
    before: z.coerce
      .number()
      .int()
      .optional()
      .meta({ description: "Only changes with a lesser number: the next page" }),
  })
  .meta({ id: "HistoryRequest" });

/** One change as a whole: an edit, a deletion, pieces used, an import, an undo. */
export const changeLine = z
  .object({
    sequence: z.number().int().meta({ description: "Its number, by which it can be undone" }),
    at: z.string(),
    who: z.string(),
    what: z.string(),
    records: z.number().int().meta({ description: "Entries it wrote in the journal" }),
    import: reference.optional(),
    undone: z.object({ at: z.string(), who: z.string() }).nullable(),
    undoes: z.number().int().optional().meta({ description: "Number of the change it took back" }),
  })
  .meta({ id: "ChangeLine" });

export const historyAnswer = z
  .object({ changes: z.array(changeLine), more: z.boolean() })
  .meta({ id: "HistoryAnswer" });

export const changeDetail = z
  .object({
    change: changeLine,
    entries: z.array(journalLine).meta({ description: "The first 500, newest first" }),
  })
  .meta({ id: "ChangeDetail" });

export const undoChangeAnswer = z
  .object({
    change: changeLine.meta({ description: "The change taken back" }),
    sequence: z
      .number()
      .int()
      .meta({ description: "Number of the undo, which can itself be undone" }),
    nodesDeleted: z.number().int(),
    nodesRestored: z.number().int(),
    linksDeleted: z.number().int(),
    linksRestored: z.number().int(),
    sentence: z.string(),
  })
  .meta({ id: "UndoChangeAnswer" });

export type HistoryRequest = z.infer<typeof historyRequest>;
export type ChangeLine = z.infer<typeof changeLine>;
export type HistoryAnswer = z.infer<typeof historyAnswer>;
export type ChangeDetail = z.infer<typeof changeDetail>;
export type UndoChangeAnswer = z.infer<typeof undoChangeAnswer>;
