import { joinKey } from "../../graph-schema/index.ts";
import type { Owner } from "./node-table.ts";
import { Pairing } from "./pairing.ts";
import type { RecordTables } from "./record-tables.ts";
import type { Field, Fields } from "./row-fields.ts";
import { absent } from "./row-options.ts";

/** What tells lots of one part in one place apart. */
const keyProperties = ["lotCode", "expires", "made", "condition"];

/** Finds lots by their place and part, and by what else rows say of them; keys and owners are put together when asked for. */
export class LotFinder {
  readonly #tables: RecordTables;
  readonly #lotFields: readonly (Field | undefined)[];
  readonly #batchFields: readonly Field[];
  readonly #placeOfLot: Owner[] = [];
  readonly #partOfLot: number[] = [];
  readonly #rowOfLot: number[] = [];
  /** Lots by place and part alone, and by place and part with what else tells lots apart. */
  readonly #byPlaceAndPart = new Pairing();
  readonly #byPlaceAndBatch = new Pairing();
  readonly #batchPairs: readonly Pairing[];

  constructor(tables: RecordTables, fields: Fields) {
    this.#tables = tables;
    this.#lotFields = keyProperties.map((property) => fields.field(`StockLot.${property}`));
    this.#batchFields = this.#lotFields.filter((field) => field !== undefined);
    this.#batchPairs = this.#batchFields.map(() => new Pairing());
    const { lots } = tables;
    lots.makeKey = (lot) => this.#lotKey(lot);
    lots.makeOwners = (lot) => this.#ownersOfLot(lot);
    lots.ownersMade = 2;
  }

  /** The lot a row counts: where it is, of which part, and what else tells it apart. */
  find(row: number, part: number, place: Owner): number {
    const at = place.node * 2 + (place.table === this.#tables.lockers ? 1 : 0);
    // Few rows say more than place and part, and only they need a further look.
    let pairs = this.#byPlaceAndPart;
    let batch = part;
    if (this.#batchFields.some(({ column }) => column.codes[row] !== 0)) {
      pairs = this.#byPlaceAndBatch;
      this.#batchFields.forEach((field, nth) => {
        batch = this.#batchPairs[nth]?.number(batch, field.pieceNumber(field.code(row))) ?? 0;
      });
    }
    const before = pairs.get(at, batch);
    if (before !== absent) return before;
    this.#placeOfLot.push(place);
    this.#partOfLot.push(part);
    this.#rowOfLot.push(row);
    const node = this.#tables.lots.nodeApart(undefined, "", undefined);
    pairs.set(at, batch, node);
    return node;
  }

  /** Where a lot is stowed, and of which part it is. */
  #ownersOfLot(lot: number): readonly Owner[] {
    const place = this.#placeOfLot[lot];
    const part = this.#partOfLot[lot];
    return place === undefined || part === undefined
      ? []
      : [place, this.#tables.parts.asOwner("LOT_OF", part)];
  }

  /** The key of a lot: where it is, of which part, and what else tells it apart on the row that first named it. */
  #lotKey(lot: number): string {
    const row = this.#rowOfLot[lot] ?? 0;
    const owners = this.#ownersOfLot(lot);
    const pieces = this.#lotFields.map((field) => {
      const code = field?.code(row) ?? 0;
      return field === undefined || code === 0 ? "" : field.piece(code);
    });
    return joinKey(...owners.map(({ table, node }) => table.key(node)), ...pieces);
  }
}
