import { joinKey, keyPiece, type NodeId } from "../../graph-schema/index.ts";
import { linkKey } from "../change-set.ts";
import type { LinkTable } from "./link-table.ts";
import { RecordFinder } from "./record-finder.ts";
import { type Field, Fields } from "./row-fields.ts";
import { absent, type RowReaderOptions, type RowRefusal } from "./row-options.ts";

type OtherFields = readonly [part: string, maker: string, words: string];

/** Any list of parts may say by what a part was replaced. */
const replacing: OtherFields = [
  "SUPERSEDED_BY.newPart",
  "SUPERSEDED_BY.newMaker",
  "SUPERSEDED_BY.newDescription",
];

/** The fields of the second part of a row that names two, by the kind of list. */
const otherFields: Readonly<Record<string, OtherFields>> = {
  interchange: [
    "INTERCHANGES_WITH.otherPart",
    "INTERCHANGES_WITH.otherMaker",
    "INTERCHANGES_WITH.otherDescription",
  ],
  kits: ["CONTAINS.kit", "CONTAINS.kitMaker", "CONTAINS.kitDescription"],
};

/** Reads the rows that tie two parts together: interchange, supersession, contents of service kits. */
export class PairReader extends RecordFinder {
  /** What the row being read adds besides its columns' own values; done when it is merged. */
  protected readonly pending: ((row: number) => void)[] = [];
  readonly #otherPart: Field | undefined;
  readonly #otherMaker: Field | undefined;
  readonly #otherWords: Field | undefined;
  /** What rows have said a second part is, and the row that said so. */
  readonly #words = new Map<number, { text: string; row: number }>();
  /** Which parts each part leads to, by relationship, in the graph and in the rows merged. */
  readonly #next = new Map<LinkTable, Map<NodeId, NodeId[]>>();

  constructor(options: RowReaderOptions) {
    super(options);
    const fields = new Fields(options.columns);
    const [part, maker, words] = otherFields[options.kind] ?? replacing;
    this.#otherPart = fields.field(part);
    this.#otherMaker = fields.field(maker);
    this.#otherWords = fields.field(words);
    this.rowMakers.alsoNamed = (ofParts) => this.#namedOthers(ofParts);
  }

  override merge(row: number): void {
    super.merge(row);
    for (const addition of this.pending) addition(row);
  }

  protected readPairRow(row: number): RowRefusal | undefined {
    const part = this.part(row);
    if (typeof part !== "number") return part;
    if (part === absent) return this.missing("partNumber", "Each row must name two parts");
    this.mention(this.parts, part);
    return this.#tie(row, part);
  }

  /** Reads what a row of another kind of list says its part was replaced by, if it does. */
  protected readReplacing(row: number, part: number): RowRefusal | undefined {
    const code = this.#otherPart?.code(row) ?? 0;
    if (code === 0) return undefined;
    const { mainTable, mainRecord } = this;
    const refusal = this.#tie(row, part);
    // The row's columns nobody interprets stay with what the row is about.
    if (mainTable !== undefined) this.keepRowWith(mainTable, mainRecord);
    return refusal;
  }

  #tie(row: number, part: number): RowRefusal | undefined {
    const { kind } = this.options;
    const other = this.#other(row, part);
    if (typeof other !== "number") return other;
    if (part === other) return this.#notItself(row);
    // Not mentioned: the columns of the row describe the first part.
    this.pending.push(() => this.parts.touch(other));
    const refusal = this.#readWords(row, other);
    if (refusal) return refusal;
    if (kind === "interchange") {
      const link = this.#interchange(part, other);
      this.mention(this.interchanges, link);
      this.keepRowWith(this.interchanges, link);
      if (this.code("confidence", row) === 0) this.remark("confidence-unstated", row);
      return undefined;
    }
    const [table, from, to] =
      kind === "kits" ? [this.contains, other, part] : [this.supersedes, part, other];
    if (this.#leadsTo(table, this.parts.id(to), this.parts.id(from))) return this.#circle(row);
    if (kind === "kits" && this.code("kitQuantity", row) === 0) {
      if (this.field.kitQuantity) {
        return this.missing("kitQuantity", "A part in a service kit must have its quantity");
      }
      this.remark("quantity-presumed", row);
    }
    const link = table.link(from, to);
    this.mention(table, link);
    this.keepRowWith(table, link);
    this.pending.push(() => {
      const next = this.#nextIn(table);
      const [start, end] = [this.parts.id(from), this.parts.id(to)];
      next.set(start, [...(next.get(start) ?? []), end]);
    });
    return undefined;
  }

