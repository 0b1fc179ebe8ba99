import { z } from "zod";
import { cautionList, reference } from "./figures.ts";

/** A record by id, name and label. */
export const recordReference = reference
  .extend({ label: z.string() })
  .meta({ id: "RecordReference" });

/** Values as the graph holds them, in the units of the schema. */
const properties = z.record(z.string(), z.unknown());

/** What may be given for a property. */
export const givenValue = z
  .union([
    z.string().max(100_000),
    z.number(),
    z.boolean(),
    z.null(),
    z.array(z.unknown()),
    z.record(z.string(), z.unknown()),
  ])
  .meta({
    id: "GivenValue",
    description:
      "Text is read as a spreadsheet's cell (`2.5 lb`, `30 USD`, `31 Mar 2027`); a number is in the schema's unit; null or empty text takes the value away; lists and objects are for documents",
  });
const givenValues = z.record(z.string(), givenValue);

/** A declared property, for a column or a form's field. */
export const propertyDocument = z
  .object({
    property: z.string(),
    kind: z.string(),
    unit: z.string().optional(),
    meaning: z.string(),
    required: z.boolean(),
    choices: z.array(z.string()).optional(),
  })
  .meta({ id: "PropertyDocument" });

export const recordDocument = recordReference
  .extend({
    title: z.string().meta({ description: "Its name after the names of what it hangs on" }),
    version: z.number().int(),
    properties,
    extra: z
      .record(z.string(), z.string())
      .meta({ description: "Columns nobody interpreted, kept from the file" }),
    owners: z
      .array(recordReference.extend({ type: z.string() }))
      .meta({ description: "Where relationships lead of which it has at most one" }),
  })
  .meta({ id: "RecordDocument" });

export const recordsRequest = z
  .strictObject({
    label: z.string().meta({ description: "Part, StockLot, FittedItem, ..." }),
    offset: z.coerce.number().int().min(0).optional(),
    limit: z.coerce.number().int().min(1).max(1000).optional().meta({
      description: "100 when absent",
    }),
    sort: z
      .string()
      .optional()
      .meta({ description: "A property; `-property` for the greatest first" }),
    text: z.string().max(200).optional().meta({ description: "Words the record itself holds" }),
    where: z
      .union([z.string().max(300), z.array(z.string().max(300)).max(20)])
      .optional()
      .meta({
        description:
          "`property=value`, `property~part of a text`, `property>=value`, `property<=value`, `property=` (without), `property!` (with); all must hold",
      }),
  })
  .meta({ id: "RecordsRequest" });

export const recordsAnswer = z
  .object({
    label: z.string(),
    meaning: z.string(),
    sentence: z.string(),
    total: z.number().int(),
    offset: z.number().int(),
    limit: z.number().int(),
    sort: z.string().nullable(),
    columns: z.array(propertyDocument),
    rows: z.array(recordDocument),
    cautions: cautionList,
  })
  .meta({ id: "RecordsAnswer" });

export const valueChange = z
  .object({
    property: z.string(),
    before: z.string().nullable(),
    after: z.string().nullable(),
  })
  .meta({ id: "ValueChange", description: "Values in words, with their units" });

export const journalLine = z
  .object({
    sequence: z.number().int(),
    at: z.string(),
    who: z.string(),
    kind: z.enum(["created", "changed", "deleted"]),
    subject: z.string().meta({ description: "The record or relationship, in words" }),
    import: reference.optional(),
    changes: z.array(valueChange),
  })
  .meta({ id: "JournalLine" });

export const linkDocument = z
  .object({
    type: z.string(),
    from: recordReference,
    to: recordReference,
    version: z.number().int(),
    properties,
    extra: z.record(z.string(), z.string()),
  })
  .meta({ id: "LinkDocument" });

export const recordAnswer = z
  .object({
    record: recordDocument,
    meaning: z.string(),
    sentence: z.string(),
    fields: z.array(propertyDocument),
    links: z.array(
      z
        .object({
          type: z.string(),
          meaning: z.string(),
          direction: z.enum(["out", "in"]),
          total: z.number().int(),
          fields: z.array(propertyDocument),
          shown: z.array(linkDocument).meta({ description: "The first 200" }),
        })
        .meta({ id: "RecordLinks" }),
    ),
    journal: z.array(journalLine).meta({ description: "The newest 50 entries about it" }),
    cautions: cautionList,
  })
  .meta({ id: "RecordAnswer" });

