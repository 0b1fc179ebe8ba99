import { useSyncExternalStore } from "react";

/** Pages in the order of the masthead. */
export const mainPages = [
  "overview",
  "gear",
  "parts",
  "lockers",
  "commonality",
  "crossing",
  "choosing",
  "suppliers",
  "import",
  "settings",
] as const;

/** Pages reached from others only. */
const sidePages = ["find", "labels", "order", "patterns", "voyage"] as const;

export type PageName = (typeof mainPages)[number] | (typeof sidePages)[number];

const pageNames: readonly string[] = [...mainPages, ...sidePages];

/** Where the reader is: a page and the question asked there. Both stand in the address, so it can be shared. */
export interface Route {
  readonly page: PageName;
  readonly query: ReadonlyMap<string, string>;
}

const isPage = (name: string): name is PageName => pageNames.includes(name);

/** Reads `#/crossing?vessel=...`; anything unknown is the overview. */
export function readRoute(hash: string): Route {
  const [path = "", search = ""] = hash.replace(/^#\/?/, "").split("?", 2);
  return { page: isPage(path) ? path : "overview", query: new Map(new URLSearchParams(search)) };
}

/** What is imagined goes along from page to page. */
const carried = "imagine";

const carriedNow = (): string =>
  typeof window === "undefined" ? "" : (readRoute(window.location.hash).query.get(carried) ?? "");

/** The address of a route, without empty parameters; what is imagined here goes along unless the query says otherwise. */
export function writeRoute(
  page: PageName,
  query: Iterable<readonly [string, string]> = [],
): string {
  return writePlainRoute(page, new Map([[carried, carriedNow()], ...query]));
}

/** The address of a route by itself, as for a label that outlasts what is imagined. */
export function writePlainRoute(
  page: PageName,
  query: Iterable<readonly [string, string]> = [],
): string {
  const search = new URLSearchParams();
  for (const [name, value] of query) if (value !== "") search.set(name, value);
  const text = search.toString();
  return `#/${page}${text === "" ? "" : `?${text}`}`;
}

const subscribe = (changed: () => void) => {
  window.addEventListener("hashchange", changed);
  window.addEventListener("popstate", changed);
  return () => {
    window.removeEventListener("hashchange", changed);
    window.removeEventListener("popstate", changed);
  };
};

/** The address's hash, kept current. */
export const useHash = (): string =>
  useSyncExternalStore(
    subscribe,
    () => window.location.hash,
    () => "",
  );

/** Goes to an address of the screen; Back returns. */
export function goTo(address: string): void {
  if (address === window.location.hash) return;
  window.history.pushState(null, "", address);
  window.dispatchEvent(new PopStateEvent("popstate"));
}

/**
 * Changes parameters of the current page; an empty value removes one. Back returns to the former question, unless
 * the change only completes the address (`inPlace`).
 */
export function changeQuery(changes: Readonly<Record<string, string>>, inPlace = false): void {
  const { page, query } = readRoute(window.location.hash);
  const next = writeRoute(
    page,
    [...query, ...Object.entries(changes)].reduce(
      (kept, [name, value]) => kept.set(name, value),
      new Map<string, string>(),
    ),
  );
  if (!inPlace) {
    goTo(next);
    return;
  }
  if (next === window.location.hash) return;
  window.history.replaceState(null, "", next);
  window.dispatchEvent(new PopStateEvent("popstate"));
}
