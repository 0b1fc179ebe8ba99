import { joinKey, keyPiece, keySeparator } from "../../graph-schema/index.ts";
import type { KnownGraph } from "../change-set.ts";
import type { ReadColumns } from "../columns/read-columns.ts";
import type { ListKindName } from "../list-kinds.ts";
import type { RowFault } from "../row-fault.ts";
import { LinkTable } from "./link-table.ts";
import { LockerFinder } from "./locker-finder.ts";
import { MakerFinder, unknownMaker } from "./maker-finder.ts";
import { NodeTable, type Owner } from "./node-table.ts";
import { Pairing } from "./pairing.ts";
import { type RecordTable, something } from "./record-table.ts";
import { Field, Fields } from "./row-fields.ts";

export interface RowReaderOptions {
  readonly kind: ListKindName;
  readonly graph: KnownGraph;
  readonly columns: ReadColumns;
  readonly rowCount: number;
  /** Vessel of rows that name none. */
  readonly vessel: string | undefined;
  readonly isFaulty: (row: number) => boolean;
}

/** What is wrong with a row as a whole; line and value are added by the caller. */
export type RowRefusal = Omit<RowFault, "line" | "value"> & { readonly value?: string };

/** One record a row speaks of. */
interface Mention {
  table: RecordTable;
  record: number;
}

const absent = -1;

/**
 * Reads rows into records: which vessel, item, model, part, offer and lot a row speaks of. Look-ups go by the codes
 * of cells, so a name is brought to normal form once however many rows repeat it.
 */
export class RowReader {
  readonly vessels: NodeTable;
  readonly makers: NodeTable;
  readonly models: NodeTable;
  readonly parts: NodeTable;
  readonly functions: NodeTable;
  readonly items: NodeTable;
  readonly suppliers: NodeTable;
  readonly lockers: NodeTable;
  readonly lots: NodeTable;
  readonly tasks: NodeTable;
  readonly crossings: NodeTable;
  readonly isModel: LinkTable;
  readonly serves: LinkTable;
  readonly uses: LinkTable;
  readonly offers: LinkTable;
  readonly consumes: LinkTable;
  readonly serviced: LinkTable;
  readonly sailedBy: LinkTable;
  /** Notices by code: how many rows, and the first. */
  readonly remarks = new Map<string, { count: number; row: number }>();
  /** Model of an item as rows have said, and the row that said so. */
  readonly modelOfItem: number[] = [];
  readonly #rowOfModel: number[] = [];

  readonly #options: RowReaderOptions;
  readonly #field: Readonly<Record<FieldName, Field | undefined>>;
  readonly #lotFields: readonly (Field | undefined)[];
  readonly #partFacts: readonly Field[];
  readonly #lockerFinder: LockerFinder;
  readonly #defaultVessel: string | undefined;
  #modelMakers: MakerFinder | undefined;
  #partMakers: MakerFinder | undefined;
  readonly #byVessel: number[] = [];
  readonly #byMaker: number[] = [];
  readonly #byPartMaker: number[] = [];
  readonly #bySupplier: number[] = [];
  readonly #byModel = new Pairing();
  readonly #byPart = new Pairing();
  readonly #byFunction = new Pairing();
  readonly #byItem = new Pairing();
  readonly #byLocker = new Pairing();
  readonly #byTask = new Pairing();
  readonly #rowOfLot: number[] = [];
  readonly #byLot: (number | undefined)[] = [];
  readonly #lotPairs = Array.from({ length: 6 }, () => new Pairing());
  readonly #positionCount = new Map<string, number>();

  /** Records of the row being read; the first `mentionCount` count. */
  readonly mentions: Mention[] = [];
  mentionCount = 0;
  /** The record that keeps the row's unmatched columns. */
  main: Mention | undefined;
  #itemsOfRow: number[] = [];
  #modelOfRow = absent;

