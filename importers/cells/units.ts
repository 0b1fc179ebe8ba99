import type { Unit } from "../../graph-schema/index.ts";

/** A unit as people write it: how many of the graph's unit one of it is, or why it cannot be told. */
export type WrittenUnit = number | { readonly ambiguous: string };

const of = (factor: number, ...names: readonly string[]): (readonly [string, WrittenUnit])[] =>
  names.map((name) => [name, factor] as const);
const unclear = (why: string, ...names: readonly string[]): (readonly [string, WrittenUnit])[] =>
  names.map((name) => [name, { ambiguous: why }] as const);

/**
 * Factors to the graph's units. Exact by definition: pound 0.45359237 kg, ounce 1/16 pound, inch 25.4 mm,
 * US gallon 231 cubic inches, imperial gallon 4.54609 l, standard gravity 9.80665 m/s².
 * Source: NIST Special Publication 811 (2008), appendix B; SI Brochure, 9th edition.
 */
const mass = [
  ...of(1, "kg", "kgs", "kilo", "kilos", "kilogram", "kilograms", "kilogramme", "kilogramm"),
  ...of(1e-3, "g", "gr", "gram", "grams", "gramme", "grammes", "gramm", "gramos", "grammi"),
  ...of(1e-6, "mg"),
  ...of(1000, "t", "tonne", "tonnes", "tonnen"),
  ...of(0.45359237, "lb", "lbs", "lb.", "lbs.", "pound", "pounds", "livres", "libras"),
  ...of(0.45359237 / 16, "oz", "oz.", "ounce", "ounces"),
];
const gallon = "a gallon is 3.785 l in the United States and 4.546 l elsewhere";
const fluidOunce = "a fluid ounce is 29.57 ml in the United States and 28.41 ml elsewhere";
const pintQuart = "pints and quarts differ between the United States and elsewhere";
const usGallon = 3.785411784;
const imperialGallon = 4.54609;
const volume = [
  ...of(
    1,
    "l",
    "lt",
    "ltr",
    "ltrs",
    "liter",
    "litre",
    "liters",
    "litres",
    "litro",
    "litros",
    "dm3",
    "dm³",
  ),
  ...of(0.1, "dl"),
  ...of(0.01, "cl"),
  ...of(1e-3, "ml", "cc", "ccm", "cm3", "cm³"),
  ...of(1000, "m3", "m³", "cbm"),
  ...of(0.016387064, "cu in", "in3", "in³", "cuin"),
  ...of(28.316846592, "cu ft", "ft3", "ft³"),
  ...of(
    usGallon,
    "us gal",
    "us gallon",
    "us gallons",
    "usg",
    "gal us",
    "gal (us)",
    "gallon (us)",
    "us gal.",
  ),
  ...of(
    imperialGallon,
    "imp gal",
    "imperial gallon",
    "imperial gallons",
    "uk gal",
    "imp. gal",
    "imp gallon",
    "gal (uk)",
    "gal (imp)",
    "gal imp",
    "gal uk",
  ),
  ...of(usGallon / 4, "us qt", "us quart"),
  ...of(imperialGallon / 4, "imp qt", "uk qt"),
  ...of(usGallon / 8, "us pt", "us pint"),
  ...of(imperialGallon / 8, "imp pt", "uk pt", "imp pint"),
  ...of(usGallon / 128, "us fl oz", "us fl. oz", "us fl. oz.", "fl oz (us)"),
  ...of(imperialGallon / 160, "imp fl oz", "uk fl oz", "fl oz (uk)", "fl oz (imp)"),
  ...unclear(gallon, "gal", "gal.", "gallon", "gallons", "gals"),
  ...unclear(fluidOunce, "fl oz", "fl. oz", "fl. oz.", "floz", "oz"),
  ...unclear(pintQuart, "qt", "quart", "pt", "pint"),
];
const hours = [
  ...of(
    1,
    "h",
    "hr",
    "hrs",
    "hour",
    "hours",
    "std",
    "std.",
    "stunde",
    "stunden",
    "heure",
    "heures",
    "hora",
    "horas",
    "uur",
    "uren",
    "ore",
    "bh",
  ),
  ...of(1 / 60, "min", "mins", "minute", "minutes", "minuten", "minutos"),
];
const days = [
  ...of(
    1 / 24,
    "h",
    "hr",
    "hrs",
    "hour",
    "hours",
    "std",
    "stunden",
    "heures",
    "horas",
    "uur",
    "ore",
  ),
  ...of(
    1,
    "d",
    "day",
    "days",
    "tag",
    "tage",
    "tagen",
    "j",
    "jour",
    "jours",
    "día",
    "días",
    "dia",
    "dias",
    "dag",
    "dagen",
    "giorni",
    "giorno",
  ),
  ...of(
    7,
    "wk",
    "wks",
    "week",
    "weeks",
    "woche",
    "wochen",
    "semaine",
    "semaines",
    "sem",
    "semana",
    "semanas",
    "weken",
    "settimane",
  ),
];
const months = [
  ...of(
    1,
    "m",
    "mo",
    "mos",
    "mth",
    "mths",
    "month",
    "months",
    "monat",
    "monate",
    "monaten",
    "mon",
    "mois",
    "mes",
    "meses",
    "maand",
    "maanden",
    "mesi",
  ),
  ...of(
    12,
    "a",
    "y",
    "yr",
    "yrs",
    "year",
    "years",
    "jahr",
    "jahre",
    "jahren",
    "an",
    "ans",
    "année",
    "années",
    "año",
    "años",
    "jaar",
    "anni",
    "anno",
    "ano",
    "anos",
  ),
];
const perDay = [
  "/day",
  "/d",
  "/tag",
  "/jour",
  "/j",
  "/día",
  "/dia",
  "/dag",
  " per day",
  " a day",
  " pro tag",
  " par jour",
  " por día",
  " per dag",
];
/** What pieces are sold and kept in; counted as one of whatever the part number stands for. */
const containers = (
  "set sets kit kits box boxes pack packs pkt pkt. packet packets tin tins can cans tube tubes bottle bottles bag bags " +
  "roll rolls coil coils reel reels jar jars satz sätze packung packungen dose dosen tube tuben flasche flaschen rolle " +
  "rollen beutel jeu jeux boîte boîtes pochette pochettes bidon bidons rouleau rouleaux tubes flacon flacons juego " +
  "juegos caja cajas lata latas bote botes rollo rollos bolsa bolsas doos blik blikken fles flessen rol rollen " +
  "zak zakken serie scatola scatole confezione confezioni rotolo rotoli latta latte conjunto conjuntos lata rolo rolos"
).split(" ");
const containerWords: ReadonlySet<string> = new Set(containers);

