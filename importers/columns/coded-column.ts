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

export interface NoteCount {
  readonly note: CellNote;
  count: number;
  readonly firstRow: number;
}

/** Something that reads the rows of a table block by block, while a block's cells are still in cache. */
export interface BlockReader {
  /** @param first index of the first of `rows` in the table */
  read(rows: readonly (readonly string[])[], first: number): void;
}

type Fault = Extract<Cell<Scalar>, { kind: "fault" }>;
const isFault = 0xffffffff;

/** Values and their codes as they are met: the same value, the same code, however it is written. */
export class ValueCodes {
  readonly values: Scalar[] = [""];
  readonly #codes = new Map<Scalar, number>();

  codeOf(value: Scalar): number {
    const before = this.#codes.get(value);
    if (before !== undefined) return before;
    const code = this.values.length;
    this.values.push(value);
    this.#codes.set(value, code);
    return code;
  }
}

/** Counts the notes of cells, and where the first was. */
export function countNote(notes: Map<string, NoteCount>, note: CellNote, row: number): void {
  const before = notes.get(note.code);
  if (before) before.count += 1;
  else notes.set(note.code, { note, count: 1, firstRow: row });
}

/**
 * Reads one column into codes. A cell that repeats the one above costs a comparison, one seen before a look-up,
 * a new one a reading.
 */
export class ColumnReader implements BlockReader, CodedColumn {
  readonly codes: Uint32Array;
  readonly faults: CellFault[] = [];
  readonly notes = new Map<string, NoteCount>();
  readonly #at: number;
  readonly #read: (cell: string) => Cell<Scalar>;
  readonly #values = new ValueCodes();
  readonly #codeByCell = new Map<string, number>();
  readonly #faultByCell = new Map<string, Fault>();
  readonly #noteByCell = new Map<string, CellNote>();

  constructor(at: number, rowLimit: number, read: (cell: string) => Cell<Scalar>) {
    this.#at = at;
    this.#read = read;
    this.codes = new Uint32Array(rowLimit);
  }

  get values(): readonly Scalar[] {
    return this.#values.values;
  }

  read(rows: readonly (readonly string[])[], first: number): void {
    const at = this.#at;
    const codes = this.codes;
    const codeByCell = this.#codeByCell;
    let last = "";
    let lastCode = 0;
    for (let index = 0; index < rows.length; index += 1) {
      const cell = (rows[index] as readonly string[])[at] as string;
      if (cell === "") continue;
      if (cell !== last) {
        last = cell;
        lastCode = codeByCell.get(cell) ?? this.#readNew(cell);
      }
      const row = first + index;
      if (lastCode === isFault) this.#addFault(row, cell);
      else {
        codes[row] = lastCode;
        if (this.#noteByCell.size > 0) {
          const note = this.#noteByCell.get(cell);
          if (note) countNote(this.notes, note, row);
        }
      }
    }
  }

  #readNew(cell: string): number {
    const answer = this.#read(cell);
    let code = 0;
    if (answer.kind === "fault") {
      code = isFault;
      this.#faultByCell.set(cell, answer);
    } else if (answer.kind === "value") {
      code = this.#values.codeOf(answer.value);
      if (answer.note) this.#noteByCell.set(cell, answer.note);
    }
    this.#codeByCell.set(cell, code);
    return code;
  }

  #addFault(row: number, cell: string): void {
    const fault = this.#faultByCell.get(cell);
    if (fault === undefined) return;
    const { code, rule, remedy } = fault;
    this.faults.push({ row, code, rule, remedy, value: showValue(cell) });
  }
}
