import { emptyCell, valueCell } from "../cells/cell.ts";
import { parseDuration } from "../cells/parse-duration.ts";
import type { NumberConvention } from "../cells/parse-number.ts";
import { ColumnReader } from "./coded-column.ts";

/** What an interval may hold, by the property that takes it. */
export const intervalParts = [
  ["ServiceTask.intervalHours", "hours"],
  ["ServiceTask.intervalMonths", "months"],
] as const;

/** Hours or months of intervals written with their unit; a fault is told once, by the hours. */
export function intervalReader(
  at: number,
  rowLimit: number,
  part: "hours" | "months",
  convention: NumberConvention,
): ColumnReader {
  return new ColumnReader(at, rowLimit, (cell) => {
    const duration = parseDuration(cell, convention);
    if (duration.kind === "fault" && part === "months") return emptyCell;
    if (duration.kind !== "value") return duration;
    const value = duration.value[part];
    if (value === undefined) return emptyCell;
    return valueCell(value, part === "months" && duration.value.hours ? undefined : duration.note);
  });
}