  constructor(options: RowReaderOptions) {
    this.#options = options;
    const { graph, columns, kind } = options;
    const fields = new Fields(columns);
    this.#field = Object.fromEntries(
      Object.entries(fieldTargets).map(([name, id]) => [name, fields.field(id)]),
    ) as Record<FieldName, Field | undefined>;
    const lotKey = ["lotCode", "expires", "made", "condition"];
    this.#lotFields = lotKey.map((property) => fields.field(`StockLot.${property}`));
    this.#partFacts = [
      ...fields.filled("Part", ["partNumber", "maker"]),
      ...fields.filled("OFFERS"),
      ...fields.filled("USES"),
    ].map(({ header, column }) => new Field(header, column));
    this.vessels = new NodeTable("Vessel", graph, fields.filled("Vessel", ["name"]));
    this.makers = new NodeTable("Maker", graph, []);
    this.models = new NodeTable("Model", graph, fields.filled("Model", ["designation"]));
    this.parts = new NodeTable("Part", graph, fields.filled("Part", ["partNumber", "maker"]));
    this.functions = new NodeTable(
      "RequiredFunction",
      graph,
      fields.filled("RequiredFunction", ["name"]),
    );
    this.items = new NodeTable(
      "FittedItem",
      graph,
      fields.filled("FittedItem", ["position", "count"]),
    );
    this.suppliers = new NodeTable("Supplier", graph, fields.filled("Supplier", ["name"]));
    this.lockers = new NodeTable("Locker", graph, fields.filled("Locker", ["name", "within"]));
    this.lots = new NodeTable("StockLot", graph, fields.filled("StockLot"));
    this.lots.makeKey = (lot) => this.#lotKey(lot);
    this.tasks = new NodeTable(
      "ServiceTask",
      graph,
      fields.filled("ServiceTask", ["name", "interval"]),
    );
    this.crossings = new NodeTable("Crossing", graph, fields.filled("Crossing", ["name"]));
    const link = (type: LinkTable["type"], from: NodeTable, to: NodeTable): LinkTable =>
      new LinkTable(type, from, to, graph, fields.filled(type));
    this.isModel = link("IS_MODEL", this.items, this.models);
    this.serves = link("SERVES", this.items, this.functions);
    this.uses = link("USES", this.models, this.parts);
    this.offers = link("OFFERS", this.suppliers, this.parts);
    this.consumes = link("CONSUMES", this.tasks, this.parts);
    this.serviced = link("SERVICED", this.items, this.tasks);
    this.sailedBy = link("SAILED_BY", this.crossings, this.vessels);
    const onlyVessel =
      this.vessels.known.size === 1 ? [...this.vessels.known.values()][0] : undefined;
    this.#defaultVessel =
      options.vessel ??
      (onlyVessel === undefined ? undefined : String(onlyVessel.properties["name"]));
    this.#lockerFinder = new LockerFinder(this.lockers, this.vessels);
    if (kind === "lockers") this.#lockerFinder.learnNesting(this.#nesting());
  }

  /** Every table of nodes, owners before what hangs on them. */
  get nodeTables(): readonly NodeTable[] {
    return [
      this.vessels,
      this.makers,
      this.models,
      this.parts,
      this.functions,
      this.items,
      this.suppliers,
      this.lockers,
      this.lots,
      this.tasks,
      this.crossings,
    ];
  }

  get linkTables(): readonly LinkTable[] {
    return [this.serves, this.uses, this.offers, this.consumes, this.serviced, this.sailedBy];
  }

  /** Reads a row into `mentions`; a refusal if something it needs is missing. Nothing is merged yet. */
  read(row: number): RowRefusal | undefined {
    this.mentionCount = 0;
    this.main = undefined;
    this.#itemsOfRow = [];
    this.#modelOfRow = absent;
    switch (this.#options.kind) {
      case "suppliers":
        return this.#readSupplierRow(row);
      case "functions":
        return this.#readFunctionRow(row);
      case "lockers":
        return this.#readLockerRow(row);
      case "crossings":
        return this.#readCrossingRow(row);
      case "services":
        return this.#readServiceRow(row);
      default:
        return this.#readGearAndParts(row);
    }
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

  /** Merges the row compared last. */
  merge(row: number): void {
    for (let at = 0; at < this.mentionCount; at += 1) {
      const { table, record } = this.mentions[at] as Mention;
      table.merge(record, row);
    }
    for (const item of this.#itemsOfRow) {
      if (this.#modelOfRow === absent || this.modelOfItem[item] !== undefined) continue;
      this.modelOfItem[item] = this.#modelOfRow;
      this.#rowOfModel[item] = row;
    }
  }

  /** The row that disagrees with the row read last about which model an item is, if one does. */
  modelDisagreement(): { row: number; item: number } | undefined {
    for (const item of this.#itemsOfRow) {
      const before = this.modelOfItem[item];
      if (before !== undefined && this.#modelOfRow !== absent && before !== this.#modelOfRow) {
        return { row: this.#rowOfModel[item] ?? 0, item };
      }
    }
    return undefined;
  }

  headerOf(name: FieldName): string | undefined {
    return this.#field[name]?.header;
  }

  #mention(table: RecordTable, record: number): void {
    const at = this.mentionCount;
    const before = this.mentions[at];
    if (before === undefined) this.mentions.push({ table, record });
    else {
      before.table = table;
      before.record = record;
    }
    this.mentionCount = at + 1;
  }

  #keepRowWith(table: RecordTable, record: number): void {
    this.main = { table, record };
  }

  #remark(code: string, row: number): void {
    const before = this.remarks.get(code);
    if (before) before.count += 1;
    else this.remarks.set(code, { count: 1, row });
  }

  #code(name: FieldName, row: number): number {
    const field = this.#field[name];
    return field === undefined ? 0 : field.code(row);
  }

  #missing(name: FieldName, what: string): RowRefusal {
    return {
      code: "value-missing",
      column: this.#field[name]?.header,
      rule: what,
      remedy: "Fill the cell in, or leave the row out.",
    };
  }

  /** The vessel of a row: named, else the file's, else the only one known; -1 if none. */
  #vessel(row: number): number {
    const code = this.#code("vessel", row);
    const before = this.#byVessel[code];
    if (before !== undefined) return before;
    const name = code === 0 ? this.#defaultVessel : this.#field.vessel?.text(code);
    const node = name === undefined ? absent : this.vessels.node(keyPiece(name), name.trim(), []);
    this.#byVessel[code] = node;
    return node;
  }

  #noVessel(what: string): RowRefusal {
    return {
      code: "value-missing",
      column: this.#field.vessel?.header,
      rule: `${what} must name its vessel, since the graph does not hold exactly one`,
      remedy: "Add a column with the vessel's name, or give the vessel of the whole file.",
    };
  }

  #maker(name: "maker" | "partMaker", row: number): number {
    const code = this.#code(name, row);
    if (code === 0) return absent;
    const cache = name === "maker" ? this.#byMaker : this.#byPartMaker;
    const before = cache[code];
    if (before !== undefined) return before;
    const field = this.#field[name] as Field;
    const node = this.makers.node(field.piece(code), field.text(code), []);
    cache[code] = node;
    return node;
  }

  /** The maker a row leaves out, found by what it names; a refusal if several come into question. */
  #foundMaker(what: "model" | "part", row: number, text: string): number | RowRefusal {
    const found = this.#finder(what).find(text);
    if (found.kind === "several") {
      const makers = found.makerKeys
        .map((key) => this.makers.known.get(key)?.properties["name"] ?? key)
        .join(", ");
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
      return this.makers.node(keyPiece(unknownMaker), unknownMaker, []);
    }
    const known = this.makers.known.get(found.makerKey);
    return this.makers.node(
      found.makerKey,
      String(known?.properties["name"] ?? found.makerKey),
      [],
    );
  }

  #finder(what: "model" | "part"): MakerFinder {
    const before = what === "model" ? this.#modelMakers : this.#partMakers;
    if (before) return before;
    const isPart = what === "part";
    const finder = new MakerFinder(isPart ? this.parts : this.models, this.#namedMakers(isPart));
    if (isPart) this.#partMakers = finder;
    else this.#modelMakers = finder;
    return finder;
  }

  /** Maker and number of every sound row that names both. */
  *#namedMakers(ofParts: boolean): Generator<readonly [string, string]> {
    const thing = this.#field[ofParts ? "partNumber" : "designation"];
    if (thing === undefined) return;
    const seen = new Pairing();
    for (let row = 0; row < this.#options.rowCount; row += 1) {
      const code = thing.code(row);
      if (code === 0 || this.#options.isFaulty(row)) continue;
      const own = ofParts ? this.#code("partMaker", row) : 0;
      const makerCode = own === 0 ? this.#code("maker", row) : own;
      const field = own === 0 ? this.#field.maker : this.#field.partMaker;
      if (makerCode === 0 || field === undefined) continue;
      const makerPair = makerCode * 2 + (own === 0 ? 0 : 1);
      if (seen.get(code, makerPair) !== absent) continue;
      seen.set(code, makerPair, 1);
      yield [field.piece(makerCode), thing.piece(code)];
    }
  }

  #model(row: number): number | RowRefusal {
    const code = this.#code("designation", row);
    if (code === 0) return absent;
    const maker = this.#maker("maker", row);
    const before = this.#byModel.get(maker + 1, code);
    if (before !== absent) return before;
    const field = this.#field.designation as Field;
    const owner = maker === absent ? this.#foundMaker("model", row, field.text(code)) : maker;
    if (typeof owner !== "number") return owner;
    const key = joinKey(this.makers.key(owner), field.piece(code));
    const node = this.models.node(key, field.text(code), [this.makers.asOwner("MADE_BY", owner)]);
    this.#byModel.set(maker + 1, code, node);
    return node;
  }

  #part(row: number): number | RowRefusal {
    const code = this.#code("partNumber", row);
    if (code === 0) return absent;
    const own = this.#maker("partMaker", row);
    const maker = own === absent ? this.#maker("maker", row) : own;
    const before = this.#byPart.get(maker + 1, code);
    if (before !== absent) return before;
    const field = this.#field.partNumber as Field;
    const owner = maker === absent ? this.#foundMaker("part", row, field.text(code)) : maker;
    if (typeof owner !== "number") return owner;
    const key = joinKey(this.makers.key(owner), field.piece(code));
    const node = this.parts.node(key, field.text(code), [this.makers.asOwner("MADE_BY", owner)]);
    this.#byPart.set(maker + 1, code, node);
    return node;
  }

  #supplier(row: number): number {
    const code = this.#code("supplier", row);
    if (code === 0) return absent;
    const before = this.#bySupplier[code];
    if (before !== undefined) return before;
    const field = this.#field.supplier as Field;
    const node = this.suppliers.node(field.piece(code), field.text(code), []);
    this.#bySupplier[code] = node;
    return node;
  }

  #function(row: number, vessel: number): number {
    const code = this.#code("function", row);
    if (code === 0) return absent;
    const before = this.#byFunction.get(vessel, code);
    if (before !== absent) return before;
    const field = this.#field.function as Field;
    const key = joinKey(this.vessels.key(vessel), field.piece(code));
    const node = this.functions.node(key, field.text(code), [
      this.vessels.asOwner("REQUIRED_ON", vessel),
    ]);
    this.#byFunction.set(vessel, code, node);
    return node;
  }

  #itemAt(vessel: number, position: string): number {
    const key = joinKey(this.vessels.key(vessel), keyPiece(position));
    return this.items.node(key, position, [this.vessels.asOwner("FITTED_ON", vessel)]);
  }

  #item(row: number, vessel: number): number {
    const code = this.#code("position", row);
    if (code === 0) return absent;
    const before = this.#byItem.get(vessel, code);
    if (before !== absent) return before;
    const node = this.#itemAt(vessel, this.#field.position?.text(code) ?? "");
    this.#byItem.set(vessel, code, node);
    return node;
  }

  #locker(row: number, vessel: number): number | RowRefusal {
    const code = this.#code("locker", row);
    if (code === 0) return absent;
    const before = this.#byLocker.get(vessel, code);
    if (before !== absent) return before;
    const field = this.#field.locker as Field;
    const found = this.#lockerFinder.find(vessel, field.text(code));
    if (typeof found !== "number") {
      return { code: "value-invalid", column: field.header, value: field.text(code), ...found };
    }
    this.#byLocker.set(vessel, code, found);
    return found;
  }

  #lot(row: number, part: number, place: Owner): number {
    const isLocker = place.table === this.lockers;
    let number = this.#lotPairs[0]?.number(place.node * 2 + (isLocker ? 1 : 0), part) ?? 0;
    for (let at = 0; at < this.#lotFields.length; at += 1) {
      const field = this.#lotFields[at];
      if (field !== undefined)
        number = this.#lotPairs[at + 1]?.number(number, field.pieceNumber(field.code(row))) ?? 0;
    }
    const before = this.#byLot[number];
    if (before !== undefined) return before;
    this.#rowOfLot.push(row);
    const node = this.lots.nodeApart(undefined, "", [place, this.parts.asOwner("LOT_OF", part)]);
    this.#byLot[number] = node;
    return node;
  }

  /** The key of a lot: where it is, of which part, and what else tells it apart on the row that first named it. */
  #lotKey(lot: number): string {
    const row = this.#rowOfLot[lot] ?? 0;
    const owners = this.lots.owners[lot] ?? [];
    const pieces = this.#lotFields.map((field) => {
      const code = field?.code(row) ?? 0;
      return field === undefined || code === 0 ? "" : field.piece(code);
    });
    return joinKey(...owners.map(({ table, node }) => table.key(node)), ...pieces);
  }

  #readGearAndParts(row: number): RowRefusal | undefined {
    const { kind } = this.#options;
    const model = this.#model(row);
    if (typeof model !== "number") return model;
    const part = this.#part(row);
    if (typeof part !== "number") return part;
    if (part === absent && kind !== "gear") {
      const saysMore = this.#partFacts.some((field) => field.code(row) !== 0);
      if (kind !== "flat" || saysMore || model === absent) {
        return this.#missing("partNumber", "A part must have its maker's part number");
      }
    }
    if (model === absent && (kind === "gear" || kind === "parts")) {
      return this.#missing("designation", "A row of this list must name a model");
    }
    const vessel = this.#vessel(row);
    if (model !== absent) {
      this.#mention(this.models, model);
      this.#keepRowWith(this.models, model);
    }
    if (kind === "gear" || kind === "flat") {
      const refusal = this.#readItems(row, vessel, model);
      if (refusal) return refusal;
    }
    if (part !== absent) {
      this.#mention(this.parts, part);
      this.#keepRowWith(this.parts, part);
    }
    const refusal = this.#readOfferAndStock(row, vessel, part);
    if (refusal) return refusal;
    if (model !== absent && part !== absent) {
      const link = this.uses.link(model, part);
      if (this.#code("usesQuantity", row) === 0) {
        if (this.#field.usesQuantity) {
          return this.#missing("usesQuantity", "A part that a model takes must have its quantity");
        }
        this.#remark("quantity-presumed", row);
      }
      this.#mention(this.uses, link);
      this.#keepRowWith(this.uses, link);
    } else if (kind === "flat" && this.#field.designation && part !== absent) {
      this.#remark("model-absent", row);
    }
    return undefined;
  }

  #readItems(row: number, vessel: number, model: number): RowRefusal | undefined {
    const isGear = this.#options.kind === "gear";
    const hasPosition = this.#code("position", row) !== 0;
    const functionCode = this.#code("function", row);
    if (!isGear && !hasPosition) {
      if (model !== absent && this.#field.position) this.#remark("position-absent", row);
      if (functionCode === 0) return undefined;
    }
    if (vessel === absent) return this.#noVessel("Gear that is fitted");
    this.#mention(this.vessels, vessel);
    const duty = this.#function(row, vessel);
    if (duty !== absent) this.#mention(this.functions, duty);
    if (!isGear && !hasPosition) return undefined;
    if (model === absent) {
      return this.#missing("designation", "Gear that is fitted must name its model");
    }
    this.#modelOfRow = model;
    this.#itemsOfRow = isGear ? this.#gearItems(row, vessel) : [this.#item(row, vessel)];
    for (const item of this.#itemsOfRow) {
      this.#mention(this.items, item);
      this.#keepRowWith(this.items, item);
      if (duty !== absent) this.#mention(this.serves, this.serves.link(item, duty));
    }
    return undefined;
  }

  /** The items a row of a gear list stands for: one, or as many as its count says, numbered. */
  #gearItems(row: number, vessel: number): number[] {
    const countCode = this.#code("count", row);
    const count = countCode === 0 ? 1 : Number(this.#field.count?.text(countCode) ?? 1);
    const positionCode = this.#code("position", row);
    if (positionCode !== 0) {
      if (count === 1) return [this.#item(row, vessel)];
      this.#remark("items-numbered", row);
      const position = this.#field.position?.text(positionCode) ?? "";
      return Array.from({ length: count }, (_, at) =>
        this.#itemAt(vessel, `${position} ${at + 1}`),
      );
    }
    this.#remark("position-from-model", row);
    const designation = this.#field.designation?.text(this.#code("designation", row)) ?? "";
    const counter = `${vessel}${keySeparator}${keyPiece(designation)}`;
    return Array.from({ length: count }, () => {
      const number = (this.#positionCount.get(counter) ?? 0) + 1;
      this.#positionCount.set(counter, number);
      return this.#itemAt(vessel, number === 1 ? designation : `${designation} ${number}`);
    });
  }

  #readOfferAndStock(row: number, vessel: number, part: number): RowRefusal | undefined {
    const supplier = this.#supplier(row);
    if (supplier !== absent) {
      this.#mention(this.suppliers, supplier);
      if (part !== absent) {
        const offer = this.offers.link(supplier, part);
        this.#mention(this.offers, offer);
        this.#keepRowWith(this.offers, offer);
      }
    } else if (this.#options.kind === "offers") {
      return this.#missing("supplier", "An offer must name its supplier");
    } else if (this.#code("price", row) !== 0) {
      return this.#missing("supplier", "A price must name the supplier who asks it");
    }
    const quantity = this.#code("stock", row);
    const isStock = this.#options.kind === "stock";
    if (quantity === 0) {
      return isStock ? this.#missing("stock", "Stock must have its quantity") : undefined;
    }
    if (part === absent) return this.#missing("partNumber", "Stock must name its part");
    const hasLocker = this.#code("locker", row) !== 0;
    if (!isStock && !hasLocker && this.#field.stock?.text(quantity) === "0") return undefined;
    if (vessel === absent) return this.#noVessel("Stock");
    const locker = this.#locker(row, vessel);
    if (typeof locker !== "number") return locker;
    this.#mention(this.vessels, vessel);
    if (locker !== absent) this.#mention(this.lockers, locker);
    const place: Owner =
      locker === absent
        ? this.vessels.asOwner("STOWED_IN", vessel)
        : this.lockers.asOwner("STOWED_IN", locker);
    const lot = this.#lot(row, part, place);
    this.#mention(this.lots, lot);
    this.#keepRowWith(this.lots, lot);
    return undefined;
  }

  #readSupplierRow(row: number): RowRefusal | undefined {
    const supplier = this.#supplier(row);
    if (supplier === absent) return this.#missing("supplier", "A supplier must have a name");
    this.#mention(this.suppliers, supplier);
    this.#keepRowWith(this.suppliers, supplier);
    return undefined;
  }

  #readFunctionRow(row: number): RowRefusal | undefined {
    if (this.#code("function", row) === 0) {
      return this.#missing("function", "A required function must have a name");
    }
    const vessel = this.#vessel(row);
    if (vessel === absent) return this.#noVessel("A required function");
    const duty = this.#function(row, vessel);
    this.#mention(this.vessels, vessel);
    this.#mention(this.functions, duty);
    this.#keepRowWith(this.functions, duty);
    return undefined;
  }

  #readLockerRow(row: number): RowRefusal | undefined {
    if (this.#code("locker", row) === 0)
      return this.#missing("locker", "A locker must have a name");
    const vessel = this.#vessel(row);
    if (vessel === absent) return this.#noVessel("A locker");
    const locker = this.#locker(row, vessel);
    if (typeof locker !== "number") return locker;
    this.#mention(this.vessels, vessel);
    this.#mention(this.lockers, locker);
    this.#keepRowWith(this.lockers, locker);
    return undefined;
  }

  /** Locker and the locker it is in, from every sound row of a list of lockers. */
  *#nesting(): Generator<readonly [vessel: number, name: string, within: string]> {
    const { locker, within } = this.#field;
    if (locker === undefined || within === undefined) return;
    for (let row = 0; row < this.#options.rowCount; row += 1) {
      const [name, outer] = [locker.code(row), within.code(row)];
      if (name === 0 || outer === 0 || this.#options.isFaulty(row)) continue;
      const vessel = this.#vessel(row);
      if (vessel !== absent) yield [vessel, locker.text(name), within.text(outer)];
    }
  }

  #readCrossingRow(row: number): RowRefusal | undefined {
    const field = this.#field.crossing;
    const code = this.#code("crossing", row);
    if (field === undefined || code === 0) {
      return this.#missing("crossing", "A crossing must have a name");
    }
    const crossing = this.crossings.node(field.piece(code), field.text(code), []);
    this.#mention(this.crossings, crossing);
    this.#keepRowWith(this.crossings, crossing);
    const vessel = this.#vessel(row);
    if (vessel !== absent) {
      this.#mention(this.vessels, vessel);
      this.#mention(this.sailedBy, this.sailedBy.link(crossing, vessel));
    }
    return undefined;
  }

  #readServiceRow(row: number): RowRefusal | undefined {
    const model = this.#model(row);
    if (typeof model !== "number") return model;
    if (model === absent) return this.#missing("designation", "A service must name its model");
    const code = this.#code("task", row);
    const field = this.#field.task;
    if (field === undefined || code === 0)
      return this.#missing("task", "A service must have a name");
    let task = this.#byTask.get(model, code);
    if (task === absent) {
      const key = joinKey(this.models.key(model), field.piece(code));
      task = this.tasks.node(key, field.text(code), [this.models.asOwner("SERVICE_OF", model)]);
      this.#byTask.set(model, code, task);
    }
    this.#mention(this.models, model);
    this.#mention(this.tasks, task);
    this.#keepRowWith(this.tasks, task);
    const part = this.#part(row);
    if (typeof part !== "number") return part;
    if (part !== absent) {
      const link = this.consumes.link(task, part);
      if (this.#code("consumesQuantity", row) === 0) {
        if (this.#field.consumesQuantity) {
          return this.#missing(
            "consumesQuantity",
            "A part that a service takes must have its quantity",
          );
        }
        this.#remark("quantity-presumed", row);
      }
      this.#mention(this.parts, part);
      this.#mention(this.consumes, link);
      this.#keepRowWith(this.consumes, link);
    }
    if (this.#code("position", row) === 0) return undefined;
    const vessel = this.#vessel(row);
    if (vessel === absent) return this.#noVessel("Gear that is fitted");
    const item = this.#item(row, vessel);
    this.#itemsOfRow = [item];
    this.#modelOfRow = model;
    this.#mention(this.vessels, vessel);
    this.#mention(this.items, item);
    this.#mention(this.serviced, this.serviced.link(item, task));
    return undefined;
  }
}

const fieldTargets = {
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
} as const;
export type FieldName = keyof typeof fieldTargets;
