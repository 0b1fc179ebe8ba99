import { useEffect, useRef } from "react";
import { ImaginedBar } from "./components/imagined/imagined-bar.tsx";
import { readRoute, useHash } from "./routing/route.ts";
import { AwayBar } from "./shell/away-bar.tsx";
import { Masthead } from "./shell/masthead.tsx";
import { PageOutlet } from "./shell/page-outlet.tsx";
import { pageTitles } from "./shell/page-titles.ts";
import { UndoBar } from "./shell/undo-bar.tsx";

/** Masthead, the page asked for, and nothing else. */
export function App() {
  const route = readRoute(useHash());
  const main = useRef<HTMLElement>(null);
  const shown = useRef(route.page);
  useEffect(() => {
    document.title = `${pageTitles[route.page]} · Sparewright`;
    if (shown.current !== route.page) {
      shown.current = route.page;
      window.scrollTo(0, 0);
      main.current?.focus();
    }
  }, [route.page]);
  return (
    <>
      <Masthead page={route.page} onSkip={() => main.current?.focus()} />
      <AwayBar />
      <main ref={main} tabIndex={-1} className={`page page-${route.page}`}>
        <ImaginedBar page={route.page} query={route.query} />
        <PageOutlet route={route} />
      </main>
      <UndoBar />
    </>
  );
}
