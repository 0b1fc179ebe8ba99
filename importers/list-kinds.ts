/** The kinds of list people keep; each says which fields its columns may hold. */
export const listKindNames = [
  "flat",
  "gear",
  "models",
  "parts",
  "offers",
  "suppliers",
  "stock",
  "functions",
  "services",
  "lockers",
  "crossings",
  "legs",
  "interchange",
  "supersession",
  "kits",
  "orders",
] as const;
export type ListKindName = (typeof listKindNames)[number];

export interface ListKind {
  readonly name: ListKindName;
  readonly meaning: string;
  /** Owners whose fields the list may hold, or single fields by id; of equal matches the earlier wins. */
  readonly holds: readonly string[];
  /** Whether its rows name two parts each. */
  readonly pairsParts?: true;
  /** Whether a column that names gear stands for its model where no column names that. */
  readonly gearMayBeModel?: true;
  /** Without these columns the list cannot be of this kind; "a|b" means either. */
  readonly needs: readonly string[];
  /** Field to column names that mean it plainly in this kind of list, though not in others (normal form). */
  readonly named?: Readonly<Record<string, readonly string[]>>;
  /** Field to further column names it takes in this kind of list (normal form, weaker than its own names). */
  readonly alsoNamed: Readonly<Record<string, readonly string[]>>;
  /** Field to other fields whose names it takes over in this kind of list. */
  readonly takesNamesOf: Readonly<Record<string, readonly string[]>>;
}

const gearFields = ["Vessel", "FittedItem", "Model", "Maker", "RequiredFunction"];
const plainName = ["name", "nom", "nombre", "naam", "nome", "bezeichnung", "benennung"];
const places = [
  "location",
  "place",
  "position",
  "ort",
  "lagerplatz",
  "emplacement",
  "lieu",
  "ubicacion",
  "lugar",
  "plaats",
  "posizione",
];
const things = [
  "item",
  "article",
  "artikel",
  "articulo",
  "articolo",
  "spare part",
  "ersatzteil",
  "piece de rechange",
  "repuesto",
];

/** What people call the first of two parts that interchange. */
const firstOfTwo = [
  "part a",
  "part number a",
  "part 1",
  "first part",
  "teil a",
  "teilenummer a",
  "piece a",
  "reference a",
  "pieza a",
  "referencia a",
  "onderdeel a",
  "parte a",
  "peca a",
];
const firstMaker = ["maker a", "hersteller a", "fabricant a", "fabricante a", "fabrikant a"];
const firstDescription = ["description a", "bezeichnung a", "designation a", "descripcion a"];

/** Lists of parts may say by what a part was replaced. */
const replacing = [
  "SUPERSEDED_BY.newPart",
  "SUPERSEDED_BY.newMaker",
  "SUPERSEDED_BY.newDescription",
];

