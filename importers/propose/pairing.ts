/** First, second and answer of a pair stand side by side, so that a look-up touches one line of the cache. */
const stride = 4;

/**
 * A dictionary from pairs of whole numbers (0 to 2^31 - 1) to whole numbers: open addressing over one typed array,
 * several times faster than a Map keyed by a product of the two.
 */
export class Pairing {
  #mask = 255;
  #cells = new Int32Array(256 * stride).fill(-1);
  #size = 0;
  /** The place looked at last: rows that follow one another speak of the same things. */
  #last = 0;

  /** Where a pair stands, or the free place where it belongs. */
  #place(first: number, second: number): number {
    const cells = this.#cells;
    const last = this.#last;
    if (cells[last] === first && cells[last + 1] === second) return last;
    let hash = Math.imul(first, 0x9e3779b1) ^ Math.imul(second, 0x85ebca6b);
    hash ^= hash >>> 15;
    hash = Math.imul(hash, 0x2c1b3c6d);
    let at = (hash ^ (hash >>> 13)) & this.#mask;
    for (;;) {
      const held = cells[at * stride];
      if (held === -1 || (held === first && cells[at * stride + 1] === second)) {
        this.#last = at * stride;
        return at * stride;
      }
      at = (at + 1) & this.#mask;
    }
  }

  /** What was put down for a pair, or -1. */
  get(first: number, second: number): number {
    return this.#cells[this.#place(first, second) + 2] as number;
  }

  set(first: number, second: number, answer: number): void {
    const at = this.#place(first, second);
    const isNew = this.#cells[at] === -1;
    this.#put(at, first, second, answer);
    if (isNew) this.#grow();
  }

  /** The number of a pair among all pairs met so far. */
  number(first: number, second: number): number {
    const at = this.#place(first, second);
    if (this.#cells[at] !== -1) return this.#cells[at + 2] as number;
    const answer = this.#size;
    this.#put(at, first, second, answer);
    this.#grow();
    return answer;
  }

  #put(at: number, first: number, second: number, answer: number): void {
    this.#cells[at] = first;
    this.#cells[at + 1] = second;
    this.#cells[at + 2] = answer;
  }

  /** Counts a new pair in; enlarges the table when it is half full. */
  #grow(): void {
    this.#size += 1;
    if (this.#size * 2 <= this.#mask) return;
    const old = this.#cells;
    const capacity = (this.#mask + 1) * (this.#mask < 1 << 14 ? 4 : 2);
    this.#mask = capacity - 1;
    this.#last = 0;
    this.#cells = new Int32Array(capacity * stride).fill(-1);
    for (let at = 0; at < old.length; at += stride) {
      const first = old[at] as number;
      if (first === -1) continue;
      const second = old[at + 1] as number;
      this.#put(this.#place(first, second), first, second, old[at + 2] as number);
    }
  }
}
