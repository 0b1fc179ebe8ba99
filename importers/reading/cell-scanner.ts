import { endianness } from "node:os";
import type { LineEnd } from "./line-ends.ts";

const quote = 34;
const feed = 10;
const carriage = 13;
const hashSeed = 0x811c9dc5 | 0;
const hashFactor = 0x01000193;

/** Answers of `scan`: the row needs a full parser; the row goes on beyond the stretch at hand. */
export const beyondScanning = -1;
export const cutOff = -2;

/**
 * Finds the cells of plain rows without making a string of any of them: where each begins and ends in the text, and a
 * hash (FNV-1a, 32 bits) by which repeated cells are known. Quoted cells are followed by the rules of RFC 4180; a row
 * that does not keep to them is left to a full parser.
 */
export class CellScanner {
  /**
   * The stretch of the text at hand, in UTF-16, followed by one more line end, so that its end needs no look of its
   * own. A typed array of a stretch stays in the cache and is read several times faster than a string.
   */
  chars = new Uint16Array(1 << 16);
  readonly width: number;
  /** A block has no more rows than this. */
  readonly mostRows: number;
  /**
   * The place of row 0 and column c is c * `stride`; the rows of a column stand side by side, since columns are read one
   * after the other. No power of two, or all columns would share a few lines of the cache.
   */
  readonly stride: number;
  /** By place: where the text of a cell begins, counted from the start of the stretch. */
  readonly starts: Int32Array;
  /** Where it ends; below zero (`~end`) if quote marks are doubled within. */
  readonly ends: Int32Array;
  readonly hashes: Int32Array;
  /** Begin and end of the cells of the last row that stand beyond the last column. */
  readonly surplus: number[] = [];
  /** Where the row after the last one begins, in the text. */
  next = 0;
  /** Line ends within the cells of the last row. */
  lineEndsWithin = 0;
  /** The memory of `chars`. */
  #bytes = Buffer.from(this.chars.buffer);
  readonly #text: string;
  /** Where the stretch stands in the text, and how long it is. */
  #from = 0;
  #length = 0;
  readonly #delimiter: number;
  readonly #lineEnd: LineEnd;

  constructor(text: string, delimiter: string, lineEnd: LineEnd, width: number) {
    this.#text = text;
    this.#delimiter = delimiter.charCodeAt(0);
    this.#lineEnd = lineEnd;
    this.width = width;
    this.mostRows = Math.max(16, Math.min(512, Math.floor((1 << 15) / width)));
    this.stride = this.mostRows + 16;
    const places = this.stride * width;
    this.starts = new Int32Array(places);
    this.ends = new Int32Array(places);
    this.hashes = new Int32Array(places);
  }

  /** Takes up the stretch from `from` to the first line end at or after `to`. */
  load(from: number, to: number): void {
    const lineEnd = this.#lineEnd;
    const { length } = this.#text;
    const end = to >= length ? -1 : this.#text.indexOf(lineEnd, to);
    const size = (end === -1 ? length : end + lineEnd.length) - from;
    if (size + 2 > this.chars.length) {
      this.chars = new Uint16Array(size + 2);
      this.#bytes = Buffer.from(this.chars.buffer);
    }
    const { chars } = this;
    const stretch = this.#text.slice(from, from + size);
    // Copied as a whole, ten times faster than one by one; but only where numbers stand low byte first.
    if (endianness() === "LE") this.#bytes.write(stretch, "utf16le");
    else for (let at = 0; at < size; at += 1) chars[at] = stretch.charCodeAt(at);
    chars[size] = lineEnd.charCodeAt(0);
    chars[size + 1] = feed;
    this.#from = from;
    this.#length = size;
  }

  /** The text of the cell at a place of `starts`. */
  cell(place: number): string {
    return this.between(this.starts[place] as number, this.ends[place] as number);
  }

  between(start: number, end: number): string {
    const from = this.#from;
    return end < 0
      ? this.#text.slice(from + start, from + ~end).replaceAll('""', '"')
      : this.#text.slice(from + start, from + end);
  }

  /**
   * Puts down the cells of the row that begins at `at` as row `row` of the block, those it lacks as empty.
   * @returns how many cells the row has, `beyondScanning` or `cutOff`
   */
  scan(at: number, row: number): number {
    const { chars, stride, starts, ends, hashes, surplus } = this;
    const delimiter = this.#delimiter;
    const length = this.#length;
    const after = this.width * stride;
    let place = row;
    surplus.length = 0;
    let within = 0;
    let count = 0;
    let i = at - this.#from;
    for (;;) {
      let start = i;
      let end = 0;
      let hash = hashSeed;
      let c = chars[i] as number;
      if (c === quote) {
        start = i + 1;
        let isDoubled = false;
        for (i = start; ; i += 1) {
          c = chars[i] as number;
          if (c === quote) {
            if (chars[i + 1] !== quote) break;
            isDoubled = true;
            i += 1;
          } else if (c === feed || c === carriage) {
            if (i >= length) return this.#from + i < this.#text.length ? cutOff : beyondScanning;
            if (c === carriage || chars[i - 1] !== carriage) within += 1;
          }
          hash = Math.imul(hash ^ c, hashFactor);
        }
        end = isDoubled ? ~i : i;
        i += 1;
        c = chars[i] as number;
        if (c !== delimiter && !this.#endsRow(i)) return beyondScanning;
      } else {
        // Control characters are few: one comparison rules them all out.
        while ((c > carriage || (c !== feed && c !== carriage)) && c !== delimiter) {
          hash = Math.imul(hash ^ c, hashFactor);
          i += 1;
          c = chars[i] as number;
        }
        end = i;
        if (c !== delimiter && !this.#endsRow(i)) return beyondScanning;
      }
      if (place < after) {
        starts[place] = start;
        ends[place] = end;
        hashes[place] = hash;
        place += stride;
      } else surplus.push(start, end);
      count += 1;
      if (c !== delimiter) break;
      i += 1;
    }
    for (; place < after; place += stride) {
      starts[place] = i;
      ends[place] = i;
    }
    this.next = this.#from + Math.min(length, i + this.#lineEnd.length);
    this.lineEndsWithin = within;
    return count;
  }

  #endsRow(at: number): boolean {
    const c = this.chars[at];
    if (this.#lineEnd === "\n") return c === feed;
    if (this.#lineEnd === "\r") return c === carriage;
    return c === carriage && this.chars[at + 1] === feed;
  }
}
