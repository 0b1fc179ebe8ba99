import { type ComponentType, lazy, Suspense, useEffect } from "react";
import { OverviewPage } from "../pages/overview/overview-page.tsx";
import type { PageName, Route } from "../routing/route.ts";
import { PageFailure } from "./page-failure.tsx";

interface PageProps {
  readonly query: ReadonlyMap<string, string>;
}
type Page = ComponentType<PageProps>;
type Fetch = () => Promise<{ default: Page }>;

/** Every page but the first comes in a file of its own, fetched when it is opened or when the program is idle. */
const fetched: Readonly<Partial<Record<PageName, Fetch>>> = {
  gear: () => import("../pages/gear/gear-page.tsx").then((m) => ({ default: m.GearPage })),
  parts: () => import("../pages/parts/parts-page.tsx").then((m) => ({ default: m.PartsPage })),
  lockers: () =>
    import("../pages/lockers/lockers-page.tsx").then((m) => ({ default: m.LockersPage })),
  commonality: () =>
    import("../pages/commonality/commonality-page.tsx").then((m) => ({
      default: m.CommonalityPage,
    })),
  crossing: () =>
    import("../pages/crossing/crossing-page.tsx").then((m) => ({ default: m.CrossingPage })),
  suppliers: () =>
    import("../pages/suppliers/suppliers-page.tsx").then((m) => ({ default: m.SuppliersPage })),
  import: () => import("../pages/import/import-page.tsx").then((m) => ({ default: m.ImportPage })),
  choosing: () =>
    import("../pages/choosing/choosing-page.tsx").then((m) => ({ default: m.ChoosingPage })),
  order: () => import("../pages/order/order-page.tsx").then((m) => ({ default: m.OrderPage })),
  labels: () => import("../pages/labels/labels-page.tsx").then((m) => ({ default: m.LabelsPage })),
  settings: () =>
    import("../pages/settings/settings-page.tsx").then((m) => ({ default: m.SettingsPage })),
  find: () => import("../pages/find/find-page.tsx").then((m) => ({ default: m.FindPage })),
  patterns: () =>
    import("../pages/patterns/patterns-page.tsx").then((m) => ({ default: m.PatternsPage })),
};

const pages = new Map<string, Page>([
  ["overview", OverviewPage],
  ...Object.entries(fetched).map(([name, fetch]): [string, Page] => [name, lazy(fetch)]),
]);

/** Fetches the other pages once the first stands, so that going to them takes no time. */
function useIdleFetch(): void {
  useEffect(() => {
    const all = () => {
      for (const fetch of Object.values(fetched)) void fetch().catch(() => undefined);
    };
    // Where a browser cannot tell when it is idle, a pause stands in.
    const timer = window.setTimeout(() => {
      if ("requestIdleCallback" in window) window.requestIdleCallback(all, { timeout: 5_000 });
      else all();
    }, 1_500);
    return () => window.clearTimeout(timer);
  }, []);
}

/** The page asked for. */
export function PageOutlet({ route }: { readonly route: Route }) {
  useIdleFetch();
  const Shown = pages.get(route.page) ?? OverviewPage;
  return (
    <PageFailure key={route.page}>
      <Suspense fallback={<p className="loading">Opening…</p>}>
        <Shown query={route.query} />
      </Suspense>
    </PageFailure>
  );
}
