import { joinKey, keyPiece, keySeparator } from "../../graph-schema/index.ts";
import { saysTotal } from "./aside-rows.ts";
import { LegReader } from "./leg-reader.ts";
import type { Owner } from "./node-table.ts";
import { absent, type RowRefusal } from "./row-options.ts";

const noItems: readonly number[] = [];

/** Reads rows into records, by the kind of list they stand in. */
export class RowReader extends LegReader {
  /** By code of a part number: 1 if it reads like a line of totals, 2 if it does not. */
  readonly #totals = new Uint8Array(this.field.partNumber?.column.values.length ?? 0);
  readonly #otherCodes = [...this.options.columns.byTarget]
    .filter(([id]) => id !== "Part.partNumber")
    .map(([, { codes }]) => codes);

  /** Reads a row into `mentions`; a refusal if something it needs is missing. Nothing is merged yet. */
  read(row: number): RowRefusal | undefined {
    this.mentionCount = 0;
    this.mainTable = undefined;
    if (this.itemsOfRow.length > 0) this.itemsOfRow = noItems;
    this.modelOfRow = absent;
    if (this.pending.length > 0) this.pending.length = 0;
    switch (this.options.kind) {
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
      case "interchange":
      case "supersession":
      case "kits":
        return this.readPairRow(row);
      case "orders":
        return this.readOrderRow(row);
      case "legs":
        return this.readLegRow(row);
      default:
        return this.#readGearAndParts(row);
    }
  }

  /**
   * Whether a row may be no record at all although it could be read: its part number is all that is understood of it,
   * or reads like a line of totals.
   */
  isDoubtful(row: number): boolean {
    const code = this.codes.partNumber[row] as number;
    if (code === 0) return false;
    if (this.#totals[code] === 0) {
      this.#totals[code] = saysTotal(this.field.partNumber?.text(code) ?? "") ? 1 : 2;
    }
    if (this.#totals[code] === 1) return true;
    for (const codes of this.#otherCodes) if (codes[row] !== 0) return false;
    return true;
  }

  /** What the accepted rows say together and none alone; to be called after the last row. */
  finish(): void {
    this.finishOrders();
    this.finishLegs();
  }

  #readGearAndParts(row: number): RowRefusal | undefined {
    const { kind } = this.options;
    const model = this.model(row);
    if (typeof model !== "number") return model;
    const part = this.part(row);
    if (typeof part !== "number") return part;
    if (kind === "flat" && part === absent && model === absent) {
      const bare = this.#bareRow(row);
      if (bare !== "no") return bare;
    }
    if (part === absent && kind !== "gear" && kind !== "models") {
      const saysMore = this.partFacts.some((field) => field.code(row) !== 0);
      if (kind !== "flat" || saysMore || model === absent) {
        return this.missing("partNumber", "A part must have its maker's part number");
      }
    }
    if (model === absent && (kind === "gear" || kind === "parts" || kind === "models")) {
      return this.missing("designation", "A row of this list must name a model");
    }
    const vessel = this.vessel(row);
    if (model !== absent) {
      this.mention(this.models, model);
      this.keepRowWith(this.models, model);
    }
    if (kind === "gear" || kind === "flat") {
      const refusal = this.#readItems(row, vessel, model);
      if (refusal) return refusal;
    }
    if (part !== absent) {
      this.mention(this.parts, part);
      this.keepRowWith(this.parts, part);
      const refusal = this.readReplacing(row, part);
      if (refusal) return refusal;
    }
    const refusal = this.#readOfferAndStock(row, vessel, part);
    if (refusal) return refusal;
    if (model !== absent && part !== absent) {
      const link = this.uses.link(model, part);
      if (this.codes.usesQuantity[row] === 0) {
        if (this.field.usesQuantity) {
          return this.missing("usesQuantity", "A part that a model takes must have its quantity");
        }
        this.remark("quantity-presumed", row);
      }
      this.mention(this.uses, link);
      this.keepRowWith(this.uses, link);
    } else if (kind === "flat" && this.field.designation && part !== absent) {
      this.remark("model-absent", row);
    }
    return undefined;
  }

  /** A row of a flat list about a function that nothing serves, or a locker with nothing in it; "no" if it is neither. */
  #bareRow(row: number): RowRefusal | undefined | "no" {
    const isBare = this.partFacts.every((field) => field.code(row) === 0);
    if (!isBare || this.codes.position[row] !== 0 || this.codes.stock[row] !== 0) return "no";
    if (this.codes.supplier[row] !== 0) return "no";
    if (this.codes.function[row] !== 0) return this.#readFunctionRow(row);
    return this.codes.locker[row] !== 0 ? this.#readLockerRow(row) : "no";
  }

