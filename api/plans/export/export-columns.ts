import { type NeedName, neededName, needNames, needOf } from "../../../graph-schema/index.ts";

/** A column of an exported list: the field it holds, as importers name it, and its heading. */
export interface ExportColumn {
  /** `Owner.property`; the heading is a declared name of that field, so that an import finds it again. */
  readonly field: string;
  readonly header: string;
}

const column = (field: string, header: string): ExportColumn => ({ field, header });

const needHeader = (name: NeedName): string => needOf(name).headers.en?.[0] ?? name;
const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

const vesselName = column("Vessel.name", "Vessel");
const vesselKind = column("Vessel.kind", "Vessel type");
const makerOfGear = column("Maker.name", "Maker");
const makerOfPart = column("Part.maker", "Part maker");

const item = [
  column("FittedItem.position", "Position"),
  column("FittedItem.serial", "Serial number"),
  column("FittedItem.hoursPerDay", "Hours per day"),
  column("FittedItem.operationsPerDay", "Operations per day"),
  column("FittedItem.fittedOn", "Fitted on"),
  column("FittedItem.hoursRun", "Hours run"),
  ...needNames.map((name) =>
    column(`FittedItem.${neededName(name)}`, `Needed ${needHeader(name)}`),
  ),
];
const model = [
  column("Model.designation", "Model"),
  column("Model.category", "Category"),
  ...needNames.map((name) => column(`Model.${name}`, capital(needHeader(name)))),
  column("Model.massKg", "Model weight (kg)"),
  column("Model.priceMinor", "Model price"),
  column("Model.currency", "Model price currency"),
];
const need = [
  column("RequiredFunction.name", "Function"),
  column("RequiredFunction.tier", "Tier"),
  column("RequiredFunction.need", "Need k"),
];
const part = [
  column("Part.partNumber", "Part number"),
  column("Part.description", "Description"),
  column("Part.massKg", "Weight (kg)"),
  column("Part.volumeLitres", "Volume (l)"),
  column("Part.shelfLifeMonths", "Shelf life months"),
  column("Part.serviceLifeMonths", "Life once fitted (months)"),
  column("Part.isSafety", "Safety gear"),
];
const uses = [
  column("USES.quantity", "Quantity per unit"),
  column("USES.failureEffect", "Failure effect"),
  column("USES.fittableAtSea", "Fittable at sea"),
  column("USES.rate", "Failure rate"),
  column("USES.rateBasis", "Rate basis"),
  column("USES.mtbfHours", "MTBF hours"),
  column("USES.meanLifeHours", "Mean life hours"),
  column("USES.weibullShape", "Weibull shape"),
  column("USES.usedCount", "Used so far"),
  column("USES.usedOverYears", "Over years"),
  column("USES.historyUntil", "History until"),
  column("USES.rarity", "Rarity"),
  column("USES.rateSource", "Rate source"),
  column("USES.rateConfirmed", "Rate confirmed"),
  column("USES.rateNote", "Rate note"),
];
const supplier = [
  column("Supplier.name", "Supplier"),
  column("Supplier.contact", "Contact"),
  column("Supplier.port", "Port"),
  column("Supplier.country", "Country"),
];
const offer = [
  column("OFFERS.supplierCode", "Supplier code"),
  column("OFFERS.priceMinor", "Price"),
  column("OFFERS.currency", "Currency"),
  column("OFFERS.packSize", "Pack size"),
  column("OFFERS.minimumOrder", "Minimum order"),
  column("OFFERS.leadTimeDays", "Lead time days"),
  column("OFFERS.asOf", "Price date"),
];
const stock = [
  column("Locker.name", "Locker"),
  column("StockLot.quantity", "Stock"),
  column("StockLot.made", "Made"),
  column("StockLot.expires", "Expires"),
  column("StockLot.condition", "Condition"),
  column("StockLot.lotCode", "Batch"),
  column("StockLot.counted", "Counted"),
];
const task = [
  column("ServiceTask.name", "Service"),
  column("ServiceTask.intervalHours", "Interval hours"),
  column("ServiceTask.intervalMonths", "Interval months"),
  column("ServiceTask.intervalOperations", "Interval operations"),
];