  /** The second part: of the maker the row names for it, else as the kind of list has it. */
  #other(row: number, part: number): number | RowRefusal {
    const field = this.#otherPart;
    const code = field?.code(row) ?? 0;
    if (field === undefined || code === 0) {
      return {
        code: "value-missing",
        column: field?.header,
        rule: "Each row must name two parts",
        remedy: "Fill the cell in, or leave the row out.",
      };
    }
    const maker = this.#makerOfOther(row, part, field.text(code));
    if (typeof maker !== "number") return maker;
    const key = joinKey(this.makers.key(maker), field.piece(code));
    return this.parts.node(key, field.text(code), [this.makers.asOwner("MADE_BY", maker)]);
  }

  #makerOfOther(row: number, part: number, number: string): number | RowRefusal {
    const field = this.#otherMaker;
    const code = field?.code(row) ?? 0;
    if (field !== undefined && code !== 0) {
      return this.makers.node(field.piece(code), field.text(code), []);
    }
    // A maker replaces his own parts and packs his own kits; another make is the point of an interchange.
    if (this.options.kind === "interchange") return this.rowMakers.found("part", row, number);
    return this.parts.ownersOf(part)[0]?.node ?? absent;
  }

  /** Maker and number of every second part whose maker a row names. */
  *#namedOthers(ofParts: boolean): Generator<readonly [string, string]> {
    const [part, maker] = [this.#otherPart, this.#otherMaker];
    if (!ofParts || part === undefined || maker === undefined) return;
    for (let row = 0; row < this.options.rowCount; row += 1) {
      const [number, by] = [part.code(row), maker.code(row)];
      if (number !== 0 && by !== 0) yield [maker.piece(by), part.piece(number)];
    }
  }

  /** Notes what the row says the second part is; a refusal if an earlier row says otherwise. */
  #readWords(row: number, other: number): RowRefusal | undefined {
    const field = this.#otherWords;
    const code = field?.code(row) ?? 0;
    if (field === undefined || code === 0) return undefined;
    const text = field.text(code);
    const before = this.#words.get(other);
    if (before === undefined) {
      this.pending.push((of) => {
        this.#words.set(other, { text, row: of });
        this.parts.sayAside(other, "description", text);
      });
      return undefined;
    }
    if (keyPiece(before.text) === keyPiece(text)) return undefined;
    this.parts.conflicts += 1;
    const line = this.options.lineOf(before.row);
    return {
      code: "rows-disagree",
      column: field.header,
      rule: `Rows about the same part (${this.parts.names[other]}) must agree; line ${line} says ${before.text}`,
      value: text,
      remedy: `Correct line ${line} or this one.`,
    };
  }

  /** The link of a pair either way round: as the graph has it, else from the lesser key to the greater. */
  #interchange(a: number, b: number): number {
    const { parts, interchanges } = this;
    const [idA, idB] = [parts.records[a]?.id, parts.records[b]?.id];
    if (idA !== undefined && idB !== undefined) {
      if (interchanges.known.has(linkKey(idA, idB))) return interchanges.link(a, b);
      if (interchanges.known.has(linkKey(idB, idA))) return interchanges.link(b, a);
    }
    return parts.key(a) < parts.key(b) ? interchanges.link(a, b) : interchanges.link(b, a);
  }

  #nextIn(table: LinkTable): Map<NodeId, NodeId[]> {
    let next = this.#next.get(table);
    if (next === undefined) {
      next = new Map();
      for (const { from, to } of table.known.values()) {
        next.set(from, [...(next.get(from) ?? []), to]);
      }
      this.#next.set(table, next);
    }
    return next;
  }

  /** Whether a way along the relationships leads from one part to another. O(links on the way). */
  #leadsTo(table: LinkTable, from: NodeId, to: NodeId): boolean {
    const next = this.#nextIn(table);
    const reached = new Set([from]);
    for (const at of reached) {
      if (at === to) return true;
      for (const further of next.get(at) ?? []) reached.add(further);
    }
    return false;
  }

  #notItself(row: number): RowRefusal {
    return {
      code: "value-invalid",
      column: this.#otherPart?.header,
      rule: "The two parts of a row must differ; both are the same part of the same maker",
      value: this.#otherPart?.text(this.#otherPart.code(row)) ?? "",
      remedy: "Correct one of the numbers, or name the other maker.",
    };
  }

  #circle(row: number): RowRefusal {
    const value = this.#otherPart?.text(this.#otherPart.code(row)) ?? "";
    return this.options.kind === "kits"
      ? {
          code: "value-invalid",
          column: this.#otherPart?.header,
          rule: "A service kit must not contain itself, directly or through other kits",
          value,
          remedy: "Check which of the two is the kit.",
        }
      : {
          code: "value-invalid",
          column: this.#otherPart?.header,
          rule: "A part must not be replaced, directly or through others, by a part it has itself replaced",
          value,
          remedy: "Check which of the two is the newer; parts that serve both ways interchange.",
        };
  }
}
