import { z } from "zod";
import { currencyCode } from "./currency-code.ts";
import { noticeDocument, reference } from "./figures.ts";

/** How one column of the file was understood. */
export const columnMatch = z
  .object({
    column: z.number().int(),
    header: z.string(),
    property: z.string().nullable().meta({
      description: "`Label.property` or `TYPE.property`; null = kept with its row, not interpreted",
    }),
    confidence: z.number().min(0).max(1),
    meaning: z.string().optional(),
    sample: z.array(z.string()),
    byHand: z.boolean(),
  })
  .meta({ id: "ColumnMatch" });

export const rowFault = z
  .object({
    line: z.number().int(),
    column: z.string(),
    rule: z.string(),
    value: z.string(),
    remedy: z.string(),
    severity: z.enum(["rejected", "noticed"]),
  })
  .meta({ id: "RowFault" });

export const importReport = z
  .object({
    file: z.object({
      name: z.string(),
      bytes: z.number().int(),
      sha256: z.string(),
      encoding: z.string(),
      delimiter: z.string(),
      titleLines: z.number().int(),
    }),
    listKind: z.string(),
    listKinds: z.array(z.object({ kind: z.string(), meaning: z.string() })),
    columns: z.array(columnMatch),
    rows: z.object({
      read: z.number().int(),
      accepted: z.number().int(),
      rejected: z.number().int(),
      skipped: z.number().int(),
    }),
    records: z.array(
      z.object({
        label: z.string(),
        created: z.number().int(),
        changed: z.number().int(),
        unchanged: z.number().int(),
        conflict: z.number().int(),
      }),
    ),
    changes: z
      .array(
        z.object({
          subject: z.string(),
          kind: z.string(),
          before: z.string().optional(),
          after: z.string().optional(),
        }),
      )
      .meta({ description: "The first 200 changes in words" }),
    changesTotal: z.number().int(),
    faults: z.array(rowFault).meta({ description: "The first 500 faults" }),
    faultsTotal: z.number().int(),
    rejectedCsv: z.string().nullable().meta({
      description: "Rejected rows with their problem beside them, to correct and bring back",
    }),
    sentence: z.string(),
    notices: z.array(noticeDocument),
  })
  .meta({ id: "ImportReport" });

export const importAnswer = importReport
  .extend({
    committed: z.boolean(),
    import: reference.optional(),
  })
  .meta({ id: "ImportAnswer" });

/** Names of the characters that may part cells. */
export const delimiterNames = ["comma", "semicolon", "tab", "pipe"] as const;

/** Settings of an import; over HTTP as query parameters (mapping and defaults as JSON). */
export const importOptions = z
  .strictObject({
    dryRun: z.boolean().optional(),
    listKind: z.string().optional(),
    mapping: z
      .record(z.string(), z.string().nullable())
      .optional()
      .meta({ description: "Header text to `Label.property`, or null to leave it uninterpreted" }),
    vessel: z.string().optional().meta({ description: "Vessel of rows that name none" }),
    supplier: z.string().min(1).max(2000).optional().meta({
      description: "Supplier of rows that name none: whose price list it is",
    }),
    maker: z.string().min(1).max(2000).optional().meta({
      description: "Maker of the gear or parts of rows that name none",
    }),
    fillDown: z
      .array(z.string())
      .optional()
      .meta({ description: "Columns whose empty cells take the value above (merged cells)" }),
    delimiter: z
      .enum(delimiterNames)
      .optional()
      .meta({ description: "What parts the cells, where it is not found" }),
    headerLine: z
      .number()
      .int()
      .min(1)
      .max(100_000)
      .optional()
      .meta({ description: "Line of the column names, counted from 1, where it is not found" }),
    currency: currencyCode.optional().meta({ description: "Currency of prices that name none" }),
    dateOrder: z.enum(["dmy", "mdy"]).optional(),
    decimal: z.enum([".", ","]).optional(),
  })
  .meta({ id: "ImportOptions" });

export const importHistory = z
  .object({
    imports: z.array(
      reference.extend({
        at: z.string(),
        who: z.string(),
        read: z.number().int(),
        accepted: z.number().int(),
        rejected: z.number().int(),
        undone: z.string().nullable(),
      }),
    ),
  })
  .meta({ id: "ImportHistory" });

export const undoAnswer = z
  .object({
    import: reference,
    nodesDeleted: z.number().int(),
    nodesRestored: z.number().int(),
    linksDeleted: z.number().int(),
    linksRestored: z.number().int(),
    sentence: z.string(),
  })
  .meta({ id: "UndoAnswer" });

export type ImportOptions = z.infer<typeof importOptions>;
export type ImportReport = z.infer<typeof importReport>;
export type ImportAnswer = z.infer<typeof importAnswer>;
export type ImportHistory = z.infer<typeof importHistory>;
export type UndoAnswer = z.infer<typeof undoAnswer>;
