import { keyPiece } from "../../graph-schema/index.ts";
import type { CodedColumn } from "../columns/coded-column.ts";
import type { ReadColumns } from "../columns/read-columns.ts";
import { targets } from "../targets.ts";
import type { FilledProperty } from "./record-table.ts";

/** A matched column as the row reader uses it: codes, texts and their normal forms for keys. */
export class Field {
  readonly header: string;
  readonly column: CodedColumn;
  readonly #pieces: (string | undefined)[] = [];
  readonly #piecesByCode: (number | undefined)[] = [];
  readonly #pieceNumbers = new Map<string, number>();

  constructor(header: string, column: CodedColumn) {
    this.header = header;
    this.column = column;
  }

  code(row: number): number {
    return this.column.codes[row] as number;
  }

  text(code: number): string {
    return String(this.column.values[code]);
  }

  /** Normal form of a value as a piece of a key, worked out once per distinct value. */
  piece(code: number): string {
    const before = this.#pieces[code];
    if (before !== undefined) return before;
    const piece = keyPiece(this.text(code));
    this.#pieces[code] = piece;
    return piece;
  }

  /** A number for the value's normal form: values that are one in a key have one number; 0 is empty. */
  pieceNumber(code: number): number {
    if (code === 0) return 0;
    const before = this.#piecesByCode[code];
    if (before !== undefined) return before;
    const piece = this.piece(code);
    const number = this.#pieceNumbers.get(piece) ?? this.#pieceNumbers.size + 1;
    this.#pieceNumbers.set(piece, number);
    this.#piecesByCode[code] = number;
    return number;
  }
}

/** The matched columns of a file by target id. */
export class Fields {
  readonly #columns: ReadColumns;

  constructor(columns: ReadColumns) {
    this.#columns = columns;
  }

  field(target: string): Field | undefined {
    const column = this.#columns.byTarget.get(target);
    return column && new Field(this.#columns.headerOf.get(target) ?? target, column);
  }

  /** Properties of a label or type that columns fill, but for those named. */
  filled(owner: string, except: readonly string[] = []): FilledProperty[] {
    return [...this.#columns.byTarget].flatMap(([id, column]) => {
      const [label, property = ""] = id.split(".");
      const target = targets.get(id);
      if (label !== owner || except.includes(property) || !target || target.isOwn) return [];
      const header =
        this.#columns.headerOf.get(id) ?? this.#columns.headerOf.get("OFFERS.priceMinor");
      return [{ property, header: header ?? id, column, isText: target.kind === "text" }];
    });
  }
}

/** The columns by which rows are read, by a short name. */
export const fieldTargets = {
  vessel: "Vessel.name",
  maker: "Maker.name",
  partMaker: "Part.maker",
  designation: "Model.designation",
  partNumber: "Part.partNumber",
  position: "FittedItem.position",
  count: "FittedItem.count",
  function: "RequiredFunction.name",
  supplier: "Supplier.name",
  price: "OFFERS.priceMinor",
  locker: "Locker.name",
  within: "Locker.within",
  stock: "StockLot.quantity",
  usesQuantity: "USES.quantity",
  consumesQuantity: "CONSUMES.quantity",
  task: "ServiceTask.name",
  crossing: "Crossing.name",
  confidence: "INTERCHANGES_WITH.confidence",
  order: "Order.reference",
  placed: "Order.placed",
  expected: "Order.expected",
  ordered: "Order.quantity",
  currency: "OFFERS.currency",
  kitQuantity: "CONTAINS.quantity",
  legNumber: "Crossing.legNumber",
  legFrom: "Crossing.legFrom",
  legTo: "Crossing.legTo",
  legDays: "Crossing.legDays",
  legLongest: "Crossing.legLongest",
} as const;
export type FieldName = keyof typeof fieldTargets;

/**
 * Codes by row of the columns that every row of a long list is asked for; all empty where a column is missing. Fixed
 * fields, since a look-up by a name that varies costs more than all the rest of the question.
 */
export class RowCodes {
  readonly vessel: Uint32Array;
  readonly maker: Uint32Array;
  readonly partMaker: Uint32Array;
  readonly designation: Uint32Array;
  readonly partNumber: Uint32Array;
  readonly position: Uint32Array;
  readonly function: Uint32Array;
  readonly supplier: Uint32Array;
  readonly price: Uint32Array;
  readonly locker: Uint32Array;
  readonly stock: Uint32Array;
  readonly usesQuantity: Uint32Array;

  constructor(field: Readonly<Record<FieldName, Field | undefined>>, rowCount: number) {
    const none = new Uint32Array(rowCount);
    const of = (name: FieldName): Uint32Array => field[name]?.column.codes ?? none;
    this.vessel = of("vessel");
    this.maker = of("maker");
    this.partMaker = of("partMaker");
    this.designation = of("designation");
    this.partNumber = of("partNumber");
    this.position = of("position");
    this.function = of("function");
    this.supplier = of("supplier");
    this.price = of("price");
    this.locker = of("locker");
    this.stock = of("stock");
    this.usesQuantity = of("usesQuantity");
  }
}
