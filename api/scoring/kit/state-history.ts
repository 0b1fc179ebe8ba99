const TIDY_FROM = 2 ** 22;

/** The choices behind each state of a search, as a tree: a node is a choice and the node it was added to (-1: none). */
export class StateHistory {
  #parent = new Int32Array(1024);
  #choice = new Int32Array(1024);
  #count = 0;
  #tidyAt = TIDY_FROM;

  add(parent: number, choice: number): number {
    if (this.#count === this.#parent.length) {
      const parents = new Int32Array(this.#count * 2);
      parents.set(this.#parent);
      this.#parent = parents;
      const choices = new Int32Array(this.#count * 2);
      choices.set(this.#choice);
      this.#choice = choices;
    }
    this.#parent[this.#count] = parent;
    this.#choice[this.#count] = choice;
    return this.#count++;
  }

  /** The choices that lead to a node, latest first. */
  choices(node: number): number[] {
    const found: number[] = [];
    for (let at = node; at >= 0; at = this.#parent[at] ?? -1) found.push(this.#choice[at] ?? 0);
    return found;
  }

  /** Drops the nodes no live state descends from, once they are many; renumbers the live states' nodes in place. */
  tidy(live: Int32Array, count: number): void {
    if (this.#count < this.#tidyAt) return;
    const renamed = new Int32Array(this.#count);
    for (let s = 0; s < count; s++) {
      const node = live[s] ?? -1;
      if (node >= 0) renamed[node] = 1;
    }
    for (let node = this.#count - 1; node >= 0; node--) {
      const parent = this.#parent[node] ?? -1;
      if (renamed[node] === 1 && parent >= 0) renamed[parent] = 1;
    }
    let end = 0;
    for (let node = 0; node < this.#count; node++) {
      if (renamed[node] === 0) continue;
      const parent = this.#parent[node] ?? -1;
      this.#parent[end] = parent < 0 ? -1 : (renamed[parent] ?? 0);
      this.#choice[end] = this.#choice[node] ?? 0;
      renamed[node] = end++;
    }
    for (let s = 0; s < count; s++) {
      const node = live[s] ?? -1;
      if (node >= 0) live[s] = renamed[node] ?? -1;
    }
    this.#count = end;
    this.#tidyAt = Math.max(TIDY_FROM, end * 2);
  }
}
