import { keyPiece } from "../../../graph-schema/index.ts";
import { Problem } from "../../errors/problem.ts";
import type { Snapshot } from "../../scoring/snapshot/snapshot.ts";

interface Named {
  readonly row: number;
  readonly id: string;
  readonly names: readonly string[];
  /** As shown where several fit or none does. */
  readonly shown: string;
}

/**
 * The row a person means by an id or a name; what begins only one row's name is enough, or all words of it in any
 * order: "port aft primary" for "Primary winch, port aft".
 * Errors: `not-found`, naming what there is; `input-invalid` where several rows have the name.
 */
function rowByWord(what: string, word: string, rows: readonly Named[]): number {
  const byId = rows.find(({ id }) => id === word);
  if (byId !== undefined) return byId.row;
  const wanted = keyPiece(word);
  const fits = (test: (name: string) => boolean): readonly Named[] =>
    rows.filter(({ names }) => names.some((name) => test(keyPiece(name))));
  const pieces = wordsOf(wanted);
  const ways: readonly ((name: string) => boolean)[] = [
    (name) => name === wanted,
    (name) => name.startsWith(wanted),
    (name) => {
      const own = wordsOf(name);
      return pieces.every((piece) => own.some((one) => one.startsWith(piece)));
    },
  ];
  const found = wanted === "" ? [] : (ways.map(fits).find((some) => some.length > 0) ?? []);
  const [only] = found;
  if (only !== undefined && found.length === 1) return only.row;
  const list = (some: readonly Named[]): string =>
    some
      .slice(0, 8)
      .map(({ shown }) => `"${shown}"`)
      .join(", ");
  if (found.length > 1) {
    throw new Problem(
      "input-invalid",
      `A ${what} must be named so that only one is meant; "${word}" fits ${found.length}: ${list(found)}. Give more of the name, or its id.`,
    );
  }
  const near = nearest(wanted, rows);
  throw new Problem(
    "not-found",
    `No ${what} is called "${word}". ${rows.length === 0 ? "There is none here." : `There are: ${list(near)}${rows.length > 8 ? ", ..." : ""}.`}`,
  );
}

const wordsOf = (name: string): readonly string[] =>
  name.split(/[\s,:;()]+/).filter((piece) => piece !== "");

/** Rows whose names share words with what was asked first. */
function nearest(wanted: string, rows: readonly Named[]): readonly Named[] {
  const words = wordsOf(wanted).filter((piece) => piece.length > 2);
  const score = ({ names }: Named): number =>
    words.filter((piece) => names.some((name) => keyPiece(name).includes(piece))).length;
  return rows.toSorted((a, b) => score(b) - score(a));
}

export const vesselByWord = ({ vessels }: Snapshot, word: string): number =>
  rowByWord(
    "vessel",
    word,
    vessels.id.map((id, row) => {
      const name = vessels.name[row] ?? "";
      return { row, id, names: [name], shown: name };
    }),
  );

/**
 * A fitted item, on one vessel or, where none is given, anywhere; an id, or "Vessel: position" in full, means an item
 * of any vessel.
 */
export function itemByWord(snapshot: Snapshot, word: string, vessel: number | undefined): number {
  const { items, vessels } = snapshot;
  const rows = [...items.id.keys()].map((row) => {
    const position = items.position[row] ?? "";
    const full = `${vessels.name[items.vessel[row] ?? -1] ?? ""}: ${position}`;
    return {
      row,
      id: String(items.id[row]),
      names: [position, full],
      shown: vessel === undefined ? full : position,
      full: keyPiece(full),
    };
  });
  const named = rows.filter(({ id, full }) => id === word || full === keyPiece(word));
  const [only] = named;
  if (only !== undefined && named.length === 1) return only.row;
  return rowByWord(
    "fitted item",
    word,
    rows.filter(({ row }) => vessel === undefined || items.vessel[row] === vessel),
  );
}

export function modelByWord({ models, makers }: Snapshot, word: string): number {
  return rowByWord(
    "model",
    word,
    models.id.map((id, row) => {
      const designation = models.designation[row] ?? "";
      const full = `${makers.name[models.maker[row] ?? -1] ?? ""} ${designation}`.trim();
      return { row, id, names: [designation, full], shown: full };
    }),
  );
}

export function partByWord({ parts, makers }: Snapshot, word: string): number {
  return rowByWord(
    "part",
    word,
    parts.id.map((id, row) => {
      const number = parts.partNumber[row] ?? "";
      const full = `${makers.name[parts.maker[row] ?? -1] ?? ""} ${number}`.trim();
      return { row, id, names: [number, full], shown: full };
    }),
  );
}

export const supplierByWord = ({ suppliers }: Snapshot, word: string): number =>
  rowByWord(
    "supplier",
    word,
    suppliers.id.map((id, row) => {
      const name = suppliers.name[row] ?? "";
      return { row, id, names: [name], shown: name };
    }),
  );

export const functionByWord = ({ functions }: Snapshot, word: string, vessel: number): number =>
  rowByWord(
    "required function",
    word,
    [...functions.id.keys()]
      .filter((row) => functions.vessel[row] === vessel)
      .map((row) => {
        const name = functions.name[row] ?? "";
        return { row, id: String(functions.id[row]), names: [name], shown: name };
      }),
  );
