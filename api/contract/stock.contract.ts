import { z } from "zod";
import { cautionList, noticeDocument, reference } from "./figures.ts";
import { givenValue, recordReference } from "./records.contract.ts";
import { comparison, whatIf } from "./what-if.contract.ts";

const pieces = z.number().int().min(1).max(10_000_000);
const dated = givenValue.optional();

export const stowRequest = z
  .strictObject({
    part: z.string().min(1).meta({ description: "Id or part number" }),
    quantity: pieces,
    place: z.string().min(1).meta({
      description: "Locker by id, name or path (`Saloon > Port settee > Box 3`), or a vessel",
    }),
    vessel: z.string().optional().meta({ description: "Where several vessels have such a locker" }),
    newPlace: z.boolean().optional().meta({ description: "Make the locker if there is none" }),
    from: z.string().optional().meta({
      description: "Move instead of adding: a lot's id, or the place the pieces are in now",
    }),
    made: dated,
    expires: dated,
    condition: z.string().optional(),
    lotCode: z.string().optional(),
  })
  .meta({ id: "StowRequest" });

/** Pieces of one lot, before and after. */
export const lotMovement = z
  .object({
    lot: recordReference,
    place: z.string(),
    pieces: z.number().int().meta({ description: "Taken out, or put in" }),
    left: z.number().int().meta({ description: "In the lot afterwards" }),
    expires: z
      .string()
      .nullable()
      .meta({ description: "Last day it may be used, if anything says" }),
    state: z.enum(["usable", "out of date", "date unknown", "not serviceable"]),
    words: z.string(),
  })
  .meta({ id: "LotMovement" });

export const stowAnswer = z
  .object({
    sentence: z.string(),
    sequence: z.number().int(),
    part: recordReference,
    place: recordReference.extend({ title: z.string() }),
    lots: z.array(lotMovement).meta({ description: "The lots the pieces are in now" }),
    taken: z.array(lotMovement).meta({ description: "When moved: the lots they came from" }),
    notices: z.array(noticeDocument),
    cautions: cautionList,
  })
  .meta({ id: "StowAnswer" });

export const useReasons = ["failure", "wear", "service", "lost", "other"] as const;

export const useRequest = z
  .strictObject({
    part: z.string().min(1).meta({ description: "Id or part number" }),
    quantity: pieces,
    vessel: z.string().optional(),
    from: z.string().optional().meta({
      description: "A lot's id or a place; first out of date, first used, when absent",
    }),
    for: z.string().optional().meta({ description: "The fitted item it was used for" }),
    why: z.enum(useReasons).optional().meta({
      description:
        "Only a failure counts in the own history of the line. When absent: service where one is named, wear where the line has a wear-out life and no rate, else failure",
    }),
    service: z.string().optional().meta({ description: "The service it was used in: done today" }),
    hours: z.number().min(0).optional().meta({ description: "Hours the item has run by now" }),
    since: z.iso.date().optional().meta({
      description:
        "For a line without history: the day since when every use has been written down. When absent, the day the line came into the graph",
    }),
    outOfDate: z.boolean().optional().meta({
      description: "Take pieces that do not count as aboard too, if the others do not suffice",
    }),
    note: z.string().max(300).optional(),
  })
  .meta({ id: "UseRequest" });

/** How the own history of a parts-list line changed. */
export const historyChange = z
  .object({
    model: recordReference,
    part: recordReference,
    usedBefore: z.number().int(),
    used: z.number().int(),
    yearsBefore: z.number(),
    years: z.number().meta({ description: "Piece-years in service over which they were used" }),
    from: z.string().meta({ description: "Day from which time in service was added" }),
    until: z.string(),
    pieces: z
      .number()
      .int()
      .meta({ description: "Pieces in service in all fitted items of the model" }),
    words: z.string(),
  })
  .meta({ id: "HistoryChange" });

