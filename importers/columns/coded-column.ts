import type { Cell, CellNote } from "../cells/cell.ts";
import type { RowBlock } from "../reading/row-block.ts";
import { type FaultCode, showValue } from "../row-fault.ts";
import { CellNumbers } from "./cell-numbers.ts";
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
  read(block: RowBlock): void;
}

export type Fault = Extract<Cell<Scalar>, { kind: "fault" }>;
/** Stands for a code where a cell has a fault. */
export const isFault = -1;

/** Values and their codes as they are met: the same value, the same code, however it is written. */
export class ValueCodes {
  readonly values: Scalar[] = [""];
  /** Filled when it is first needed: while every value is the very text of a cell of its own, no two can be the same. */
  #codes: Map<Scalar, number> | undefined;

  codeOf(value: Scalar): number {
    if (this.#codes === undefined) {
      this.#codes = new Map();
      for (let code = 1; code < this.values.length; code += 1) {
        this.#codes.set(this.values[code] as Scalar, code);
      }
    }
    const before = this.#codes.get(value);
    if (before !== undefined) return before;
    const code = this.values.length;
    this.values.push(value);
    this.#codes.set(value, code);
    return code;
  }

  /** The code of a text that stands in a cell just so, and was given no code for such a cell before. */
  codeOfCell(text: string): number {
    if (this.#codes !== undefined) return this.codeOf(text);
    return this.values.push(text) - 1;
  }
}

/** Counts the notes of cells, and where the first was. */
export function countNote(notes: Map<string, NoteCount>, note: CellNote, row: number): void {
  const before = notes.get(note.code);
  if (before) before.count += 1;
  else notes.set(note.code, { note, count: 1, firstRow: row });
}

/** Whole numbers in a typed array that grows. */
export class Growing {
  values: Int32Array = new Int32Array(256);
  length = 0;

  push(value: number): void {
    if (this.length === this.values.length) {
      const larger = new Int32Array(this.length * 2);
      larger.set(this.values);
      this.values = larger;
    }
    this.values[this.length] = value;
    this.length += 1;
  }
}

/** Reads one column into codes, each distinct cell once. */
export class ColumnReader implements BlockReader, CodedColumn {
  readonly codes: Uint32Array;
  readonly faults: CellFault[] = [];
  readonly notes = new Map<string, NoteCount>();
  readonly #at: number;
  readonly #read: (cell: string) => Cell<Scalar>;
  readonly #values = new ValueCodes();
  readonly #cells: CellNumbers;
  /** By number of a cell: its code, or that it has a fault; then what else was found. */
  readonly #codeOf = new Growing();
  readonly #faultOf = new Map<number, Fault>();
  readonly #noteOf = new Map<number, CellNote>();
  /** Whether the code of each cell so far is its number, with nothing else to tell of it. */
  #areNumbers = true;

  constructor(at: number, rowLimit: number, read: (cell: string) => Cell<Scalar>) {
    this.#at = at;
    this.#read = read;
    this.#cells = new CellNumbers(at);
    this.codes = new Uint32Array(rowLimit);
    this.#codeOf.push(0);
  }

  get values(): readonly Scalar[] {
    return this.#values.values;
  }

  read(block: RowBlock): void {
    const { first, rowCount } = block;
    const { codes } = this;
    this.#cells.put(block, codes, first);
    if (this.#areNumbers && this.#cells.count < this.#codeOf.length) return;
    for (let row = 0; row < rowCount; row += 1) {
      const number = codes[first + row] as number;
      if (number === 0) continue;
      if (number === this.#codeOf.length) this.#addNew(block.cell(row, this.#at), number);
      const code = this.#codeOf.values[number] as number;
      if (code === isFault) {
        codes[first + row] = 0;
        this.#addFault(first + row, number, block.cell(row, this.#at));
        continue;
      }
      codes[first + row] = code;
      if (this.#noteOf.size === 0) continue;
      const note = this.#noteOf.get(number);
      if (note) countNote(this.notes, note, first + row);
    }
  }

  #addNew(cell: string, number: number): void {
    const code = this.#readNew(cell, number);
    if (code !== number || this.#noteOf.size > 0) this.#areNumbers = false;
    this.#codeOf.push(code);
  }

  #readNew(cell: string, number: number): number {
    const answer = this.#read(cell);
    if (answer.kind === "fault") {
      this.#faultOf.set(number, answer);
      return isFault;
    }
    if (answer.note) this.#noteOf.set(number, answer.note);
    if (answer.kind === "empty") return 0;
    const { value } = answer;
    return value === cell && this.#cells.areApart
      ? this.#values.codeOfCell(cell)
      : this.#values.codeOf(value);
  }

  #addFault(row: number, number: number, cell: string): void {
    const fault = this.#faultOf.get(number);
    if (fault === undefined) return;
    const { code, rule, remedy } = fault;
    this.faults.push({ row, code, rule, remedy, value: showValue(cell) });
  }
}
