import type { Cell, CellNote } from "../cells/cell.ts";
import { type FaultCode, showValue } from "../row-fault.ts";
import type { Scalar } from "./cell-reader.ts";

export type { Scalar };

/** A column read once per distinct cell: a code per row into a list of values; code 0 means empty. */
export interface CodedColumn {
  readonly codes: Uint32Array;
  /** Value by code; `values[0]` stands for the empty cell and is never used. */
  readonly values: readonly Scalar[];
}

export interface CellFault {
  readonly row: number;
  readonly code: FaultCode;
  readonly rule: string;
  readonly remedy: string;
  readonly value: string;
}

export interface ReadColumn extends CodedColumn {
  readonly faults: readonly CellFault[];
  readonly notes: ReadonlyMap<string, { note: CellNote; count: number; firstRow: number }>;
}

const isFault = 0xffffffff;

/**
 * Reads column `at` of the rows. Equal values share a code even if written differently ("0,5" and "0.5"), so
 * that rows are compared by code.
 * Cost: one dictionary look-up a row, one reading a distinct cell.
 */
export function readColumn(
  rows: readonly (readonly string[])[],
  at: number,
  read: (cell: string) => Cell<Scalar>,
): ReadColumn {
  const codes = new Uint32Array(rows.length);
  const values: Scalar[] = [""];
  const byCell = new Map<string, number>();
  const byValue = new Map<Scalar, number>();
  const faultByCell = new Map<string, Extract<Cell<Scalar>, { kind: "fault" }>>();
  const noteByCell = new Map<string, CellNote>();
  const faults: CellFault[] = [];
  const notes = new Map<string, { note: CellNote; count: number; firstRow: number }>();
  for (let row = 0; row < rows.length; row += 1) {
    const cell = rows[row]?.[at] ?? "";
    if (cell === "") continue;
    let code = byCell.get(cell);
    if (code === undefined) {
      const answer = read(cell);
      if (answer.kind === "empty") code = 0;
      else if (answer.kind === "fault") {
        code = isFault;
        faultByCell.set(cell, answer);
      } else {
        code = byValue.get(answer.value);
        if (code === undefined) {
          code = values.length;
          values.push(answer.value);
          byValue.set(answer.value, code);
        }
        if (answer.note) noteByCell.set(cell, answer.note);
      }
      byCell.set(cell, code);
    }
    if (code === isFault) {
      const fault = faultByCell.get(cell);
      if (fault) {
        const { code: rule, rule: sentence, remedy } = fault;
        faults.push({ row, code: rule, rule: sentence, remedy, value: showValue(cell) });
      }
      continue;
    }
    codes[row] = code;
    if (noteByCell.size > 0) {
      const note = noteByCell.get(cell);
      if (note) {
        const before = notes.get(note.code);
        if (before) before.count += 1;
        else notes.set(note.code, { note, count: 1, firstRow: row });
      }
    }
  }
  return { codes, values, faults, notes };
}
