/** Where records are fetched from once it is known which are wanted. */
export interface RecordFetcher<K, R> {
  keyOf(record: R): K;
  idOf(record: R): string;
  byKey(keys: readonly K[]): Promise<readonly R[]>;
  all(): Promise<readonly R[]>;
  /** Every key with its id. */
  names(): Promise<readonly (readonly [key: K, id: string])[]>;
}

/** Beyond this share of all records, fetching them singly costs more than fetching all. */
const mostSingly = 0.2;

/**
 * Records of which only those asked for are fetched, by a caller that cannot wait: what is not at hand counts as absent
 * and is noted; `catchUp` fetches it, and then the caller begins again.
 */
export class PartlyKnown<K, R> implements ReadonlyMap<K, R> {
  readonly size: number;
  readonly #fetcher: RecordFetcher<K, R>;
  readonly #held = new Map<K, R>();
  /** Keys that were fetched, whether or not there is a record. */
  readonly #settled = new Set<K>();
  readonly #missing = new Set<K>();
  #names: ReadonlyMap<K, string> | undefined;
  #wantsNames = false;
  #wantsAll = false;
  #holdsAll = false;

  constructor(size: number, fetcher: RecordFetcher<K, R>) {
    this.size = size;
    this.#fetcher = fetcher;
    this.#holdsAll = size === 0;
  }

  get(key: K): R | undefined {
    if (!this.#holdsAll && !this.#settled.has(key)) this.#missing.add(key);
    return this.#held.get(key);
  }

  has(key: K): boolean {
    return this.get(key) !== undefined;
  }

  keys(): MapIterator<K> {
    return this.#holdsAll ? this.#held.keys() : this.#allNames().keys();
  }

  ids(): Iterable<string> {
    return this.#holdsAll
      ? this.#held.values().map((record) => this.#fetcher.idOf(record))
      : this.#allNames().values();
  }

  values(): MapIterator<R> {
    return this.#all().values();
  }

  entries(): MapIterator<[K, R]> {
    return this.#all().entries();
  }

  [Symbol.iterator](): MapIterator<[K, R]> {
    return this.entries();
  }

  forEach(each: (value: R, key: K, map: ReadonlyMap<K, R>) => void): void {
    for (const [key, value] of this.#all()) each(value, key, this);
  }

  /** Fetches what was asked for and not at hand; whether there was any. */
  async catchUp(): Promise<boolean> {
    if (this.#holdsAll) return false;
    const isAll = this.#wantsAll || this.#missing.size > this.size * mostSingly;
    const wantsNames = !isAll && this.#wantsNames && this.#names === undefined;
    const missing = [...this.#missing];
    this.#missing.clear();
    if (isAll) {
      this.#keep(await this.#fetcher.all());
      this.#holdsAll = true;
    } else if (missing.length > 0) {
      this.#keep(await this.#fetcher.byKey(missing));
      for (const key of missing) this.#settled.add(key);
    }
    if (wantsNames) this.#names = new Map(await this.#fetcher.names());
    return isAll || wantsNames || missing.length > 0;
  }

  #keep(records: readonly R[]): void {
    for (const record of records) this.#held.set(this.#fetcher.keyOf(record), record);
  }

  #all(): ReadonlyMap<K, R> {
    this.#wantsAll = true;
    return this.#held;
  }

  #allNames(): ReadonlyMap<K, string> {
    this.#wantsNames = true;
    return this.#names ?? new Map();
  }
}