/** Whether a quantity is written in sets, boxes, tins or the like: "2 sets". */
export function namesContainer(cell: string): boolean {
  const word = /[\p{L}_.]+$/u.exec(cell.trim().toLowerCase())?.[0];
  return word !== undefined && containerWords.has(word);
}
const pieces = [
  ...of(
    1,
    "pc",
    "pcs",
    "pc.",
    "pcs.",
    "piece",
    "pieces",
    "ea",
    "ea.",
    "each",
    "off",
    "x",
    "no",
    "nos",
    "unit",
    "units",
  ),
  ...of(
    1,
    "st",
    "st.",
    "stk",
    "stk.",
    "stck",
    "stck.",
    "stück",
    "pce",
    "pces",
    "pièce",
    "pièces",
    "pz",
    "pezzi",
  ),
  ...of(
    1,
    "ud",
    "uds",
    "ud.",
    "uds.",
    "unidad",
    "unidades",
    "pieza",
    "piezas",
    "stuk",
    "stuks",
    "peça",
    "peças",
    "pç",
    "pçs",
    "un",
  ),
  ...of(2, "pr", "pr.", "pair", "pairs", "paar", "paire", "paires", "par", "pares", "paio", "paia"),
  ...of(12, "doz", "doz.", "dz", "dutzend", "douzaine", "docena", "dozijn", "dozzina", "dúzia"),
  ...unclear('"dozen" is twelve in English and "boxes" in Dutch', "dozen"),
  ...of(1, ...containers),
];

/** For each unit of the graph, the units people write for it; lower case. */
const written: Readonly<Record<Unit, ReadonlyMap<string, WrittenUnit>>> = {
  kg: new Map(mass),
  "kilogram-force": new Map([
    ...mass,
    ...of(1, "kgf", "kp"),
    ...of(1 / 9.80665, "n"),
    ...of(10 / 9.80665, "dan"),
    ...of(1000 / 9.80665, "kn"),
    ...of(0.45359237, "lbf"),
  ]),
  litre: new Map(volume),
  hour: new Map(hours),
  day: new Map(days),
  month: new Map(months),
  year: new Map(
    months.map(([name, factor]) => [name, typeof factor === "number" ? factor / 12 : factor]),
  ),
  "hour/day": new Map([
    ...hours,
    ...hours.flatMap(([name, factor]) => perDay.map((tail) => [name + tail, factor] as const)),
  ]),
  "operation/day": new Map([
    ...perDay.map((tail) => [tail.trim(), 1] as const),
    ...of(1, "x", "ops", "ops/day", "x/day"),
  ]),
  "minor unit": new Map(),
  "1": new Map(of(0.01, "%")),
  piece: new Map(pieces),
  volt: new Map([
    ...of(1, "v", "vdc", "v dc", "vac", "v ac", "volt", "volts", "v=", "v~"),
    ...of(1000, "kv"),
    ...of(1e-3, "mv"),
  ]),
  "litre/hour": new Map([
    ...of(1, "l/h", "lph", "l/hr", "litres/h", "litres/hour", "litres per hour", "l/std"),
    ...of(60, "l/min", "lpm", "litres/min"),
    ...of(1000, "m3/h", "m³/h"),
  ]),
  kilowatt: new Map([
    ...of(1, "kw", "kilowatt", "kilowatts"),
    ...of(1e-3, "w", "watt", "watts"),
    ...of(0.73549875, "ps", "cv", "pk"),
    ...of(0.745699872, "hp", "bhp"),
  ]),
  millimetre: new Map([
    ...of(1, "mm", "millimetre", "millimeter"),
    ...of(10, "cm"),
    ...of(1000, "m", "metre", "meter", "mètre", "metro"),
    ...of(25.4, "in", "in.", "inch", "inches", '"', "″", "zoll", "pouce"),
    ...of(304.8, "ft", "ft.", "foot", "feet", "'", "′"),
  ]),
};

/** What `text` is in terms of the graph's `unit`; undefined if it is no way to write it. */
export function writtenUnit(unit: Unit, text: string): WrittenUnit | undefined {
  const units = written[unit];
  const low = text.trim().toLowerCase().replace(/\s+/g, " ");
  return (
    units.get(low) ??
    units.get(low.replace(/\s*\/\s*/g, "/")) ??
    units.get(low.replace(/[.:]$/, ""))
  );
}
