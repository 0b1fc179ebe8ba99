import { node } from "../declaration.ts";
import { choice, date, integer, optionalCode, real, requiredText, text } from "../property.ts";

/** The strictness of a need: which target of sufficiency its parts fall under. */
export const tiers = ["safety", "passage", "comfort"] as const;
export type Tier = (typeof tiers)[number];

export const vessel = node({
  label: "Vessel",
  meaning: "A boat that carries gear and spares",
  identifiedBy: ["name"],
  nameFrom: "name",
  properties: {
    name: requiredText({
      meaning: "The vessel's name",
      headers: {
        en: ["vessel", "boat", "ship", "yacht", "vessel name", "boat name"],
        de: ["schiff", "boot", "yacht", "schiffsname"],
        fr: ["bateau", "navire", "voilier", "nom du bateau"],
        es: ["barco", "buque", "velero", "embarcación"],
        nl: ["schip", "boot", "scheepsnaam"],
        it: ["barca", "imbarcazione", "nave"],
        pt: ["barco", "embarcação", "navio"],
      },
    }),
    kind: text({ meaning: "Rig or type of vessel", headers: { en: ["rig", "vessel type"] } }),
  },
});

export const requiredFunction = node({
  label: "RequiredFunction",
  meaning: "Something the vessel must be able to do, needing k of the items that serve it",
  identifiedBy: [">REQUIRED_ON", "name"],
  nameFrom: "name",
  properties: {
    name: requiredText({
      meaning: "What must be possible, as a verb: steer, pump the bilge",
      headers: {
        en: ["function", "required function", "serves", "duty", "purpose", "needed for", "job"],
        de: ["funktion", "aufgabe", "zweck", "dient zu"],
        fr: ["fonction", "sert à", "usage"],
        es: ["función", "sirve para"],
        nl: ["functie", "dient voor"],
        it: ["funzione"],
        pt: ["função"],
      },
    }),
    tier: choice(tiers, {
      meaning: "How strict the need is; unstated counts as passage",
      headers: {
        en: ["tier", "criticality", "critical", "importance", "need level", "level of need"],
        de: ["stufe", "wichtigkeit", "kritikalität"],
        fr: ["niveau", "criticité", "importance"],
        es: ["nivel", "criticidad", "importancia"],
        nl: ["niveau", "belang", "kritiek"],
      },
    }),
    need: integer({
      meaning:
        "k: how many of the items that serve it must work; unstated counts as all but spare ones, i.e. 1",
      unit: "piece",
      min: 1,
      max: 1000,
      headers: {
        en: [
          "need k",
          "needed",
          "k",
          "must work",
          "minimum working",
          "needs working",
          "how many needed",
        ],
        de: ["benötigt", "mindestens"],
        fr: ["minimum requis", "nécessaires"],
        es: ["mínimo necesario"],
        nl: ["minimaal nodig"],
      },
    }),
  },
});