  #readItems(row: number, vessel: number, model: number): RowRefusal | undefined {
    const isGear = this.options.kind === "gear";
    const hasPosition = this.codes.position[row] !== 0;
    const functionCode = this.codes.function[row] as number;
    if (!isGear && !hasPosition) {
      if (model !== absent && this.field.position) this.remark("position-absent", row);
      if (functionCode === 0) return undefined;
    }
    if (vessel === absent) return this.noVessel("Gear that is fitted");
    this.mention(this.vessels, vessel);
    const duty = this.function(row, vessel);
    if (duty !== absent) this.mention(this.functions, duty);
    if (!isGear && !hasPosition) return undefined;
    if (model === absent) {
      return this.missing("designation", "Gear that is fitted must name its model");
    }
    this.modelOfRow = model;
    this.itemsOfRow = isGear ? this.#gearItems(row, vessel) : [this.item(row, vessel)];
    for (const item of this.itemsOfRow) {
      this.mention(this.items, item);
      this.keepRowWith(this.items, item);
      if (duty !== absent) this.mention(this.serves, this.serves.link(item, duty));
    }
    return undefined;
  }

  /** The items a row of a gear list stands for: one, or as many as its count says, numbered. */
  #gearItems(row: number, vessel: number): number[] {
    const countCode = this.code("count", row);
    const count = countCode === 0 ? 1 : Number(this.field.count?.text(countCode) ?? 1);
    const positionCode = this.codes.position[row] as number;
    if (positionCode !== 0) {
      if (count === 1) return [this.item(row, vessel)];
      this.remark("items-numbered", row);
      const position = this.field.position?.text(positionCode) ?? "";
      return Array.from({ length: count }, (_, at) => this.itemAt(vessel, `${position} ${at + 1}`));
    }
    this.remark("position-from-model", row);
    const designation = this.field.designation?.text(this.codes.designation[row] as number) ?? "";
    const counter = `${vessel}${keySeparator}${keyPiece(designation)}`;
    return Array.from({ length: count }, () => {
      const number = (this.positionCount.get(counter) ?? 0) + 1;
      this.positionCount.set(counter, number);
      return this.itemAt(vessel, number === 1 ? designation : `${designation} ${number}`);
    });
  }

  #readOfferAndStock(row: number, vessel: number, part: number): RowRefusal | undefined {
    const supplier = this.supplier(row);
    if (supplier !== absent) {
      this.mention(this.suppliers, supplier);
      if (part !== absent) {
        const offer = this.offers.link(supplier, part);
        this.mention(this.offers, offer);
        this.keepRowWith(this.offers, offer);
      }
    } else if (this.options.kind === "offers") {
      return this.missing("supplier", "An offer must name its supplier");
    } else if (this.codes.price[row] !== 0) {
      return this.missing("supplier", "A price must name the supplier who asks it");
    }
    const quantity = this.codes.stock[row] as number;
    const isStock = this.options.kind === "stock";
    if (quantity === 0) {
      return isStock ? this.missing("stock", "Stock must have its quantity") : undefined;
    }
    if (part === absent) return this.missing("partNumber", "Stock must name its part");
    const hasLocker = this.codes.locker[row] !== 0;
    const isNoneNowhere = !isStock && !hasLocker && this.field.stock?.text(quantity) === "0";
    if (isNoneNowhere && (vessel === absent || !this.#countsNone(row, vessel, part, supplier))) {
      return undefined;
    }
    if (vessel === absent) return this.noVessel("Stock");
    const locker = this.locker(row, vessel);
    if (typeof locker !== "number") return locker;
    this.mention(this.vessels, vessel);
    if (locker !== absent) this.mention(this.lockers, locker);
    const place: Owner =
      locker === absent
        ? this.vessels.asOwner("STOWED_IN", vessel)
        : this.lockers.asOwner("STOWED_IN", locker);
    const lot = this.lotFinder.find(row, part, place);
    this.mention(this.lots, lot);
    this.keepRowWith(this.lots, lot);
    return undefined;
  }

  /** Whether "none" is news: the graph has a lot there, or the row is about nothing else. */
  #countsNone(row: number, vessel: number, part: number, supplier: number): boolean {
    const isAboutStock =
      supplier === absent &&
      this.codes.designation[row] === 0 &&
      this.codes.position[row] === 0 &&
      this.codes.vessel[row] !== 0;
    if (isAboutStock) return true;
    const lot = this.lotFinder.find(row, part, this.vessels.asOwner("STOWED_IN", vessel));
    return this.lots.records[lot] !== undefined;
  }

  #readSupplierRow(row: number): RowRefusal | undefined {
    const supplier = this.supplier(row);
    if (supplier === absent) return this.missing("supplier", "A supplier must have a name");
    this.mention(this.suppliers, supplier);
    this.keepRowWith(this.suppliers, supplier);
    return undefined;
  }

  #readFunctionRow(row: number): RowRefusal | undefined {
    if (this.codes.function[row] === 0) {
      return this.missing("function", "A required function must have a name");
    }
    const vessel = this.vessel(row);
    if (vessel === absent) return this.noVessel("A required function");
    const duty = this.function(row, vessel);
    this.mention(this.vessels, vessel);
    this.mention(this.functions, duty);
    this.keepRowWith(this.functions, duty);
    return undefined;
  }

  #readLockerRow(row: number): RowRefusal | undefined {
    if (this.codes.locker[row] === 0) return this.missing("locker", "A locker must have a name");
    const vessel = this.vessel(row);
    if (vessel === absent) return this.noVessel("A locker");
    const locker = this.locker(row, vessel);
    if (typeof locker !== "number") return locker;
    this.mention(this.vessels, vessel);
    this.mention(this.lockers, locker);
    this.keepRowWith(this.lockers, locker);
    return undefined;
  }

  #readCrossingRow(row: number): RowRefusal | undefined {
    const field = this.field.crossing;
    const code = this.code("crossing", row);
    if (field === undefined || code === 0) {
      return this.missing("crossing", "A crossing must have a name");
    }
    const crossing = this.crossings.node(field.piece(code), field.text(code), []);
    this.mention(this.crossings, crossing);
    this.keepRowWith(this.crossings, crossing);
    const vessel = this.vessel(row);
    if (vessel !== absent) {
      this.mention(this.vessels, vessel);
      this.mention(this.sailedBy, this.sailedBy.link(crossing, vessel));
    }
    return undefined;
  }

  #readServiceRow(row: number): RowRefusal | undefined {
    const model = this.model(row);
    if (typeof model !== "number") return model;
    if (model === absent) return this.missing("designation", "A service must name its model");
    const code = this.code("task", row);
    const field = this.field.task;
    if (field === undefined || code === 0)
      return this.missing("task", "A service must have a name");
    let task = this.byTask.get(model, code);
    if (task === absent) {
      const key = joinKey(this.models.key(model), field.piece(code));
      task = this.tasks.node(key, field.text(code), [this.models.asOwner("SERVICE_OF", model)]);
      this.byTask.set(model, code, task);
    }
    this.mention(this.models, model);
    this.mention(this.tasks, task);
    this.keepRowWith(this.tasks, task);
    const part = this.part(row);
    if (typeof part !== "number") return part;
    if (part !== absent) {
      const link = this.consumes.link(task, part);
      if (this.code("consumesQuantity", row) === 0) {
        if (this.field.consumesQuantity) {
          return this.missing(
            "consumesQuantity",
            "A part that a service takes must have its quantity",
          );
        }
        this.remark("quantity-presumed", row);
      }
      this.mention(this.parts, part);
      this.mention(this.consumes, link);
      this.keepRowWith(this.consumes, link);
    }
    if (this.codes.position[row] === 0) return undefined;
    const vessel = this.vessel(row);
    if (vessel === absent) return this.noVessel("Gear that is fitted");
    const item = this.item(row, vessel);
    this.itemsOfRow = [item];
    this.modelOfRow = model;
    this.mention(this.vessels, vessel);
    this.mention(this.items, item);
    this.mention(this.serviced, this.serviced.link(item, task));
    return undefined;
  }
}
