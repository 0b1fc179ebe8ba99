import { join } from "node:path";
import { packageRoot } from "../plans/package-root.ts";
import { defaultDatabasePath, namesServer } from "../store/open-store.ts";
import { isCheckout } from "./package-root.ts";

/** Where a command's graph is: a file somebody named, the default file, or a server named in the environment. */
export type DatabasePlace =
  | { readonly kind: "named"; readonly path: string }
  | { readonly kind: "default"; readonly path: string }
  | { readonly kind: "server" };

/**
 * `--db`, else SPAREWRIGHT_DB, else a server in NEO4J_URI or NEO4J_CONFIG, else the default file: inside a checkout its own
 * `.sparewright` folder, which git ignores; elsewhere the platform's data folder.
 */
export function locateDatabase(
  option: string | undefined,
  env: NodeJS.ProcessEnv = process.env,
): DatabasePlace {
  const named = option ?? env["SPAREWRIGHT_DB"];
  if (named !== undefined && named !== "") return { kind: "named", path: named };
  if (namesServer(env)) return { kind: "server" };
  const path = isCheckout
    ? join(packageRoot, ".sparewright", "graph.db")
    : defaultDatabasePath(env, process.platform);
  return { kind: "default", path };
}
