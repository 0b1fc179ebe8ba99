import { useSyncExternalStore } from "react";

export const pageNames = ["start", "import", "commonality", "suppliers", "crossing"] as const;
export type PageName = (typeof pageNames)[number];

/** Where the reader is: a page and the question asked there. Both stand in the address, so it can be shared. */
export interface Route {
  readonly page: PageName;
  readonly query: ReadonlyMap<string, string>;
}

const isPage = (name: string): name is PageName => (pageNames as readonly string[]).includes(name);

/** Reads `#/crossing?vessel=...`; anything unknown is the start page. */
export function readRoute(hash: string): Route {
  const [path = "", search = ""] = hash.replace(/^#\/?/, "").split("?", 2);
  return { page: isPage(path) ? path : "start", query: new Map(new URLSearchParams(search)) };
}

/** The address of a route, without empty parameters. */
export function writeRoute(
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

/** Changes parameters of the current page; an empty value removes one. Back returns to the former question. */
export function changeQuery(changes: Readonly<Record<string, string>>): void {
  const { page, query } = readRoute(window.location.hash);
  const next = writeRoute(
    page,
    [...query, ...Object.entries(changes)].reduce(
      (kept, [name, value]) => kept.set(name, value),
      new Map<string, string>(),
    ),
  );
  if (next === window.location.hash) return;
  window.history.pushState(null, "", next);
  window.dispatchEvent(new PopStateEvent("popstate"));
}
