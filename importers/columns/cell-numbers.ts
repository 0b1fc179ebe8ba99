import type { CellScanner } from "../reading/cell-scanner.ts";
import type { RowBlock } from "../reading/row-block.ts";

/** A slot holds the hash of a cell and the place of its record side by side. */
const stride = 2;

/**
 * A record, in whole words of 32 bits: hash and length of the text, the cell's number, and the text, two characters to
 * a word.
 */
const hashAt = 0;
const lengthAt = 1;
const numberAt = 2;
const textAt = 3;

const apostrophe = 39;

/**
 * Numbers the distinct cells of one column, 1 and up in the order in which they are met; 0 is the empty cell. A cell
 * that was met before is known by its place in the text, without making a string of it: the cell above is looked at
 * first, then all others by hash. It counts as known only if its text is the same, character by character. Rarely one
 * text has two numbers: where quote marks are doubled or a full parser had to read the row.
 */
export class CellNumbers {
  /** Whether each number so far stands for a text of its own. */
  areApart = true;
  /** How many numbers were given. */
  count = 0;
  readonly #at: number;
  #mask = 255;
  /** Small, so that as much of the table as can be is in the cache. */
  #slots = new Int32Array(256 * stride);
  #size = 0;
  /** Records one after another in the order in which they were made; the first is none's, of length 0. */
  #words = new Int32Array(1024);
  /** The same memory as characters. */
  #chars = new Uint16Array(this.#words.buffer);
  #used = textAt;
  #guesses = new Int32Array(512);
  #guessHashes = new Int32Array(512);
  readonly #byText = new Map<string, number>();

  constructor(at: number) {
    this.#at = at;
  }

  /** Puts the numbers of a block's cells in this column into `numbers`, from place `to` on. */
  put(block: RowBlock, numbers: Uint32Array, to: number): void {
    if (block.places === undefined) {
      for (let row = 0; row < block.rowCount; row += 1) {
        numbers[to + row] = this.#ofText(block.cell(row, this.#at));
      }
    } else this.#putPlaces(block, block.places, numbers, to);
  }

  #ofText(cell: string): number {
    if (cell === "") return 0;
    this.areApart = false;
    let number = this.#byText.get(cell);
    if (number === undefined) {
      this.count += 1;
      number = this.count;
      this.#byText.set(cell, number);
    }
    return number;
  }

  #putPlaces(block: RowBlock, scanner: CellScanner, numbers: Uint32Array, to: number): void {
    const { chars, starts, ends } = scanner;
    const { rowCount } = block;
    const first = this.#at * scanner.stride;
    const hashes = scanner.hashes.subarray(first, first + rowCount);
    this.#guess(hashes);
    const guesses = this.#guesses;
    const guessHashes = this.#guessHashes;
    let words = this.#words;
    let own = this.#chars;
    /** Record of the cell before; at the start of a block that of none, which no cell is like. */
    let last = 0;
    for (let row = 0; row < rowCount; row += 1) {
      const start = starts[first + row] as number;
      const end = ends[first + row] as number;
      const length = end - start;
      if (length <= 0) {
        numbers[to + row] = length === 0 ? 0 : this.#ofText(block.cell(row, this.#at));
        continue;
      }
      const hash = hashes[row] as number;
      if (words[last + hashAt] !== hash || !isText(words, own, last, chars, start, length)) {
        last = guesses[row] as number;
        if (guessHashes[row] !== hash || !isText(words, own, last, chars, start, length)) {
          last = this.#recordOf(chars, hash, start, length);
          words = this.#words;
          own = this.#chars;
        }
      }
      numbers[to + row] = words[last + numberAt] as number;
    }
  }

  /**
   * For each cell of a block the record in the slot where its own should be, with its hash, fetched ahead of its use: without a branch
   * in between, the processor waits for many of them at once instead of one after the other.
   */
  #guess(hashes: Int32Array): void {
    const slots = this.#slots;
    const words = this.#words;
    const mask = this.#mask;
    const count = hashes.length;
    if (count > this.#guesses.length) {
      this.#guesses = new Int32Array(count * 2);
      this.#guessHashes = new Int32Array(count * 2);
    }
    const guesses = this.#guesses;
    const guessHashes = this.#guessHashes;
    for (let row = 0; row < count; row += 1) {
      const hash = hashes[row] as number;
      const record = slots[((hash ^ (hash >>> 15)) & mask) * stride + 1] as number;
      guesses[row] = record;
      guessHashes[row] = words[record + hashAt] as number;
    }
  }

  #recordOf(chars: Uint16Array, hash: number, start: number, length: number): number {
    const slots = this.#slots;
    const words = this.#words;
    const own = this.#chars;
    let slot = (hash ^ (hash >>> 15)) & this.#mask;
    for (;;) {
      const place = slot * stride;
      const record = slots[place + 1] as number;
      if (record === 0) break;
      if (slots[place] === hash && isText(words, own, record, chars, start, length)) return record;
      slot = (slot + 1) & this.#mask;
    }
    this.count += 1;
    const record = this.#keep(chars, hash, start, length);
    slots[slot * stride] = hash;
    slots[slot * stride + 1] = record;
    // An apostrophe may go, and leave a text that has a number already.
    if (chars[start] === apostrophe) this.areApart = false;
    this.#size += 1;
    if (this.#size * 2 > this.#mask) this.#grow();
    return record;
  }

  /** Makes a record of the cell that was numbered last. */
  #keep(chars: Uint16Array, hash: number, start: number, length: number): number {
    const record = this.#used;
    this.#used = record + textAt + ((length + 1) >> 1);
    if (this.#used > this.#words.length) {
      const larger = new Int32Array(this.#used * 2);
      larger.set(this.#words);
      this.#words = larger;
      this.#chars = new Uint16Array(larger.buffer);
    }
    this.#words[record + hashAt] = hash;
    this.#words[record + lengthAt] = length;
    this.#words[record + numberAt] = this.count;
    const begin = (record + textAt) * 2;
    const own = this.#chars;
    for (let at = 0; at < length; at += 1) own[begin + at] = chars[start + at] as number;
    return record;
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

function isText(
  words: Int32Array,
  own: Uint16Array,
  record: number,
  chars: Uint16Array,
  start: number,
  length: number,
): boolean {
  if (words[record + lengthAt] !== length) return false;
  const begin = (record + textAt) * 2;
  for (let at = 0; at < length; at += 1) {
    if (own[begin + at] !== chars[start + at]) return false;
  }
  return true;
}
