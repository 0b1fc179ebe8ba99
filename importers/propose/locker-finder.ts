import { joinKey, keyPiece, keySeparator } from "../../graph-schema/index.ts";
import type { NodeTable, Owner } from "./node-table.ts";

export interface LockerRefusal {
  readonly rule: string;
  readonly remedy: string;
}

/**
 * Finds lockers by what a file calls them: "Forepeak > Bin 3" is a path; a bare "Bin 3" is the vessel's own locker
 * of that name, else the one nested locker known by it, else a new one straight aboard the vessel.
 */
export class LockerFinder {
  readonly #lockers: NodeTable;
  readonly #vessels: NodeTable;
  /** Keys of known lockers by vessel and own name. */
  #nested: Map<string, string[]> | undefined;
  /** For a list of lockers: the locker a locker is in, by vessel and name. */
  readonly #within = new Map<string, string>();

  constructor(lockers: NodeTable, vessels: NodeTable) {
    this.#lockers = lockers;
    this.#vessels = vessels;
  }

  learnNesting(nesting: Iterable<readonly [vessel: number, name: string, within: string]>): void {
    for (const [vessel, name, within] of nesting) {
      this.#within.set(`${vessel}${keySeparator}${keyPiece(name)}`, within);
    }
  }

  find(vessel: number, text: string): number | LockerRefusal {
    const path = text.split(/\s*>\s*/).filter((name) => name !== "");
    const vesselKey = this.#vessels.key(vessel);
    if (path.length === 1) {
      const name = path[0] ?? "";
      const nested = this.#pathByNesting(vessel, name);
      if (nested === undefined) {
        return {
          rule: "A locker must not be within itself, directly or through others",
          remedy: "Correct the column that says which locker it is in.",
        };
      }
      if (nested.length > 1) return this.#make(vessel, nested);
      if (!this.#lockers.known.has(joinKey(vesselKey, keyPiece(name)))) {
        const known = this.#knownNested(vesselKey, keyPiece(name));
        if (known.length > 1) {
          return {
            rule: `A locker must be told apart; aboard this vessel ${known.length} lockers are called "${name}"`,
            remedy: 'Write the way to it, such as "Forepeak > Bin 3".',
          };
        }
        const only = known[0];
        if (only !== undefined) {
          return this.#make(vessel, this.#namesOf(vesselKey, only));
        }
      }
    }
    return this.#make(vessel, path);
  }

  /** Makes every locker of a path, outermost first, and gives the innermost. */
  #make(vessel: number, path: readonly string[]): number {
    let owner: Owner = { type: "IS_WITHIN", table: this.#vessels, node: vessel };
    let key = this.#vessels.key(vessel);
    for (const name of path) {
      key = joinKey(key, keyPiece(name));
      const node = this.#lockers.node(key, name, [owner]);
      owner = { type: "IS_WITHIN", table: this.#lockers, node };
    }
    return owner.node;
  }

  #pathByNesting(vessel: number, name: string): string[] | undefined {
    const path = [name];
    const met = new Set([keyPiece(name)]);
    for (let inner = name; ; ) {
      const outer = this.#within.get(`${vessel}${keySeparator}${keyPiece(inner)}`);
      if (outer === undefined) return path;
      if (met.has(keyPiece(outer))) return undefined;
      met.add(keyPiece(outer));
      path.unshift(outer);
      inner = outer;
    }
  }

  #knownNested(vesselKey: string, name: string): readonly string[] {
    if (this.#nested === undefined) {
      this.#nested = new Map();
      for (const key of this.#lockers.known.keys()) {
        const pieces = key.split(keySeparator);
        const at = `${pieces[0]}${keySeparator}${pieces.at(-1)}`;
        const keys = this.#nested.get(at);
        if (keys) keys.push(key);
        else this.#nested.set(at, [key]);
      }
    }
    return this.#nested.get(`${vesselKey}${keySeparator}${name}`) ?? [];
  }

  /** The names along a known locker's key, as its nodes have them. */
  #namesOf(vesselKey: string, key: string): string[] {
    const pieces = key.slice(vesselKey.length + 1).split(keySeparator);
    return pieces.map((piece, at) => {
      const outer = joinKey(vesselKey, ...pieces.slice(0, at + 1));
      return String(this.#lockers.known.get(outer)?.properties["name"] ?? piece);
    });
  }
}