/** A part named beside others; what else is known of it stands in the lists of parts. */
const namedPart = [
  column("Part.partNumber", "Part number"),
  column("Part.description", "Description"),
];

const flat = [
  vesselName,
  vesselKind,
  ...item,
  makerOfGear,
  ...model,
  ...need,
  makerOfPart,
  ...part,
  ...uses,
  ...supplier,
  ...offer,
  ...stock,
];

/**
 * The lists everything comes back as, in the order in which they are best taken in again. `flat` holds what the
 * lists of gear, parts, suppliers, offers, stock, functions and lockers hold, save what has no column there; `loose` holds models
 * and parts that no other list names, or that have columns of their own.
 */
export const exportColumns = {
  flat,
  functions: [vesselName, ...need],
  gear: [vesselName, vesselKind, ...item, makerOfGear, ...model, ...need],
  loose: flat,
  parts: [makerOfGear, ...model, makerOfPart, ...part, ...uses],
  suppliers: supplier,
  offers: [...supplier, column("Maker.name", "Maker"), ...part, ...offer],
  lockers: [
    vesselName,
    column("Locker.name", "Locker"),
    column("Locker.capacityLitres", "Capacity (l)"),
    column("Locker.access", "Access"),
  ],
  stock: [vesselName, column("Maker.name", "Maker"), ...part, ...stock],
  services: [
    makerOfGear,
    column("Model.designation", "Model"),
    ...task,
    makerOfPart,
    column("Part.partNumber", "Part number"),
    column("CONSUMES.quantity", "Service qty"),
    column("CONSUMES.lossChance", "Loss chance"),
    vesselName,
    column("FittedItem.position", "Position"),
    column("SERVICED.lastDone", "Last done"),
    column("SERVICED.lastDoneHours", "Last done hours"),
  ],
  crossings: [
    column("Crossing.name", "Crossing"),
    column("Crossing.departs", "Departs"),
    column("Crossing.daysExpected", "Days expected"),
    column("Crossing.daysLongest", "Days longest"),
    column("Crossing.distanceNm", "Distance nm"),
    vesselName,
  ],
  legs: [
    column("Crossing.name", "Crossing"),
    column("Crossing.legNumber", "Leg number"),
    column("Crossing.legFrom", "From port"),
    column("Crossing.legTo", "To port"),
    column("Crossing.legDays", "Leg days expected"),
    column("Crossing.legLongest", "Leg days longest"),
  ],
  interchange: [
    column("Maker.name", "Maker"),
    ...namedPart,
    column("INTERCHANGES_WITH.otherMaker", "Interchange maker"),
    column("INTERCHANGES_WITH.otherPart", "Interchanges with"),
    column("INTERCHANGES_WITH.otherDescription", "Interchange description"),
    column("INTERCHANGES_WITH.confidence", "Interchange confidence"),
    column("INTERCHANGES_WITH.source", "Interchange source"),
  ],
  supersession: [
    column("Maker.name", "Maker"),
    ...namedPart,
    column("SUPERSEDED_BY.newMaker", "New maker"),
    column("SUPERSEDED_BY.newPart", "Superseded by"),
    column("SUPERSEDED_BY.newDescription", "New description"),
    column("SUPERSEDED_BY.source", "Supersession source"),
  ],
  kits: [
    column("CONTAINS.kitMaker", "Kit maker"),
    column("CONTAINS.kit", "Kit number"),
    column("CONTAINS.kitDescription", "Kit description"),
    column("Maker.name", "Maker"),
    ...namedPart,
    column("CONTAINS.quantity", "Pieces in kit"),
  ],
  orders: [
    column("Order.reference", "Order"),
    column("Supplier.name", "Supplier"),
    column("Order.status", "Order status"),
    column("Order.placed", "Placed"),
    column("Order.expected", "Expected"),
    column("Order.neededBy", "Needed by"),
    column("Maker.name", "Maker"),
    ...namedPart,
    column("Order.quantity", "Quantity ordered"),
    column("OFFERS.priceMinor", "Price"),
    column("OFFERS.currency", "Currency"),
  ],
} as const satisfies Record<string, readonly ExportColumn[]>;

export type ExportListName = keyof typeof exportColumns;