export const listKinds: Readonly<Record<ListKindName, ListKind>> = {
  flat: {
    name: "flat",
    meaning: "One row for a piece of gear, a part it takes, who sells it and what is aboard",
    holds: [
      ...gearFields,
      "Part",
      "USES",
      "Supplier",
      "OFFERS",
      "Locker.name",
      "StockLot",
      ...replacing,
    ],
    needs: ["Part.partNumber"],
    gearMayBeModel: true,
    alsoNamed: { "Part.description": things, "Supplier.name": ["firm", "company", "firma"] },
    takesNamesOf: { "Part.maker": ["Maker.name"] },
  },
  gear: {
    name: "gear",
    meaning: "One row for a piece of gear fitted aboard",
    holds: [...gearFields],
    needs: ["Model.designation"],
    alsoNamed: {
      "FittedItem.position": [...plainName, "description", "beschreibung", "designation"],
    },
    takesNamesOf: { "FittedItem.count": ["USES.quantity"], "Model.massKg": ["Part.massKg"] },
  },
  models: {
    name: "models",
    meaning: "One row for a model of gear on offer, fitted or not",
    holds: ["Model", "Maker"],
    needs: ["Model.designation", "Model.priceMinor"],
    alsoNamed: {},
    takesNamesOf: {
      "Model.priceMinor": ["OFFERS.priceMinor"],
      "Model.currency": ["OFFERS.currency"],
      "Model.massKg": ["Part.massKg"],
    },
  },
  parts: {
    name: "parts",
    meaning: "One row for a part that a model takes",
    holds: ["Model", "Maker", "Part", "USES", ...replacing],
    needs: ["Model.designation", "Part.partNumber"],
    gearMayBeModel: true,
    alsoNamed: { "Part.description": things },
    takesNamesOf: { "Part.maker": ["Maker.name"] },
  },
  offers: {
    name: "offers",
    meaning: "One row for a part as a supplier sells it",
    holds: ["Supplier", "OFFERS", "Part", "Maker", ...replacing],
    needs: ["Supplier.name", "Part.partNumber"],
    alsoNamed: { "Part.description": things },
    takesNamesOf: {},
  },
  suppliers: {
    name: "suppliers",
    meaning: "One row for a supplier",
    holds: ["Supplier"],
    needs: ["Supplier.name"],
    alsoNamed: {
      "Supplier.name": [...plainName, "company", "firma", "societe", "empresa", "bedrijf"],
    },
    takesNamesOf: {},
  },
  stock: {
    name: "stock",
    meaning: "One row for pieces of a part in a locker",
    holds: ["StockLot", "Part", "Maker", "Locker.name", "Vessel.name", ...replacing],
    needs: ["Part.partNumber", "StockLot.quantity"],
    alsoNamed: { "Part.description": things, "Locker.name": places },
    takesNamesOf: { "StockLot.quantity": ["USES.quantity"] },
  },
  functions: {
    name: "functions",
    meaning: "One row for something a vessel must be able to do",
    holds: ["RequiredFunction", "Vessel.name"],
    needs: ["RequiredFunction.name"],
    alsoNamed: { "RequiredFunction.name": plainName },
    takesNamesOf: {},
  },
  services: {
    name: "services",
    meaning: "One row for a service of a model, or a part it uses up",
    holds: [
      "ServiceTask",
      "CONSUMES",
      "Model.designation",
      "Maker",
      "Part",
      "SERVICED",
      "Vessel.name",
      "FittedItem.position",
    ],
    needs: ["ServiceTask.name", "Model.designation"],
    gearMayBeModel: true,
    named: {
      "Part.partNumber": ["part used", "parts used", "spare used", "spares used", "uses up"],
    },
    alsoNamed: { "ServiceTask.name": ["description", "what", ...plainName] },
    takesNamesOf: { "CONSUMES.quantity": ["USES.quantity"], "Part.maker": ["Maker.name"] },
  },
  lockers: {
    name: "lockers",
    meaning: "One row for a place where spares are stowed",
    holds: ["Locker", "Vessel.name"],
    needs: ["Locker.name"],
    alsoNamed: {
      "Locker.name": plainName,
      "Locker.capacityLitres": ["volume", "litres", "liter", "contenance"],
    },
    takesNamesOf: {},
  },
  crossings: {
    name: "crossings",
    meaning: "One row for a crossing to be provided for",
    holds: ["Crossing", "Vessel.name"],
    needs: ["Crossing.name", "Crossing.daysExpected|Crossing.daysLongest"],
    alsoNamed: { "Crossing.name": plainName },
    takesNamesOf: {},
  },
  legs: {
    name: "legs",
    meaning: "One row for a leg of a crossing, from port to port",
    holds: [
      "Crossing.name",
      "Crossing.legNumber",
      "Crossing.legFrom",
      "Crossing.legTo",
      "Crossing.legDays",
      "Crossing.legLongest",
    ],
    needs: ["Crossing.name", "Crossing.legTo", "Crossing.legDays"],
    named: {
      "Crossing.legFrom": ["from", "von", "ab", "de", "desde", "van", "da", "depart", "departure"],
      "Crossing.legTo": ["to", "nach", "bis", "a", "vers", "hasta", "naar", "para", "arrival"],
    },
    alsoNamed: { "Crossing.legNumber": ["no", "nr", "number", "n"] },
    takesNamesOf: {
      "Crossing.legDays": ["Crossing.daysExpected"],
      "Crossing.legLongest": ["Crossing.daysLongest"],
    },
  },
  interchange: {
    name: "interchange",
    pairsParts: true,
    meaning: "One row for two parts that may stand in for each other",
    holds: ["INTERCHANGES_WITH", "Part", "Maker"],
    needs: ["Part.partNumber", "INTERCHANGES_WITH.otherPart"],
    named: {
      "Part.partNumber": firstOfTwo,
      "Part.description": firstDescription,
      "Maker.name": firstMaker,
    },
    alsoNamed: { "Part.partNumber": things },
    takesNamesOf: {},
  },
  supersession: {
    name: "supersession",
    pairsParts: true,
    meaning: "One row for a part that its maker has replaced by another",
    holds: ["SUPERSEDED_BY", "Part", "Maker"],
    needs: ["Part.partNumber", "SUPERSEDED_BY.newPart"],
    named: {
      "Part.partNumber": [
        "old part number",
        "old part no",
        "old part",
        "old number",
        "old",
        "superseded part",
        "superseded",
        "discontinued",
        "former number",
        "alte teilenummer",
        "alte nummer",
        "altes teil",
        "alt",
        "ancienne reference",
        "ancien numero",
        "referencia antigua",
        "antigua referencia",
        "oud nummer",
        "oud onderdeelnummer",
        "codice vecchio",
        "vecchio codice",
        "referencia antiga",
        "antiga referencia",
      ],
      "SUPERSEDED_BY.newPart": [
        "replacement",
        "replacement part",
        "replacement part number",
        "new",
        "neu",
        "nouveau",
        "nuevo",
        "nieuw",
        "nuovo",
        "novo",
      ],
    },
    alsoNamed: { "Part.description": things },
    takesNamesOf: {},
  },
  kits: {
    name: "kits",
    pairsParts: true,
    meaning: "One row for a part that a service kit contains",
    holds: ["CONTAINS", "Part", "Maker"],
    needs: ["CONTAINS.kit", "Part.partNumber"],
    alsoNamed: {
      "Part.partNumber": [
        "contains",
        "component",
        "component no",
        "contents",
        "content",
        "enthalt",
        "inhalt",
        "contient",
        "composant",
        "contiene",
        "componente",
        "bevat",
        "inhoud",
        "contem",
      ],
      "Part.description": [...things, "component name", "contents"],
      "CONTAINS.quantity": ["pieces", "pcs", "stuck"],
    },
    takesNamesOf: { "CONTAINS.quantity": ["USES.quantity"] },
  },
  orders: {
    name: "orders",
    meaning: "One row for a part on an order to a supplier",
    holds: ["Order", "Supplier.name", "Part", "Maker", "OFFERS.priceMinor", "OFFERS.currency"],
    needs: [
      "Order.reference|Order.placed|Order.expected|Order.status",
      "Supplier.name",
      "Part.partNumber",
      "Order.quantity",
    ],
    alsoNamed: {
      "Part.description": things,
      "Order.placed": ["date", "datum", "fecha", "data"],
    },
    takesNamesOf: { "Order.quantity": ["USES.quantity"] },
  },
};
