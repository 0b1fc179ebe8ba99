import { z } from "zod";

/** How a value is held in a column: decides the SQLite type, the Neo4j type and the cell reader. */
export type ColumnKind =
  | "text"
  | "part-number"
  | "integer"
  | "real"
  | "boolean"
  | "date"
  | "moment"
  | "choice"
  | "money"
  | "document";

/** Units of the graph. Everything is stored in these; importers and screens convert. */
export type Unit =
  | "kg"
  | "litre"
  | "hour"
  | "day"
  | "month"
  | "year"
  | "hour/day"
  | "operation/day"
  | "minor unit"
  | "1"
  | "piece"
  | "volt"
  | "kilogram-force"
  | "litre/hour"
  | "kilowatt"
  | "millimetre";

/** Languages for which spreadsheet header synonyms are declared. */
export type HeaderLanguage = "en" | "de" | "fr" | "es" | "nl" | "it" | "pt";
export type HeaderSynonyms = Partial<Record<HeaderLanguage, readonly string[]>>;

export interface PropertyDeclaration<S extends z.ZodType = z.ZodType> {
  readonly kind: ColumnKind;
  readonly schema: S;
  readonly meaning: string;
  readonly unit?: Unit;
  readonly required: boolean;
  readonly choices?: readonly string[];
  readonly headers: HeaderSynonyms;
}

interface About {
  readonly meaning: string;
  readonly unit?: Unit;
  readonly headers?: HeaderSynonyms;
}

function declare<S extends z.ZodType, R extends boolean>(
  kind: ColumnKind,
  schema: S,
  required: R,
  about: About,
  choices?: readonly string[],
): PropertyDeclaration<S> & { readonly required: R } {
  return {
    kind,
    schema,
    required,
    meaning: about.meaning,
    headers: about.headers ?? {},
    ...(about.unit === undefined ? {} : { unit: about.unit }),
    ...(choices === undefined ? {} : { choices }),
  };
}

/** Text of 1 to 2000 characters. */
export const text = (about: About) => declare("text", z.string().min(1).max(2000), false, about);
export const requiredText = (about: About) =>
  declare("text", z.string().min(1).max(2000), true, about);

/** A maker's or supplier's number, kept to the letter: leading zeros, suffixes and case included. */
export const partNumber = (about: About) =>
  declare("part-number", z.string().min(1).max(200), true, about);
export const optionalCode = (about: About) =>
  declare("part-number", z.string().min(1).max(200), false, about);

interface Range {
  readonly min?: number;
  readonly max?: number;
}
const numberIn = ({ min = Number.MIN_SAFE_INTEGER, max = Number.MAX_SAFE_INTEGER }: Range) =>
  z.number().min(min).max(max);

export const integer = (about: About & Range) =>
  declare("integer", numberIn(about).int(), false, about);
export const requiredInteger = (about: About & Range) =>
  declare("integer", numberIn(about).int(), true, about);
export const real = (about: About & Range) => declare("real", numberIn(about), false, about);

/** Money: an integer count of minor units; the currency stands in a property of its own. */
export const money = (about: About) =>
  declare("money", z.number().int().min(0).max(Number.MAX_SAFE_INTEGER), false, {
    ...about,
    unit: "minor unit",
  });
export const currency = (about: About) =>
  declare("text", z.string().regex(/^[A-Z]{3}$/), false, about);

export const yesNo = (about: About) => declare("boolean", z.boolean(), false, about);

/** A calendar day, ISO 8601 `YYYY-MM-DD`. */
export const date = (about: About) => declare("date", z.iso.date(), false, about);
/** An instant, ISO 8601 in UTC. */
export const moment = (about: About) => declare("moment", z.iso.datetime(), true, about);

export const choice = <const C extends readonly [string, ...string[]]>(options: C, about: About) =>
  declare("choice", z.enum(options), false, about, options);
export const requiredChoice = <const C extends readonly [string, ...string[]]>(
  options: C,
  about: About,
) => declare("choice", z.enum(options), true, about, options);

/** A small structured value kept as JSON text. */
export const document = <S extends z.ZodType>(schema: S, about: About) =>
  declare("document", schema, false, about);

export type PropertyMap = Readonly<Record<string, PropertyDeclaration>>;

type RequiredKeys<P extends PropertyMap> = {
  [K in keyof P]: P[K]["required"] extends true ? K : never;
}[keyof P];

/** The record a map of declarations describes: required ones present, the rest possibly absent. */
export type RecordOf<P extends PropertyMap> = {
  [K in RequiredKeys<P>]: z.output<P[K]["schema"]>;
} & { [K in Exclude<keyof P, RequiredKeys<P>>]?: z.output<P[K]["schema"]> };
