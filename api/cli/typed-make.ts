import { readFileSync } from "node:fs";
import { InvalidArgumentError } from "commander";
import { decodeText, readTyped } from "../../importers/index.ts";
import { Problem } from "../errors/problem.ts";
import { needByWord, readNeed } from "./read-need.ts";
import { readDocument } from "./what-if-options.ts";

const example =
  '"Maker / OX-1; 1500 EUR; 12 kg; working load=1000 kg; parts=parts.csv; offers=offers.csv"';

/**
 * A candidate typed in on the spot: a line in words, or the name of a JSON file. In the file prices and needs may be
 * written as people write them ("price": "1500 EUR"), and `partsFile` and `offersFile` stand for lists kept beside it.
 * Errors: `file-unreadable`, `input-invalid`.
 */
export function typedMake(text: string): unknown {
  try {
    return text.includes(";") || text.includes(" / ") ? fromLine(text) : fromFile(text);
  } catch (cause) {
    if (!(cause instanceof InvalidArgumentError)) throw cause;
    throw new Problem("input-invalid", `--typed: ${cause.message}`, { cause });
  }
}

function fromLine(text: string): unknown {
  const [name = "", ...rest] = text.split(";").map((piece) => piece.trim());
  const [maker, designation] = name.includes(" / ")
    ? name.split(" / ", 2)
    : [/^\S+/.exec(name)?.[0], name.replace(/^\S+\s*/, "")];
  if (maker === undefined || !designation)
    throw new InvalidArgumentError(
      `It must begin with the maker and what he calls it, as ${example}.`,
    );
  const can: Record<string, number> = {};
  let make: Record<string, unknown> = { maker: maker.trim(), designation: designation.trim() };
  for (const piece of rest.filter((one) => one !== "")) {
    const [word = "", value = ""] = piece.split("=", 2).map((one) => one.trim());
    if (/^parts$/i.test(word)) make = { ...make, partsCsv: textOf(value) };
    else if (/^offers$/i.test(word)) make = { ...make, offersCsv: textOf(value) };
    else if (/^(category|kind)$/i.test(word)) make = { ...make, category: value };
    else if (piece.includes("=")) {
      const [need, figure] = readNeed(piece);
      can[need] = figure;
    } else make = { ...make, ...priceOrMass(piece) };
  }
  return Object.keys(can).length === 0 ? make : { ...make, can };
}

/** A piece without a name: `12 kg` is what one weighs, `1500 EUR` what it costs. */
function priceOrMass(piece: string): Record<string, unknown> {
  const mass = readTyped("Model", "massKg", piece);
  if (mass?.kind === "values" && /[a-z]\.?$/i.test(piece)) return mass.values;
  const price = readTyped("Model", "priceMinor", piece);
  if (price?.kind === "values") return price.values;
  throw new InvalidArgumentError(
    `"${piece}" is neither a price (1500 EUR), a weight (12 kg), a need (working load=1000 kg) nor a list (parts=FILE). Write it as ${example}.`,
  );
}

function fromFile(path: string): unknown {
  if (/\.(csv|tsv|txt)$/i.test(path))
    throw new InvalidArgumentError(
      `${path} is a list, and does not say whose it is. Write ${example}.`,
    );
  const document = readDocument(path, "A candidate typed in");
  if (typeof document !== "object" || document === null || Array.isArray(document)) return document;
  const { partsFile, offersFile, price, mass, can, ...rest } = document as Record<string, unknown>;
  return {
    ...rest,
    ...(typeof price === "string" || typeof mass === "string"
      ? Object.assign(
          {},
          ...[price, mass].map((one) => (typeof one === "string" ? priceOrMass(one) : {})),
        )
      : {}),
    ...(can === undefined ? {} : { can: needsOf(can) }),
    ...(typeof partsFile === "string" ? { partsCsv: textOf(partsFile) } : {}),
    ...(typeof offersFile === "string" ? { offersCsv: textOf(offersFile) } : {}),
  };
}

/** What it can do, where needs are named or figures written as people do; anything else is left to the request's rules. */
function needsOf(can: unknown): unknown {
  if (typeof can !== "object" || can === null || Array.isArray(can)) return can;
  return Object.fromEntries(
    Object.entries(can).map(([word, value]) =>
      typeof value === "string" ? readNeed(`${word}=${value}`) : [needByWord(word) ?? word, value],
    ),
  );
}

/** The text of a list, whatever it was saved as. */
function textOf(path: string): string {
  try {
    return decodeText(readFileSync(path)).text;
  } catch (cause) {
    if (cause instanceof Problem) throw cause;
    throw new Problem(
      "file-unreadable",
      `A candidate's list is read from a file, and ${path === "" ? "none is named" : `${path} cannot be read`}. Check the name.`,
      { cause },
    );
  }
}
