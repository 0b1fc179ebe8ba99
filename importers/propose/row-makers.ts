import { keyPiece } from "../../graph-schema/index.ts";
import { MakerFinder, unknownMaker } from "./maker-finder.ts";
import { Pairing } from "./pairing.ts";
import type { RecordTables } from "./record-tables.ts";
import type { Field, FieldName, RowCodes } from "./row-fields.ts";
import { absent, type RowReaderOptions, type RowRefusal } from "./row-options.ts";

type MakerAndNumber = readonly [makerKey: string, number: string];

/** Whose the models and parts of rows are: named by the row or for the file, else found by the number. */
export class RowMakers {
  /** Further pairs of maker and number that rows name. */
  alsoNamed: (ofParts: boolean) => Iterable<MakerAndNumber> = () => [];
  readonly #tables: RecordTables;
  readonly #options: RowReaderOptions;
  readonly #field: Readonly<Record<FieldName, Field | undefined>>;
  readonly #codes: RowCodes;
  readonly #remark: (code: string, row: number) => void;
  #modelMakers: MakerFinder | undefined;
  #partMakers: MakerFinder | undefined;
  readonly #byMaker: number[] = [];
  readonly #byPartMaker: number[] = [];

  constructor(
    tables: RecordTables,
    options: RowReaderOptions,
    field: Readonly<Record<FieldName, Field | undefined>>,
    codes: RowCodes,
    remark: (code: string, row: number) => void,
  ) {
    this.#tables = tables;
    this.#options = options;
    this.#field = field;
    this.#codes = codes;
    this.#remark = remark;
  }

  /** The maker a row names for a part or for gear; the file's where it names none. */
  named(name: "maker" | "partMaker", row: number): number {
    const code = (name === "maker" ? this.#codes.maker : this.#codes.partMaker)[row] as number;
    const { maker } = this.#options;
    if (code === 0) {
      if (maker === undefined || name === "partMaker") return absent;
      return this.#tables.makers.node(keyPiece(maker), maker.trim(), []);
    }
    const cache = name === "maker" ? this.#byMaker : this.#byPartMaker;
    const before = cache[code];
    if (before !== undefined) return before;
    const field = this.#field[name] as Field;
    const node = this.#tables.makers.node(field.piece(code), field.text(code), []);
    cache[code] = node;
    return node;
  }

  /** The maker a row leaves out, found by what it names; a refusal if several come into question. */
  found(what: "model" | "part", row: number, text: string): number | RowRefusal {
    const found = this.#finder(what).find(text);
    if (found.kind === "several") {
      const makers = found.makerKeys.map((key) => this.#makerNamed(key)).join(", ");
      return {
        code: "value-missing",
        column:
          this.#field[what === "part" ? "partMaker" : "maker"]?.header ?? this.#field.maker?.header,
        rule: `A ${what} must name its maker where several makers use the same number; "${text}" is made by ${makers}`,
        value: text,
        remedy: "Add the maker to the row.",
      };
    }
    if (found.kind === "unknown") {
      this.#remark(what === "part" ? "part-maker-unknown" : "model-maker-unknown", row);
      return this.#tables.makers.node(keyPiece(unknownMaker), unknownMaker, []);
    }
    const known = this.#tables.makers.known.get(found.makerKey);
    return this.#tables.makers.node(
      found.makerKey,
      String(known?.properties["name"] ?? found.makerKey),
      [],
    );
  }

  /** A maker's name as the graph or the file writes it. */
  #makerNamed(key: string): string {
    const known = this.#tables.makers.known.get(key)?.properties["name"];
    const inFile = this.#field.maker?.column.values.find((text) => keyPiece(String(text)) === key);
    return String(known ?? inFile ?? key);
  }

  #finder(what: "model" | "part"): MakerFinder {
    const before = what === "model" ? this.#modelMakers : this.#partMakers;
    if (before) return before;
    const isPart = what === "part";
    const finder = new MakerFinder(
      isPart ? this.#tables.parts : this.#tables.models,
      this.#allPairs(isPart),
    );
    if (isPart) this.#partMakers = finder;
    else this.#modelMakers = finder;
    return finder;
  }

  *#allPairs(ofParts: boolean): Generator<MakerAndNumber> {
    yield* this.#pairs(ofParts);
    yield* this.alsoNamed(ofParts);
  }

  /** Maker and number of every sound row that names both. */
  *#pairs(ofParts: boolean): Generator<MakerAndNumber> {
    const thing = this.#field[ofParts ? "partNumber" : "designation"];
    if (thing === undefined) return;
    const seen = new Pairing();
    for (let row = 0; row < this.#options.rowCount; row += 1) {
      const code = thing.code(row);
      if (code === 0 || this.#options.isFaulty(row)) continue;
      const own = ofParts ? (this.#codes.partMaker[row] as number) : 0;
      const makerCode = own === 0 ? (this.#codes.maker[row] as number) : own;
      const field = own === 0 ? this.#field.maker : this.#field.partMaker;
      if (makerCode === 0 || field === undefined) continue;
      const makerPair = makerCode * 2 + (own === 0 ? 0 : 1);
      if (seen.get(code, makerPair) !== absent) continue;
      seen.set(code, makerPair, 1);
      yield [field.piece(makerCode), thing.piece(code)];
    }
  }
}
