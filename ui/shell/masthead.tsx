import { Menu, X } from "lucide-react";
import { useEffect, useState } from "react";
import { SchemeSwitch } from "../components/scheme.tsx";
import { mainPages, type PageName, writeRoute } from "../routing/route.ts";
import { fetchPage } from "./fetched-pages.ts";
import { HeaderSearch } from "./header-search.tsx";
import { pageTitles } from "./page-titles.ts";

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

/** Name, search, light and the ten pages; on a phone the pages stand behind one button. */
export function Masthead({
  page,
  onSkip,
}: {
  readonly page: PageName;
  readonly onSkip: () => void;
}) {
  const [isOpen, setOpen] = useState(false);
  // biome-ignore lint/correctness/useExhaustiveDependencies: the list closes whenever another page is shown
  useEffect(() => setOpen(false), [page]);
  return (
    <header className="masthead" data-open={isOpen || undefined}>
      <button type="button" className="skip" onClick={onSkip}>
        Skip to the page
      </button>
      <div className="masthead-top">
        <a className="brand" href={writeRoute("overview")}>
          Sparewright
        </a>
        <HeaderSearch />
        <button
          type="button"
          className="pages-button"
          aria-expanded={isOpen}
          aria-controls="pages"
          onClick={() => setOpen(!isOpen)}
        >
          {isOpen ? <X size={20} aria-hidden="true" /> : <Menu size={20} aria-hidden="true" />}
          Pages
        </button>
      </div>
      <div className="masthead-pages" id="pages">
        <nav aria-label="Pages">
          <ul>
            {mainPages.map((name) => (
              <li key={name}>
                <a
                  href={writeRoute(name)}
                  onClick={() => setOpen(false)}
                  onPointerEnter={() => fetchPage(name)}
                  onFocus={() => fetchPage(name)}
                  {...(name === page ? { "aria-current": "page" as const } : {})}
                >
                  {pageTitles[name]}
                </a>
              </li>
            ))}
          </ul>
        </nav>
        <SchemeSwitch />
      </div>
      <ChartEdge />
    </header>
  );
}
