import { z } from "zod";
import { cautionList, noticeDocument, reference } from "./figures.ts";
import { recordReference } from "./records.contract.ts";

export const stowageRequest = z
  .strictObject({
    place: z.string().min(1).optional().meta({
      description:
        "Locker by id, name or path, or a vessel by id or name; the first vessel by name when absent",
    }),
    offset: z.coerce.number().int().min(0).optional(),
    limit: z.coerce.number().int().min(0).max(1000).optional().meta({
      description: "Lots at most; 500 when absent",
    }),
  })
  .meta({ id: "StowageRequest" });

/** A vessel or a locker in the walk through the ship: each before those within it, by name. */
export const stowagePlace = reference
  .extend({
    path: z.string().meta({ description: "From the vessel down: `Ysolvane › Saloon › Box 3`" }),
    depth: z.number().int().meta({ description: "0 for a vessel" }),
    vessel: z.string().meta({ description: "Id of the vessel it is on" }),
    lots: z.number().int().nullable().meta({
      description: "Lots in it and in what is within it; null for places of other vessels",
    }),
    attention: z.number().int().nullable().meta({
      description: "Of those, lots that are not, or will not be, good for the next crossing",
    }),
  })
  .meta({ id: "StowagePlace" });

export const stowageLot = z
  .object({
    id: z.string(),
    part: recordReference,
    maker: z.string(),
    description: z.string(),
    placeId: z.string(),
    pieces: z.number().int(),
    lastDay: z.string().nullable().meta({ description: "Last day it may be used" }),
    state: z.enum(["usable", "out of date", "falls due", "date unknown", "not serviceable"]),
    words: z.string().meta({ description: "Why it needs a look; empty where it does not" }),
  })
  .meta({ id: "StowageLot" });

export const stowageAnswer = z
  .object({
    sentence: z.string(),
    today: z.string(),
    until: z.string().meta({ description: "The day to which lots must be good" }),
    place: stowagePlace.nullable().meta({ description: "null: no vessel is on file" }),
    places: z.array(stowagePlace).meta({
      description:
        "The vessels, and the lockers of the one that is open; of the others too where there are few",
    }),
    total: z.number().int().meta({ description: "Lots in the place and in what is within it" }),
    pieces: z.number().int(),
    attention: z.number().int(),
    offset: z.number().int(),
    lots: z.array(stowageLot).meta({ description: "First to use first; those that keep last" }),
    notices: z.array(noticeDocument),
    cautions: cautionList,
  })
  .meta({ id: "StowageAnswer" });

export type StowageRequest = z.infer<typeof stowageRequest>;
export type StowagePlace = z.infer<typeof stowagePlace>;
export type StowageLot = z.infer<typeof stowageLot>;
export type StowageAnswer = z.infer<typeof stowageAnswer>;
