import type { Unit } from "./property.ts";
import { type HeaderSynonyms, real } from "./property.ts";

/** How gear meets a need: `at least` the figure needed, or `equal` to it. */
export type NeedRule = "at least" | "equal";

interface Need {
  readonly rule: NeedRule;
  readonly words: string;
  readonly unit: Unit;
  readonly unitWords: string;
  readonly max: number;
  /** Whether gear fitted now sets the need where its position states none: what weakens or starves the duty does. */
  readonly inherits: boolean;
  readonly headers: HeaderSynonyms;
}

/**
 * What a position can ask of the gear fitted there, each figure declared once: a property of Model says what the gear
 * can do, the one of FittedItem named `needed...` what its position needs. Category is the need every position has.
 */
export const gearNeeds = {
  voltage: {
    rule: "equal",
    words: "supply voltage",
    unit: "volt",
    unitWords: "V",
    max: 1000,
    inherits: true,
    headers: {
      en: ["voltage", "volts"],
      de: ["spannung"],
      fr: ["tension"],
      es: ["tensión", "voltaje"],
    },
  },
  workingLoadKg: {
    rule: "at least",
    words: "safe working load",
    unit: "kilogram-force",
    unitWords: "kg",
    max: 1e7,
    inherits: true,
    headers: {
      en: ["working load", "swl", "wll", "working load kg"],
      de: ["arbeitslast"],
      fr: ["charge de travail"],
    },
  },
  powerRatio: {
    rule: "at least",
    words: "power ratio",
    unit: "1",
    unitWords: "",
    max: 10_000,
    inherits: false,
    headers: {
      en: ["power ratio", "mechanical advantage"],
      de: ["kraftübersetzung"],
      fr: ["rapport de puissance"],
      es: ["relación de potencia"],
      nl: ["krachtverhouding"],
    },
  },
  drumDiameterMm: {
    rule: "at least",
    words: "drum diameter",
    unit: "millimetre",
    unitWords: "mm",
    max: 10_000,
    inherits: false,
    headers: {
      en: ["drum diameter", "drum dia", "drum size"],
      de: ["trommeldurchmesser"],
      fr: ["diamètre tambour", "diamètre du tambour"],
      es: ["diámetro tambor"],
      nl: ["trommeldiameter"],
    },
  },
  lineDiameterMm: {
    rule: "at least",
    words: "largest rope taken",
    unit: "millimetre",
    unitWords: "mm",
    max: 1000,
    inherits: true,
    headers: {
      en: ["largest rope", "max line diameter", "max rope diameter", "line size"],
      de: ["leinendurchmesser"],
      fr: ["diamètre cordage"],
      es: ["diámetro cabo"],
      nl: ["lijndiameter"],
    },
  },
  flowLitresPerHour: {
    rule: "at least",
    words: "flow",
    unit: "litre/hour",
    unitWords: "l/h",
    max: 1e9,
    inherits: true,
    headers: {
      en: ["flow rate", "pump capacity", "litres per hour"],
      de: ["förderleistung"],
      fr: ["débit"],
      es: ["caudal"],
      nl: ["pompcapaciteit"],
    },
  },
  powerKw: {
    rule: "at least",
    words: "rated power",
    unit: "kilowatt",
    unitWords: "kW",
    max: 1e6,
    inherits: true,
    headers: {
      en: ["rated power", "power kw"],
      de: ["nennleistung"],
      fr: ["puissance nominale"],
      es: ["potencia nominal"],
      nl: ["nominaal vermogen"],
    },
  },
} as const satisfies Readonly<Record<string, Need>>;

export type NeedName = keyof typeof gearNeeds;
export const needNames = Object.keys(gearNeeds) as readonly NeedName[];
export const needOf = (name: NeedName): Need => gearNeeds[name];

/** The property of FittedItem that says what a position needs: `neededVoltage` for `voltage`. */
export type NeededName = `needed${Capitalize<NeedName>}`;
export const neededName = (name: NeedName): NeededName =>
  `needed${name.charAt(0).toUpperCase()}${name.slice(1)}` as NeededName;

type Figure = ReturnType<typeof real>;

/** Properties of Model: what the gear can do. */
export const modelAbilities = Object.fromEntries(
  needNames.map((name) => {
    const { words, unit, max, headers } = needOf(name);
    const meaning = words.charAt(0).toUpperCase() + words.slice(1);
    return [name, real({ meaning, unit, min: 0, max, headers })];
  }),
) as Record<NeedName, Figure>;

/** Properties of FittedItem: what its position needs. */
export const positionNeeds = Object.fromEntries(
  needNames.map((name) => {
    const { rule, words, unit, max, headers } = needOf(name);
    const en = (headers.en ?? []).flatMap((header) => [`needed ${header}`, `required ${header}`]);
    const meaning = `The ${words} its position needs: gear fitted there must have ${rule === "equal" ? "exactly this" : "at least this"}`;
    return [neededName(name), real({ meaning, unit, min: 0, max, headers: { en } })];
  }),
) as Record<NeededName, Figure>;
