import { InvalidArgumentError } from "commander";

/** A number as people type it, a decimal comma included. */
export function readNumber(text: string): number {
  const value = Number(text.trim().replace(",", "."));
  if (text.trim() === "" || !Number.isFinite(value)) {
    throw new InvalidArgumentError("It must be a number, such as 16 or 0.95.");
  }
  return value;
}

/** A port of TCP; 0 asks the system for a free one. */
export function readPort(text: string): number {
  const port = readNumber(text);
  if (!Number.isInteger(port) || port < 0 || port > 65_535) {
    throw new InvalidArgumentError("A port is a whole number from 0 to 65535, such as 4180.");
  }
  return port;
}

/** `NAME=VALUE`, gathered over repeated options; the last = parts the two. */
function splitPair(text: string, example: string): readonly [string, string] {
  const at = text.lastIndexOf("=");
  if (at < 1) throw new InvalidArgumentError(`It must be written as ${example}.`);
  return [text.slice(0, at).trim(), text.slice(at + 1).trim()];
}

/** `--rate USD=0.92`: what one unit of another currency is worth. */
export function gatherRate(
  text: string,
  known: Readonly<Record<string, number>> = {},
): Record<string, number> {
  const [currency, value] = splitPair(text, "USD=0.92");
  return { ...known, [currency.toUpperCase()]: readNumber(value) };
}

/** `--map "Header=Label.property"`; nothing after the = leaves the column uninterpreted. */
export function gatherMapping(
  text: string,
  known: Readonly<Record<string, string | null>> = {},
): Record<string, string | null> {
  const [header, property] = splitPair(text, '"Header=Part.partNumber"');
  return { ...known, [header]: property === "" ? null : property };
}

/** The given members, those left undefined dropped. */
export function given<T extends Readonly<Record<string, unknown>>>(
  members: T,
): { [K in keyof T]?: Exclude<T[K], undefined> } {
  return Object.fromEntries(Object.entries(members).filter(([, value]) => value !== undefined)) as {
    [K in keyof T]?: Exclude<T[K], undefined>;
  };
}
