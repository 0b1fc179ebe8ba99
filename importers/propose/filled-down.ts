import { Problem } from "../../api/errors/problem.ts";
import type { CodedColumn } from "../columns/coded-column.ts";
import type { ReadColumns } from "../columns/read-columns.ts";
import { normaliseHeader } from "../normalise-header.ts";
import type { ImportNotice, RowFault } from "../row-fault.ts";

/** Fields that name a thing several rows may share, so that a cell merged over them comes out filled once. */
const shared: readonly string[] = [
  "Vessel.name",
  "Maker.name",
  "Part.maker",
  "Model.designation",
  "Model.category",
  "FittedItem.position",
  "RequiredFunction.name",
  "Supplier.name",
  "Locker.name",
  "Crossing.name",
  "ServiceTask.name",
  "CONTAINS.kit",
  "Order.reference",
];

/**
 * Fills the empty cells of the columns named with the value above, as in a sheet whose cells were merged. A faulty
 * cell stops its value from being carried on. Throws `input-invalid` for a name that no text column has.
 */
export function fillDown(
  wanted: readonly string[],
  columns: ReadColumns,
  rowCount: number,
  faults: ReadonlyMap<number, readonly RowFault[]>,
): void {
  for (const name of wanted) {
    const [header, column] = columnNamed(name, columns);
    const { codes } = column;
    const others = [...columns.byTarget.values(), ...columns.extras.map((extra) => extra.column)]
      .filter((other) => other !== column)
      .map((other) => other.codes);
    const isAlone = (row: number): boolean => others.every((other) => other[row] === 0);
    // A word alone on its row may be a heading of another sort: it counts if a row with more cells has it too, or if
    // the column holds nothing but headings.
    const named = new Set<number>();
    for (let row = 0; row < rowCount; row += 1) if (!isAlone(row)) named.add(codes[row] as number);
    named.delete(0);
    const isHeadings = named.size === 0;
    let above = 0;
    for (let row = 0; row < rowCount; row += 1) {
      const code = codes[row] as number;
      const isFaulty =
        faults.size > 0 && (faults.get(row)?.some((fault) => fault.column === header) ?? false);
      if (isFaulty) above = 0;
      else if (code === 0) codes[row] = above;
      else if (isHeadings || named.has(code)) above = code;
    }
  }
}

function columnNamed(name: string, columns: ReadColumns): readonly [string, CodedColumn] {
  const wanted = normaliseHeader(name);
  for (const [id, header] of columns.headerOf) {
    const column = columns.byTarget.get(id);
    if (normaliseHeader(header) === wanted && column && !id.startsWith("OFFERS.")) {
      return [header, column];
    }
  }
  const extra = columns.extras.find(({ header }) => normaliseHeader(header) === wanted);
  if (extra) return [extra.header, extra.column];
  throw new Problem(
    "input-invalid",
    `A column to fill down must be one of the file's, and no price; received "${name}". Name one of: ${[...columns.headerOf.values(), ...columns.extras.map(({ header }) => header)].join(", ")}.`,
  );
}

/** Columns filled only where their value changes, as merged cells come out: told, never filled unasked. */
export function mergedColumns(columns: ReadColumns, rowCount: number): ImportNotice[] {
  return shared.flatMap((id) => {
    const column = columns.byTarget.get(id);
    const header = columns.headerOf.get(id);
    if (
      column === undefined ||
      header === undefined ||
      !looksMerged(column, columns.hasUnitsRow ? 1 : 0, rowCount)
    )
      return [];
    return {
      code: "column-merged",
      line: undefined,
      column: header,
      text: "This column is filled only where its value changes, as merged cells come out. Its empty cells were not filled from above; ask for the column to be filled down (--fill-down) if they should be.",
      count: 1,
    };
  });
}

/** Filled first, each value once, and more cells empty than filled. */
function looksMerged({ codes }: CodedColumn, first: number, rowCount: number): boolean {
  if (rowCount - first < 4 || codes[first] === 0) return false;
  const seen = new Set<number>();
  let filled = 0;
  for (let row = first; row < rowCount; row += 1) {
    const code = codes[row] as number;
    if (code === 0) continue;
    filled += 1;
    if (seen.has(code)) return false;
    seen.add(code);
  }
  return filled >= 2 && filled * 2 <= rowCount - first;
}
