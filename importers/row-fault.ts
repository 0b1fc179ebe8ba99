/** What went wrong in one row or cell of a file; the row it names is rejected, the rest goes on. */
export interface RowFault {
  /** Short name of the rule broken, for programs and tests. */
  readonly code: FaultCode;
  /** Line of the file, counted from 1, where the row begins. */
  readonly line: number;
  /** Name of the column as the file has it, or undefined if the row as a whole is at fault. */
  readonly column: string | undefined;
  /** The rule, as a sentence. */
  readonly rule: string;
  /** The value received, cut short if it is long. */
  readonly value: string;
  /** What to do about it. */
  readonly remedy: string;
}

export type FaultCode =
  | "row-short"
  | "row-long"
  | "cell-too-long"
  | "quote-open"
  | "header-twice"
  | "columns-disagree"
  | "number-unreadable"
  | "number-ambiguous"
  | "number-out-of-range"
  | "unit-unknown"
  | "unit-ambiguous"
  | "money-unreadable"
  | "currency-missing"
  | "currency-ambiguous"
  | "date-unreadable"
  | "date-impossible"
  | "date-ambiguous"
  | "part-number-mangled"
  | "boolean-unreadable"
  | "duration-unreadable"
  | "choice-unknown"
  | "value-missing"
  | "rows-disagree"
  | "value-invalid";

/** Something the reader should know, though no row was rejected for it. */
export interface ImportNotice {
  readonly code: string;
  /** First line concerned, or undefined for the file as a whole. */
  readonly line: number | undefined;
  readonly column: string | undefined;
  readonly text: string;
  /** How many rows or cells it concerns. */
  readonly count: number;
}

const shownLength = 80;

/** A value as shown in a message: control characters made visible, the length limited. */
export function showValue(value: string): string {
  const cut =
    value.length > shownLength
      ? `${value.slice(0, shownLength)}… (${value.length} characters)`
      : value;
  return cut.replace(/\r\n|[\r\n]/g, "⏎").replace(/\t/g, "⇥");
}
