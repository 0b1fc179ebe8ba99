/** Sets of rows that only ever grow together; a set is named by its lowest row. */
export class DisjointSets {
  readonly #parent: Int32Array;

  constructor(count: number) {
    this.#parent = Int32Array.from({ length: count }, (_, row) => row);
  }

  /** The lowest row of a row's set. */
  rootOf(row: number): number {
    const parent = this.#parent;
    let at = row;
    while (parent[at] !== at) {
      const above = parent[at] ?? at;
      parent[at] = parent[above] ?? above;
      at = parent[at] ?? at;
    }
    return at;
  }

  join(one: number, other: number): void {
    const a = this.rootOf(one);
    const b = this.rootOf(other);
    if (a !== b) this.#parent[Math.max(a, b)] = Math.min(a, b);
  }
}
