import type { ImportNotice } from "../row-fault.ts";
import { showValue } from "../row-fault.ts";

/** What a row that is no record is: a heading or remark in the body, a line of totals, a ruled line. */
export type AsideKind = "units-passed" | "heading-passed" | "totals-passed" | "rule-passed";

const totalWord =
  /^[*#\s]*(?:(?:sub|grand|zwischen|end|sous|net)[\s-]?)?(?:total(?:e|s|en)?|totaal|summe|gesamt(?:summe|betrag|wert)?|insgesamt|somme|montant total|suma|importe total|subtotal)\b/iu;
const ruled = /^[-–—=_*~+#.\s]{2,}$/;

/** Whether a text begins as a line of totals does, in the languages of the headers. */
export const saysTotal = (text: string): boolean => totalWord.test(text);

/** Tells rows that are no records from those that are, by their cells as they stand in the file. */
export class AsideRows {
  readonly #partNumberAt: number | undefined;
  readonly #typical: number;
  readonly #found = new Map<AsideKind, { rows: number[]; texts: string[] }>();

  /**
   * @param typicalWidth how many cells a row usually fills
   * @param partNumberAt index of the column of part numbers, in which a word alone could be a number
   */
  constructor(typicalWidth: number, partNumberAt: number | undefined) {
    this.#partNumberAt = partNumberAt;
    this.#typical = typicalWidth;
  }

  /** What a row is if it is no record; undefined if it may be one. */
  kindOf(cells: readonly string[]): AsideKind | undefined {
    const filled = filledOf(cells);
    const [first] = filled;
    if (first === undefined) return undefined;
    if (filled.every((at) => ruled.test(cells[at] ?? ""))) return "rule-passed";
    const text = (cells[first] ?? "").trim();
    const hasNumber = this.#partNumberAt !== undefined && filled.includes(this.#partNumberAt);
    if (saysTotal(text)) {
      // Where it stands among the part numbers, only a row with gaps is a sum: a number may begin with the word.
      const hasGaps = filled.length * 3 <= this.#typical * 2;
      if (!hasNumber || (first === this.#partNumberAt && hasGaps)) return "totals-passed";
    }
    if (filled.length > 1 || this.#typical < 3) return undefined;
    return first === this.#partNumberAt && /\d/.test(text) ? undefined : "heading-passed";
  }

  /** Passes a row over, to be told of. */
  pass(kind: AsideKind, row: number, cells: readonly string[]): void {
    const found = this.#found.get(kind) ?? { rows: [], texts: [] };
    this.#found.set(kind, found);
    found.rows.push(row);
    if (found.texts.length < 5) {
      found.texts.push(
        showValue(
          filledOf(cells)
            .map((at) => cells[at]?.trim())
            .join(" "),
        ),
      );
    }
  }

  get count(): number {
    let count = 0;
    for (const { rows } of this.#found.values()) count += rows.length;
    return count;
  }

  notices(lineOf: (row: number) => number): ImportNotice[] {
    return [...this.#found].map(([code, { rows, texts }]) => ({
      code,
      line: lineOf(rows[0] ?? 0),
      column: undefined,
      text: `${meaning[code]}: ${texts.map((text) => `"${text}"`).join(", ")}${rows.length > texts.length ? ", …" : ""}. ${remedy}`,
      count: rows.length,
    }));
  }
}

const meaning: Readonly<Record<AsideKind, string>> = {
  "units-passed": "The row below the header was read as the units of its columns",
  "heading-passed": "Rows with one cell only were passed over as headings or remarks",
  "totals-passed": "Rows of totals were passed over",
  "rule-passed": "Rows of dashes were passed over",
};
const remedy = "If one of them is a record, fill in its other cells and import it again.";

const filledOf = (row: readonly string[]): number[] =>
  row.flatMap((cell, at) => (cell.trim() === "" ? [] : [at]));
