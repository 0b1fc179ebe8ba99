/** A cell that a spreadsheet would run as a formula, perhaps already behind apostrophes. */
const risky = /^'*[=+\-@\t\r]/;
const behindApostrophe = /^'+[=+\-@\t\r]/;
const plainNumber = /^[+-]?\d+(?:[.,]\d+)?$/;

/**
 * A cell made safe for spreadsheets: one that begins with = + - @ tab or carriage return gets an
 * apostrophe in front, unless it is a plain number. `restoreCell` takes it off again, so that what was
 * exported comes back to the letter.
 * Source: OWASP, "CSV Injection" (the six leading characters).
 */
export function neutraliseCell(cell: string): string {
  return risky.test(cell) && !plainNumber.test(cell) ? `'${cell}` : cell;
}

/** The cell as it was before `neutraliseCell`. */
export function restoreCell(cell: string): string {
  return behindApostrophe.test(cell) ? cell.slice(1) : cell;
}
