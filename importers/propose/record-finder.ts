import { joinKey, keyPiece } from "../../graph-schema/index.ts";
import { LockerFinder } from "./locker-finder.ts";
import { LotFinder } from "./lot-finder.ts";
import { Pairing } from "./pairing.ts";
import { type RecordTable, something } from "./record-table.ts";
import { RecordTables } from "./record-tables.ts";
import { Field, type FieldName, Fields, fieldTargets, RowCodes } from "./row-fields.ts";
import { RowMakers } from "./row-makers.ts";
import { absent, type Mention, type RowReaderOptions, type RowRefusal } from "./row-options.ts";

/**
 * Finds the records a row speaks of: which vessel, item, model, part, supplier, locker and lot. Look-ups go by the codes
 * of cells, so a name is brought to normal form once however many rows repeat it.
 */
export class RecordFinder extends RecordTables {
  /** Notices by code: how many rows, and the first. */
  readonly remarks = new Map<string, { count: number; row: number }>();
  /** Model of an item as rows have said, and the row that said so. */
  readonly modelOfItem: number[] = [];
  readonly #rowOfModel: number[] = [];

  protected readonly options: RowReaderOptions;
  protected readonly field: Readonly<Record<FieldName, Field | undefined>>;
  protected readonly codes: RowCodes;
  protected readonly partFacts: readonly Field[];
  protected readonly rowMakers: RowMakers;
  protected readonly lotFinder: LotFinder;
  readonly #lockerFinder: LockerFinder;
  readonly #defaultVessel: string | undefined;
  readonly #byVessel: number[] = [];
  readonly #bySupplier: number[] = [];
  readonly #byModel = new Pairing();
  readonly #byPart = new Pairing();
  readonly #byFunction = new Pairing();
  readonly #byItem = new Pairing();
  readonly #byLocker = new Pairing();
  protected readonly byTask = new Pairing();
  protected readonly positionCount = new Map<string, number>();

  /** Records of the row being read; the first `mentionCount` count. */
  readonly mentions: Mention[] = [];
  mentionCount = 0;
  /** The record that keeps the row's unmatched columns, if its table is known. */
  mainTable: RecordTable | undefined;
  mainRecord = absent;
  protected itemsOfRow: readonly number[] = [];
  protected modelOfRow = absent;

  constructor(options: RowReaderOptions) {
    const { graph, columns, kind } = options;
    const fields = new Fields(columns);
    super(graph, fields);
    this.options = options;
    this.field = Object.fromEntries(
      Object.entries(fieldTargets).map(([name, id]) => [name, fields.field(id)]),
    ) as Record<FieldName, Field | undefined>;
    this.codes = new RowCodes(this.field, options.rowCount);
    this.partFacts = [
      ...fields.filled("Part", ["partNumber", "maker"]),
      ...fields.filled("OFFERS"),
      ...fields.filled("USES"),
    ].map(({ header, column }) => new Field(header, column));
    this.rowMakers = new RowMakers(this, options, this.field, this.codes, (code, row) =>
      this.remark(code, row),
    );
    this.lotFinder = new LotFinder(this, fields);
    const onlyVessel =
      this.vessels.known.size === 1 ? [...this.vessels.known.values()][0] : undefined;
    this.#defaultVessel =
      options.vessel ??
      (onlyVessel === undefined ? undefined : String(onlyVessel.properties["name"]));
    this.#lockerFinder = new LockerFinder(this.lockers, this.vessels);
    if (kind === "lockers") this.#lockerFinder.learnNesting(this.#nesting());
  }

  /**
   * Compares the row read last with earlier ones: the mention that disagrees and the place of its property, or
   * undefined. Mentions that add nothing are dropped, so that `merge` passes them over.
   */
  compare(row: number): { mention: Mention; place: number } | undefined {
    let kept = 0;
    for (let at = 0; at < this.mentionCount; at += 1) {
      const mention = this.mentions[at] as Mention;
      const { table, record } = mention;
      const answer = table.compare(record, row);
      if (answer >= 0) return { mention, place: answer };
      if (answer !== something) continue;
      const free = this.mentions[kept] as Mention;
      free.table = table;
      free.record = record;
      kept += 1;
    }
    this.mentionCount = kept;
    return undefined;
  }

  /** Whether the row compared last says nothing that earlier rows have not said. */
  get addsNothing(): boolean {
    return this.mentionCount === 0;
  }

  /** Merges the row compared last. */
  merge(row: number): void {
    for (let at = 0; at < this.mentionCount; at += 1) {
      const { table, record } = this.mentions[at] as Mention;
      table.merge(record, row);
    }
    for (const item of this.itemsOfRow) {
      if (this.modelOfRow === absent || this.modelOfItem[item] !== undefined) continue;
      this.modelOfItem[item] = this.modelOfRow;
      this.#rowOfModel[item] = row;
    }
  }

