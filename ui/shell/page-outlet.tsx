import type { Route } from "../routing/route.ts";
import { forgetFailure, useFetchedPage, useIdleFetch } from "./fetched-pages.ts";
import { PageFailure } from "./page-failure.tsx";

function PageAsked({ route }: { readonly route: Route }) {
  const Shown = useFetchedPage(route.page);
  return Shown === undefined ? <p className="loading">Opening…</p> : <Shown query={route.query} />;
}

/** The page asked for. */
export function PageOutlet({ route }: { readonly route: Route }) {
  useIdleFetch();
  return (
    <PageFailure key={route.page} onAgain={() => forgetFailure(route.page)}>
      <PageAsked route={route} />
    </PageFailure>
  );
}
