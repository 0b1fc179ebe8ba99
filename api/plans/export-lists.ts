import { writeCsv } from "../../importers/index.ts";
import { Problem } from "../errors/problem.ts";
import type { GraphStore } from "../store/graph-store.ts";
import { askKnownGraph } from "./ask-known-graph.ts";
import { type ExportListName, exportColumns } from "./export/export-columns.ts";
import { cellOf, extraOf } from "./export/export-row.ts";
import { exportRows } from "./export/export-rows.ts";
import { leftOutOfFlat } from "./export/flat-rows.ts";
import { viewGraph } from "./export/graph-view.ts";

/** Names of the lists, in the order in which they are best taken in again. */
export const exportListNames = Object.keys(exportColumns) as readonly ExportListName[];

const isListName = (name: string): name is ExportListName => Object.hasOwn(exportColumns, name);

export interface ExportedList {
  readonly fileName: string;
  readonly text: string;
  /** What the graph holds that this list has no place for; undefined if it holds what its name says. */
  readonly notice?: string;
}

/**
 * One list of the graph as CSV, cells that a spreadsheet would run made harmless. Taken in again, in an empty
 * graph, the lists give the same records; columns nobody interpreted come last, under their own names.
 * Errors: `not-found` for a list that does not exist.
 */
export async function exportList(store: GraphStore, list: string): Promise<ExportedList> {
  if (!isListName(list)) {
    throw new Problem(
      "not-found",
      `A list must be one of ${exportListNames.join(", ")}; received "${list.slice(0, 100)}". Choose one of them.`,
    );
  }
  const columns = exportColumns[list];
  const { rows, leftOut } = await askKnownGraph(store, (known) => {
    const view = viewGraph(known);
    return { rows: exportRows[list](view), leftOut: list === "flat" ? leftOutOfFlat(view) : [] };
  });
  const taken = new Set<string>(columns.map((column) => column.header));
  const extras = rows.map(extraOf);
  const extraHeaders = [...new Set(extras.flatMap((extra) => Object.keys(extra)))].filter(
    (header) => !taken.has(header),
  );
  const cells = rows.map((row, at) => [
    ...columns.map((column) => cellOf(row, column.field)),
    ...extraHeaders.map((header) => extras[at]?.[header] ?? ""),
  ]);
  const headers = [...columns.map((column) => column.header), ...extraHeaders];
  const text = writeCsv(headers, cells);
  if (leftOut.length === 0) return { fileName: `${list}.csv`, text };
  const notice = `The flat list has no columns for ${leftOut.join(", ")}. Export those lists too, or all of them.`;
  return { fileName: `${list}.csv`, text, notice };
}
