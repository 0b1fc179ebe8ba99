import { relationship } from "../declaration.ts";
import {
  choice,
  currency,
  date,
  integer,
  money,
  optionalCode,
  real,
  requiredInteger,
  text,
  yesNo,
} from "../property.ts";

export const fittedOn = relationship({
  type: "FITTED_ON",
  meaning: "The vessel an item is fitted on",
  from: ["FittedItem"],
  to: ["Vessel"],
  each: "one",
  whenTargetGoes: "drop-source",
  properties: {},
});
export const isModel = relationship({
  type: "IS_MODEL",
  meaning: "The model an item is of",
  from: ["FittedItem"],
  to: ["Model"],
  each: "one",
  whenTargetGoes: "drop-source",
  properties: {},
});
export const serves = relationship({
  type: "SERVES",
  meaning: "The function an item helps to serve",
  from: ["FittedItem"],
  to: ["RequiredFunction"],
  each: "many",
  whenTargetGoes: "drop-link",
  properties: {},
});
export const requiredOn = relationship({
  type: "REQUIRED_ON",
  meaning: "The vessel that needs the function",
  from: ["RequiredFunction"],
  to: ["Vessel"],
  each: "one",
  whenTargetGoes: "drop-source",
  properties: {},
});
export const madeBy = relationship({
  type: "MADE_BY",
  meaning: "Who makes it",
  from: ["Model", "Part"],
  to: ["Maker"],
  each: "one",
  whenTargetGoes: "drop-source",
  properties: {},
});

export const failureEffects = ["stop", "degrade", "none"] as const;
export const rateBases = ["1000 hours", "year", "1000 operations"] as const;
export const rarityClasses = ["seldom", "now and then", "often"] as const;
export const rateSources = ["maker", "published", "own history", "class assumption"] as const;

/** The line of a parts list: how many of a part one item of the model takes, and what we know of its failing. */
export const uses = relationship({
  type: "USES",
  meaning: "A model takes this part; with what is known of its wear and failure",
  from: ["Model"],
  to: ["Part"],
  each: "many",
  whenTargetGoes: "drop-link",
  properties: {
    quantity: requiredInteger({
      meaning: "Pieces in one item",
      unit: "piece",
      min: 1,
      max: 100_000,
      headers: {
        en: [
          "qty",
          "quantity",
          "qty per unit",
          "quantity used",
          "qty used",
          "no. off",
          "number off",
          "per unit",
          "quantity per unit",
          "qty fitted",
        ],
        de: ["menge", "anzahl", "stück", "stückzahl"],
        fr: ["quantité", "qté", "nombre"],
        es: ["cantidad", "cant", "uds"],
        nl: ["aantal", "hoeveelheid"],
        it: ["quantità", "q.tà"],
        pt: ["quantidade", "qtd"],
      },
    }),
    failureEffect: choice(failureEffects, {
      meaning:
        "What a failure does to the item: stops it, degrades it, neither; unstated counts as stop",
      headers: {
        en: ["failure effect", "effect", "if it fails", "when it fails"],
        de: ["ausfallwirkung", "bei ausfall"],
        fr: ["effet de panne", "si panne"],
        es: ["efecto de fallo", "si falla"],
        nl: ["gevolg"],
      },
    }),
    fittableAtSea: yesNo({
      meaning: "Can be replaced at sea by the crew; unstated counts as yes",
      headers: {
        en: ["fit at sea", "fittable at sea", "at sea", "replace at sea"],
        de: ["auf see"],
        fr: ["en mer", "remplaçable en mer"],
        es: ["en la mar", "reemplazable en el mar"],
        nl: ["op zee"],
      },
    }),
    rate: real({
      meaning: "Constant failure rate of one piece, per rateBasis",
      unit: "1",
      min: 0,
      max: 1_000_000,
      headers: {
        en: ["failure rate", "rate", "failures", "fail rate"],
        de: ["ausfallrate"],
        fr: ["taux de panne", "taux de défaillance"],
        es: ["tasa de fallos"],
        nl: ["faalkans", "uitvalfrequentie"],
      },
    }),
    rateBasis: choice(rateBases, {
      meaning: "What the rate is per",
      headers: { en: ["rate basis", "rate per", "per"] },
    }),
    mtbfHours: real({
      meaning: "Mean running hours between failures; the rate is 1000 / this per 1000 hours",
      unit: "hour",
      min: 0.001,
      headers: { en: ["mtbf", "mtbf hours", "mean time between failures", "mtbf h"] },
    }),
    meanLifeHours: real({
      meaning: "Mean wear-out life of one piece in running hours",
      unit: "hour",
      min: 0.001,
      headers: {
        en: ["mean life", "life hours", "wear life", "mean life hours"],
        de: ["lebensdauer", "standzeit"],
        fr: ["durée de vie heures"],
        es: ["vida media"],
      },
    }),
    weibullShape: real({
      meaning: "Weibull shape of the wear-out life (1 = random failure)",
      unit: "1",
      min: 0.5,
      max: 10,
      headers: { en: ["weibull shape", "shape", "beta"] },
    }),
    usedCount: integer({
      meaning: "Pieces used in our own history of this line",
      unit: "piece",
      min: 0,
      headers: { en: ["used so far", "history used", "failures seen", "times used"] },
    }),
    usedOverYears: real({
      meaning: "Piece-years in service over which the history was seen",
      unit: "year",
      min: 0,
      headers: { en: ["over years", "history years", "years in service"] },
    }),
    rarity: choice(rarityClasses, {
      meaning: "How often one piece fails, as a guess",
      headers: {
        en: ["rarity", "how often", "frequency"],
        de: ["häufigkeit"],
        fr: ["fréquence"],
        es: ["frecuencia"],
        nl: ["frequentie"],
      },
    }),
    rateSource: choice(rateSources, {
      meaning: "Where the rate comes from",
      headers: { en: ["rate source", "evidence", "source of rate"] },
    }),
    rateNote: text({
      meaning: "The publication, page or log the rate was read in",
      headers: { en: ["rate note", "evidence note"] },
    }),
  },
});

