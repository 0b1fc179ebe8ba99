import { currencyOf } from "../cells/currencies.ts";
import { writtenUnit } from "../cells/units.ts";
import type { Target } from "../targets.ts";

const inBrackets = /^[([{]\s*(.*?)\s*[)\]}]$/;

/**
 * The units of a row of units below the header ("h", "kg", "EUR"), by column; undefined if the row is none: it fills
 * two cells at least, or the only one of a unit, and each of them is a unit of its column's field, or of anything where
 * the column is not understood.
 * @param row the first row below the header
 */
export function unitsRow(
  row: readonly string[] | undefined,
  matched: readonly { readonly column: number; readonly target: Target }[],
): ReadonlyMap<number, string> | undefined {
  const units = new Map<number, string>();
  const targetOf = new Map(matched.map(({ column, target }) => [column, target]));
  let telling = 0;
  for (const [column, cell] of (row ?? []).entries()) {
    const text = cell.trim();
    const unit = inBrackets.exec(text)?.[1] ?? text;
    if (unit === "" || unit === "-") continue;
    if (/\d/.test(unit)) return undefined;
    const target = targetOf.get(column);
    if (target?.kind === "money" ? currencyOf(unit).kind === "unknown" : !isUnit(unit, target)) {
      return undefined;
    }
    if (target !== undefined) telling += 1;
    units.set(column, unit);
  }
  return telling > 0 ? units : undefined;
}

function isUnit(text: string, target: Target | undefined): boolean {
  if (target === undefined) {
    return (["kg", "litre", "hour", "day", "month", "piece", "volt", "millimetre"] as const).some(
      (unit) => writtenUnit(unit, text) !== undefined,
    );
  }
  return target.unit !== undefined && writtenUnit(target.unit, text) !== undefined;
}