export const useAnswer = z
  .object({
    sentence: z.string(),
    sequence: z.number().int(),
    part: recordReference,
    vessel: reference,
    why: z.enum(useReasons),
    item: recordReference.nullable(),
    taken: z.array(lotMovement),
    usableLeft: z
      .number()
      .int()
      .meta({ description: "Usable pieces left aboard this vessel today" }),
    history: historyChange.nullable(),
    historyWords: z
      .string()
      .meta({ description: "What demand learns from this, or why it learns nothing" }),
    service: recordReference.nullable(),
    notices: z.array(noticeDocument),
    cautions: cautionList,
  })
  .meta({ id: "UseAnswer" });

export const reckonRequest = z.strictObject({}).meta({ id: "ReckonRequest" });

export const reckonAnswer = z
  .object({
    sentence: z.string(),
    sequence: z.number().int().nullable(),
    lines: z.number().int(),
    yearsAdded: z.number(),
    shown: z.array(historyChange).meta({ description: "The first 200" }),
  })
  .meta({ id: "ReckonAnswer" });

export const dueRequest = z
  .strictObject({
    vessel: z.string().optional().meta({ description: "Id or name; all vessels when absent" }),
    until: z.iso.date().optional().meta({
      description: "Longest-case arrival of the next crossing when absent, else 90 days on",
    }),
    whatIf: whatIf.optional(),
  })
  .meta({ id: "DueRequest" });

/** The question as an address can hold it. */
export const dueQuery = dueRequest.omit({ whatIf: true });

export const dueLot = z
  .object({
    lot: recordReference,
    part: recordReference,
    maker: z.string(),
    description: z.string(),
    vessel: z.string(),
    place: z.string(),
    quantity: z.number().int(),
    lastDay: z.string().nullable(),
    state: z.enum(["out of date", "falls due", "date unknown", "not serviceable"]),
    safety: z.boolean(),
    words: z.string(),
  })
  .meta({ id: "DueLot" });

export const dueService = z
  .object({
    item: recordReference,
    vessel: z.string(),
    service: recordReference,
    model: reference,
    dueOn: z.string().nullable().meta({ description: "null: not known when it was last done" }),
    overdue: z.boolean(),
    assumed: z.boolean().meta({
      description: "When it was last done is not known, so it counts as due at once",
    }),
    times: z.number().int().meta({ description: "How often it falls due until then" }),
    consumes: z.array(
      z.object({
        part: recordReference,
        description: z.string(),
        quantity: z.number().int().meta({ description: "Pieces in all, over all times" }),
        handled: z
          .boolean()
          .meta({ description: "Handled, with a chance of losing it, not used up" }),
        aboard: z.number().int().meta({
          description: "Usable pieces left for it after services due before",
        }),
        enough: z.boolean(),
      }),
    ),
    ready: z.boolean().meta({ description: "All it uses up is aboard" }),
    words: z.string(),
  })
  .meta({ id: "DueService" });

export const dueAnswer = z
  .object({
    vessel: reference.optional(),
    today: z.string(),
    until: z.string(),
    sentence: z.string(),
    lots: z
      .array(dueLot)
      .meta({ description: "Soonest first; undated and unfit ones at the head" }),
    services: z.array(dueService).meta({ description: "Soonest first" }),
    notices: z.array(noticeDocument),
    cautions: cautionList,
    comparison: comparison.optional(),
  })
  .meta({ id: "DueAnswer" });

export type StowRequest = z.infer<typeof stowRequest>;
export type StowAnswer = z.infer<typeof stowAnswer>;
export type LotMovement = z.infer<typeof lotMovement>;
export type UseRequest = z.infer<typeof useRequest>;
export type UseAnswer = z.infer<typeof useAnswer>;
export type HistoryChange = z.infer<typeof historyChange>;
export type ReckonAnswer = z.infer<typeof reckonAnswer>;
export type DueRequest = z.infer<typeof dueRequest>;
export type DueAnswer = z.infer<typeof dueAnswer>;