export const contains = relationship({
  type: "CONTAINS",
  meaning: "A service kit sold as one part contains this part",
  from: ["Part"],
  to: ["Part"],
  each: "many",
  whenTargetGoes: "drop-link",
  properties: {
    quantity: requiredInteger({ meaning: "Pieces inside", unit: "piece", min: 1, max: 100_000 }),
  },
});

export const interchangesWith = relationship({
  type: "INTERCHANGES_WITH",
  meaning: "Two parts that may stand in for each other, both ways",
  from: ["Part"],
  to: ["Part"],
  each: "many",
  whenTargetGoes: "drop-link",
  properties: {
    source: text({ meaning: "Who says so", headers: { en: ["interchange source"] } }),
    confidence: choice(["confirmed", "likely", "unproven"], {
      meaning: "How sure it is",
      headers: { en: ["interchange confidence"] },
    }),
  },
});

export const supersededBy = relationship({
  type: "SUPERSEDED_BY",
  meaning: "The maker replaced this part by that one; the new serves the old, not the other way",
  from: ["Part"],
  to: ["Part"],
  each: "many",
  whenTargetGoes: "drop-link",
  properties: { source: text({ meaning: "Who says so" }) },
});

export const offers = relationship({
  type: "OFFERS",
  meaning: "A supplier sells this part, at this price, in packs of so many",
  from: ["Supplier"],
  to: ["Part"],
  each: "many",
  whenTargetGoes: "drop-link",
  properties: {
    supplierCode: optionalCode({
      meaning: "The supplier's own code",
      headers: {
        en: ["supplier code", "supplier part no", "vendor code", "order code", "stock code", "sku"],
        de: ["lieferanten-nr", "bestellcode"],
        fr: ["code fournisseur", "réf fournisseur"],
        es: ["código proveedor", "ref. proveedor"],
        nl: ["leverancierscode"],
      },
    }),
    priceMinor: money({
      meaning: "Price of one piece, or of one pack where pack is above 1",
      headers: {
        en: ["price", "unit price", "cost", "price each", "list price", "cost each"],
        de: ["preis", "stückpreis", "einzelpreis"],
        fr: ["prix", "prix unitaire", "tarif"],
        es: ["precio", "precio unitario", "coste"],
        nl: ["prijs", "stukprijs"],
        it: ["prezzo"],
        pt: ["preço"],
      },
    }),
    currency: currency({
      meaning: "ISO 4217 code of the price",
      headers: {
        en: ["currency", "ccy", "curr"],
        de: ["währung"],
        fr: ["devise", "monnaie"],
        es: ["moneda", "divisa"],
        nl: ["valuta"],
      },
    }),
    packSize: integer({
      meaning: "Pieces sold together",
      unit: "piece",
      min: 1,
      max: 100_000,
      headers: {
        en: ["pack", "pack size", "sold in", "pack of"],
        de: ["packung", "ve", "verpackungseinheit"],
        fr: ["lot de", "conditionnement"],
        es: ["paquete", "envase"],
        nl: ["verpakking"],
      },
    }),
    minimumOrder: integer({
      meaning: "Least pieces in one order",
      unit: "piece",
      min: 1,
      max: 100_000,
      headers: {
        en: ["minimum order", "moq", "min order", "min qty"],
        de: ["mindestmenge"],
        fr: ["minimum de commande"],
        es: ["pedido mínimo"],
      },
    }),
    leadTimeDays: integer({
      meaning: "Days from order to delivery",
      unit: "day",
      min: 0,
      max: 3650,
      headers: {
        en: ["lead time", "lead days", "delivery days", "lead time days", "delivery"],
        de: ["lieferzeit", "lieferzeit tage"],
        fr: ["délai", "délai de livraison"],
        es: ["plazo", "plazo de entrega"],
        nl: ["levertijd"],
      },
    }),
    asOf: date({
      meaning: "Day the price was seen",
      headers: {
        en: ["price date", "as of", "quoted on", "price as of"],
        de: ["preisstand"],
        fr: ["prix au"],
        es: ["fecha precio"],
      },
    }),
  },
});

