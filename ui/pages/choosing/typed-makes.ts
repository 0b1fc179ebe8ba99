import type { TypedModel } from "../../../api/contract/what-if.contract.ts";

/** A make as it stands in the address: spelled out there, or, too long for that, by the name under which it is kept. */
export interface TypedMake {
  readonly token: string;
  /** Nothing where it is kept on another device. */
  readonly make: TypedModel | undefined;
}

/** Longest that stands in an address itself; about a parts list of thirty lines. */
const longest = 4000;
const mark = "~";
const parting = ".";
const shelf = "sparewright.make.";
/** Most makes kept in the browser; those not looked at for longest go first. */
const most = 40;

interface Kept {
  readonly at: number;
  readonly make: TypedModel;
}

const packed = (text: string): string =>
  btoa(String.fromCodePoint(...new TextEncoder().encode(text)))
    .replaceAll("+", "-")
    .replaceAll("/", "_")
    .replaceAll("=", "");

const unpacked = (token: string): string =>
  new TextDecoder("utf-8", { fatal: true }).decode(
    Uint8Array.from(
      atob(token.replaceAll("-", "+").replaceAll("_", "/")),
      (sign) => sign.codePointAt(0) ?? 0,
    ),
  );

/** A name for a text: 53 bits of two multiplicative hashes (own derivation; a name, not a seal). */
function nameOf(text: string): string {
  let [a, b] = [0xdeadbeef, 0x41c6ce57];
  for (let at = 0; at < text.length; at++) {
    const code = text.charCodeAt(at);
    a = Math.imul(a ^ code, 2654435761);
    b = Math.imul(b ^ code, 1597334677);
  }
  return (4294967296 * (2097151 & b) + (a >>> 0)).toString(36);
}

/** The token of a make for the address; a long one is kept in the browser, or spelled out after all where that refuses. */
export function tokenOf(make: TypedModel): string {
  const text = JSON.stringify(make);
  if (text.length <= longest) return packed(text);
  const name = nameOf(text);
  return keep(name, make) ? `${mark}${name}` : packed(text);
}

function keep(name: string, make: TypedModel): boolean {
  const put = () =>
    window.localStorage.setItem(
      `${shelf}${name}`,
      JSON.stringify({ at: Date.now(), make } satisfies Kept),
    );
  try {
    makeRoom();
    put();
    return true;
  } catch {
    return false;
  }
}

function makeRoom(): void {
  const names = Object.keys(window.localStorage).filter((name) => name.startsWith(shelf));
  if (names.length < most) return;
  const age = (name: string): number => {
    const kept = JSON.parse(window.localStorage.getItem(name) ?? "{}") as Partial<Kept>;
    return kept.at ?? 0;
  };
  names.sort((a, b) => age(a) - age(b));
  for (const name of names.slice(0, names.length - most + 1)) window.localStorage.removeItem(name);
}

const isMake = (value: unknown): value is TypedModel =>
  typeof value === "object" &&
  value !== null &&
  typeof (value as TypedModel).maker === "string" &&
  typeof (value as TypedModel).designation === "string";

function makeOf(token: string): TypedModel | undefined {
  try {
    const found: unknown = token.startsWith(mark)
      ? (JSON.parse(window.localStorage.getItem(`${shelf}${token.slice(1)}`) ?? "{}") as Kept).make
      : JSON.parse(unpacked(token));
    return isMake(found) ? found : undefined;
  } catch {
    return undefined;
  }
}

/** The makes of an address, in order. */
export const readMakes = (text: string | undefined): readonly TypedMake[] =>
  (text ?? "")
    .split(parting)
    .filter((token) => token !== "")
    .map((token) => ({ token, make: makeOf(token) }));

/** Makes as they stand in an address. */
export const writeMakes = (makes: readonly { readonly token: string }[]): string =>
  makes.map(({ token }) => token).join(parting);
