import { type ComponentType, useEffect, useSyncExternalStore } from "react";
import { OverviewPage } from "../pages/overview/overview-page.tsx";
import type { PageName } from "../routing/route.ts";

type Page = ComponentType<{ readonly query: ReadonlyMap<string, string> }>;

/** Every page but the first comes in a file of its own, fetched when it is opened, pointed at, or when the program is idle. */
const files: Readonly<Record<Exclude<PageName, "overview">, () => Promise<Page>>> = {
  gear: () => import("../pages/gear/gear-page.tsx").then((m) => m.GearPage),
  parts: () => import("../pages/parts/parts-page.tsx").then((m) => m.PartsPage),
  lockers: () => import("../pages/lockers/lockers-page.tsx").then((m) => m.LockersPage),
  commonality: () =>
    import("../pages/commonality/commonality-page.tsx").then((m) => m.CommonalityPage),
  crossing: () => import("../pages/crossing/crossing-page.tsx").then((m) => m.CrossingPage),
  suppliers: () => import("../pages/suppliers/suppliers-page.tsx").then((m) => m.SuppliersPage),
  import: () => import("../pages/import/import-page.tsx").then((m) => m.ImportPage),
  choosing: () => import("../pages/choosing/choosing-page.tsx").then((m) => m.ChoosingPage),
  order: () => import("../pages/order/order-page.tsx").then((m) => m.OrderPage),
  labels: () => import("../pages/labels/labels-page.tsx").then((m) => m.LabelsPage),
  settings: () => import("../pages/settings/settings-page.tsx").then((m) => m.SettingsPage),
  find: () => import("../pages/find/find-page.tsx").then((m) => m.FindPage),
  voyage: () => import("../pages/voyage/voyage-page.tsx").then((m) => m.VoyagePage),
  patterns: () => import("../pages/patterns/patterns-page.tsx").then((m) => m.PatternsPage),
};

type State = Page | { readonly error: unknown } | undefined;
const states = new Map<PageName, Exclude<State, undefined>>([["overview", OverviewPage]]);
const asked = new Set<PageName>(["overview"]);
/** Pages someone is looking for: only there a file that does not come is a failure. */
const wanted = new Set<PageName>();
const listeners = new Set<() => void>();

const become = (name: PageName, state: Exclude<State, undefined>) => {
  states.set(name, state);
  for (const listener of listeners) listener();
};

const subscribe = (listener: () => void) => {
  listeners.add(listener);
  return () => {
    listeners.delete(listener);
  };
};

/** Fetches a page's file unless that is done or under way. */
export function fetchPage(name: PageName): void {
  if (name === "overview" || asked.has(name)) return;
  asked.add(name);
  files[name]().then(
    (page) => become(name, page),
    (error: unknown) => {
      asked.delete(name);
      if (wanted.has(name)) become(name, { error });
    },
  );
}

/** Forgets that a page's file did not come, so that showing the page fetches it once more. */
export function forgetFailure(name: PageName): void {
  if (typeof states.get(name) === "object") states.delete(name);
}

/** Fetches the other pages once the first stands, so that going to them takes no time. */
export function useIdleFetch(): void {
  useEffect(() => {
    const all = () => {
      for (const name of Object.keys(files) as PageName[]) fetchPage(name);
    };
    // Where a browser cannot tell when it is idle, a pause stands in.
    const timer = window.setTimeout(() => {
      if ("requestIdleCallback" in window) window.requestIdleCallback(all, { timeout: 5_000 });
      else all();
    }, 1_500);
    return () => window.clearTimeout(timer);
  }, []);
}

/**
 * A page as soon as its file is here. Not React's own lazy components: what they hold back is revealed in steps of
 * 300 ms, also where the file came long ago. Throws what kept the file from coming.
 */
export function useFetchedPage(name: PageName): Page | undefined {
  const state: State = useSyncExternalStore(
    subscribe,
    () => states.get(name),
    () => undefined,
  );
  useEffect(() => {
    wanted.add(name);
    fetchPage(name);
    return () => {
      wanted.delete(name);
      forgetFailure(name);
    };
  }, [name]);
  if (typeof state === "object") throw state.error;
  return state;
}
