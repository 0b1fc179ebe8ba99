/**
 * A dictionary from pairs of whole numbers (0 to 2^31 - 1) to whole numbers: open addressing over typed arrays,
 * several times faster than a Map keyed by a product of the two.
 */
export class Pairing {
  #mask = 1023;
  #first = new Int32Array(1024).fill(-1);
  #second = new Int32Array(1024);
  #answers = new Int32Array(1024);
  #size = 0;

  /** The place of a pair, or the free place where it belongs. */
  #place(first: number, second: number): number {
    let hash = Math.imul(first, 0x9e3779b1) ^ Math.imul(second, 0x85ebca6b);
    hash ^= hash >>> 15;
    hash = Math.imul(hash, 0x2c1b3c6d);
    let at = (hash ^ (hash >>> 13)) & this.#mask;
    while (this.#first[at] !== -1 && !(this.#first[at] === first && this.#second[at] === second)) {
      at = (at + 1) & this.#mask;
    }
    return at;
  }

  /** What was put down for a pair, or -1. */
  get(first: number, second: number): number {
    const at = this.#place(first, second);
    return this.#first[at] === -1 ? -1 : (this.#answers[at] as number);
  }

  set(first: number, second: number, answer: number): void {
    const at = this.#place(first, second);
    const isNew = this.#first[at] === -1;
    this.#first[at] = first;
    this.#second[at] = second;
    this.#answers[at] = answer;
    if (isNew) this.#grow();
  }

  /** The number of a pair among all pairs met so far. */
  number(first: number, second: number): number {
    const at = this.#place(first, second);
    if (this.#first[at] !== -1) return this.#answers[at] as number;
    const answer = this.#size;
    this.#first[at] = first;
    this.#second[at] = second;
    this.#answers[at] = answer;
    this.#grow();
    return answer;
  }

  /** Counts a new pair in; doubles the arrays when they are half full. */
  #grow(): void {
    this.#size += 1;
    if (this.#size * 2 <= this.#mask) return;
    const [first, second, answers] = [this.#first, this.#second, this.#answers];
    const capacity = (this.#mask + 1) * 4;
    this.#mask = capacity - 1;
    this.#first = new Int32Array(capacity).fill(-1);
    this.#second = new Int32Array(capacity);
    this.#answers = new Int32Array(capacity);
    for (let old = 0; old < first.length; old += 1) {
      if (first[old] === -1) continue;
      const at = this.#place(first[old] as number, second[old] as number);
      this.#first[at] = first[old] as number;
      this.#second[at] = second[old] as number;
      this.#answers[at] = answers[old] as number;
    }
  }
}
