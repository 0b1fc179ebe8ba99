import type { NeedName, NodeId } from "../../../graph-schema/index.ts";

/** Compressed adjacency: the targets of row r are `target[start[r] .. start[r + 1])`. */
export interface Adjacency {
  /** Length rows + 1. */
  readonly start: Int32Array;
  readonly target: Int32Array;
}

/** One figure per row for each declared need (graph-schema/needs.ts); NaN where it is not stated. */
export type NeedColumns = Readonly<Record<NeedName, Float64Array>>;

/** Absent numbers are NaN; absent references -1; absent text "". Days are days since 1970-01-01 (UTC). */
export interface Snapshot {
  readonly vessels: { readonly id: readonly NodeId[]; readonly name: readonly string[] };
  readonly makers: { readonly id: readonly NodeId[]; readonly name: readonly string[] };
  readonly functions: {
    readonly id: readonly NodeId[];
    readonly name: readonly string[];
    readonly vessel: Int32Array;
    /** 0 safety, 1 passage, 2 comfort. */
    readonly tier: Uint8Array;
    /** k of the k-of-n need. */
    readonly need: Uint16Array;
  };
  readonly models: {
    readonly id: readonly NodeId[];
    readonly designation: readonly string[];
    readonly category: readonly string[];
    readonly maker: Int32Array;
    /** What the gear can do. */
    readonly can: NeedColumns;
    readonly massKg: Float64Array;
    /** Price of one item of this gear, minor units of `currency`. */
    readonly priceMinor: Float64Array;
    readonly currency: readonly string[];
  };
  readonly items: {
    readonly id: readonly NodeId[];
    readonly position: readonly string[];
    readonly vessel: Int32Array;
    /** -1 where the item's model is not known. */
    readonly model: Int32Array;
    readonly hoursPerDay: Float64Array;
    readonly operationsPerDay: Float64Array;
    readonly fittedOnDay: Float64Array;
    readonly hoursRun: Float64Array;
    /** What the position needs of the gear fitted there. */
    readonly needs: NeedColumns;
  };
  /** item -> functions it serves. */
  readonly serves: Adjacency;
  readonly parts: {
    readonly id: readonly NodeId[];
    readonly partNumber: readonly string[];
    readonly description: readonly string[];
    readonly maker: Int32Array;
    readonly massKg: Float64Array;
    readonly volumeLitres: Float64Array;
    readonly shelfLifeMonths: Float64Array;
    readonly serviceLifeMonths: Float64Array;
    readonly isSafety: Uint8Array;
  };
  /** model -> parts, with a column entry per line in the same order as `target`. */
  readonly uses: Adjacency & {
    readonly quantity: Float64Array;
    /** 0 stop, 1 degrade, 2 none. */
    readonly failureEffect: Uint8Array;
    readonly fittableAtSea: Uint8Array;
    /** Constant rate of one piece; basis 0 none, 1 per 1000 hours, 2 per year, 3 per 1000 operations. */
    readonly rate: Float64Array;
    readonly rateBasis: Uint8Array;
    readonly meanLifeHours: Float64Array;
    readonly weibullShape: Float64Array;
    readonly usedCount: Float64Array;
    readonly usedOverYears: Float64Array;
    /** 0 none, 1 seldom, 2 now and then, 3 often. */
    readonly rarity: Uint8Array;
    /** 0 unstated, 1 maker, 2 published, 3 own history, 4 class assumption. */
    readonly rateSource: Uint8Array;
    /** 1 where someone has checked a rate that looks too high. */
    readonly rateConfirmed: Uint8Array;
  };
  readonly services: {
    readonly id: readonly NodeId[];
    readonly name: readonly string[];
    readonly model: Int32Array;
    readonly intervalHours: Float64Array;
    readonly intervalMonths: Float64Array;
    readonly intervalOperations: Float64Array;
  };
  /** service -> parts it uses up (lossChance NaN) or handles (lossChance a number). */
  readonly consumes: Adjacency & {
    readonly quantity: Float64Array;
    readonly lossChance: Float64Array;
  };
  /** item -> services with when they were last done. */
  readonly serviced: Adjacency & {
    readonly lastDoneDay: Float64Array;
    readonly lastDoneHours: Float64Array;
  };
  readonly lots: {
    readonly id: readonly NodeId[];
    readonly part: Int32Array;
    /** Locker, or -1 where the lot is on the vessel without a named locker. */
    readonly locker: Int32Array;
    /** The vessel that carries it, through however many lockers; -1 unknown. */
    readonly vessel: Int32Array;
    readonly quantity: Float64Array;
    readonly madeDay: Float64Array;
    readonly expiresDay: Float64Array;
    /** 0 unstated, 1 new, 2 serviceable, 3 doubtful, 4 unserviceable. */
    readonly condition: Uint8Array;
  };
  readonly lockers: {
    readonly id: readonly NodeId[];
    readonly name: readonly string[];
    /** Locker it is within, or -1. */
    readonly within: Int32Array;
    readonly vessel: Int32Array;
    readonly capacityLitres: Float64Array;
  };
  readonly suppliers: {
    readonly id: readonly NodeId[];
    readonly name: readonly string[];
    readonly port: readonly string[];
    readonly country: readonly string[];
    readonly contact: readonly string[];
  };
  /** supplier -> parts offered. */
  readonly offers: Adjacency & {
    readonly supplierCode: readonly string[];
    readonly priceMinor: Float64Array;
    readonly currency: readonly string[];
    readonly packSize: Float64Array;
    readonly minimumOrder: Float64Array;
    readonly leadTimeDays: Float64Array;
    readonly asOfDay: Float64Array;
  };
  /** Pairs of parts; confidence 0 unstated, 1 confirmed, 2 likely, 3 unproven. */
  readonly interchange: {
    readonly a: Int32Array;
    readonly b: Int32Array;
    readonly confidence: Uint8Array;
    /** Who says so. */
    readonly source: readonly string[];
  };
  readonly supersession: {
    readonly older: Int32Array;
    readonly newer: Int32Array;
    readonly source: readonly string[];
  };
  /** kit part -> parts inside. */
  readonly contains: {
    readonly kit: Int32Array;
    readonly part: Int32Array;
    readonly quantity: Float64Array;
  };
  readonly crossings: {
    readonly id: readonly NodeId[];
    readonly name: readonly string[];
    readonly departsDay: Float64Array;
    readonly daysExpected: Float64Array;
    readonly daysLongest: Float64Array;
  };
  /** crossing -> vessels. */
  readonly sailedBy: Adjacency;
  /**
   * Of an imagined snapshot, the one it departs from: what stands in for unknown prices and measures is read there, so
   * that before and after reckon alike.
   */
  readonly imaginedFrom?: Snapshot;
}

/** What gear has in common and who sells its parts is reckoned from: a snapshot without the evidence on parts lists. */
export interface GearPicture extends Omit<Snapshot, "uses" | "imaginedFrom"> {
  readonly uses: Pick<
    Snapshot["uses"],
    "start" | "target" | "quantity" | "failureEffect" | "fittableAtSea"
  >;
  readonly imaginedFrom?: GearPicture;
}