export const createRequest = z
  .strictObject({
    label: z.string(),
    set: givenValues,
    links: z
      .record(z.string(), z.string())
      .optional()
      .meta({ description: "Relationship to the id or name of the record it leads to" }),
  })
  .meta({ id: "CreateRequest" });

export const editRequest = z
  .strictObject({
    basedOn: z.number().int().meta({ description: "The version the change was made on" }),
    set: givenValues.optional(),
    links: z
      .record(z.string(), z.string())
      .optional()
      .meta({ description: "Relationships of which it has one, to lead elsewhere" }),
  })
  .meta({ id: "EditRequest" });

export const changeAnswer = z
  .object({
    sentence: z.string(),
    sequence: z.number().int().nullable().meta({
      description: "Number of the change, by which it can be undone; null: nothing changed",
    }),
    record: recordDocument,
    changes: z.array(valueChange),
    notes: z
      .array(z.string())
      .meta({ description: "How a value was read, where that needs telling" }),
  })
  .meta({ id: "ChangeAnswer" });

export const linkRequest = z
  .strictObject({
    basedOn: z.number().int().optional().meta({
      description: "Version of the relationship that is changed; absent for a new one",
    }),
    set: givenValues.optional(),
  })
  .meta({ id: "LinkRequest" });

export const linkAnswer = z
  .object({
    sentence: z.string(),
    sequence: z.number().int().nullable(),
    link: linkDocument.nullable().meta({ description: "null once it is taken away" }),
    changes: z.array(valueChange),
    notes: z.array(z.string()),
  })
  .meta({ id: "LinkAnswer" });

export const dependantsAnswer = z
  .object({
    record: recordDocument,
    sentence: z.string(),
    records: z.number().int().meta({ description: "Other records that would go with it" }),
    links: z.number().int(),
    byLabel: z.array(z.object({ label: z.string(), count: z.number().int() })),
    byType: z.array(z.object({ type: z.string(), count: z.number().int() })),
    shown: z.array(recordReference).meta({ description: "The first 200 of those records" }),
  })
  .meta({ id: "DependantsAnswer" });

export const deleteRequest = z
  .strictObject({
    version: z.coerce.number().int().meta({ description: "The version that was looked at" }),
    records: z.coerce.number().int().min(0).optional().meta({
      description: "How many other records are known to go with it; 0 when absent",
    }),
  })
  .meta({ id: "DeleteRequest" });

export const deleteAnswer = z
  .object({
    sentence: z.string(),
    sequence: z.number().int(),
    record: recordReference,
    nodesDeleted: z.number().int(),
    linksDeleted: z.number().int(),
  })
  .meta({ id: "DeleteAnswer" });

export type RecordReference = z.infer<typeof recordReference>;
export type RecordDocument = z.infer<typeof recordDocument>;
export type PropertyDocument = z.infer<typeof propertyDocument>;
export type ValueChange = z.infer<typeof valueChange>;
export type JournalLine = z.infer<typeof journalLine>;
export type LinkDocument = z.infer<typeof linkDocument>;
export type GivenValues = z.infer<typeof givenValues>;
export type RecordsRequest = z.infer<typeof recordsRequest>;
export type RecordsAnswer = z.infer<typeof recordsAnswer>;
export type RecordAnswer = z.infer<typeof recordAnswer>;
export type CreateRequest = z.infer<typeof createRequest>;
export type EditRequest = z.infer<typeof editRequest>;
export type ChangeAnswer = z.infer<typeof changeAnswer>;
export type LinkRequest = z.infer<typeof linkRequest>;
export type LinkAnswer = z.infer<typeof linkAnswer>;
export type DependantsAnswer = z.infer<typeof dependantsAnswer>;
export type DeleteRequest = z.infer<typeof deleteRequest>;
export type DeleteAnswer = z.infer<typeof deleteAnswer>;
