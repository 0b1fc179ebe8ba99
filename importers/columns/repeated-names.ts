import type { Table } from "../reading/read-table.ts";
import type { RowBlock } from "../reading/row-block.ts";
import type { BlockReader, CellFault } from "./coded-column.ts";

/** Finds rows in which two columns of one name disagree: neither is chosen, the row is rejected. */
export class RepeatedNames implements BlockReader {
  readonly found: { header: string; fault: CellFault }[] = [];
  readonly #pairs: readonly { first: number; second: number; header: string }[];

  constructor(table: Table, matched: readonly { column: number }[]) {
    const isMatched = new Set(matched.map(({ column }) => column));
    this.#pairs = table.firstOfName.flatMap((first, second) =>
      first === second || !isMatched.has(first) || isMatched.has(second)
        ? []
        : [{ first, second, header: table.header[first] ?? "" }],
    );
  }

  read(block: RowBlock): void {
    for (const { first, second, header } of this.#pairs) {
      for (let row = 0; row < block.rowCount; row += 1) {
        const [one, other] = [block.cell(row, first).trim(), block.cell(row, second).trim()];
        if (one === other || other === "") continue;
        const fault: CellFault = {
          row: block.first + row,
          code: "columns-disagree",
          rule: `Two columns of the same name, ${first + 1} and ${second + 1}, must agree in a row`,
          value: `${one} / ${other}`,
          remedy: "Rename one of the columns, or map one of them by hand.",
        };
        this.found.push({ header, fault });
      }
    }
  }
}
