import type { NodeLabel } from "./catalogue.ts";

/** The id of a node: its label, a colon, and 14 characters that never change once given. */
export type NodeId = string & { readonly __brand: "NodeId" };

/** A node's key: what a person tells it apart by, in normal form. Unique within a label. */
export type NodeKey = string;

/** Joins the pieces of a key. U+001F cannot be typed, so no name can imitate it. */
export const keySeparator = "\u001f";

/**
 * Normal form of one piece of a key: Unicode NFC, trimmed, inner white space single, and, for names, lower case.
 * Part numbers keep their letters and zeros; only their outer white space and case are ignored in matching.
 */
export const keyPiece = (text: string): string =>
  text.normalize("NFC").trim().replace(/\s+/g, " ").toLowerCase();

export const joinKey = (...pieces: readonly string[]): NodeKey => pieces.join(keySeparator);

const alphabet = "0123456789abcdefghjkmnpqrstvwxyz";

const digit = (bits: number): number => alphabet.charCodeAt(bits & 31);

/** Two 32-bit lanes of FNV-1a with a final mix; spreads keys, is not a secret. */
function hash64(text: string): readonly [number, number] {
  let high = 0x811c9dc5;
  let low = 0x1b873593;
  for (let i = 0; i < text.length; i++) {
    const code = text.charCodeAt(i);
    high = Math.imul(high ^ code, 0x01000193);
    low = Math.imul(low ^ code, 0x85ebca6b) + high;
    low ^= low >>> 15;
  }
  high ^= low >>> 16;
  high = Math.imul(high ^ (high >>> 15), 0x2c1b3c6d);
  low = Math.imul(low ^ (low >>> 13), 0xc2b2ae35);
  return [(high ^ (high >>> 16)) >>> 0, (low ^ (low >>> 16)) >>> 0];
}

/**
 * The id a new node gets: derived from its key, so that the same file gives the same ids on every machine.
 * Where that id is taken by another key (a renamed node, or a collision: 2^-32 at 65 000 nodes), pass `attempt` 1, 2, ...
 */
export function mintNodeId(label: NodeLabel, key: NodeKey, attempt = 0): NodeId {
  const [high, low] = hash64(attempt === 0 ? key : `${key}#${attempt}`);
  // One call for all fourteen characters: an import mints some hundred thousand ids.
  return `${label}:${String.fromCharCode(
    digit(high >>> 30),
    digit(high >>> 25),
    digit(high >>> 20),
    digit(high >>> 15),
    digit(high >>> 10),
    digit(high >>> 5),
    digit(high),
    digit(low >>> 30),
    digit(low >>> 25),
    digit(low >>> 20),
    digit(low >>> 15),
    digit(low >>> 10),
    digit(low >>> 5),
    digit(low),
  )}` as NodeId;
}

export const labelOf = (id: NodeId): NodeLabel => id.slice(0, id.indexOf(":")) as NodeLabel;
