import { existsSync } from "node:fs";
import { Problem } from "../errors/problem.ts";
import { openDemo } from "../plans/open-demo.ts";
import type { GraphStore } from "../store/graph-store.ts";
import { openStore } from "../store/open-store.ts";
import { type DatabasePlace, locateDatabase } from "./locate-database.ts";
import { demoFolder } from "./package-root.ts";

export interface GlobalOptions {
  readonly db?: string;
  readonly json?: boolean;
  readonly demo?: boolean;
}

export interface OpenGraph {
  readonly store: GraphStore;
  /** A sentence a person must read before the answer. */
  readonly notice?: string;
  close(): Promise<void>;
}

const who = "command line";

async function openFile(path: string): Promise<OpenGraph> {
  const store = await openStore({ db: path, env: process.env });
  return { store, close: () => store.close() };
}

/** A graph of the invented demo fleet, held in memory and gone when closed. */
async function openDemoFleet(notice: string): Promise<OpenGraph> {
  const store = await openStore({ db: ":memory:", env: process.env });
  await openDemo(store, demoFolder, { who, at: new Date().toISOString() });
  return { store, notice, close: () => store.close() };
}

async function openServer(): Promise<OpenGraph> {
  const store = await openStore({ env: process.env });
  return { store, close: () => store.close() };
}

/** Opens the graph a writing command works on, creating the file where there is none. */
export async function openForWriting(options: GlobalOptions): Promise<OpenGraph> {
  if (options.demo === true) return openDemoFleet("This is the invented demo fleet.");
  const place = locateDatabase(options.db);
  return place.kind === "server" ? openServer() : openFile(place.path);
}

/** Opens the graph a dry run compares with; where there is no file yet, an empty graph in memory, so none is made. */
export async function openForPreview(options: GlobalOptions): Promise<OpenGraph> {
  const place = locateDatabase(options.db);
  if (options.demo === true || place.kind === "server" || existsSync(place.path)) {
    return openForWriting(options);
  }
  return openFile(":memory:");
}

/** Opens a graph that must be there already. Errors: `file-unreadable` when its file does not exist. */
export async function openExisting(options: GlobalOptions): Promise<OpenGraph> {
  const place = locateDatabase(options.db);
  if (options.demo === true || place.kind === "server" || existsSync(place.path)) {
    return openForWriting(options);
  }
  throw missingFile(place.path, place);
}

const missingFile = (path: string, place: DatabasePlace): Problem =>
  new Problem(
    "file-unreadable",
    `A database must exist before it can be asked, and there is none at ${path}. ${howToImport(place)}`,
  );

const howToImport = (place: DatabasePlace): string =>
  place.kind === "named"
    ? `Take a list in with \`sparewright import FILE --db ${place.path}\`, or try \`--demo\`.`
    : "Take a list in with `sparewright import FILE`, or try `--demo`.";

async function refuseEmpty(graph: OpenGraph, place: DatabasePlace): Promise<OpenGraph> {
  const held = (await graph.store.count("FittedItem")) + (await graph.store.count("Part"));
  if (held > 0) return graph;
  await graph.close();
  throw new Problem(
    "not-found",
    `This needs gear or parts in the database, and it holds none. ${howToImport(place)}`,
  );
}

/**
 * Opens the graph a reading command asks. No database at the default place: the demo fleet, with a notice.
 * Errors: `file-unreadable` when a named file does not exist, `not-found` when the graph is empty.
 */
export async function openForReading(options: GlobalOptions): Promise<OpenGraph> {
  if (options.demo === true) return openDemoFleet("This is the invented demo fleet.");
  const place = locateDatabase(options.db);
  if (place.kind === "server") return refuseEmpty(await openServer(), place);
  if (existsSync(place.path)) return refuseEmpty(await openFile(place.path), place);
  if (place.kind === "default") {
    return openDemoFleet(
      "No database yet: this is the invented demo fleet. Take your own list in with `sparewright import FILE`.",
    );
  }
  throw missingFile(place.path, place);
}
