/** The first few of very many in an order, without keeping the rest. What compares alike stands in order of offering. */
export class FirstOf<T> {
  readonly #most: number;
  readonly #compare: (a: T, b: T) => number;
  #kept: T[] = [];
  /** The last of the first few, once there are that many: what comes after it need not be offered. */
  last: T | undefined;

  constructor(most: number, compare: (a: T, b: T) => number) {
    this.#most = most;
    this.#compare = compare;
  }

  offer(one: T): void {
    if (this.last !== undefined && this.#compare(this.last, one) <= 0) return;
    if (this.#kept.push(one) >= 2 * this.#most + 64) this.#cut();
  }

  list(): readonly T[] {
    this.#cut();
    return this.#kept;
  }

  #cut(): void {
    this.#kept = this.#kept.sort(this.#compare).slice(0, this.#most);
    if (this.#kept.length === this.#most) this.last = this.#kept.at(-1);
  }
}
