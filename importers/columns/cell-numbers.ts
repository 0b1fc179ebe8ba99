import type { CellScanner } from "../reading/cell-scanner.ts";
import type { RowBlock } from "../reading/row-block.ts";

/** A slot holds hash and number of a cell side by side; small, so that as much of the table as can be is in the cache. */
const stride = 2;

const apostrophe = 39;
const noChars = new Uint16Array(0);

/**
 * Numbers the distinct cells of one column, 1 and up in the order in which they are met; 0 is the empty cell. A cell
 * that was met before is known by its place in the text, without making a string of it. Rarely one text has two
 * numbers: where quote marks are doubled or a full parser had to read the row.
 */
export class CellNumbers {
  /** Whether each number so far stands for a text of its own. */
  areApart = true;
  readonly #at: number;
  #count = 0;
  #mask = 255;
  #slots = new Int32Array(256 * stride);
  #size = 0;
  /** The distinct texts, one after another: close together, so that comparing with them stays in the cache. */
  #texts = new Uint16Array(1024);
  /** By number: where its text ends; it begins where that of the number before ends. */
  #textEnds = new Int32Array(256);
  readonly #byText = new Map<string, number>();
  #numbers = new Uint32Array(512);

  constructor(at: number) {
    this.#at = at;
  }

  /** The numbers of a block's cells in this column; the array is used again for the next block. */
  of(block: RowBlock): Uint32Array {
    if (block.rowCount > this.#numbers.length) this.#numbers = new Uint32Array(block.rowCount * 2);
    if (block.places === undefined) {
      for (let row = 0; row < block.rowCount; row += 1) {
        this.#numbers[row] = this.#ofText(block.cell(row, this.#at));
      }
    } else this.#ofPlaces(block, block.places);
    return this.#numbers;
  }

  #ofText(cell: string): number {
    if (cell === "") return 0;
    this.areApart = false;
    let number = this.#byText.get(cell);
    if (number === undefined) {
      this.#count += 1;
      number = this.#count;
      this.#byText.set(cell, number);
      this.#keepText(noChars, 0, 0);
    }
    return number;
  }

  #ofPlaces(block: RowBlock, { chars, starts, ends, hashes, width }: CellScanner): void {
    const numbers = this.#numbers;
    const at = this.#at;
    let lastHash = 0;
    let lastStart = 0;
    let lastLength = -1;
    let last = 0;
    for (let row = 0, place = at; row < block.rowCount; row += 1, place += width) {
      const start = starts[place] as number;
      const end = ends[place] as number;
      const length = end - start;
      if (length === 0) numbers[row] = 0;
      else if (end < 0) numbers[row] = this.#ofText(block.cell(row, at));
      else {
        const hash = hashes[place] as number;
        if (
          hash !== lastHash ||
          length !== lastLength ||
          !isSameText(chars, start, chars, lastStart, length)
        ) {
          lastHash = hash;
          lastStart = start;
          lastLength = length;
          last = this.#numberOf(chars, hash, start, length);
        }
        numbers[row] = last;
      }
    }
  }

  #numberOf(chars: Uint16Array, hash: number, start: number, length: number): number {
    const slots = this.#slots;
    const textEnds = this.#textEnds;
    let slot = (hash ^ (hash >>> 15)) & this.#mask;
    for (;;) {
      const place = slot * stride;
      const number = slots[place + 1] as number;
      if (number === 0) break;
      if (slots[place] === hash) {
        const begin = textEnds[number - 1] as number;
        if (
          (textEnds[number] as number) - begin === length &&
          isSameText(chars, start, this.#texts, begin, length)
        ) {
          return number;
        }
      }
      slot = (slot + 1) & this.#mask;
    }
    this.#count += 1;
    slots[slot * stride] = hash;
    slots[slot * stride + 1] = this.#count;
    this.#keepText(chars, start, length);
    // An apostrophe may go, and leave a text that has a number already.
    if (chars[start] === apostrophe) this.areApart = false;
    this.#size += 1;
    if (this.#size * 2 > this.#mask) this.#grow();
    return this.#count;
  }

  /** Puts the text of the newest number among the column's own. */
  #keepText(chars: Uint16Array, start: number, length: number): void {
    const number = this.#count;
    if (number >= this.#textEnds.length) {
      const larger = new Int32Array(number * 2);
      larger.set(this.#textEnds);
      this.#textEnds = larger;
    }
    const begin = this.#textEnds[number - 1] as number;
    this.#textEnds[number] = begin + length;
    if (begin + length > this.#texts.length) {
      const larger = new Uint16Array((begin + length) * 2);
      larger.set(this.#texts);
      this.#texts = larger;
    }
    for (let at = 0; at < length; at += 1) this.#texts[begin + at] = chars[start + at] as number;
  }

  #grow(): void {
    const old = this.#slots;
    this.#mask = this.#mask * 2 + 1;
    this.#slots = new Int32Array((this.#mask + 1) * stride);
    for (let from = 0; from < old.length; from += stride) {
      if (old[from + 1] === 0) continue;
      const hash = old[from] as number;
      let slot = (hash ^ (hash >>> 15)) & this.#mask;
      while (this.#slots[slot * stride + 1] !== 0) slot = (slot + 1) & this.#mask;
      this.#slots[slot * stride] = hash;
      this.#slots[slot * stride + 1] = old[from + 1] as number;
    }
  }
}

function isSameText(
  chars: Uint16Array,
  one: number,
  otherChars: Uint16Array,
  other: number,
  length: number,
): boolean {
  for (let at = 0; at < length; at += 1) {
    if (chars[one + at] !== otherChars[other + at]) return false;
  }
  return true;
}
