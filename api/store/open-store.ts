import { homedir } from "node:os";
import { posix, win32 } from "node:path";
import type { GraphStore } from "./graph-store.ts";
import { SqliteStore } from "./sqlite/sqlite-store.ts";

type Environment = Readonly<Record<string, string | undefined>>;

/**
 * The database file where none is named: in the platform's folder for a program's data.
 * Windows: %LOCALAPPDATA%; macOS: ~/Library/Application Support; elsewhere $XDG_DATA_HOME, by default
 * ~/.local/share (XDG Base Directory Specification 0.8).
 */
export function defaultDatabasePath(env: Environment, platform: NodeJS.Platform): string {
  if (platform === "win32") {
    const home = env["USERPROFILE"] ?? homedir();
    const folder = env["LOCALAPPDATA"] ?? win32.join(home, "AppData", "Local");
    return win32.join(folder, "Sparewright", "sparewright.db");
  }
  const home = env["HOME"] ?? homedir();
  if (platform === "darwin")
    return posix.join(home, "Library", "Application Support", "Sparewright", "sparewright.db");
  const named = env["XDG_DATA_HOME"];
  // The specification: a relative path there is to be ignored.
  const folder =
    named !== undefined && posix.isAbsolute(named) ? named : posix.join(home, ".local", "share");
  return posix.join(folder, "sparewright", "sparewright.db");
}

/** Whether the environment names a server that holds a shared graph. */
export const namesServer = (env: Environment): boolean =>
  Boolean(env["NEO4J_URI"] || env["NEO4J_CONFIG"]);

/**
 * Opens the store that is asked for: the file `db`; else the server of NEO4J_URI or NEO4J_CONFIG; else the file
 * SPAREWRIGHT_DB or the default file. Errors as `SqliteStore.open` and `Neo4jStore.open`.
 */
export async function openStore(options: {
  readonly db?: string;
  readonly env: Environment;
}): Promise<GraphStore> {
  const { db, env } = options;
  if (db === undefined && namesServer(env)) {
    // Loaded here, so that a boat without a server does not wait for the driver.
    const { Neo4jStore } = await import("./neo4j/neo4j-store.ts");
    const { readSettings } = await import("./neo4j/settings.ts");
    return Neo4jStore.open(readSettings(env));
  }
  const named = env["SPAREWRIGHT_DB"];
  const path =
    db ??
    (named === undefined || named === "" ? defaultDatabasePath(env, process.platform) : named);
  return SqliteStore.open(path);
}