  /** The row that disagrees with the row read last about which model an item is, if one does. */
  modelDisagreement(): { row: number; item: number } | undefined {
    for (const item of this.itemsOfRow) {
      const before = this.modelOfItem[item];
      if (before !== undefined && this.modelOfRow !== absent && before !== this.modelOfRow) {
        return { row: this.#rowOfModel[item] ?? 0, item };
      }
    }
    return undefined;
  }

  headerOf(name: FieldName): string | undefined {
    return this.field[name]?.header;
  }

  protected mention(table: RecordTable, record: number): void {
    const at = this.mentionCount;
    const before = this.mentions[at];
    if (before === undefined) this.mentions.push({ table, record });
    else {
      before.table = table;
      before.record = record;
    }
    this.mentionCount = at + 1;
  }

  protected keepRowWith(table: RecordTable, record: number): void {
    this.mainTable = table;
    this.mainRecord = record;
  }

  protected remark(code: string, row: number): void {
    const before = this.remarks.get(code);
    if (before) before.count += 1;
    else this.remarks.set(code, { count: 1, row });
  }

  protected code(name: FieldName, row: number): number {
    const field = this.field[name];
    return field === undefined ? 0 : field.code(row);
  }

  protected missing(name: FieldName, what: string): RowRefusal {
    return {
      code: "value-missing",
      column: this.field[name]?.header,
      rule: what,
      remedy: "Fill the cell in, or leave the row out.",
    };
  }

  /** The vessel of a row: named, else the file's, else the only one known; -1 if none. */
  protected vessel(row: number): number {
    const code = this.codes.vessel[row] as number;
    const before = this.#byVessel[code];
    if (before !== undefined) return before;
    const name = code === 0 ? this.#defaultVessel : this.field.vessel?.text(code);
    const node = name === undefined ? absent : this.vessels.node(keyPiece(name), name.trim(), []);
    this.#byVessel[code] = node;
    return node;
  }

  protected noVessel(what: string): RowRefusal {
    return {
      code: "value-missing",
      column: this.field.vessel?.header,
      rule: `${what} must name its vessel, since the graph does not hold exactly one`,
      remedy: this.field.vessel
        ? "Fill the cell in, give the vessel of the whole file (--vessel), or fill the column down (--fill-down) where cells were merged."
        : "Add a column with the vessel's name, or give the vessel of the whole file (--vessel).",
    };
  }

  protected model(row: number): number | RowRefusal {
    const code = this.codes.designation[row] as number;
    if (code === 0) return absent;
    const maker = this.rowMakers.named("maker", row);
    const before = this.#byModel.get(maker + 1, code);
    if (before !== absent) return before;
    const field = this.field.designation as Field;
    const owner = maker === absent ? this.rowMakers.found("model", row, field.text(code)) : maker;
    if (typeof owner !== "number") return owner;
    const key = joinKey(this.makers.key(owner), field.piece(code));
    const node = this.models.node(key, field.text(code), [this.makers.asOwner("MADE_BY", owner)]);
    this.#byModel.set(maker + 1, code, node);
    return node;
  }

  protected part(row: number): number | RowRefusal {
    const code = this.codes.partNumber[row] as number;
    if (code === 0) return absent;
    const own = this.rowMakers.named("partMaker", row);
    const maker = own === absent ? this.rowMakers.named("maker", row) : own;
    const before = this.#byPart.get(maker + 1, code);
    if (before !== absent) return before;
    const field = this.field.partNumber as Field;
    const owner = maker === absent ? this.rowMakers.found("part", row, field.text(code)) : maker;
    if (typeof owner !== "number") return owner;
    const key = joinKey(this.makers.key(owner), field.piece(code));
    const node = this.parts.node(key, field.text(code), [this.makers.asOwner("MADE_BY", owner)]);
    this.#byPart.set(maker + 1, code, node);
    return node;
  }

  protected supplier(row: number): number {
    const code = this.codes.supplier[row] as number;
    const before = this.#bySupplier[code];
    if (before !== undefined) return before;
    const name = code === 0 ? this.options.supplier : this.field.supplier?.text(code);
    if (name === undefined) return absent;
    const node = this.suppliers.node(keyPiece(name), name.trim(), []);
    this.#bySupplier[code] = node;
    return node;
  }

  protected function(row: number, vessel: number): number {
    const code = this.codes.function[row] as number;
    if (code === 0) return absent;
    const before = this.#byFunction.get(vessel, code);
    if (before !== absent) return before;
    const field = this.field.function as Field;
    const key = joinKey(this.vessels.key(vessel), field.piece(code));
    const node = this.functions.node(key, field.text(code), [
      this.vessels.asOwner("REQUIRED_ON", vessel),
    ]);
    this.#byFunction.set(vessel, code, node);
    return node;
  }

  protected itemAt(vessel: number, position: string): number {
    const key = joinKey(this.vessels.key(vessel), keyPiece(position));
    return this.items.node(key, position, [this.vessels.asOwner("FITTED_ON", vessel)]);
  }

  protected item(row: number, vessel: number): number {
    const code = this.codes.position[row] as number;
    if (code === 0) return absent;
    const before = this.#byItem.get(vessel, code);
    if (before !== absent) return before;
    const node = this.itemAt(vessel, this.field.position?.text(code) ?? "");
    this.#byItem.set(vessel, code, node);
    return node;
  }

  protected locker(row: number, vessel: number): number | RowRefusal {
    const code = this.codes.locker[row] as number;
    if (code === 0) return absent;
    const before = this.#byLocker.get(vessel, code);
    if (before !== absent) return before;
    const field = this.field.locker as Field;
    const found = this.#lockerFinder.find(vessel, field.text(code));
    if (typeof found !== "number") {
      return { code: "value-invalid", column: field.header, value: field.text(code), ...found };
    }
    this.#byLocker.set(vessel, code, found);
    return found;
  }

  /** Locker and the locker it is in, from every sound row of a list of lockers. */
  *#nesting(): Generator<readonly [vessel: number, name: string, within: string]> {
    const { locker, within } = this.field;
    if (locker === undefined || within === undefined) return;
    for (let row = 0; row < this.options.rowCount; row += 1) {
      const [name, outer] = [locker.code(row), within.code(row)];
      if (name === 0 || outer === 0 || this.options.isFaulty(row)) continue;
      const vessel = this.vessel(row);
      if (vessel !== absent) yield [vessel, locker.text(name), within.text(outer)];
    }
  }
}
