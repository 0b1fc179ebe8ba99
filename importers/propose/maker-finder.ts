import { keyPiece, keySeparator } from "../../graph-schema/index.ts";
import type { NodeTable } from "./node-table.ts";

/** The maker under which things go whose list names none. */
export const unknownMaker = "Unknown maker";

export type FoundMaker =
  | { readonly kind: "found"; readonly makerKey: string }
  | { readonly kind: "unknown" }
  | { readonly kind: "several"; readonly makerKeys: readonly string[] };

/**
 * Finds whose a number is when its row names no maker: that of the one part (or model) with this number in the
 * graph or elsewhere in the file; the unknown maker if there is none, or if the number stands under it already.
 * Several makers with the number are told, never chosen between; likeness of numbers plays no part.
 */
export class MakerFinder {
  readonly #makers = new Map<string, Set<string>>();

  /** @param inFile pairs of maker's key and number, both in normal form, from rows that name a maker */
  constructor(table: NodeTable, inFile: Iterable<readonly [makerKey: string, number: string]>) {
    for (const key of table.known.keys()) {
      const cut = key.lastIndexOf(keySeparator);
      if (cut > 0) this.#add(key.slice(0, cut), key.slice(cut + 1));
    }
    for (const [makerKey, number] of inFile) this.#add(makerKey, number);
  }

  #add(makerKey: string, number: string): void {
    const makers = this.#makers.get(number);
    if (makers) makers.add(makerKey);
    else this.#makers.set(number, new Set([makerKey]));
  }

  find(number: string): FoundMaker {
    const makers = [...(this.#makers.get(keyPiece(number)) ?? [])];
    const unknownKey = keyPiece(unknownMaker);
    if (makers.length === 0 || makers.includes(unknownKey)) return { kind: "unknown" };
    if (makers.length === 1) return { kind: "found", makerKey: makers[0] ?? unknownKey };
    return { kind: "several", makerKeys: makers.sort() };
  }
}
