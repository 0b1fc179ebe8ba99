import { isDeepStrictEqual } from "node:util";
import type { Content } from "./record-state.ts";

/** Whether two states of a record hold the same key, values and extra columns; versions and order do not count. */
export function sameContent(
  a: Content & { readonly key?: string },
  b: Content & { readonly key?: string },
): boolean {
  return (
    a.key === b.key &&
    isDeepStrictEqual(a.properties, b.properties) &&
    isDeepStrictEqual(a.extra, b.extra)
  );
}