export const fittedItem = node({
  label: "FittedItem",
  meaning: "One piece of gear fitted aboard, in its position",
  identifiedBy: [">FITTED_ON", "position"],
  nameFrom: "position",
  properties: {
    position: requiredText({
      meaning: "Where it is fitted and what as; unique aboard one vessel",
      headers: {
        en: [
          "position",
          "fitted at",
          "location",
          "where fitted",
          "item",
          "equipment",
          "gear",
          "unit",
          "gear item",
          "fitted item",
        ],
        de: ["position", "einbauort", "gerät", "ausrüstung", "einbauplatz"],
        fr: ["position", "emplacement", "équipement", "appareil"],
        es: ["posición", "ubicación", "equipo", "aparato"],
        nl: ["positie", "plaats", "apparaat", "uitrusting"],
        it: ["posizione", "apparecchio", "attrezzatura"],
        pt: ["posição", "equipamento"],
      },
    }),
    serial: optionalCode({
      meaning: "Maker's serial number",
      headers: {
        en: ["serial", "serial number", "serial no", "s/n"],
        de: ["seriennummer", "serien-nr"],
        fr: ["numéro de série", "n° de série"],
        es: ["número de serie", "nº de serie"],
        nl: ["serienummer"],
      },
    }),
    hoursPerDay: real({
      meaning: "Running hours a day on passage",
      unit: "hour/day",
      min: 0,
      max: 24,
      headers: {
        en: [
          "hours per day",
          "h/day",
          "hrs/day",
          "hours a day",
          "daily hours",
          "running hours per day",
          "duty h/day",
        ],
        de: ["stunden pro tag", "h/tag", "std/tag"],
        fr: ["heures par jour", "h/jour", "h/j"],
        es: ["horas por día", "h/día", "horas al día"],
        nl: ["uren per dag", "u/dag"],
      },
    }),
    operationsPerDay: real({
      meaning: "Operations a day on passage, for gear counted in operations",
      unit: "operation/day",
      min: 0,
      max: 100_000,
      headers: {
        en: ["operations per day", "ops/day", "cycles per day", "uses per day", "operations a day"],
        de: ["betätigungen pro tag", "zyklen pro tag"],
        fr: ["manœuvres par jour", "cycles par jour"],
        es: ["operaciones por día"],
      },
    }),
    fittedOn: date({
      meaning: "Day it was fitted",
      headers: {
        en: [
          "fitted on",
          "installed",
          "date fitted",
          "installation date",
          "fitted",
          "installed on",
        ],
        de: ["eingebaut", "eingebaut am", "einbaudatum"],
        fr: ["posé le", "installé le", "date d'installation", "date de pose"],
        es: ["instalado", "fecha de instalación"],
        nl: ["ingebouwd", "inbouwdatum"],
      },
    }),
    hoursRun: real({
      meaning: "Hours run since fitted, at departure",
      unit: "hour",
      min: 0,
      max: 1_000_000,
      headers: {
        en: ["hours run", "engine hours", "hours", "running hours", "total hours", "hour meter"],
        de: ["betriebsstunden", "laufstunden", "motorstunden"],
        fr: ["heures de marche", "heures moteur", "heures"],
        es: ["horas de motor", "horas de marcha"],
        nl: ["draaiuren", "motoruren"],
      },
    }),
  },
});

export const model = node({
  label: "Model",
  meaning: "A make and designation of gear, of which items are fitted",
  identifiedBy: [">MADE_BY", "designation"],
  nameFrom: "designation",
  properties: {
    designation: requiredText({
      meaning: "Maker's designation",
      headers: {
        en: [
          "model",
          "model no",
          "model number",
          "type",
          "designation",
          "model name",
          "equipment model",
        ],
        de: ["modell", "typ", "modellbezeichnung"],
        fr: ["modèle", "type", "référence modèle"],
        es: ["modelo", "tipo"],
        nl: ["model", "type"],
        it: ["modello"],
        pt: ["modelo"],
      },
    }),
    category: text({
      meaning: "Kind of gear: winch, bilge pump, diesel, autopilot drive",
      headers: {
        en: ["category", "gear type", "equipment type", "kind", "class", "group", "system"],
        de: ["kategorie", "gruppe", "gerätetyp", "warengruppe"],
        fr: ["catégorie", "famille", "groupe"],
        es: ["categoría", "familia", "grupo"],
        nl: ["categorie", "groep", "soort"],
        it: ["categoria"],
        pt: ["categoria"],
      },
    }),
    voltage: real({
      meaning: "Supply voltage",
      unit: "volt",
      min: 0,
      max: 1000,
      headers: {
        en: ["voltage", "volts"],
        de: ["spannung"],
        fr: ["tension"],
        es: ["tensión", "voltaje"],
      },
    }),
    workingLoadKg: real({
      meaning: "Safe working load",
      unit: "kilogram-force",
      min: 0,
      headers: {
        en: ["working load", "swl", "wll", "working load kg"],
        de: ["arbeitslast"],
        fr: ["charge de travail"],
      },
    }),
    massKg: real({
      meaning: "Mass of one item",
      unit: "kg",
      min: 0,
      headers: { en: ["model weight", "gear weight"] },
    }),
  },
});

export const maker = node({
  label: "Maker",
  meaning: "Who makes a model or a part",
  identifiedBy: ["name"],
  nameFrom: "name",
  properties: {
    name: requiredText({
      meaning: "The maker's name",
      headers: {
        en: ["maker", "make", "manufacturer", "brand", "mfr", "made by", "manufacturer name"],
        de: ["hersteller", "marke", "fabrikat"],
        fr: ["fabricant", "marque", "constructeur"],
        es: ["fabricante", "marca"],
        nl: ["fabrikant", "merk"],
        it: ["produttore", "marca", "costruttore"],
        pt: ["fabricante", "marca"],
      },
    }),
  },
});
