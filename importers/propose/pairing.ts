/** Numbers pairs of small whole numbers as they are met: the same pair, the same answer. */
export class Pairing {
  readonly #answers = new Map<number, number>();

  /** What was put down for a pair, or -1. */
  get(first: number, second: number): number {
    return this.#answers.get(first * 0x4000000 + second) ?? -1;
  }

  set(first: number, second: number, answer: number): void {
    this.#answers.set(first * 0x4000000 + second, answer);
  }

  /** The number of a pair among all pairs met so far. */
  number(first: number, second: number): number {
    const key = first * 0x4000000 + second;
    const before = this.#answers.get(key);
    if (before !== undefined) return before;
    const answer = this.#answers.size;
    this.#answers.set(key, answer);
    return answer;
  }
}
