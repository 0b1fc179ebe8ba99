import { lazy, Suspense, useEffect, useRef } from "react";
import { SchemeSwitch } from "./components/scheme.tsx";
import { CommonalityPage } from "./pages/commonality/commonality-page.tsx";
import { CrossingPage } from "./pages/crossing/crossing-page.tsx";
import { StartPage } from "./pages/start/start-page.tsx";
import { SuppliersPage } from "./pages/suppliers/suppliers-page.tsx";
import { type PageName, pageNames, readRoute, useHash, writeRoute } from "./routing/route.ts";

/** Import alone needs the whole schema, so it comes when it is opened. */
const ImportPage = lazy(() =>
  import("./pages/import/import-page.tsx").then((module) => ({ default: module.ImportPage })),
);

const titles: Record<PageName, string> = {
  start: "Start",
  import: "Import",
  commonality: "Commonality",
  suppliers: "Suppliers",
  crossing: "Crossing",
};

/** The chart-edge scale under the masthead: alternate lengths, as along the frame of a sea chart. */
const ChartEdge = () => (
  <svg className="chart-edge" aria-hidden="true" width="100%" height="6">
    <defs>
      <pattern id="chart-edge" width="48" height="6" patternUnits="userSpaceOnUse">
        <path d="M0 .5h48M0 5.5h48" className="edge-line" />
        <path d="M0 3h24" className="edge-bar" />
      </pattern>
    </defs>
    <rect width="100%" height="6" fill="url(#chart-edge)" />
  </svg>
);

/** Masthead, the page asked for, and nothing else. */
export function App() {
  const route = readRoute(useHash());
  const main = useRef<HTMLElement>(null);
  const shown = useRef(route.page);
  useEffect(() => {
    document.title = `${titles[route.page]} · Sparewright`;
    if (shown.current !== route.page) {
      shown.current = route.page;
      window.scrollTo(0, 0);
      main.current?.focus();
    }
  }, [route.page]);
  return (
    <>
      <header className="masthead">
        <button type="button" className="skip" onClick={() => main.current?.focus()}>
          Skip to the page
        </button>
        <p className="brand">Sparewright</p>
        <nav aria-label="Pages">
          <ul>
            {pageNames.map((page) => (
              <li key={page}>
                <a
                  href={writeRoute(page)}
                  {...(page === route.page ? { "aria-current": "page" as const } : {})}
                >
                  {titles[page]}
                </a>
              </li>
            ))}
          </ul>
        </nav>
        <SchemeSwitch />
        <ChartEdge />
      </header>
      <main ref={main} tabIndex={-1} className={`page page-${route.page}`}>
        {route.page === "start" && <StartPage query={route.query} />}
        {route.page === "import" && (
          <Suspense fallback={<p className="loading">Opening…</p>}>
            <ImportPage />
          </Suspense>
        )}
        {route.page === "commonality" && <CommonalityPage query={route.query} />}
        {route.page === "suppliers" && <SuppliersPage query={route.query} />}
        {route.page === "crossing" && <CrossingPage query={route.query} />}
      </main>
    </>
  );
}
