import type { Properties, PropertyValue } from "../../graph-schema/index.ts";
import type { CodedColumn, Scalar } from "../columns/coded-column.ts";

/** A property that a column of the file fills. */
export interface FilledProperty {
  readonly property: string;
  readonly header: string;
  readonly column: CodedColumn;
  /** Running text: a difference in case or spacing alone is no disagreement. */
  readonly isText: boolean;
}

/** Answers of `compare` that are no place of a property. */
export const nothing = -1;
export const something = -2;

const plain = (value: Scalar): string => String(value).replace(/\s+/g, " ").toLowerCase();

/**
 * Records of one label or type that the rows of a file speak of, with what the rows say about each: one code
 * per property and the row that said it. A row is first checked against what is there, then merged.
 */
export class RecordTable {
  readonly properties: readonly FilledProperty[];
  /** Rows rejected because they disagree with an earlier one about a record of this table. */
  conflicts = 0;
  /** Per record: whether an accepted row speaks of it, then a code per property; side by side for the cache. */
  #codes: Int32Array;
  /** Per record and property the row behind the code. */
  #rows: Int32Array;
  readonly #width: number;
  /** The codes of each property's column, close at hand. */
  readonly #sources: readonly Uint32Array[];
  #count = 0;
  readonly #aside = new Map<number, Record<string, PropertyValue>>();
  readonly #extra: (Map<string, string | Set<string>> | undefined)[] = [];

  constructor(properties: readonly FilledProperty[]) {
    this.properties = properties;
    this.#width = properties.length + 1;
    this.#sources = properties.map(({ column }) => column.codes);
    this.#codes = new Int32Array(this.#width * 64);
    this.#rows = new Int32Array(this.#width * 64);
  }

  protected addRecord(): number {
    const record = this.#count;
    this.#count += 1;
    if (this.#count * this.#width > this.#codes.length) {
      this.#codes = enlarged(this.#codes);
      this.#rows = enlarged(this.#rows);
    }
    return record;
  }

  /** Whether an accepted row speaks of the record, or of one that hangs on it. */
  isTouched(record: number): boolean {
    return this.#codes[record * this.#width] === 1;
  }

  touch(record: number): void {
    this.#codes[record * this.#width] = 1;
  }

  /**
   * What a row adds to a record: `nothing`, `something` to merge, or, 0 and up, the place in `properties` of the
   * first property about which it disagrees with an earlier row.
   */
  compare(record: number, row: number): number {
    const codes = this.#codes;
    const start = record * this.#width;
    let answer: number = codes[start] === 1 ? nothing : something;
    const sources = this.#sources;
    for (let at = 0; at < sources.length; at += 1) {
      const code = (sources[at] as Uint32Array)[row] as number;
      if (code === 0) continue;
      const before = codes[start + 1 + at] as number;
      if (before === code) continue;
      answer = something;
      if (before === 0) continue;
      const filled = this.properties[at] as FilledProperty;
      if (filled.isText && this.#text(filled, before) === this.#text(filled, code)) continue;
      return at;
    }
    return answer;
  }

  #text({ column }: FilledProperty, code: number): string {
    return plain(column.values[code] as Scalar);
  }

  /** The row that said what `record` has for the property at `at`. */
  rowBehind(record: number, at: number): number {
    return this.#rows[record * this.#width + 1 + at] ?? -1;
  }

  merge(record: number, row: number): void {
    const codes = this.#codes;
    const start = record * this.#width;
    codes[start] = 1;
    const sources = this.#sources;
    for (let at = 0; at < sources.length; at += 1) {
      const code = (sources[at] as Uint32Array)[row] as number;
      if (code === 0) continue;
      const place = start + 1 + at;
      const before = codes[place] as number;
      if (before === code) continue;
      if (before === 0 || this.#sortsFirst(at, code, before)) {
        codes[place] = code;
        this.#rows[place] = row;
      }
    }
  }

  /** Of two spellings the one that sorts first stays, whatever the order of the rows. */
  #sortsFirst(at: number, code: number, before: number): boolean {
    const { values } = (this.properties[at] as FilledProperty).column;
    return String(values[code]) < String(values[before]);
  }

  /** Keeps a cell of an unmatched column with the record; several different ones side by side. */
  keepExtra(record: number, header: string, text: string): void {
    let extra = this.#extra[record];
    if (extra === undefined) {
      extra = new Map();
      this.#extra[record] = extra;
    }
    const before = extra.get(header);
    if (before === undefined) extra.set(header, text);
    else if (typeof before !== "string") before.add(text);
    else if (before !== text) extra.set(header, new Set([before, text]));
  }

  /** Says something of a record that no column of the table holds as it stands; what a column says comes first. */
  sayAside(record: number, property: string, value: PropertyValue): void {
    const said = this.#aside.get(record) ?? {};
    said[property] = value;
    this.#aside.set(record, said);
  }

  /** What the accepted rows say of a record, laid over `answer`. */
  said(record: number, answer: Record<string, PropertyValue> = {}): Record<string, PropertyValue> {
    for (let at = 0; at < this.properties.length; at += 1) {
      const code = this.#codes[record * this.#width + 1 + at] as number;
      if (code === 0) continue;
      const { property, column } = this.properties[at] as FilledProperty;
      answer[property] = column.values[code] as Scalar;
    }
    if (this.#aside.size > 0) {
      for (const [property, value] of Object.entries(this.#aside.get(record) ?? {})) {
        answer[property] ??= value;
      }
    }
    return answer;
  }

  extraOf(record: number): Record<string, string> | undefined {
    const extra = this.#extra[record];
    if (extra === undefined) return undefined;
    const answer: Record<string, string> = {};
    for (const [header, text] of extra) {
      answer[header] = typeof text === "string" ? text : [...text].sort().join(" | ");
    }
    return answer;
  }
}

function enlarged(cells: Int32Array): Int32Array {
  const answer = new Int32Array(cells.length * 4);
  answer.set(cells);
  return answer;
}

const isSameDocument = (stored: unknown, said: PropertyValue): boolean =>
  typeof said === "object" && typeof stored === "object" && sortedText(stored) === sortedText(said);

/** A document as text that does not depend on the order in which its fields were written. */
const sortedText = (document: unknown): string =>
  JSON.stringify(document, (_name, value: unknown) =>
    typeof value === "object" && value !== null && !Array.isArray(value)
      ? Object.fromEntries(Object.entries(value).sort(([a], [b]) => (a < b ? -1 : 1)))
      : value,
  );

/** The values of `said` that differ from what is stored; undefined if none does. */
export function differing(
  said: Readonly<Record<string, PropertyValue>>,
  stored: Properties,
): Record<string, PropertyValue> | undefined {
  let answer: Record<string, PropertyValue> | undefined;
  for (const [property, value] of Object.entries(said)) {
    if (stored[property] === value || isSameDocument(stored[property], value)) continue;
    answer ??= {};
    answer[property] = value;
  }
  return answer;
}