export const stowedIn = relationship({
  type: "STOWED_IN",
  meaning: "Where a lot is kept",
  from: ["StockLot"],
  to: ["Locker", "Vessel"],
  each: "one",
  whenTargetGoes: "drop-source",
  properties: {},
});
export const lotOf = relationship({
  type: "LOT_OF",
  meaning: "The part a lot is of",
  from: ["StockLot"],
  to: ["Part"],
  each: "one",
  whenTargetGoes: "drop-source",
  properties: {},
});
export const isWithin = relationship({
  type: "IS_WITHIN",
  meaning: "The locker or vessel a locker is in",
  from: ["Locker"],
  to: ["Locker", "Vessel"],
  each: "one",
  whenTargetGoes: "drop-source",
  properties: {},
});
export const serviceOf = relationship({
  type: "SERVICE_OF",
  meaning: "The model the service belongs to",
  from: ["ServiceTask"],
  to: ["Model"],
  each: "one",
  whenTargetGoes: "drop-source",
  properties: {},
});

export const consumes = relationship({
  type: "CONSUMES",
  meaning: "A service uses up this part, or handles it with a chance of losing it",
  from: ["ServiceTask"],
  to: ["Part"],
  each: "many",
  whenTargetGoes: "drop-link",
  properties: {
    quantity: requiredInteger({
      meaning: "Pieces used or handled in one service of one item",
      unit: "piece",
      min: 1,
      max: 100_000,
      headers: { en: ["service qty", "consumed", "qty consumed"] },
    }),
    lossChance: real({
      meaning:
        "Absent: the pieces are used up. Present: each handled piece is lost with this chance",
      unit: "1",
      min: 0,
      max: 1,
      headers: { en: ["loss chance", "drop risk", "chance lost"] },
    }),
  },
});

export const serviced = relationship({
  type: "SERVICED",
  meaning: "When a service of this item was last done",
  from: ["FittedItem"],
  to: ["ServiceTask"],
  each: "many",
  whenTargetGoes: "drop-link",
  properties: {
    lastDone: date({
      meaning: "Day it was last done",
      headers: {
        en: ["last done", "last service", "last serviced"],
        de: ["zuletzt gewartet", "letzte wartung"],
        fr: ["dernier entretien", "fait le"],
        es: ["último servicio"],
        nl: ["laatste onderhoud"],
      },
    }),
    lastDoneHours: real({
      meaning: "Hours run when it was last done",
      unit: "hour",
      min: 0,
      headers: { en: ["last done hours", "at hours", "hours at last service"] },
    }),
  },
});

export const sailedBy = relationship({
  type: "SAILED_BY",
  meaning: "A vessel that makes the crossing",
  from: ["Crossing"],
  to: ["Vessel"],
  each: "many",
  whenTargetGoes: "drop-link",
  properties: {},
});
export const orderedFrom = relationship({
  type: "ORDERED_FROM",
  meaning: "The supplier an order goes to",
  from: ["Order"],
  to: ["Supplier"],
  each: "one",
  whenTargetGoes: "drop-link",
  properties: {},
});
