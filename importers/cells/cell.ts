import type { FaultCode } from "../row-fault.ts";

/** What a cell was read as: a value, nothing, or the rule it breaks. Row errors are results, not exceptions. */
export type Cell<T> =
  | { readonly kind: "value"; readonly value: T; readonly note?: CellNote }
  /** Nothing, or words that leave the value open; the note says so. */
  | { readonly kind: "empty"; readonly note?: CellNote }
  | {
      readonly kind: "fault";
      readonly code: FaultCode;
      readonly rule: string;
      readonly remedy: string;
    };

/** A reading that needs telling: its code, and the sentence (the same for every cell of a column). */
export interface CellNote {
  readonly code: string;
  readonly text: string;
}

export const emptyCell = { kind: "empty" } as const;

export const valueCell = <T>(value: T, note?: CellNote): Cell<T> =>
  note === undefined ? { kind: "value", value } : { kind: "value", value, note };

export const faultCell = (code: FaultCode, rule: string, remedy: string): Cell<never> => ({
  kind: "fault",
  code,
  rule,
  remedy,
});

/** Words people write for "nothing here"; a lone dash too. */
const nothing = /^(?:[-–—.?]+|n\/?a|n\.a\.|none|null|nil|k\.?\s?a\.?|unbekannt|unknown|tbc|tbd)$/i;

/** True for a cell of white space or a mark that stands for nothing. */
export function isNothing(cell: string): boolean {
  return cell === "" || nothing.test(cell);
}
